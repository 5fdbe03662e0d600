"""Files: MIDI written by mido, MusicXML written by music21, and every kind of damage."""

from __future__ import annotations

import builtins
import io
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import mido
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from music21 import note, pitch, stream
from music21.musicxml.m21ToXml import GeneralObjectExporter

from gamutwright.errors import GamutwrightError, InputError, MissingPartError
from gamutwright.inputs.files import LARGEST_FILE
from gamutwright.inputs.sounding import Note, rank_roots
from gamutwright.inputs.text import read_scale
from gamutwright.theory.spelling import tone_names

# A dance of the harbour town's evening course: D dorian, ending on D.
TUNE = ["D4", "F4", "G4", "A4", "C5", "B4", "A4", "E4", "F4", "D4"]


def midi_bytes(keys: list[int], *, channel: int = 0, close: bool = True) -> bytes:
    track = mido.MidiTrack()
    for key in keys:
        track.append(mido.Message("note_on", channel=channel, note=key, velocity=80, time=0))
        if close:
            track.append(mido.Message("note_off", channel=channel, note=key, velocity=0, time=480))
    file = mido.MidiFile()
    file.tracks.append(track)
    out = io.BytesIO()
    file.save(file=out)
    return out.getvalue()


def xml_bytes(names: list[str]) -> bytes:
    part = stream.Part()
    for name in names:
        part.append(note.Note(name, quarterLength=1))
    return GeneralObjectExporter(part).parse()


@pytest.fixture
def write(tmp_path: Path) -> Callable[[str, bytes], str]:
    def writer(name: str, content: bytes) -> str:
        path = tmp_path / name
        path.write_bytes(content)
        return str(path)

    return writer


def test_midi_gives_the_pitch_classes_and_a_ranked_root(write: Callable[[str, bytes], str]) -> None:
    keys = [pitch.Pitch(name).midi for name in TUNE]
    reading = read_scale(write("dance.mid", midi_bytes(keys)))
    assert set(reading.scale.pitch_classes) == {key % 12 for key in keys}
    assert reading.scale.root == 2
    assert reading.form == "MIDI file"
    assert any("D (20 % of the time, first, last, lowest)" in remark for remark in reading.remarks)
    stated = read_scale(write("dance2.mid", midi_bytes(keys)), root="F")
    assert stated.scale.root == 5
    assert not any("guess" in remark for remark in stated.remarks)


def test_midi_leaves_percussion_out_and_notes_without_an_end_in(write: Callable[[str, bytes], str]) -> None:
    with pytest.raises(InputError, match="no pitched notes"):
        read_scale(write("drums.mid", midi_bytes([36, 38], channel=9)))
    assert read_scale(write("open.mid", midi_bytes([60, 64, 67], close=False))).scale.tones == (0, 4, 7)


def test_midi_bends_are_remarked(write: Callable[[str, bytes], str]) -> None:
    file = mido.MidiFile()
    file.tracks.append(
        mido.MidiTrack(
            [
                mido.Message("pitchwheel", pitch=2000),
                mido.Message("note_on", note=60),
                mido.Message("note_on", note=60, velocity=0, time=9),
            ]
        )
    )
    out = io.BytesIO()
    file.save(file=out)
    assert "pitch bends were disregarded" in read_scale(write("bent.mid", out.getvalue())).remarks


def test_musicxml_keeps_the_spelling(write: Callable[[str, bytes], str]) -> None:
    names = ["F#4", "G#4", "A#4", "B4", "C#5", "D#5", "E#5", "F#4"]
    reading = read_scale(write("sharp.musicxml", xml_bytes(names)))
    assert tone_names(reading.scale) == ("F#", "G#", "A#", "B", "C#", "D#", "E#")
    assert reading.form == "MusicXML file"
    flat = read_scale(write("flat.xml", xml_bytes(["G-4", "B-4", "D-5", "G-4"])))
    assert tone_names(flat.scale) == ("Gb", "Bb", "Db")
    other = read_scale(write("sharp2.musicxml", xml_bytes(names)), root="B")
    assert tone_names(other.scale)[0] == "B"


def test_musicxml_compressed_gives_the_same(write: Callable[[str, bytes], str]) -> None:
    plain = xml_bytes(TUNE)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("META-INF/container.xml", CONTAINER)
        archive.writestr("score.xml", plain)
    one, other = read_scale(write("dance.musicxml", plain)), read_scale(write("dance.mxl", packed.getvalue()))
    assert one == other
    assert one.scale.root == 2


CONTAINER = '<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>'


def test_a_key_spelled_in_two_ways_takes_the_longer_and_says_so(write: Callable[[str, bytes], str]) -> None:
    reading = read_scale(write("two.musicxml", xml_bytes(["C4", "E-4", "D#4", "E-4", "G4", "C4"])))
    assert tone_names(reading.scale) == ("C", "Eb", "G")
    assert any("Eb for D#" in remark for remark in reading.remarks)


def test_tied_notes_count_once_and_whole(write: Callable[[str, bytes], str]) -> None:
    # A note of six quarters in common time is written as two tied notes.
    part = stream.Part([note.Note("E4", quarterLength=6), note.Note("C5", quarterLength=2)])
    reading = read_scale(write("tied.musicxml", GeneralObjectExporter(part).parse()))
    assert any("E (75 % of the time, first, lowest)" in remark for remark in reading.remarks)


def test_ranking_by_a_hand_count() -> None:
    notes = [Note(0, 1, 64), Note(1, 2, 60), Note(3, 1, 67)]
    # C: 2/4 of the time, lowest; E: 1/4, first; G: 1/4, last; a quarter for each role.
    assert [(pc, score) for pc, score, _ in rank_roots(notes)] == [(0, 0.75), (4, 0.5), (7, 0.5)]


BOMB = (
    b'<?xml version="1.0"?><!DOCTYPE score-partwise [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;">'
    b"]><score-partwise>&b;</score-partwise>"
)
OUTSIDE = (
    b'<?xml version="1.0"?><!DOCTYPE score-partwise [<!ENTITY x SYSTEM "file:///etc/hostname">]>'
    b"<score-partwise>&x;</score-partwise>"
)


@pytest.mark.parametrize(
    ("name", "content", "rule"),
    [
        ("bomb.xml", BOMB, "XML entities"),
        ("bomb16.xml", BOMB.replace(b"?>", b' encoding="utf-16"?>', 1).decode().encode("utf-16"), "XML entities"),
        ("outside.musicxml", OUTSIDE, "XML entities"),
        ("broken.xml", b"<score-partwise><part>", "not well-formed"),
        ("empty.xml", b"", "not well-formed"),
        ("page.xml", b"<html/>", "outermost element is html"),
        ("time.xml", b"<score-timewise/>", "outermost element is score-timewise"),
        ("bare.xml", b"<score-partwise/>", ""),
        ("no.mxl", b"no archive", "damaged"),
        ("empty.mid", b"", "damaged"),
        ("text.mid", b"hello", "damaged"),
        ("short.mid", midi_bytes([60, 64])[:30], "damaged"),
    ],
)
def test_damaged_files_are_refused_in_words(
    write: Callable[[str, bytes], str], name: str, content: bytes, rule: str
) -> None:
    with pytest.raises(InputError) as caught:
        read_scale(write(name, content))
    assert rule in caught.value.rule
    assert caught.value.next_step.endswith(".")


def test_an_archive_that_unpacks_to_too_much_is_refused(write: Callable[[str, bytes], str]) -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("META-INF/container.xml", CONTAINER)
        archive.writestr("score.xml", b" " * (LARGEST_FILE + 10))
    assert len(packed.getvalue()) < 100_000
    with pytest.raises(InputError, match="larger than 20 MB"):
        read_scale(write("huge.mxl", packed.getvalue()))


def test_a_file_over_the_limit_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "huge.mid"
    with path.open("wb") as file:
        file.truncate(LARGEST_FILE + 1)
    with pytest.raises(InputError, match="up to 20 MB"):
        read_scale(str(path))


def test_folders_and_odd_paths(tmp_path: Path) -> None:
    (tmp_path / "folder.mid").mkdir()
    for text in (str(tmp_path / "folder.mid"), "file: \x00.mid", "file:", "x" * 3000 + ".mid", "on on on.mid"):
        with pytest.raises(InputError):
            read_scale(text)


def test_other_divisions_are_refused(write: Callable[[str, bytes], str]) -> None:
    with pytest.raises(InputError, match="12 divisions"):
        read_scale(write("x.mid", midi_bytes([60])), divisions=19)


def test_without_the_score_reader_the_install_command_is_named(
    write: Callable[[str, bytes], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any) -> Any:  # noqa: ANN401 - the signature of __import__
        if name == "partitura":
            raise ImportError(name)
        return real(name, *rest)

    path = write("a.musicxml", xml_bytes(["C4"]))
    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(MissingPartError, match=r"pip install 'gamutwright\[scores\]'"):
        read_scale(path)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data(), st.sampled_from(["mid", "xml", "mxl"]))
def test_no_bytes_end_in_a_traceback(tmp_path: Path, data: st.DataObject, kind: str) -> None:
    good = midi_bytes([60, 64, 67]) if kind == "mid" else xml_bytes(["C4", "E4"])
    changed = bytearray(data.draw(st.one_of(st.binary(max_size=200), st.just(good))))
    for _ in range(data.draw(st.integers(0, 6))):
        if changed:
            changed[data.draw(st.integers(0, len(changed) - 1))] = data.draw(st.integers(0, 255))
    content = bytes(changed[: data.draw(st.integers(0, len(changed)))] if data.draw(st.booleans()) else changed)
    path = tmp_path / f"fuzz.{kind}"
    path.write_bytes(content)
    try:
        said = read_scale(str(path)).form
    except GamutwrightError as error:
        said = error.next_step
    assert said
