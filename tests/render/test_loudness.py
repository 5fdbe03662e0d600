"""The meter and our own levelling against the signals of EBU Tech 3341 and a slow meter written apart.

The figures of the signals and their tolerances are from memory of EBU Tech 3341, table 1; the document was not read.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator

import numpy as np
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import DomainError
from gamutwright.ir.sound import Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.render.loudness import SILENT_LUFS, Meter, db_to_gain, gain_to_db, hop_peaks, measured
from gamutwright.render.mix import CEILING_DBTP, Clip, levelled, mastered, mixed, programme
from gamutwright.render.signal import Signal
from gamutwright.theory.scale import Scale
from render.hearing import RATE, click_db, slow_lufs
from thinning import thinned

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)


def tone(*parts: tuple[float, float]) -> np.ndarray:
    """A sine of 1 kHz with seconds and peak level in dBFS of each part."""
    levels = np.concatenate([np.full(round(seconds * RATE), 10 ** (level / 20)) for seconds, level in parts])
    return levels * np.sin(2 * np.pi * 1000 * np.arange(len(levels)) / RATE)


TECH_3341 = {
    1: (((20, -23.0),), -23.0),
    2: (((20, -33.0),), -33.0),
    3: (((10, -36.0), (60, -23.0), (10, -36.0)), -23.0),
    4: (((10, -72.0), (10, -36.0), (60, -23.0), (10, -36.0), (10, -72.0)), -23.0),
    5: (((20, -26.0), (20.1, -20.0), (20, -26.0)), -23.0),
}


@pytest.mark.parametrize("number", list(TECH_3341))
def test_the_meter_reads_the_minimum_requirements(number: int):
    """Signals 1 to 5: the same sine in both channels of a stereo signal, within 0.1 LU."""
    parts, expected = TECH_3341[number]
    samples = tone(*parts)
    meter = Meter(channels=2)
    for begin in range(0, len(samples), 50_000):
        block = samples[begin : begin + 50_000]
        meter.add(np.column_stack([block, block]))
    found = meter.result()
    assert found.integrated_lufs == pytest.approx(expected, abs=0.1)
    assert slow_lufs([samples, samples]) == pytest.approx(expected, abs=0.1)
    if number in {1, 2}:
        assert found.momentary_lufs == pytest.approx(expected, abs=0.1)
        assert found.short_term_lufs == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize(("number", "channels"), thinned(itertools.product([3, 4, 5], [1, 2]), 0.5))
def test_our_levelling_brings_them_to_the_target(number: int, channels: int):
    """What was -23 LUFS is levelled to -16 LUFS, in one channel or in two, by the slow meter too."""
    signal = Signal.of_samples(tone(*TECH_3341[number][0]))
    samples = mastered(signal.in_channels(channels), -16.0).samples()
    assert slow_lufs(list(np.atleast_2d(samples.T))) == pytest.approx(-16.0, abs=0.15)


@pytest.mark.parametrize(
    ("divisor", "degrees", "level_db", "expected"),
    [(4, 0, -6.0, -6.0), (4, 45, -6.0, -6.0), (6, 60, -6.0, -6.0), (8, 67.5, -6.0, -6.0), (4, 45, 3.0, 3.0)],
)
def test_true_peaks_between_the_samples(divisor: int, degrees: float, level_db: float, expected: float):
    """Signals 15 to 19: sines at a part of the sampling rate whose samples miss the peak, within +0.2 and -0.4 dB."""
    ticks = np.arange(RATE)
    samples = 10 ** (level_db / 20) * np.sin(2 * np.pi * ticks / divisor + np.radians(degrees))
    fade = np.clip(np.minimum(ticks, RATE - 1 - ticks) / 4_800, 0, 1)
    samples *= 0.5 - 0.5 * np.cos(np.pi * fade)
    if degrees == 45:
        assert np.abs(samples).max() < 0.8 * 10 ** (level_db / 20)
    for found in (
        measured(Signal.of_samples(samples)).true_peak_dbtp,
        gain_to_db(hop_peaks(Signal.of_samples(samples)).max()),
    ):
        assert expected - 0.4 <= found <= expected + 0.2


def test_hop_peaks_are_those_of_a_long_interpolation():
    rng = np.random.default_rng(7)
    spectrum = np.fft.rfft(rng.standard_normal(RATE))
    spectrum[16_000:] = 0
    samples = np.fft.irfft(spectrum)
    longer = np.concatenate([spectrum, np.zeros(2 * RATE + 1 - len(spectrum))])
    fine = 4 * np.fft.irfft(longer)
    slow = np.abs(fine).reshape(-1, 4 * 48).max(axis=1)
    # Noise is periodic for the slow way and not for ours, so the first and last milliseconds differ.
    assert np.abs(hop_peaks(Signal.of_samples(samples)) - slow)[2:-2].max() < 0.01 * slow.max()


@pytest.mark.parametrize(
    ("kind", "timbre"), thinned(itertools.product(["scale", "chords", "drone", "path"], Timbre), 0.34)
)
def test_phrases_are_mastered(kind: str, timbre: Timbre):
    sound = phrase(kind, MAJOR, performance=Performance(timbre))
    samples = mastered(Signal.of_sound(sound)).samples()
    assert slow_lufs(list(samples.T)) == pytest.approx(-16.0, abs=0.3)
    assert measured(Signal.of_samples(samples)).true_peak_dbtp <= CEILING_DBTP + 0.05
    assert max(click_db(samples[:, 0], note.start_tick) for note in sound.notes) < -50


def test_the_limiter_lowers_peaks_and_leaves_the_rest():
    """One burst 20 dB above a steady tone is brought below the ceiling; a tenth of a second away nothing changes."""
    samples = tone((4, -20.0))
    samples[96_000:96_480] *= 10
    result = mastered(Signal.of_samples(samples), -16.0).samples()
    assert measured(Signal.of_samples(result)).true_peak_dbtp <= CEILING_DBTP + 0.05
    far = np.r_[result[10_000:90_000] / samples[10_000:90_000].clip(1e-9, None)]
    steady = np.abs(samples[10_000:90_000]) > 0.05
    assert np.ptp(far[steady & (samples[10_000:90_000] > 0)]) < 1e-6


def test_silence_stays_silence():
    assert measured(Signal.of_samples(np.zeros(RATE))).integrated_lufs == SILENT_LUFS
    assert not mastered(Signal.of_samples(np.zeros(RATE))).samples().any()
    assert measured(Signal.of_samples(np.zeros(0))).integrated_lufs == SILENT_LUFS


def test_short_signals_are_measured_as_if_repeated():
    short = Signal.of_samples(tone((0.1, -20.0)))
    assert measured(short).integrated_lufs == pytest.approx(-23.0, abs=0.2)


def test_examples_stay_near_the_voice():
    """A voice of noise bursts and two examples, 12 dB too loud and 12 dB too soft."""
    rng = np.random.default_rng(3)
    voice = 0.05 * rng.standard_normal(4 * RATE)
    clips = [
        Clip(5 * RATE, Signal.of_sound(phrase("up", MAJOR)).amplified(4)),
        Clip(13 * RATE, Signal.of_sound(phrase("up", MAJOR, performance=Performance(Timbre.SUSTAINED))).amplified(0.1)),
    ]
    whole = mastered(programme([Clip(0, Signal.of_samples(voice))], clips, 21 * RATE)).samples()
    parts = [slow_lufs(list(whole[begin * RATE : end * RATE].T)) for begin, end in ((0, 4), (5, 11), (13, 19))]
    assert max(parts) - min(parts) < 1.5
    assert slow_lufs(list(whole.T)) == pytest.approx(-16, abs=0.3)
    louder = programme([Clip(0, Signal.of_samples(voice))], clips[:1], 12 * RATE, offset_lu=3).samples()
    gap = slow_lufs(list(louder[5 * RATE : 11 * RATE].T)) - slow_lufs(list(louder[: 4 * RATE].T))
    assert gap == pytest.approx(3, abs=0.5)
    with pytest.raises(DomainError, match="reaches for the volume"):
        programme([], clips, 21 * RATE, offset_lu=6)


def test_clips_fade_so_that_cut_recordings_do_not_click():
    ringing = np.sin(2 * np.pi * 300 * np.arange(RATE) / RATE + 1)
    faded = mixed([Clip(1_000, Signal.of_samples(ringing))], 60_000).samples()
    raw = mixed([Clip(1_000, Signal.of_samples(ringing), fade_ticks=0)], 60_000).samples()
    assert click_db(faded, 1_000) < -75 < -50 < click_db(raw, 1_000)
    assert np.allclose(faded[3_000:40_000], ringing[2_000:39_000])


def test_mixing_is_addition_whatever_the_blocks():
    rng = np.random.default_rng(5)
    long = rng.standard_normal(200_000)

    def ragged() -> Iterator[np.ndarray]:
        yield from np.split(long, [1, 17, 70_000, 131_073])

    found = mixed([Clip(333, Signal(200_000, ragged), 0), Clip(150_000, Signal.of_samples(long[:40_000]), 0)], 210_000)
    expected = np.zeros(210_000)
    expected[333:200_333] += long
    expected[150_000:190_000] += long[:40_000]
    assert np.array_equal(found.samples(), expected)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda s: mastered(s, -5.0), "-16"),
        (lambda s: mastered(s, float("nan")), "-16"),
        (lambda s: mastered(s, ceiling_dbtp=0.0), "dBTP"),
        (lambda s: mixed([Clip(0, s)], 10), "longer"),
        (lambda s: Clip(-1, s), "later"),
    ],
)
def test_dangerous_or_senseless_numbers_are_refused(call: Callable[[Signal], object], words: str):
    with pytest.raises(DomainError, match=words):
        call(Signal.of_samples(tone((1, -20.0))))


def test_gains_and_decibels():
    assert db_to_gain(6.0) == pytest.approx(1.99526, abs=1e-5)
    assert gain_to_db(db_to_gain(-3.7)) == pytest.approx(-3.7)


def test_levelling_alone_leaves_the_shape():
    signal = Signal.of_sound(Sound(2 * RATE, (Note(0, RATE, 440.0),)))
    ratio = levelled(signal, -25.0).samples()[1_000:40_000] / signal.samples()[1_000:40_000]
    assert np.ptp(ratio[np.isfinite(ratio)]) < 1e-9
