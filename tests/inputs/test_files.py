"""Files: MIDI written by mido, MusicXML written by music21, and every kind of damage."""

from __future__ import annotations

import io
import random
import struct
import subprocess
import sys
import zipfile
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import mido
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from music21 import chord, note, pitch, stream
from music21.musicxml.m21ToXml import GeneralObjectExporter

from gamutwright.errors import GamutwrightError, InputError
from gamutwright.inputs import midi_files, musicxml
from gamutwright.inputs.midi_files import LARGEST_MIDI
from gamutwright.inputs.musicxml import MOST_ELEMENTS
from gamutwright.inputs.reading import Request
from gamutwright.inputs.score_files import LARGEST_FILE
from gamutwright.inputs.sounding_tones import Note, rank_roots
from gamutwright.inputs.text import read_scale
from gamutwright.theory.notenames import names_in
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


def heard_by_music21(part: stream.Part) -> tuple[dict[int, float], int, int]:
    """Shares of time of each pitch class, and the pitch classes of the last and the lowest note."""
    notes = [(one.offset, one.quarterLength, tone.midi) for one in part.flatten().notes for tone in one.pitches]
    times: dict[int, float] = {}
    for _, length, key in notes:
        times[key % 12] = times.get(key % 12, 0.0) + float(length)
    total = sum(times.values())
    last = max(notes, key=lambda note: (round(float(note[0] + note[1]), 6), -note[2]))[2] % 12
    return {key: time / total for key, time in times.items()}, last, min(key for *_, key in notes) % 12


def a_piece(seed: int) -> stream.Part:
    """Two voices with chords, rests, triplets, ties over bars and grace notes."""
    chance, part = random.Random(seed), stream.Part()  # noqa: S311 - notes, not secrets
    for _ in range(chance.randint(1, 6)):
        bar = stream.Measure()
        for _ in range(chance.randint(1, 2)):
            voice, left = stream.Voice(), Fraction(4)
            while left > 0:
                length = min(left, Fraction(chance.choice(["1", "2", "1/2", "1/3", "3/2", "1/4"])))
                keys = chance.sample(range(48, 84), chance.choice([0, 1, 1, 1, 2, 3]))
                one = chord.Chord(keys) if len(keys) > 1 else note.Note(keys[0]) if keys else note.Rest()
                one.quarterLength = length
                if keys and chance.random() < 0.1:
                    voice.append(note.Note(chance.randint(48, 83)).getGrace())
                voice.append(one)
                left -= length
            bar.insert(0, voice)
        part.append(bar)
    return part


@pytest.mark.parametrize("seed", range(30))
def test_voices_chords_ties_and_graces_are_heard_as_music21_hears_them(seed: int) -> None:
    part = a_piece(seed)
    if not part.flatten().notes:
        pytest.fail("choose another seed")
    times, last, lowest = heard_by_music21(part)
    notes: list[Note] = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(musicxml, "reading_of_notes", lambda found, *_: notes.extend(found))
        musicxml.read_musicxml(GeneralObjectExporter(part).parse(), Request(12, names_in("english")))
    ranking = {pitch_class: (score, reasons) for pitch_class, score, reasons in rank_roots(notes)}
    for pitch_class, (score, reasons) in ranking.items():
        bonus = 0.25 * reasons.count(", ")
        assert score - bonus == pytest.approx(times.get(pitch_class, 0.0), abs=1e-6)
    assert set(ranking) == set(times)
    assert "last" in ranking[last][1]
    assert "lowest" in ranking[lowest][1]


@pytest.mark.parametrize("seed", range(30))
def test_midi_is_heard_as_mido_reads_it(seed: int) -> None:
    chance, file = random.Random(seed), mido.MidiFile(ticks_per_beat=96)  # noqa: S311 - notes, not secrets
    for _ in range(chance.randint(1, 3)):
        track = mido.MidiTrack([mido.MetaMessage("track_name", name="harbour"), mido.Message("sysex", data=[1, 2, 3])])
        for _ in range(chance.randint(1, 60)):
            kind = chance.choice(["note_on", "note_on", "note_off", "control_change", "program_change", "aftertouch"])
            more = {"note": chance.randint(40, 80)} if kind.startswith("note") else {}
            channel = chance.randint(0, 10) if chance.random() < 0.2 else len(file.tracks)
            track.append(mido.Message(kind, channel=channel, time=chance.choice([0, 3, 200, 20_000]), **more))
        file.tracks.append(track)
    out = io.BytesIO()
    file.save(file=out)
    times: dict[int, int] = {}
    ends = [sum(message.time for message in track) for track in file.tracks]
    for track in file.tracks:
        now, sounding = 0, {}
        for message in track:
            now += message.time
            if not message.type.startswith("note") or message.channel == 9:
                continue
            key = (message.channel, message.note)
            if key in sounding:
                times[key[1] % 12] = times.get(key[1] % 12, 0) + now - sounding.pop(key)
            if message.type == "note_on":
                sounding[key] = now
        for (_, pitch_), begun in sounding.items():
            times[pitch_ % 12] = times.get(pitch_ % 12, 0) + max(ends) - begun
    notes: list[Note] = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(midi_files, "reading_of_notes", lambda found, *_: notes.extend(found))
        midi_files.read_midi(out.getvalue(), Request(12, names_in("english")))
    heard: dict[int, float] = {}
    for one in notes:
        heard[one.pitch % 12] = heard.get(one.pitch % 12, 0) + one.duration
    assert heard == times


def long_midi(notes: int) -> bytes:
    """Write notes in running status, six bytes each."""
    events = b"\x00\x90\x3c\x40\x01\x3c\x00" + b"\x01\x40\x40\x01\x40\x00" * notes + b"\x00\xff\x2f\x00"
    return b"MThd" + struct.pack(">IHHH", 6, 0, 1, 480) + b"MTrk" + struct.pack(">I", len(events)) + events


def long_score(notes: int) -> bytes:
    one = "<note><pitch><step>E</step><octave>4</octave></pitch><duration>1</duration></note>"
    bars = "".join(f"<measure>{one * 4}</measure>" for _ in range(notes // 4))
    return f"<score-partwise><part>{bars}</part></score-partwise>".encode()


@pytest.mark.parametrize(
    ("name", "content"),
    [("long.mid", long_midi(660_000)), ("long.musicxml", long_score(200_000))],
    ids=["MIDI", "score"],
)
def test_the_longest_files_are_read_in_one_walk(name: str, content: bytes, write: Callable[[str, bytes], str]) -> None:
    """The deadline is no measure: readers that keep every event as an object need many times as long."""
    code = "import sys; from gamutwright.inputs.text import read_scale; print(read_scale(sys.argv[1]).scale.tones)"
    command = [sys.executable, "-c", code, write(name, content)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=True)  # noqa: S603 - ourselves
    assert done.stdout == ("(0, 8)\n" if name == "long.mid" else "(0,)\n")


def test_what_is_too_long_is_refused_at_once(write: Callable[[str, bytes], str]) -> None:
    with pytest.raises(InputError, match="MIDI files are read up to 4 MB"):
        read_scale(write("longer.mid", long_midi(LARGEST_MIDI // 6 + 1)))
    with pytest.raises(InputError, match="more than 3,000,000 elements"):
        read_scale(write("many.xml", b"<score-partwise>" + b"<a/>" * (MOST_ELEMENTS + 1) + b"</score-partwise>"))


@pytest.mark.parametrize(
    ("changed", "rule"),
    [
        (("<duration>1<", "<duration>1e999<"), "the duration '1e999' is none"),
        (("<duration>1<", "<duration>-1<"), "the duration '-1' is none"),
        (("<duration>1<", "<duration>nan<"), "the duration 'nan' is none"),
        (("<duration>1<", "<duration><"), "the duration '' is none"),
        (("<step>E<", "<step>H<"), "the pitch 'H'"),
        (("<octave>4<", "<octave>99999999999<"), "the octave '99999999999' is none"),
        (("</step>", "</step><alter>0.5</alter>"), "quarter tones"),
        (("</step>", "</step><alter>1e9</alter>"), "the alteration '1e9' is none"),
        (("<part>", "<part><divisions>0</divisions>"), "the divisions '0' is none"),
    ],
)
def test_numbers_that_no_score_has_are_refused(
    write: Callable[[str, bytes], str], changed: tuple[str, str], rule: str
) -> None:
    with pytest.raises(InputError, match=rule):
        read_scale(write("odd.xml", long_score(4).decode().replace(*changed).encode()))


@pytest.mark.parametrize(
    ("events", "rule"),
    [
        (b"\x00\x90\x3c", "ends in the middle of an event"),
        (b"\x00\x3c\x40", "data stand where an event should"),
        (b"\xff\xff\xff\xff\x00\x90\x3c\x40", "more than four bytes"),
        (b"\x00\xff\x01\x7f", "longer than its track"),
        (b"\x00\xf4", "of a kind that files do not have"),
        (b"\x00\xf0\x01\x01\x00\x3c\x40", "data stand where an event should"),
    ],
)
def test_damaged_tracks_are_refused_with_what_is_wrong(
    write: Callable[[str, bytes], str], events: bytes, rule: str
) -> None:
    head = b"MThd" + struct.pack(">IHHH", 6, 0, 1, 480) + b"MTrk"
    with pytest.raises(InputError, match=rule):
        read_scale(write("odd.mid", head + struct.pack(">I", len(events)) + events))
    with pytest.raises(InputError, match="shorter than it says"):
        read_scale(write("cut.mid", head + struct.pack(">I", len(events) + 9) + events))


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
