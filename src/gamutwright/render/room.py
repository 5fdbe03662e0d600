"""A gentle room, and where in it each part sits: middle and side instead of left and right.

The room is two short responses to a click, one for the middle and one for the side: a few reflections within 40 ms, as
walls a few metres away give, and a light diffuse tail that has fallen by 60 dB after 0.4 s. It is a linear filter that
does not change with time, so no pitch moves, and what was silent before a tone stays so. Both are the same each time.

**Conventions.** Left is middle plus side, right middle minus side: the mean of both channels is the middle, whatever
was placed to a side. A place runs from -1, left, to 1, right. The room's energy is 19 dB below that of the direct
sound.

References: early reflections and a diffuse tail of noise: Moorer, "About This Reverberation Business", 1979, from
memory.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import TICKS_PER_SECOND, Note
from gamutwright.render.instruments import Samples, ramp

__all__ = ["TAIL_TICKS", "Room", "place_of"]

_MS = TICKS_PER_SECOND // 1000
TAIL_TICKS = 400 * _MS
"""How long the room is heard after what it answers."""
_T60_SECONDS = 0.4
_WET = 10 ** (-19 / 20)
_SILENT = 1e-9
_REFLECTIONS = (
    (6.1, 0.24, -0.14),
    (9.7, -0.19, 0.15),
    (13.9, 0.16, 0.12),
    (18.3, 0.13, -0.13),
    (23.2, -0.12, -0.10),
    (29.8, 0.09, 0.09),
    (36.7, -0.08, 0.07),
)
"""Milliseconds, then weight in the middle and at the side."""
_FALLS = {Drum.BRUSH: 0.22, Drum.WOOD_BLOCK: -0.28}


def place_of(sounding: Note | Stroke) -> float:
    """Say where a note or a stroke comes from.

    Parameters
    ----------
    sounding : Note or Stroke
        What is heard.

    Returns
    -------
    float in [-1, 1]
        The bass sits in the middle, a tune near it, chords spread from low at the left to high at the right, drums a
        little off.

    Examples
    --------
    >>> place_of(Note(0, 1, 110.0, part=Part.BASS)), round(place_of(Note(0, 1, 330.0, part=Part.CHORD)), 2)
    (0.0, 0.12)
    """
    if isinstance(sounding, Stroke):
        return _FALLS[sounding.drum]
    if sounding.part is Part.BASS:
        return 0.0
    octaves = max(-1.0, min(1.0, math.log2(sounding.freq_hz / 280.0)))
    return {Part.TUNE: 0.08, Part.DRONE: 0.2}.get(sounding.part, 0.5) * octaves


@lru_cache(maxsize=1)
def _responses() -> tuple[Samples, Samples]:
    """Make the answers of the room to a click, in the middle and at the side."""
    noise = np.random.default_rng(7).standard_normal((2, TAIL_TICKS))
    seconds = np.arange(TAIL_TICKS) / TICKS_PER_SECOND
    freqs = np.fft.rfftfreq(TAIL_TICKS, 1 / TICKS_PER_SECOND)
    # Air and cloth take the high tones, and low ones would blur.
    gain = (1 - np.exp(-((freqs / 180) ** 2))) / (1 + (freqs / 3_000) ** 2)
    tails = np.fft.irfft(np.fft.rfft(noise) * gain, TAIL_TICKS)
    rise = 1 - np.exp(-seconds / 0.012)
    end = ramp(TAIL_TICKS - np.arange(TAIL_TICKS), 80 * _MS)
    tails *= rise * np.exp(-seconds * math.log(1000) / _T60_SECONDS) * end
    tails *= 0.5 / np.sqrt(np.sum(tails**2, axis=1, keepdims=True))
    pulse = np.hanning(2 * _MS // 4 + 1)
    pulse /= pulse.sum()
    for milliseconds, *weights in _REFLECTIONS:
        first = round(milliseconds * _MS)
        for tail, weight in zip(tails, weights, strict=True):
            tail[first : first + len(pulse)] += weight * pulse
    middle, side = tails * (_WET / math.sqrt(float(np.sum(tails**2))))
    return middle, side


@lru_cache(maxsize=4)
def _spectra(size: int) -> NDArray[np.complex128]:
    return np.fft.rfft(np.stack(_responses()), size)


def _fast_size(least: int) -> int:
    """Find the next number that is one, three or five times a power of two: transforms of it are quick."""
    return min(times << max(0, math.ceil(math.log2(least / times))) for times in (1, 3, 5))


class Room:
    """Puts samples into the room as they come.

    Parameters
    ----------
    ticks : int
        How long it all is; the room is silent at its end.
    """

    def __init__(self, ticks: int) -> None:
        self._ticks = ticks
        self._done = 0
        self._tail = np.zeros((2, 0))

    def add(self, middle: Samples, side: Samples) -> Samples:
        """Hear some more.

        Parameters
        ----------
        middle, side : ndarray of float64, shape (m,)
            The direct sound.

        Returns
        -------
        ndarray of float64, shape (m, 2)
            Left and right, with the room.
        """
        count = len(middle)
        wet = self._answers(middle)
        left_over = self._ticks - self._done - np.arange(count)
        self._done += count
        fade = 100 * _MS
        if left_over[-1] < fade:
            wet = wet * ramp(left_over - 1, fade)
        middle, side = middle + wet[0], side + wet[1]
        return np.stack([middle + side, middle - side], axis=1)

    def _answers(self, middle: Samples) -> Samples:
        count = len(middle)
        if middle.any():
            size = _fast_size(count + TAIL_TICKS)
            found = np.fft.irfft(np.fft.rfft(middle, size) * _spectra(size), size)[:, : count + TAIL_TICKS]
            # Rounding is heard nowhere, and silence is to be silence.
            found[np.abs(found) < _SILENT] = 0
        else:
            found = np.zeros((2, max(count, self._tail.shape[1])))
        found[:, : self._tail.shape[1]] += self._tail[:, : found.shape[1]]
        self._tail = found[:, count:]
        return found[:, :count]
