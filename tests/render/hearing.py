"""Pitch, onsets, clicks and loudness measured from samples, by means written apart from the synthesiser."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.signal import lfilter

RATE = 48_000


def pitch_hz(samples: NDArray[np.float64], near_hz: float) -> float:
    """Measure a frequency by how far the phase of its partial turns between two windows."""
    length = len(samples) * 2 // 3
    hop = len(samples) - length
    window = np.hanning(length)
    ticks = np.arange(length)

    def content(begin: int, freq_hz: float) -> complex:
        turned = np.exp(-2j * np.pi * freq_hz * (ticks + begin) / RATE)
        return complex(np.sum(samples[begin : begin + length] * window * turned))

    # A coarse search first, so that nothing here trusts the frequency that was asked for; then the phase.
    grid = near_hz * 2 ** (np.arange(-100, 101, 4) / 1200)
    freq_hz = float(grid[np.argmax([abs(content(0, freq)) for freq in grid])])
    for _ in range(3):
        turn = np.angle(content(hop, freq_hz) / content(0, freq_hz))
        freq_hz += turn * RATE / (2 * np.pi * hop)
    return freq_hz


def cents(freq_hz: float, than_hz: float) -> float:
    return float(1200 * np.log2(freq_hz / than_hz))


def onsets(samples: NDArray[np.float64], silence_ticks: int = 480) -> list[int]:
    """Find where sound begins after a stretch of silence, 80 dB below the peak."""
    heard = np.flatnonzero(np.abs(samples) > 1e-4 * np.abs(samples).max())
    gaps = np.flatnonzero(np.diff(heard) > silence_ticks)
    return [int(tick) for tick in np.r_[heard[:1], heard[gaps + 1]]]


def click_db(samples: NDArray[np.float64], tick: int) -> float:
    """Measure what lies above 17 kHz within 2.7 ms around a tick, against the loudest such stretch of the whole band.

    A step in the waveform has a spectrum that falls slowly and reaches up there; tones made of partials do not.
    """
    around = samples[max(0, tick - 64) : tick + 64]
    spectrum = np.abs(np.fft.rfft(around * np.hanning(len(around)), 512))
    high = np.sqrt(np.sum(spectrum[int(17_000 / RATE * 512) :] ** 2))
    rms = np.sqrt(np.max(np.convolve(samples**2, np.ones(128), "valid")))
    return float(20 * np.log10(max(high, 1e-12) / (rms * np.sqrt(512) + 1e-12)))


def slow_lufs(channels: list[NDArray[np.float64]]) -> float:
    """Compute integrated loudness by ITU-R BS.1770, its filters at 48 kHz as printed there (from memory)."""
    powers = []
    for samples in channels:
        shelf = lfilter([1.53512485958697, -2.69169618940638, 1.19839281085285],
                        [1, -1.69065929318241, 0.73248077421585], samples)  # fmt: skip
        weighted = lfilter([1, -2, 1], [1, -1.99004745483398, 0.99007225036621], shelf)
        sums = np.concatenate([[0.0], np.cumsum(weighted**2)])
        begins = np.arange(0, len(samples) - 19_200 + 1, 4_800)
        powers.append((sums[begins + 19_200] - sums[begins]) / 19_200)
    power = np.sum(powers, axis=0)
    loud = power[power > 10 ** ((-70 + 0.691) / 10)]
    loud = loud[loud > loud.mean() / 10]
    return float(-0.691 + 10 * np.log10(loud.mean()))
