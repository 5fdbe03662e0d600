"""Sounds from the command line's own function: formats, facts, tunings and bad input."""

from __future__ import annotations

from pathlib import Path

import mido
import pytest

from gamutwright.cli.sound_command import SoundOptions, run, sounded
from gamutwright.errors import DomainError, FileError, InputError, UnknownFactError
from gamutwright.render.audiofile import audio_signal
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
PLAIN = {
    "divisions": 12, "names": "english", "root": None, "kind": None, "fact": None, "beside": None,
    "timbre": "plucked", "tempo": 180.0, "tuning": "equal", "pitching": "auto", "soundfont": None, "instruments": (),
    "loudness_lufs": -16.0, "channels": 1,
}  # fmt: skip


@pytest.mark.parametrize("ending", [".wav", ".flac", ".m4a", ".mp3"])
def test_audio_files_are_written_and_measured(tmp_path: Path, ending: str, capsys: pytest.CaptureFixture[str]):
    path = tmp_path / f"acoustic{ending}"
    run("G acoustic", SoundOptions(**PLAIN | {"output": path}))
    out = capsys.readouterr().out
    assert str(path) in out
    assert "-16." in out or "-15.9" in out
    assert "dBTP" in out
    assert audio_signal(path).seconds == pytest.approx(5.83, abs=0.1)


def test_a_soundfont_and_stems(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """The flute of Debian's timgm6mb-soundfont, with a bass of our own; each part in a file too."""
    asked = {
        "output": tmp_path / "tune.flac", "kind": "tune", "stems": tmp_path / "stems", "tempo": 112.0,
        "soundfont": Path("/usr/share/sounds/sf2/TimGM6mb.sf2"), "instruments": ("tune=flute", "bass=built-in"),
    }  # fmt: skip
    run("D dorian", SoundOptions(**PLAIN | asked))
    lines = capsys.readouterr().out.splitlines()
    files = [tmp_path / "tune.flac", *sorted((tmp_path / "stems").iterdir())]
    assert len(lines) == len(files) >= 2
    assert all(any(line.startswith(f"{file}  ") for line in lines) for file in files)


def test_midi_files_are_written(tmp_path: Path):
    run("D dorian", SoundOptions(**PLAIN | {"output": tmp_path / "dorian.mid", "tuning": "vallotti", "kind": "up"}))
    file = mido.MidiFile(tmp_path / "dorian.mid")
    assert [message.type for message in file.tracks[1]].count("sysex") == 1
    run("D dorian", SoundOptions(**PLAIN | {"output": tmp_path / "bent.mid", "tuning": "vallotti", "pitching": "bent"}))
    assert "pitchwheel" in [message.type for message in mido.MidiFile(tmp_path / "bent.mid").tracks[1]]


def test_two_scales(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    run("C major", SoundOptions(**PLAIN | {"output": tmp_path / "two.mid", "kind": "alternation", "beside": "C minor"}))
    assert "32 notes" in capsys.readouterr().out


def test_a_fact_brings_its_own_phrase_and_places():
    sound = sounded(MAJOR, fact="tritones")
    assert {note.label for note in sound.notes} == {"F", "B"}
    assert [mark.item for mark in sound.marks] == [1]
    assert sounded(MAJOR, fact="inversion").marks[1].item == 2
    assert len(sounded(MAJOR, fact="semitone_steps", kind="up").notes) == 8


@pytest.mark.parametrize(
    ("changes", "error", "words"),
    [
        ({"kind": "scales"}, DomainError, "Did you mean scale"),
        ({"fact": "tritone"}, UnknownFactError, "tritones"),
        ({"fact": "augmented_triads"}, DomainError, "nothing to hear"),
        ({"timbre": "bowed"}, DomainError, "plucked, struck, sustained"),
        ({"tuning": "pure"}, DomainError, "five_limit"),
        ({"tempo": 900}, DomainError, "beats a minute"),
    ],
)
def test_bad_parameters_say_what_to_do(changes: dict[str, object], error: type[Exception], words: str):
    with pytest.raises(error, match=words):
        sounded(MAJOR, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changes", "error", "words"),
    [
        ({"output": "x.ogg"}, DomainError, ".flac"),
        ({"loudness_lufs": -3.0}, DomainError, "-16"),
        ({"channels": 5}, DomainError, "channels"),
        ({"output": "x.mid", "pitching": "sharp"}, DomainError, "bent"),
        ({"output": "x.mid", "soundfont": Path("x.sf2")}, InputError, ".wav"),
        ({"output": "x.mid", "stems": Path("stems")}, InputError, ".wav"),
        ({"soundfont": Path("none.sf2")}, FileError, "No such file"),
        ({"instruments": ("flute",)}, InputError, "--soundfont"),
    ],
)
def test_bad_files_say_what_to_do(tmp_path: Path, changes: dict[str, object], error: type[Exception], words: str):
    given = PLAIN | {"output": "x.wav"} | changes
    given["output"] = tmp_path / str(given["output"])
    with pytest.raises(error, match=words):
        run("C major", SoundOptions(**given))
    assert not list(tmp_path.iterdir())


def test_music_is_written_as_sound_as_midi_and_as_a_score(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    asked = {"kind": "tune-over-vamp", "metre": "3/4", "bars": 8, "version": 2, "tempo": None}
    for name in ("tune.wav", "tune.mid", "tune.musicxml"):
        run("D dorian", SoundOptions(**PLAIN | asked | {"output": tmp_path / name}))
    told = capsys.readouterr().out
    assert "4 parts, 8 bars" in told
    # Twenty-four beats at ninety a minute, and half a second to ring on.
    assert audio_signal(tmp_path / "tune.wav").seconds == pytest.approx(16.5, abs=0.05)
    assert mido.MidiFile(tmp_path / "tune.mid").length == pytest.approx(16.5, abs=0.01)
    assert (tmp_path / "tune.musicxml").read_text(encoding="utf-8").count("<measure ") == 4 * 8


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"kind": "tun"}, "Did you mean tune"),
        ({"kind": "tune", "metre": "5/4"}, "4/4, 3/4, 6/8"),
        ({"kind": "tune", "bars": 6}, "4 or 8"),
        ({"kind": "scale", "bars": 4}, "choose one of tune"),
        ({"kind": "scale", "output": Path("x.musicxml")}, "it has no bars"),
    ],
)
def test_what_music_cannot_be_asked_is_told(tmp_path: Path, asked: dict[str, object], words: str):
    options = PLAIN | {"output": tmp_path / "x.mid"} | asked
    with pytest.raises(DomainError, match=words):
        run("D dorian", SoundOptions(**options))
