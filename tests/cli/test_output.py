"""Output that cannot be written: a full device, a reader that has heard enough, none at all."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

FULL = Path("/dev/full")
pytestmark = pytest.mark.skipif(not FULL.exists(), reason="only Linux has a device that is always full")


def to(place: Path, *words: str, cwd: Path) -> tuple[int, str]:
    command = [sys.executable, "-m", "gamutwright", *words]
    with place.open("w", encoding="utf-8") as out:
        done = subprocess.run(command, stdout=out, stderr=subprocess.PIPE, text=True, cwd=cwd, check=False)  # noqa: S603
    return done.returncode, done.stderr


@pytest.mark.parametrize(
    "words",
    [("facts",), ("facts", "--json"), ("--help",), ("describe", "D", "dorian"), ("doctor",), ("check", "script.md")],
    ids=" ".join,
)
def test_a_full_device_is_told(words: tuple[str, ...], tmp_path: Path):
    (tmp_path / "script.md").write_text("---\nscale: C major\n---\n# Steps\n\nIt rises.\n", encoding="utf-8")
    code, err = to(FULL, *words, cwd=tmp_path)
    assert (code, "Traceback" in err) == (1, False), err
    assert err.endswith("No space left on device).\nnext:  Make room, or send it to another place.\n")


def test_an_error_keeps_its_code_where_nothing_was_printed(tmp_path: Path):
    assert to(FULL, "describe", "H", "nonsense", cwd=tmp_path)[0] == 2


@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize(("words", "code"), [(("facts",), 1), (("describe", "H", "nonsense"), 2)], ids=str)
def test_nothing_is_told_where_nothing_can_be(words: tuple[str, ...], code: int, unbuffered: str, tmp_path: Path):
    command = [sys.executable, "-m", "gamutwright", *words]
    env = {**os.environ, "PYTHONUNBUFFERED": unbuffered}
    with FULL.open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=full, cwd=tmp_path, env=env, check=False)  # noqa: S603
    assert done.returncode == code


def test_a_reader_who_has_heard_enough_ends_it_quietly(tmp_path: Path):
    command = [sys.executable, "-m", "gamutwright", "facts", "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=tmp_path) as process:  # noqa: S603
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(120) in {0, 1}
