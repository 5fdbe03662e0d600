"""`gamutwright verify` as a teacher types it: what is printed, exit codes, no traceback."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.typed import run
from gamutwright.lessons.parse import parse
from gamutwright.stages import Choices, FilmStyle, make_film

SCRIPT = """---
scale: C D E F G A B
---
# Steps

[Two]{fact=semitone_steps show=clock} steps:
[E to F and B to C]{each=semitone_steps}. {play=witnesses mark=semitone_steps}
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("harbour")
    make_film(parse(SCRIPT), place, Choices(FilmStyle(640, 360)))
    return place


def test_a_whole_film_is_told_so(folder: Path):
    done = run("verify", "film.mp4", cwd=folder)
    assert done.returncode == 0, done.stderr
    assert "BROKEN" not in done.stdout
    assert "checks held" in done.stdout
    assert [line for line in done.stdout.splitlines() if line and not line.startswith(" ")][:6] == [
        "ledger", "file", "chapters and captions", "picture", "sound", "in step",
    ]  # fmt: skip
    assert "seeing" in done.stderr


def test_what_is_broken_is_named_with_place_and_next_step(folder: Path):
    data = (folder / "film.mp4").read_bytes()
    (folder / "changed.mp4").write_bytes(data.replace(b"Two steps", b"Six steps"))
    done = run("verify", "changed.mp4", "--ledger", "ledger.json", cwd=folder)
    assert done.returncode == 1
    (line,) = [line for line in done.stdout.splitlines() if "BROKEN" in line]
    assert "captions: at 0:0" in line
    assert "Two steps" in line
    assert "Six steps" in line
    assert "next: " in done.stdout
    assert "1 broken" in done.stdout


def test_json_says_the_same(folder: Path):
    done = run("verify", "film.mp4", "--json", cwd=folder)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["format"] == "gamutwright.verification/1"
    assert told["is_whole"] is True
    assert {check["verdict"] for check in told["checks"]} <= {"held", "nothing to check"}
    assert all({"group", "name", "expected", "found", "tick", "next_step"} <= set(check) for check in told["checks"])


@pytest.mark.parametrize(
    ("film", "ledger", "told"),
    [
        ("missing.mp4", "ledger.json", "missing.mp4"),
        ("film.mp4", "missing.json", "missing.json"),
        ("captions.srt", "ledger.json", "whole MP4"),
        ("film.mp4", "captions.vtt", "no JSON"),
        (".", "ledger.json", "cannot be read"),
        ("film.mp4", ".", "cannot be read"),
    ],
)
def test_bad_input_is_told_in_words(folder: Path, film: str, ledger: str, told: str):
    done = run("verify", film, "--ledger", ledger, cwd=folder)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert told in done.stderr
    assert "next:" in done.stderr
