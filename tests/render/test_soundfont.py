"""The adapter to FluidSynth, with a stand-in for its library: no SoundFont can be shipped, so the real one is not run.

The stand-in has the functions of pyfluidsynth that are used, by the names and orders of its published source, and
plays sines at the keys and bends it is told.
"""

from __future__ import annotations

import sys
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.ir.sound import Note, Sound
from gamutwright.music.performance import Performance
from gamutwright.music.pitches import tuning_named
from gamutwright.render.soundfont import fluidsynth_library, soundfont_signal
from gamutwright.theory.scale import Scale
from render.hearing import cents, pitch_hz

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)


class StandIn:
    """Plays sines; counts how many of it are alive."""

    alive = 0
    settings: dict[str, int]

    def __init__(self, gain: float, samplerate: float) -> None:
        assert 0 < gain < 1
        assert samplerate == 48_000
        StandIn.alive += 1
        self.settings, self.bends, self.reach, self.held = {}, {}, {}, {}
        self.chosen: dict[int, list[int]] = {}
        self.now = 0

    def setting(self, name: str, value: int) -> None:
        self.settings[name] = value

    def sfload(self, path: str) -> int:
        return -1 if Path(path).read_bytes() != b"sound" else 1

    def program_select(self, channel: int, font: int, bank: int, program: int) -> int:
        return 0 if font == 1 and bank == 0 and program < 100 else -1

    def cc(self, channel: int, control: int, value: int) -> None:
        chosen = self.chosen.setdefault(channel, [127, 127])
        if control in {100, 101}:
            chosen[101 - control] = value
        if control == 6 and chosen == [0, 0]:
            self.reach[channel] = value

    def pitch_bend(self, channel: int, value: int) -> None:
        assert -8192 <= value <= 8191
        self.bends[channel] = value

    def noteon(self, channel: int, key: int, force: int) -> None:
        assert 0 < force < 128
        place = key + self.reach[channel] * self.bends[channel] / 8192
        self.held[channel, key] = 440 * 2 ** ((place - 69) / 12)

    def noteoff(self, channel: int, key: int) -> None:
        del self.held[channel, key]

    def get_samples(self, count: int) -> np.ndarray:
        ticks = np.arange(self.now, self.now + count)
        self.now += count
        mono = sum((np.sin(2 * np.pi * freq * ticks / 48_000) for freq in self.held.values()), np.zeros(count))
        return np.repeat((3_000 * mono).astype(np.int16), 2)

    def delete(self) -> None:
        StandIn.alive -= 1


LIBRARY = SimpleNamespace(Synth=StandIn)


@pytest.fixture
def font(tmp_path: Path) -> Path:
    path = tmp_path / "harbour.sf2"
    path.write_bytes(b"sound")
    return path


@pytest.mark.parametrize("tuning", ["equal", "quarter_comma_meantone", "five_limit"])
def test_notes_are_asked_for_at_their_pitch_and_time(font: Path, tuning: str):
    sound = phrase("up", MAJOR, performance=Performance(tuning=tuning_named(tuning)))
    signal = soundfont_signal(sound, font, library=LIBRARY)
    samples = signal.samples()
    assert len(samples) == sound.ticks
    for note in sound.notes:
        assert abs(cents(pitch_hz(samples[note.start_tick : note.end_tick], note.freq_hz), note.freq_hz)) < 0.05
    assert np.flatnonzero(samples)[0] <= 2
    assert not samples[sound.notes[-1].end_tick + 1 :].any()
    assert StandIn.alive == 0


def test_it_can_be_made_twice(font: Path):
    signal = soundfont_signal(phrase("chords", MAJOR), font, library=LIBRARY)
    assert np.array_equal(signal.samples(), signal.samples())
    assert StandIn.alive == 0


def test_faults_say_what_to_do(font: Path, tmp_path: Path):
    sound = phrase("up", MAJOR)
    with pytest.raises(FileError, match="no such file"):
        soundfont_signal(sound, tmp_path / "none.sf2", library=LIBRARY)
    with pytest.raises(DomainError, match="another program"):
        soundfont_signal(sound, font, program=120, library=LIBRARY)
    crowd = Sound(100, tuple(Note(0, 100, 200.0 + 7 * k) for k in range(16)))
    with pytest.raises(DomainError, match="at once"):
        soundfont_signal(crowd, font, library=LIBRARY)
    font.write_bytes(b"damaged")
    with pytest.raises(FileError, match="cannot read it"):
        soundfont_signal(sound, font, library=LIBRARY)
    assert StandIn.alive == 0


def test_a_missing_library_is_named_with_its_command(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(sys.modules, "fluidsynth", None)
    with pytest.raises(MissingPartError, match="pip install pyfluidsynth"):
        fluidsynth_library()
