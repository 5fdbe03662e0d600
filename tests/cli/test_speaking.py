"""Speaking a line, and recording the lines of a script, from the command line's own functions."""

from __future__ import annotations

import importlib
import json
from pathlib import Path

import pytest

from gamutwright.cli.speak_command import add, choose, list_states, run
from gamutwright.errors import DomainError, FileError, InputError, MissingPartError
from gamutwright.lessons.parse import load
from gamutwright.phrasing.spoken_names import note_places
from gamutwright.render.audiofile import audio_signal
from gamutwright.settings import takes_folder

PLAIN = {
    "language": "en", "rate": 1.0, "pitch": 50, "piper": None, "words": None, "as_json": True, "is_forced": False,
}  # fmt: skip
SCRIPT = """---
scale: G acoustic
---
# On the quay

Tonight we climb from G to G. Listen to the ferry's horn. {#horn}

{play=scale}
"""


@pytest.fixture
def script(tmp_path: Path) -> Path:
    path = tmp_path / "acoustic" / "script.md"
    path.parent.mkdir()
    path.write_text(SCRIPT, encoding="utf-8")
    return path


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    path = tmp_path / "mine.flac"
    run("Tonight we climb from G to G.", **PLAIN | {"output": path, "pitch": 75, "rate": 1.1})
    return path


def states(script: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, dict]:
    capsys.readouterr()
    code = list_states(script, as_json=True)
    return code, json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("ending", ["wav", "flac", "m4a", "mp3"])
def test_a_line_is_written_with_the_times_of_its_words(
    ending: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / f"line.{ending}"
    run("A sounds, then E♭.", **PLAIN | {"output": path})
    told = json.loads(capsys.readouterr().out)
    assert [word["text"] for word in told["words"]] == ["A", "sounds", "then", "E♭"]
    assert [(word["start_char"], word["end_char"]) for word in told["words"]] == [(0, 1), (2, 8), (10, 14), (15, 17)]
    assert audio_signal(path).seconds == pytest.approx(told["seconds"], abs=0.1)
    assert told["words"][-1]["end_tick"] <= told["seconds"] * 48_000 + 48


def test_what_is_there_is_kept_unless_forced(tmp_path: Path) -> None:
    path = tmp_path / "line.wav"
    path.write_bytes(b"mine")
    with pytest.raises(FileError, match="--force"):
        run("Listen.", **PLAIN | {"output": path})
    assert path.read_bytes() == b"mine"
    run("Listen.", **PLAIN | {"output": path, "is_forced": True})
    assert audio_signal(path).seconds > 0.2


def test_nothing_to_say_and_unknown_endings_are_said(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no words"):
        run("…", **PLAIN | {"output": tmp_path / "line.wav"})
    with pytest.raises(DomainError, match="ending"):
        run("Listen.", **PLAIN | {"output": tmp_path / "line.xyz"})


def test_a_missing_piper_says_how_to_install_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(name: str) -> object:
        raise ImportError(name)

    monkeypatch.setattr(importlib, "import_module", refuse)
    with pytest.raises(MissingPartError, match="pip install"):
        run("Listen.", **PLAIN | {"output": tmp_path / "line.wav", "piper": tmp_path / "voice.onnx"})


def test_notes_are_found_in_the_lines_language() -> None:
    assert note_places("Von H nach Es.", "de") == ((4, 5), (11, 13))


def test_a_recorded_line_is_listed_then_stale_then_chosen(
    script: Path, recording: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, told = states(script, capsys)
    assert (code, [row["state"] for row in told["lines"]]) == (0, ["none", "none"])
    first = told["lines"][0]["id"]

    add(script, "1", recording)
    assert load(script).lines[0].has_own_id, "the take must find its line when the words change"
    assert script.read_text(encoding="utf-8").replace(f" {{#{first}}}", "") == SCRIPT
    code, told = states(script, capsys)
    assert (code, told["lines"][0]["state"], told["lines"][0]["take"]) == (0, "recorded", 1)

    add(script, first, recording)
    assert states(script, capsys)[1]["lines"][0]["take"] == 2
    choose(script, "1", 1)
    row = states(script, capsys)[1]["lines"][0]
    assert (row["take"], row["takes"]) == (1, 2)

    text = script.read_text(encoding="utf-8")
    script.write_text(text.replace("we climb from", "you climb from"), encoding="utf-8")
    code, told = states(script, capsys)
    assert (code, told["lines"][0]["state"]) == (1, "stale")
    list_states(script, as_json=False)
    printed = capsys.readouterr().out
    assert "stale" in printed
    assert "0 of 2 lines recorded" in printed


def test_takes_without_a_line_are_listed_and_kept(
    script: Path, recording: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    add(script, "horn", recording)
    text = script.read_text(encoding="utf-8")
    script.write_text(text.replace(" Listen to the ferry's horn. {#horn}", ""), encoding="utf-8")
    code, told = states(script, capsys)
    assert (code, told["without_a_line"]) == (0, ["horn"])
    list_states(script, as_json=False)
    assert "Listen to the ferry's horn." in capsys.readouterr().out
    assert (takes_folder(script) / "horn" / "01.flac").is_file()


def test_lines_and_recordings_that_are_not_there_are_said(script: Path, recording: Path, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such line"):
        add(script, "3", recording)
    with pytest.raises(FileError):
        add(script, "1", tmp_path / "none.wav")
    assert script.read_text(encoding="utf-8") == SCRIPT, "a script is not touched for a take that failed"
    with pytest.raises(DomainError, match="none yet"):
        choose(script, "1", 1)
