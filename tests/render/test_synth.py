"""The synthesiser against an ear with a ruler: pitch within 1 cent, onsets within 1 ms, no clicks, silence outside.

All is measured with the room, on the mean of both channels where nothing else is said.
"""

from __future__ import annotations

import itertools
import math
from fractions import Fraction

import numpy as np
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import DomainError
from gamutwright.ir.sound import Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.render import synth
from gamutwright.render.instruments import INSTRUMENTS
from gamutwright.render.room import TAIL_TICKS
from gamutwright.render.synth import sound_blocks
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import TUNINGS, Tuning
from render.hearing import RATE, cents, click_db, onsets, pitch_hz
from thinning import thinned

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
SCALES = [
    MAJOR,
    Scale.of(6, 8, 10, 11, 1, 3, 5),
    Scale.of(9, 11, 0, 2, 4, 5, 8),
    Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19),
    Scale.of(4, 9, 14, 17, 22, 27, 1, divisions=31),
]


def render(sound: Sound) -> np.ndarray:
    return synth.render(sound).mean(axis=1)


def expected_hz(scale: Scale, tone: int) -> float:
    """An equal division with middle C at 261.626 Hz, the root the lowest at or above G3 (196 Hz), by the definition."""
    middle_c = 440 * 2 ** (-9 / 12)
    root = middle_c * 2 ** (scale.root / scale.divisions)
    while root / 2 > 190:
        root /= 2
    return root * 2 ** (tone / scale.divisions)


def measured_cents(sound: Sound) -> list[float]:
    samples = render(sound)
    # From where the note before has faded; the note itself is held until then.
    stretches = [samples[note.start_tick + 9_600 : note.end_tick] for note in sound.notes]
    return [cents(pitch_hz(s, note.freq_hz), note.freq_hz) for s, note in zip(stretches, sound.notes, strict=True)]


@pytest.mark.parametrize(("scale", "timbre"), thinned(itertools.product(SCALES, Timbre), 0.5), ids=str)
def test_tones_of_equal_divisions_are_within_a_cent(scale: Scale, timbre: Timbre):
    sound = phrase("up", scale, performance=Performance(timbre))
    tones = [*scale.tones, scale.divisions]
    assert [note.freq_hz for note in sound.notes] == pytest.approx([expected_hz(scale, t) for t in tones], rel=1e-9)
    # What the room still holds of the tone before pulls a little.
    assert max(map(abs, measured_cents(sound))) < 0.5


@pytest.mark.parametrize(
    ("tuning", "timbre"),
    thinned(itertools.product(TUNINGS, Timbre), 0.5),
    ids=lambda one: one.id if isinstance(one, Tuning) else str(one),
)
def test_tones_of_the_tunings_are_within_a_cent(tuning: Tuning, timbre: Timbre):
    sound = phrase("scale", MAJOR, performance=Performance(timbre, 120, tuning))
    # What the room still holds of the tone before pulls a little.
    assert max(map(abs, measured_cents(sound))) < 0.5


def test_fifths_and_thirds_are_pure_where_they_should_be():
    """Quarter-comma meantone has pure major thirds, five-limit C E G sounds 4:5:6 (Barbour 1951, from memory)."""
    by_id = {tuning.id: tuning for tuning in TUNINGS}
    heard = {}
    for name in ("quarter_comma_meantone", "five_limit", "pythagorean"):
        sound = phrase("up", MAJOR, performance=Performance(Timbre.SUSTAINED, 60, by_id[name]))
        samples = render(sound)
        pitches = [pitch_hz(samples[n.start_tick + 9_600 : n.end_tick], n.freq_hz) for n in sound.notes]
        heard[name] = [cents(pitch, pitches[0]) for pitch in pitches]
    third, fifth = 1200 * math.log2(5 / 4), 1200 * math.log2(3 / 2)
    assert heard["quarter_comma_meantone"][2] == pytest.approx(third, abs=0.01)
    assert heard["five_limit"][2] == pytest.approx(third, abs=0.01)
    assert heard["five_limit"][4] == pytest.approx(fifth, abs=0.01)
    assert heard["pythagorean"][4] == pytest.approx(fifth, abs=0.01)
    assert heard["pythagorean"][2] == pytest.approx(1200 * math.log2(81 / 64), abs=0.01)


def test_a_held_note_does_not_drift():
    """Five minutes of 440.0 Hz: 132,000 periods fit exactly."""
    sound = Sound(301 * RATE, (Note(0, 300 * RATE, 440.0),), Timbre.SUSTAINED)
    samples = render(sound)
    late = samples[290 * RATE : 291 * RATE]
    early = samples[RATE : 2 * RATE]
    assert np.abs(late - early).max() < 1e-6 * np.abs(early).max()
    assert pitch_hz(late, 440) == pytest.approx(440, abs=1e-5)


@pytest.mark.parametrize("timbre", list(Timbre))
def test_onsets_are_within_a_millisecond(timbre: Timbre):
    starts = [int(Fraction(k) * 60_011) + 777 for k in range(8)]
    notes = tuple(Note(start, 9_000, 220.0 * 2 ** (k / 5)) for k, start in enumerate(starts))
    samples = render(Sound(starts[-1] + 60_000, notes, timbre))
    found = onsets(samples)
    assert len(found) == len(starts)
    late_ms = [(tick - start) / 48 for tick, start in zip(found, starts, strict=True)]
    assert all(0 <= late < 1 for late in late_ms)


@pytest.mark.parametrize("timbre", list(Timbre))
def test_phrases_are_the_sum_of_their_notes(timbre: Timbre):
    """So what holds for a note alone holds in a phrase, where tones overlap."""
    sound = phrase("chords", Scale.of(0, 4, 7, 9), performance=Performance(timbre))
    alone = sum(render(Sound(sound.ticks, (note,), timbre)) for note in sound.notes)
    assert np.abs(render(sound) - alone).max() < 1e-6


@pytest.mark.parametrize("timbre", list(Timbre))
def test_there_is_silence_before_and_after_and_no_click(timbre: Timbre):
    note = Note(10_000, 20_000, 330.0)
    samples = render(Sound(60_000, (note,), timbre))
    assert not samples[:10_001].any()
    assert not samples[10_000 + 20_000 + 7_200 + TAIL_TICKS :].any()
    ends = [note.start_tick, note.end_tick, *np.flatnonzero(samples)[[0, -1]]]
    assert max(click_db(samples, int(tick)) for tick in ends) < -75
    # The same tone switched on at full level shows that the ruler sees a click.
    middle = 20_000 + int(np.argmax(np.abs(samples[20_000:20_400])))
    assert click_db(np.r_[np.zeros(1_000), samples[middle:]], 1_000) > -50


@pytest.mark.parametrize("timbre", list(Timbre))
def test_a_sound_that_is_cut_short_still_fades(timbre: Timbre):
    samples = render(Sound(12_000, (Note(0, 12_000, 330.0),), timbre))
    assert abs(samples[-1]) < 1e-4 * np.abs(samples).max()
    assert click_db(np.r_[samples, np.zeros(1_000)], 12_000) < -75


def test_fades_last_five_milliseconds():
    for instrument in INSTRUMENTS.values():
        assert min(instrument.attack_ticks, instrument.release_ticks) >= 0.005 * RATE


def test_blocks_join_without_a_seam():
    sound = phrase("scale", MAJOR)
    blocks = list(sound_blocks(sound))
    assert {len(block) for block in blocks[:-1]} == {synth.BLOCK_TICKS}
    whole = np.concatenate(blocks).mean(axis=1)
    for number in range(1, len(blocks)):
        assert click_db(whole, number * synth.BLOCK_TICKS) < -55


def test_blocks_do_not_depend_on_where_they_are_cut(monkeypatch: pytest.MonkeyPatch):
    sound = phrase("drone", MAJOR, performance=Performance(Timbre.STRUCK))
    usual = render(sound)
    monkeypatch.setattr(synth, "BLOCK_TICKS", 5_003)
    assert np.abs(render(sound) - usual).max() < 1e-6


def test_long_sounds_come_in_blocks_only():
    sound = Sound(3600 * RATE, (Note(3599 * RATE, 100, 440.0),))
    with pytest.raises(DomainError, match="sound_blocks"):
        render(sound)
    assert sum(len(block) for block in sound_blocks(sound)) == 3600 * RATE


def test_nothing_folds_back_from_above():
    """The highest fundamental allowed keeps every partial below half the sampling rate."""
    samples = render(Sound(RATE, (Note(0, RATE // 2, 8_000.0),), Timbre.SUSTAINED))
    spectrum = np.abs(np.fft.rfft(samples[4_800:20_000] * np.hanning(15_200)))
    freqs = np.fft.rfftfreq(15_200, 1 / RATE)
    off = (np.abs(freqs - 8_000) > 50) & (np.abs(freqs - 16_000) > 50)
    assert spectrum[off].max() < 1e-4 * spectrum.max()


def test_no_notes_are_silence():
    assert not render(Sound(1_000)).any()
    assert synth.render(Sound(0)).shape == (0, 2)
