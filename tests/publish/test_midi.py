"""MIDI files read back by mido and music21; tuning messages decoded here by the rule of the standard."""

from __future__ import annotations

import io
import math
from pathlib import Path

import mido
import music21
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import DomainError, FileError
from gamutwright.ir.sound import Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import Request, piece_of
from gamutwright.music.pitches import tuning_named
from gamutwright.music.tune import METRES
from gamutwright.publish.score.midi_writing import Pitching, key_assignment, midi_file, write_midi
from gamutwright.theory.miditune import freq_hz_to_word
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
ACOUSTIC = Scale.of(7, 9, 11, 1, 2, 4, 5)
NINETEEN = Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)
MANY = Scale((1 << 72) - 1, 72)
MEANTONE = phrase("scale", ACOUSTIC, performance=Performance(tuning=tuning_named("quarter_comma_meantone")))


def read_back(file: mido.MidiFile) -> tuple[list[tuple[float, float]], mido.MidiFile]:
    """Save, load, and give each note's second and sounding pitch in semitones, as an obedient instrument plays it."""
    stored = io.BytesIO()
    file.save(file=stored)
    stored.seek(0)
    loaded = mido.MidiFile(file=stored)
    words: dict[int, float] = {}
    bends = dict.fromkeys(range(16), 0)
    reach = dict.fromkeys(range(16), 2.0)
    parameter: dict[int, list[int]] = {channel: [127, 127] for channel in range(16)}
    now, notes = 0.0, []
    for message in loaded:
        now += message.time
        if message.type == "sysex":
            data = message.data
            assert data[:5] == (0x7F, 0x7F, 0x08, 0x02, 0x00)
            assert len(data) == 6 + 4 * data[5]
            for k in range(6, len(data), 4):
                key, semitone, high, low = data[k : k + 4]
                words[key] = semitone + (high * 128 + low) / 16384
        elif message.type == "control_change":
            chosen = parameter[message.channel]
            if message.control in {101, 100}:
                chosen[101 - message.control] = message.value
            elif message.control == 6 and chosen == [0, 0]:
                reach[message.channel] = message.value
        elif message.type == "pitchwheel":
            bends[message.channel] = message.pitch
        elif message.type == "note_on":
            channel = message.channel
            notes.append((now, words.get(message.note, message.note) + reach[channel] * bends[channel] / 8192))
    return notes, loaded


@pytest.mark.parametrize("pitching", [Pitching.TUNED, Pitching.BENT, Pitching.AUTO])
@pytest.mark.parametrize(
    "sound",
    [MEANTONE, phrase("chords", NINETEEN), phrase("drone", MAJOR), phrase("up", MANY), phrase("path", MAJOR)],
    ids=["meantone", "nineteen", "drone", "seventy-two", "path"],
)
def test_pitches_and_times_come_back(sound: Sound, pitching: Pitching):
    """Within 0.01 semitone and 1 ms of the sound."""
    notes, _ = read_back(midi_file(sound, pitching))
    expected = sorted((note.start_tick / 48_000, 69 + 12 * math.log2(note.freq_hz / 440)) for note in sound.notes)
    found = sorted((round(second, 3), pitch) for second, pitch in notes)
    assert len(found) == len(expected)
    for (second, pitch), (at, wanted) in zip(
        sorted(notes, key=lambda note: (round(note[0], 2), note[1])),
        sorted(expected, key=lambda note: (round(note[0], 2), note[1])),
        strict=True,
    ):
        assert abs(second - at) < 0.001
        assert abs(pitch - wanted) < 0.01


def test_twelve_equal_steps_are_plain_keys_with_names():
    sound = phrase("scale", ACOUSTIC)
    _, loaded = read_back(midi_file(sound))
    messages = [message for track in loaded.tracks for message in track]
    assert not [message for message in messages if message.type in {"sysex", "pitchwheel"}]
    keys = [message.note for message in messages if message.type == "note_on"]
    # G3 A3 B3 C#4 D4 E4 F4 G4 and back, with middle C at 60.
    assert keys == [55, 57, 59, 61, 62, 64, 65, 67, 65, 64, 62, 61, 59, 57, 55]
    lyrics = [message.text for message in messages if message.type == "lyrics"]
    assert " ".join(lyrics) == "G A B C# D E F G F E D C# B A G"
    markers = [message.text for message in messages if message.type == "marker"]
    assert markers[:3] == ["1", "2", "3"]


def test_music21_reads_the_same_pitches(tmp_path: Path):
    write_midi(tmp_path / "acoustic.mid", phrase("up", ACOUSTIC))
    # The last note crosses a bar line and is read as two tied ones.
    score = music21.converter.parse(str(tmp_path / "acoustic.mid")).stripTies()
    assert [note.pitch.midi for note in score.recurse().notes] == [55, 57, 59, 61, 62, 64, 65, 67]
    assert score.recurse().getElementsByClass(music21.tempo.MetronomeMark).first().number == 90
    lengths = [float(note.quarterLength) for note in score.recurse().notes]
    assert lengths == [1.0] * 7 + [2.0]


def test_the_tempo_and_the_beat(tmp_path: Path):
    for tempo in (20, 90, 300):
        _, loaded = read_back(midi_file(phrase("up", MAJOR, performance=Performance(tempo=tempo))))
        microseconds = next(
            message.tempo for track in loaded.tracks for message in track if message.type == "set_tempo"
        )
        assert mido.tempo2bpm(microseconds) == pytest.approx(tempo, rel=1e-5)
        assert loaded.length == pytest.approx(
            phrase("up", MAJOR, performance=Performance(tempo=tempo)).seconds, abs=1e-3
        )


def test_words_are_those_of_the_tuning():
    file = midi_file(MEANTONE, Pitching.TUNED)
    data = next(message.data for track in file.tracks for message in track if message.type == "sysex")
    sent = {data[k]: tuple(data[k + 1 : k + 4]) for k in range(6, len(data), 4)}
    assert set(sent.values()) == {freq_hz_to_word(note.freq_hz) for note in MEANTONE.notes}
    assert len(sent) == 8


def test_every_pitch_has_a_key_of_its_own():
    freqs = tuple(440 * 2 ** (k / 72) for k in range(-60, 60))
    keys = key_assignment(freqs)
    assert len(set(keys.values())) == len(freqs)
    with pytest.raises(DomainError, match="bends"):
        key_assignment(tuple(440 * 2 ** (k / 72) for k in range(-70, 70)))


def test_ringing_notes_are_not_bent_with_the_next():
    """A channel is bent anew only after all others have been used."""
    file = midi_file(phrase("up", NINETEEN), Pitching.BENT)
    channels = [message.channel for message in file.tracks[1] if message.type == "note_on"]
    assert len(set(channels)) == len(channels)
    assert 9 not in channels


def test_what_cannot_be_written_is_refused(tmp_path: Path):
    with pytest.raises(DomainError, match="tuned or bent"):
        midi_file(MEANTONE, Pitching.PLAIN)
    crowd = tuple(Note(0, 100, 200.0 + 7 * k) for k in range(16))
    with pytest.raises(DomainError, match="at once"):
        midi_file(Sound(100, crowd), Pitching.BENT)
    with pytest.raises(FileError, match="another place"):
        write_midi(tmp_path / "none" / "x.mid", MEANTONE)


@pytest.mark.parametrize(("timbre", "program"), [("plucked", 24), ("struck", 0), ("sustained", 20)])
def test_instruments_of_general_midi(timbre: str, program: int):
    """Nylon-string guitar, grand piano and church organ, counted from 0 (General MIDI, from memory)."""
    file = midi_file(phrase("up", MAJOR, performance=Performance(Timbre(timbre))))
    assert [m.program for m in file.tracks[1] if m.type == "program_change"] == [program]


def test_a_piece_has_a_track_and_a_channel_for_each_part():
    """General MIDI, from memory: percussion is channel 10, 76 the high wood block."""
    sound = phrase("tune-over-vamp", Scale.of(2, 4, 5, 7, 9, 11, 0))
    file = midi_file(sound)
    heading, *tracks = file.tracks
    assert [track.name for track in tracks] == ["tune", "chord", "bass", "drum"]
    channels = [{message.channel for message in track if message.type == "note_on"} for track in tracks]
    assert channels == [{0}, {1}, {3}, {9}]
    counts = [sum(message.type == "note_on" for message in track) for track in tracks]
    assert sum(counts) == len(sound.notes) + len(sound.strokes)
    texts = [message.text for message in heading if message.type == "text"]
    assert texts == [symbol.text for symbol in sound.symbols]
    assert not [message for message in heading if message.type == "marker"]


@pytest.mark.parametrize(("metre", "quarters"), [("4/4", 1.0), ("3/4", 1.0), ("6/8", 1.5)])
def test_metres_and_their_beats(metre: str, quarters: float):
    sound = phrase("tune", MAJOR, performance=Performance(tempo=80), wish=Request(METRES[metre]))
    file = midi_file(sound)
    signature = next(message for message in file.tracks[0] if message.type == "time_signature")
    assert f"{signature.numerator}/{signature.denominator}" == metre
    tempo = next(message for message in file.tracks[0] if message.type == "set_tempo")
    assert 60e6 / tempo.tempo == pytest.approx(80 * quarters, rel=1e-5)
    assert file.length == pytest.approx(sound.seconds, abs=1e-3)
    stored = io.BytesIO()
    file.save(file=stored)
    read = music21.midi.translate.midiStringToStream(stored.getvalue())
    assert [one.ratioString for one in read.recurse().getElementsByClass("TimeSignature")][:1] == [metre]
    starts = sorted({float(note.getOffsetInHierarchy(read)) for note in read.recurse().notes})
    written = piece_of("tune", MAJOR, Request(METRES[metre]))
    assert starts == [pytest.approx(tone.start / 12) for tone in written.tones]


@pytest.mark.parametrize("pitching", [Pitching.TUNED, Pitching.BENT])
def test_parts_of_other_divisions(pitching: Pitching):
    sound = phrase("tune-over-vamp", NINETEEN)
    notes, loaded = read_back(midi_file(sound, pitching))
    assert len(loaded.tracks) == 5
    drums = sum(message.type == "note_on" for message in loaded.tracks[4])
    assert len(notes) == len(sound.notes) + drums
    heard = sorted(round(pitch, 2) for _, pitch in notes if pitch not in {69, 76})
    promised = sorted(round(69 + 12 * math.log2(note.freq_hz / 440), 2) for note in sound.notes)
    assert [pitch for pitch in promised if pitch not in {69, 76}] == pytest.approx(heard, abs=0.02)


def test_drums_alone():
    file = midi_file(phrase("step-rhythm", MAJOR))
    keys = [message.note for message in file.tracks[1] if message.type == "note_on"]
    assert keys.count(76) == 28
    assert {message.channel for message in file.tracks[1] if message.type == "note_on"} == {9}
