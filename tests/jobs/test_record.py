"""Records: what was made counts as long as neither inputs nor outputs have changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from gamutwright.jobs.record import content_digest, recall, remember
from gamutwright.jobs.store import Store

KEY = "0f" * 32


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    (tmp_path / "takes" / "a").mkdir(parents=True)
    for name, text in (("script.md", "Listen."), ("takes/a/01.flac", "sound"), ("film.mp4", "film")):
        (tmp_path / name).write_text(text)
    return tmp_path


def change_script(lesson: Path) -> None:
    (lesson / "script.md").write_text("Listen!")


def add_take(lesson: Path) -> None:
    (lesson / "takes" / "a" / "02.flac").write_text("better")


def rename_take(lesson: Path) -> None:
    (lesson / "takes" / "a" / "01.flac").rename(lesson / "takes" / "a" / "03.flac")


def add_supporters(lesson: Path) -> None:
    (lesson / "supporters.txt").write_text("the harbour choir")


def damage_film(lesson: Path) -> None:
    (lesson / "film.mp4").write_text("fil")


def remove_film(lesson: Path) -> None:
    (lesson / "film.mp4").unlink()


@pytest.mark.parametrize("change", [change_script, add_take, rename_take, add_supporters, damage_film, remove_film])
def test_a_record_ends_with_any_change(change, lesson: Path):  # noqa: ANN001 - one of the functions above
    store = Store(lesson / "store")
    inputs = [lesson / "script.md", lesson / "takes", lesson / "supporters.txt"]
    remember(store, KEY, inputs, [lesson / "film.mp4"], {"lines": 3})
    assert recall(store, KEY) == {"lines": 3}
    assert recall(store, "0e" * 32) is None
    change(lesson)
    assert recall(store, KEY) is None


def test_a_digest_is_that_of_the_standard(tmp_path: Path):
    """FIPS 180-4's example of SHA-256: the message `abc` (read as quoted in RFC 6234, from memory)."""
    (tmp_path / "abc").write_bytes(b"abc")
    assert content_digest(tmp_path / "abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
