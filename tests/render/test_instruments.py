"""What the instruments are known by, measured on their samples: pitch, attack, decay, colour, and no two tones alike.

Reference for the decays: plucked strings lose their high partials first, struck doubled strings fade quickly and then
slowly (Fletcher and Rossing, The Physics of Musical Instruments, 1998, from memory).
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import Note, Sound, Timbre
from gamutwright.render.instruments import INSTRUMENTS, instrument_of, stroke_samples, tone_of
from gamutwright.render.synth import render
from render.hearing import RATE, cents, click_db, onsets, pitch_hz
from thinning import thinned

PLAYERS = [
    (Part.TUNE, Timbre.PLUCKED),
    (Part.TUNE, Timbre.STRUCK),
    (Part.TUNE, Timbre.SUSTAINED),
    (Part.BASS, Timbre.PLUCKED),
    (Part.DRONE, Timbre.PLUCKED),
]


def middle(sound: Sound) -> np.ndarray:
    return render(sound).mean(axis=1)


def one_tone(part: Part, timbre: Timbre, freq_hz: float, velocity: float = 0.7, start: int = 4_800) -> np.ndarray:
    return middle(Sound(4 * RATE, (Note(start, 3 * RATE, freq_hz, velocity, part=part),), timbre))


def centroid_hz(samples: np.ndarray) -> float:
    power = np.abs(np.fft.rfft(samples * np.hanning(len(samples)))) ** 2
    return float(np.sum(power * np.fft.rfftfreq(len(samples), 1 / RATE)) / np.sum(power))


def level_db(samples: np.ndarray) -> float:
    return float(10 * np.log10(np.mean(samples**2)))


@pytest.mark.parametrize(
    ("player", "freq_hz"), thinned(itertools.product(PLAYERS, [41.203, 61.735, 123.5, 311.127, 743.0]), 0.5)
)
def test_every_tone_is_within_a_cent(player: tuple[Part, Timbre], freq_hz: float):
    samples = one_tone(*player, freq_hz)
    assert abs(cents(pitch_hz(samples[9_600 : 9_600 + 2 * RATE], freq_hz), freq_hz)) < 0.3


def test_each_part_has_its_instrument():
    assert {instrument_of(part, Timbre.PLUCKED).name for part in Part} == {"plucked", "struck", "bass", "pad"}
    assert instrument_of(Part.CHORD, Timbre.STRUCK).name == "plucked"
    assert set(INSTRUMENTS) == {"plucked", "struck", "sustained", "bass", "pad"}


@pytest.mark.parametrize("part", [Part.TUNE, Part.BASS])
def test_high_partials_of_a_string_fade_first(part: Part):
    samples = one_tone(part, Timbre.PLUCKED, 110.0)
    assert centroid_hz(samples[4_800:9_600]) > 1.2 * centroid_hz(samples[28_800:33_600])


def test_keys_fade_quickly_and_then_slowly():
    samples = one_tone(Part.TUNE, Timbre.STRUCK, 220.0)
    levels = [level_db(samples[tick : tick + 4_800]) for tick in (6_000, 20_400, 80_000, 94_400)]
    assert levels[0] - levels[1] > 1.5 * (levels[2] - levels[3])


def test_a_pad_swells_and_stays():
    samples = one_tone(Part.DRONE, Timbre.PLUCKED, 110.0)
    early, swollen, late = (level_db(samples[tick : tick + 2_400]) for tick in (6_000, 33_000, 120_000))
    assert swollen - early > 5
    assert abs(late - swollen) < 3


def test_loud_strokes_are_brighter():
    for part in (Part.TUNE, Part.BASS):
        soft, loud = (one_tone(part, Timbre.PLUCKED, 196.0, velocity)[4_800:14_400] for velocity in (0.3, 0.9))
        assert centroid_hz(loud) > 1.03 * centroid_hz(soft)


def test_no_two_strokes_are_one_recording():
    """The same key four times: each differs from the last, by less than a listener would call an accent."""
    notes = tuple(Note(k * 24_000, 20_000, 220.0) for k in range(4))
    tones = [tone_of(INSTRUMENTS["plucked"], note) for note in notes]
    alone = [level_db(middle(Sound(RATE, (Note(0, 20_000, 220.0),)))[:9_600])]
    for one, other in itertools.pairwise(tones):
        assert 1e-4 < np.abs(one.weight - other.weight).max() < 0.2
    levels = [level_db(middle(Sound(3 * RATE, (note,)))[note.start_tick :][:9_600]) for note in notes]
    assert max(levels + alone) - min(levels + alone) < 1.0
    again = [tone_of(INSTRUMENTS["plucked"], note).weight for note in notes]
    assert all(np.array_equal(a.weight, b) for a, b in zip(tones, again, strict=True))


@pytest.mark.parametrize("drum", list(Drum))
def test_drums_begin_on_time_fade_and_do_not_click(drum: Drum):
    starts = [9_601, 57_333, 100_003]
    sound = Sound(3 * RATE, strokes=tuple(Stroke(tick, drum, 0.6) for tick in starts))
    samples = middle(sound)
    assert not samples[: starts[0]].any()
    found = onsets(samples, 4_800)
    assert len(found) == 3
    assert all(0 <= tick - start < 48 for tick, start in zip(found, starts, strict=True))
    assert abs(samples[-1]) < 1e-9
    ends = stroke_samples(sound.strokes[0])
    assert click_db(np.r_[ends, np.zeros(1_000)], len(ends)) < -75
    assert abs(np.mean(samples)) < 1e-3 * np.std(samples)


def test_drums_have_the_colours_of_their_kind():
    brush, block = (stroke_samples(Stroke(0, drum)) for drum in Drum)
    assert centroid_hz(brush) > 3_000
    assert 700 < centroid_hz(block) < 1_500
    # A brush has no pitch: no line stands out by itself.
    power = np.abs(np.fft.rfft(brush)) ** 2
    assert power.max() < 0.02 * power.sum()


def test_a_stroke_cut_off_by_the_end_still_fades():
    samples = middle(Sound(4_000, strokes=(Stroke(1_000, Drum.BRUSH),)))
    assert abs(samples[-1]) < 1e-3 * np.abs(samples).max()
