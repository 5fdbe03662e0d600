"""A synthesiser whose pitches are exact: tones made of partials at whole multiples of the fundamental.

Models of strings with delay lines are detuned by their own filters. Here every partial is an exponential of its own,
as in modal synthesis: partial k of a tone f has amplitude a, decay d and is the real part of a exp((2 pi i k f - d) t).
An exponential of i B + j is a product, so a block of samples is the product of two small matrices, one with a row for
each of the coarse steps i B, one with a column for each of the fine steps j. Phases are computed from the sample's own
number and not added up: nothing drifts, and any block can be made alone.

Three timbres: *plucked*, bright at first, the high partials soon gone; *struck*, a soft hammer and a tone that fades
first quickly, then slowly; *sustained*, steady for as long as it is held. No vibrato, no inharmonicity.

**Conventions.** Samples are float64, one channel, 48,000 a second; a tone of velocity v has the loudness v at its
beginning, whatever its timbre, so that nothing here needs to know how loud the whole becomes. Every tone fades in
within at least 5 ms and out within at least 60 ms, so there are no clicks. Before its first tick a note is silent.

References: exact exponentials as partials: modal synthesis, as in J. O. Smith, Physical Audio Signal Processing, from
memory. The choice of partials and decays is ours, by ear and measurement.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import DomainError
from gamutwright.ir.sound import TICKS_PER_SECOND, Note, Sound, Timbre

__all__ = ["BLOCK_TICKS", "MOST_SAMPLES", "Samples", "render", "sound_blocks"]

Samples = NDArray[np.float64]
BLOCK_TICKS = 1 << 16
"""How many samples are made at a time; memory does not grow with the length of a sound."""
MOST_SAMPLES = 600 * TICKS_PER_SECOND
"""The longest sound that is made in one piece."""

_FINE = 256
_QUIET_PRODUCT = 200_000
"""Larger products are spread over threads by the linear algebra beneath numpy, which on busy cores waits for itself."""
_TOP_HZ = 14_000.0
_MOST_PARTIALS = 32


@dataclass(frozen=True, slots=True)
class _Voice:
    """What makes a timbre: fades in ticks, and the modes of a tone as rows of number, amplitude and decay a second."""

    attack_ticks: int
    release_ticks: int

    def modes(self, freq_hz: float) -> tuple[Samples, Samples, Samples]:
        raise NotImplementedError


def _numbers(freq_hz: float) -> Samples:
    return np.arange(1.0, 1 + max(1, min(_MOST_PARTIALS, int(_TOP_HZ / freq_hz))))


class _Plucked(_Voice):
    def modes(self, freq_hz: float) -> tuple[Samples, Samples, Samples]:
        """Pluck a string at two elevenths of its length; its modes fall as 1/k, softened as a fingertip does."""
        k = _numbers(freq_hz)
        amplitude = np.abs(np.sin(np.pi * k * 2 / 11)) / k**1.2 * np.exp(-k * freq_hz / 6000)
        return k, amplitude, 1.1 + freq_hz / 400 + 0.22 * (k - 1) + (k * freq_hz / 2500) ** 2


class _Struck(_Voice):
    def modes(self, freq_hz: float) -> tuple[Samples, Samples, Samples]:
        """Strike strings with a felt hammer: each mode twice, once fading quickly and once slowly."""
        k = _numbers(freq_hz)
        amplitude = np.abs(np.sin(np.pi * k / 8)) / k**1.6 * np.exp(-((k * freq_hz / 3500) ** 2))
        slow = 0.5 + freq_hz / 900 + 0.12 * (k - 1)
        return np.r_[k, k], np.r_[0.72 * amplitude, 0.28 * amplitude], np.r_[6 * slow, slow]


class _Sustained(_Voice):
    def modes(self, freq_hz: float) -> tuple[Samples, Samples, Samples]:
        """Hold a reed or an open pipe: modes fall evenly, the even ones a little weaker, and do not fade."""
        k = _numbers(freq_hz)[:16]
        amplitude = np.where(k % 2 == 0, 0.6, 1.0) / k**1.4 * np.exp(-k * freq_hz / 7000)
        return k, amplitude, np.zeros_like(k)


_MS = TICKS_PER_SECOND // 1000
_VOICES: Mapping[Timbre, _Voice] = {
    Timbre.PLUCKED: _Plucked(5 * _MS, 120 * _MS),
    Timbre.STRUCK: _Struck(6 * _MS, 150 * _MS),
    Timbre.SUSTAINED: _Sustained(25 * _MS, 80 * _MS),
}


def _modes(voice: _Voice, note: Note) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
    """Give weight and complex frequency, in radians a tick, of each mode of a note."""
    number, amplitude, decay = voice.modes(note.freq_hz)
    # Phases that grow with the square of the number keep the peak low for its energy (Schroeder 1970, from memory).
    phase = np.pi * number * (number - 1) / number.max() - np.pi / 2
    energy = math.sqrt(float(np.sum(amplitude**2)) / 2)
    weight = (note.velocity / energy) * amplitude * np.exp(1j * phase)
    turn = 2j * np.pi * (note.freq_hz / TICKS_PER_SECOND)
    power = number * turn - decay / TICKS_PER_SECOND
    return weight.astype(np.complex128), power.astype(np.complex128)


def _ramp(ticks: Samples, length: int) -> Samples:
    """Rise from 0 to 1 along half a cosine."""
    rising: Samples = 0.5 - 0.5 * np.cos(np.pi * np.clip(ticks / length, 0.0, 1.0))
    return rising


def _span(voice: _Voice, note: Note, last: int) -> tuple[int, int]:
    """Give the first tick of a note and the one after its last, its ringing included."""
    return note.start_tick, min(note.end_tick + voice.release_ticks, last)


def _part(voice: _Voice, note: Note, begin: int, end: int, last: int) -> Samples:
    """Make the samples of a note from one of its own ticks up to another."""
    weight, power = _modes(voice, note)
    rows = max(1, _QUIET_PRODUCT // (_FINE * len(power)))
    count = -(-(end - begin) // (_FINE * rows))
    coarse = begin + _FINE * np.arange(count * rows)
    left = (weight * np.exp(np.outer(coarse, power))).reshape(count, rows, -1)
    right = np.exp(np.outer(power, np.arange(_FINE)))
    samples: Samples = (left.real @ right.real - left.imag @ right.imag).ravel()[: end - begin]
    if begin < voice.attack_ticks:
        stop = min(voice.attack_ticks, end) - begin
        samples[:stop] *= _ramp(np.arange(begin, begin + stop, dtype=np.float64), voice.attack_ticks)
    # A tone near the end of the sound has less time to fade, and still fades.
    length = _span(voice, note, last)[1] - note.start_tick
    release = min(voice.release_ticks, length)
    if end > length - release:
        start = max(begin, length - release)
        samples[start - begin :] *= _ramp(length - np.arange(start, end, dtype=np.float64), release)
    return samples


def sound_blocks(sound: Sound) -> Iterator[Samples]:
    """Make a sound block by block.

    Parameters
    ----------
    sound : Sound
        The sound.

    Yields
    ------
    ndarray of float64, shape (m,), m <= `BLOCK_TICKS`
        Samples, `sound.ticks` in all. Their level is that of the velocities; see `mix.mastered`.

    Examples
    --------
    >>> [len(block) for block in sound_blocks(Sound(70_000, (Note(0, 48_000, 440.0),)))]
    [65536, 4464]
    """
    voice = _VOICES[sound.timbre]
    waiting = list(reversed(sound.notes))
    sounding: list[Note] = []
    for begin in range(0, sound.ticks, BLOCK_TICKS):
        end = min(begin + BLOCK_TICKS, sound.ticks)
        block = np.zeros(end - begin)
        while waiting and waiting[-1].start_tick < end:
            sounding.append(waiting.pop())
        for note in sounding:
            first, stop = _span(voice, note, sound.ticks)
            low, high = max(first, begin), min(stop, end)
            block[low - begin : high - begin] += _part(voice, note, low - first, high - first, sound.ticks)
        sounding = [note for note in sounding if _span(voice, note, sound.ticks)[1] > end]
        yield block


def render(sound: Sound) -> Samples:
    """Make a whole sound at once.

    Parameters
    ----------
    sound : Sound, at most ten minutes
        The sound.

    Returns
    -------
    ndarray of float64, shape (sound.ticks,)
        Its samples.

    Raises
    ------
    DomainError
        If it is longer; `sound_blocks` has no limit.

    Examples
    --------
    >>> render(Sound(48_000, (Note(24_000, 12_000, 440.0),)))[:24_001].any()
    np.False_
    """
    if sound.ticks > MOST_SAMPLES:
        raise DomainError(
            f"a sound of {sound.seconds:.0f} s",
            f"up to {MOST_SAMPLES // TICKS_PER_SECOND} s are made in one piece",
            "Take it block by block with sound_blocks.",
        )
    blocks = list(sound_blocks(sound))
    return np.concatenate(blocks) if blocks else np.zeros(0)
