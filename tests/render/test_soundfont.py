"""SoundFonts through the real FluidSynth, with a small free SoundFont of General MIDI (Debian's timgm6mb-soundfont).

Pitches are measured on what is played, by means written apart from the program; names and numbers of instruments are
those of General MIDI Level 1 (from memory).
"""

from __future__ import annotations

import itertools
import sys
from pathlib import Path

import numpy as np
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import DomainError, FileError, InputError, MissingPartError
from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pitches import tuning_named
from gamutwright.render import fluidsynth
from gamutwright.render.general_midi import NAMES, program_named, usual_program
from gamutwright.render.loudness import measured
from gamutwright.render.signal import Signal
from gamutwright.render.soundfont import Players, part_of, players_of
from gamutwright.theory.scale import Scale
from render.hearing import RATE, cents, onsets

FONT = Path("/usr/share/sounds/sf2/TimGM6mb.sf2")
MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)


def heard(sound: Sound, *instruments: str) -> np.ndarray:
    return players_of(FONT, instruments).signal(sound).samples()


def off_cents(sound: Sound, samples: np.ndarray) -> list[float]:
    """Measure each note from where the one before has faded."""
    middle = samples.mean(axis=1)
    return [
        cents(line_hz(middle[note.start_tick + 9_600 : note.end_tick], note.freq_hz), note.freq_hz)
        for note in sound.notes
    ]


def line_hz(samples: np.ndarray, near_hz: float) -> float:
    """Measure the middle of a line in a long spectrum, which a vibrato widens evenly: a parabola through its top."""
    padded = 1 << 19
    spectrum = np.log(np.abs(np.fft.rfft(samples * np.hanning(len(samples)), padded)) + 1e-12)
    low, high = (round(near_hz * 2 ** (side / 24) * padded / RATE) for side in (-1, 1))
    top = low + int(np.argmax(spectrum[low:high]))
    left, here, right = spectrum[top - 1 : top + 2]
    return float((top + (left - right) / (left - 2 * here + right) / 2) * RATE / padded)


def row(freqs_hz: list[float], part: Part = Part.TUNE) -> Sound:
    notes = tuple(Note(4_800 + 60_000 * k, 48_000, freq, part=part) for k, freq in enumerate(freqs_hz))
    return Sound(60_000 * len(notes) + 24_000, notes)


@pytest.mark.parametrize("instrument", ["flute", "nylon guitar", "acoustic grand piano", "church organ", "violin"])
def test_every_step_of_nineteen_is_within_two_cents(instrument: str):
    """Nineteen equal steps to the octave, most of which no key has."""
    sound = row([261.6255653 * 2 ** (k / 19) for k in range(20)])
    samples = heard(sound, instrument)
    assert samples.shape == (sound.ticks, 2)
    assert max(map(abs, off_cents(sound, samples))) < 2


@pytest.mark.parametrize("divisions", [22, 31])
def test_more_pitches_than_keys_have_one_each(divisions: int):
    """Two or three pitches share the nearest key."""
    sound = row([261.6255653 * 2 ** (k / divisions) for k in range(divisions + 1)])
    assert max(map(abs, off_cents(sound, heard(sound, "clarinet")))) < 2


@pytest.mark.parametrize("tuning", ["equal", "quarter_comma_meantone", "five_limit"])
def test_scales_keep_their_tuning(tuning: str):
    sound = phrase("up", MAJOR, performance=Performance(Timbre.SUSTAINED, 60, tuning_named(tuning)))
    samples = heard(sound, "oboe")
    assert max(map(abs, off_cents(sound, samples))) < 2
    begun = np.flatnonzero(np.abs(samples).max(axis=1) > 1e-3 * np.abs(samples).max())[0]
    assert sound.notes[0].start_tick <= begun < sound.notes[0].start_tick + 20 * 48
    assert abs(samples[-1]).max() < 1e-3 * np.abs(samples).max()


def test_without_listening_to_the_keys_some_would_be_off(monkeypatch: pytest.MonkeyPatch):
    """Samples are off by themselves: that is what the measuring takes back."""
    off = []
    for listens in (True, False):
        with monkeypatch.context() as changed:
            if not listens:
                changed.setattr(fluidsynth, "_off_cents", lambda *_: 0.0)
            sound = row([220.0 * 2 ** (k / 12) for k in range(12)])
            channels = [
                {
                    "bank": 0,
                    "program": 40,
                    "pan": 64,
                    "keys": [[57 + k, 5700 + 100 * k, 7_680, 48_000] for k in range(12)],
                }
            ]
            events = sorted(
                [tick, 0, 57 + k, force]
                for k, note in enumerate(sound.notes)
                for tick, force in ((note.start_tick, 90), (note.end_tick, 0))
            )
            _, data = fluidsynth.play(
                lambda *_: None, str(FONT), [{"channels": channels, "events": events}], sound.ticks
            )
            samples = np.frombuffer(data, "<i2").reshape(-1, 2) / (1 << 15)
            off.append(max(map(abs, off_cents(sound, samples))))
    assert off[0] < 2 < off[1]


def test_each_part_has_its_instrument_and_its_usual_loudness():
    quarter = RATE // 2
    notes = [Note(k * quarter, quarter, 330.0 * 2 ** (k / 12)) for k in range(4)]
    notes += [Note(k * quarter, quarter, 82.4, 0.6, part=Part.BASS) for k in range(4)]
    notes += [Note(k * quarter, quarter, freq, 0.3, part=Part.CHORD) for k in (1, 3) for freq in (196.0, 247.0)]
    strokes = tuple(Stroke(k * quarter, drum, 0.5) for k, drum in enumerate((*Drum, *Drum)))
    ordered = tuple(sorted(notes, key=lambda note: note.start_tick))
    sound = Sound(5 * quarter, ordered, strokes=strokes)
    players = players_of(FONT, ("tune=flute", "bass=acoustic bass", "chord=built-in"))
    for part in sound.parts:
        alone = part_of(sound, part)
        assert alone.parts == (part,)
        ours, theirs = (measured(one.signal(alone)).integrated_lufs for one in (Players(), players))
        assert theirs == pytest.approx(ours, abs=0.1)
    chords = part_of(sound, Part.CHORD)
    assert np.array_equal(players.signal(chords).samples(), Signal.of_sound(chords).samples())
    assert players.signal(sound).ticks == sound.ticks


def test_drums_are_struck_on_time():
    sound = Sound(3 * RATE, strokes=tuple(Stroke(k * RATE + 7, Drum.WOOD_BLOCK) for k in range(3)))
    middle = heard(sound).mean(axis=1)
    loud = np.where(np.abs(middle) > 0.05 * np.abs(middle).max(), middle, 0)
    assert [round((tick - k * RATE - 7) / 480) for k, tick in enumerate(onsets(loud, 9_600))] == [0, 0, 0]


def test_one_key_struck_again_before_it_is_let_go_sounds_twice():
    sound = Sound(3 * RATE, (Note(0, 2 * RATE, 440.0), Note(RATE, RATE // 2, 440.0)), Timbre.SUSTAINED)
    middle = heard(sound, "church organ").mean(axis=1)
    assert np.std(middle[84_000:94_000]) > 0.2 * np.std(middle[20_000:40_000])


# --- names ---


def test_names_are_those_of_general_midi():
    """Numbers as printed there, which count from 1."""
    assert len(set(NAMES)) == len(NAMES) == 128
    printed = {"acoustic grand piano": 1, "nylon guitar": 25, "acoustic bass": 33, "violin": 41, "trumpet": 57,
               "oboe": 69, "flute": 74, "sitar": 105, "gunshot": 128}  # fmt: skip
    assert {name: program_named(name) + 1 for name in printed} == printed
    assert all(program_named(name) == number for number, name in enumerate(NAMES))
    assert all(0 <= usual_program(part, timbre) < 128 for part, timbre in itertools.product(Part, Timbre))


@pytest.mark.parametrize(
    ("instruments", "error", "words"),
    [
        (("tune=fluet",), DomainError, "Did you mean flute"),
        (("guitar",), DomainError, "several have these words"),
        (("tune=128",), DomainError, "0 to 127"),
        (("tune=",), DomainError, "0 to 127"),
        (("descant=flute",), InputError, "tune, chord, drone, bass, drum"),
    ],
)
def test_wrong_instruments_say_what_to_do(instruments: tuple[str, ...], error: type[Exception], words: str):
    with pytest.raises(error, match=words):
        players_of(FONT, instruments)


def test_instruments_need_a_soundfont():
    with pytest.raises(InputError, match="--soundfont"):
        players_of(None, ("flute",))


# --- faults ---


def test_faulty_files_say_what_to_do(tmp_path: Path):
    sound = row([440.0])
    with pytest.raises(FileError, match="timgm6mb-soundfont"):
        players_of(tmp_path / "none.sf2", ())
    (tmp_path / "text.sf2").write_text("no font")
    with pytest.raises(FileError, match="no SoundFont"):
        players_of(tmp_path / "text.sf2", ())
    with pytest.raises(FileError, match="cannot be read"):
        players_of(tmp_path, ())
    (tmp_path / "head.sf2").write_bytes(FONT.read_bytes()[:200_000])
    with pytest.raises(FileError, match="cannot read it"):
        players_of(tmp_path / "head.sf2", ()).signal(sound)


def test_damaged_files_end_in_words_or_in_sound(tmp_path: Path):
    """Bytes are changed at random, in the tables at the end too, in which a decoder finds its way."""
    whole, chance = FONT.read_bytes(), np.random.default_rng(17)
    outcomes = []
    for number in range(8):
        broken = bytearray(whole)
        tables = number % 2 == 0
        for _ in range(200 if tables else 2_000):
            place = int(chance.integers(len(whole) - 80_000 if tables else 12, len(whole)))
            broken[place] = int(chance.integers(256))
        (tmp_path / "broken.sf2").write_bytes(broken)
        try:
            players_of(tmp_path / "broken.sf2", ()).signal(row([440.0]))
            outcomes.append("sound")
        except (FileError, DomainError):
            outcomes.append("words")
    assert "words" in outcomes


def test_what_a_soundfont_has_not_is_told(tmp_path: Path):
    sound = Sound(RATE, strokes=(Stroke(0, Drum.BRUSH),))
    with pytest.raises(DomainError, match="no such instrument"):
        heard(sound, "drum=77")
    long = Sound(601 * RATE, (Note(0, RATE, 440.0),))
    with pytest.raises(DomainError, match="leave out"):
        players_of(FONT, ()).signal(long)


def test_a_missing_library_is_named_with_its_command(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(sys.modules, "fluidsynth", None)
    with pytest.raises(MissingPartError, match="pip install pyfluidsynth"):
        fluidsynth.fluidsynth_library()


def test_what_settles_how_they_play_does_not_depend_on_the_place(tmp_path: Path):
    (tmp_path / "copy.sf2").write_bytes(FONT.read_bytes())
    one, other = players_of(FONT, ("flute",)), players_of(tmp_path / "copy.sf2", ("flute",))
    assert one.key == other.key != players_of(FONT, ("oboe",)).key
    assert Players().key == ""
