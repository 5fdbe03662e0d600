"""Pictures from the command line's own function: formats, marks, tunings and bad input."""

from __future__ import annotations

from pathlib import Path

import pytest

from gamutwright.cli.options import NoteNames
from gamutwright.cli.picture_command import read_tuning, run
from gamutwright.door.drawing import drawn
from gamutwright.errors import DomainError, InputError, UnknownFactError
from gamutwright.theory.scale import Scale

PLAIN = {
    "divisions": 12, "names": NoteNames.ENGLISH, "root": None, "figure": None, "mark": None, "upto": None,
    "beside": None, "tuning": None, "theme": "light", "scale": 2.0, "output": None, "has_live_text": False,
}  # fmt: skip


@pytest.mark.parametrize(("ending", "start"), [("svg", b"<svg"), ("png", b"\x89PNG"), ("pdf", b"%PDF")])
def test_files_are_written(tmp_path: Path, ending: str, start: bytes, capsys: pytest.CaptureFixture[str]):
    path = tmp_path / f"steps.{ending}"
    run("G acoustic", **{**PLAIN, "figure": "clock", "mark": "semitone_steps", "output": str(path)})
    assert path.read_bytes().startswith(start)
    assert capsys.readouterr().out.strip() == str(path)


def test_svg_is_printed_without_a_file(capsys: pytest.CaptureFixture[str]):
    run("D dorian", **{**PLAIN, "mark": "tritones"})
    out = capsys.readouterr().out
    assert out.startswith("<svg")
    assert "Tritones: 1" in out
    assert "F–B" in out


def test_two_scales(capsys: pytest.CaptureFixture[str]):
    run("C major", **{**PLAIN, "figure": "comparison", "beside": "C minor"})
    assert "only the first E A B, only the second E♭ A♭ B♭" in capsys.readouterr().out


def test_places_one_after_another():
    whole = drawn(Scale.of(0, 2, 4, 5, 7, 9, 11), mark="semitone_steps").figure
    first = drawn(Scale.of(0, 2, 4, 5, 7, 9, 11), mark="semitone_steps", upto=1).figure
    names = [{part.name for part in figure.parts if part.name.startswith("witness")} for figure in (whole, first)]
    assert names == [{"witness 1", "witness 2"}, {"witness 1"}]


def test_standard_and_other_tunings():
    """E A D G B E sounds E2 A2 D3 G3 B3 E4 (common practice, no source)."""
    assert read_tuning("E A D G B E") == (4, 9, 14, 19, 23, 28)
    assert read_tuning("g, c, e, a") == (7, 12, 16, 21)
    assert read_tuning("0 11 22 2", divisions=31) == (0, 11, 22, 33)
    assert read_tuning("G G") == (7, 19)


@pytest.mark.parametrize("text", ["E A H", "E A 12"])
def test_bad_tunings_are_refused(text: str):
    with pytest.raises(InputError, match="no note name"):
        read_tuning(text)


@pytest.mark.parametrize(
    ("changes", "error", "words"),
    [
        ({"figure": "clok"}, DomainError, "Did you mean clock"),
        ({"mark": "semitone_step"}, UnknownFactError, "semitone_steps"),
        ({"theme": "sepia"}, DomainError, "light, night, print"),
        ({"pixels": 0}, DomainError, "16 pixels"),
    ],
)
def test_bad_input_says_what_to_do(changes: dict[str, object], error: type[Exception], words: str):
    with pytest.raises(error, match=words):
        drawn(Scale.of(0, 4, 7), **changes)  # type: ignore[arg-type]


def test_a_staff_needs_twelve_divisions():
    with pytest.raises(DomainError, match="twelve divisions"):
        drawn(Scale.of(0, 6, 11, divisions=19), figure="staff")


def test_a_file_of_another_kind_is_refused(tmp_path: Path):
    with pytest.raises(DomainError, match=r"\.svg, \.png, \.pdf"):
        run("C major", **{**PLAIN, "output": str(tmp_path / "f.jpeg")})


def test_words_of_a_picture_can_be_selected(capsys: pytest.CaptureFixture[str]):
    run("C E G", **{**PLAIN, "has_live_text": True})
    assert ">E</text>" in capsys.readouterr().out
