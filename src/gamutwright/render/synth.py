"""A synthesiser whose pitches are exact: tones made of partials at frequencies that are asked for, in a gentle room.

Models of strings with delay lines are detuned by their own filters. Here every partial is an exponential of its own,
as in modal synthesis: a mode of frequency f has amplitude a, decay d and is the real part of a exp((2 pi i f - d) t).
An exponential of i B + j is a product, so a block of samples is the product of two small matrices, one with a row for
each of the coarse steps i B, one with a column for each of the fine steps j. Phases are computed from the sample's own
number and not added up: nothing drifts, and any block can be made alone. Which modes a tone has says its instrument
(`instruments`), where it is heard and how it echoes the room (`room`).

**Conventions.** Samples are float64, two channels, 48,000 a second; a tone of velocity v has the loudness v at its
beginning, whatever its instrument, so that nothing here needs to know how loud the whole becomes. Every tone fades in
within at least 5 ms and out within at least 60 ms, so there are no clicks; strokes on drums fade in within 2 ms or
more. Before its first tick a note is silent. What is 160 dB below its tone is left out.

References: exact exponentials as partials: modal synthesis, as in J. O. Smith, Physical Audio Signal Processing, from
memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import DomainError
from gamutwright.ir.playing import Stroke
from gamutwright.ir.sound import TICKS_PER_SECOND, Note, Sound, Timbre
from gamutwright.render.instruments import Instrument, Samples, Tone, instrument_of, ramp, stroke_samples, tone_of
from gamutwright.render.room import Room, place_of

__all__ = ["BLOCK_TICKS", "MOST_SAMPLES", "Samples", "render", "sound_blocks"]

BLOCK_TICKS = 1 << 16
"""How many samples are made at a time; memory does not grow with the length of a sound."""
MOST_SAMPLES = 600 * TICKS_PER_SECOND
"""The longest sound that is made in one piece."""

_FINE = 256
_QUIET_PRODUCT = 400_000
"""Larger products are spread over threads by the linear algebra beneath numpy, which on busy cores waits for itself."""
_LOUD_ENOUGH = 1e-8


def _partials(tone: Tone, begin: int, end: int) -> Samples:
    """Add up the modes of a tone from one of its own ticks up to another."""
    is_heard = np.abs(tone.weight) * np.exp(tone.power.real * begin) > _LOUD_ENOUGH
    weight, power = tone.weight[is_heard], tone.power[is_heard]
    if not len(power):
        return np.zeros(end - begin)
    rows = max(1, _QUIET_PRODUCT // (2 * _FINE * len(power)))
    count = -(-(end - begin) // (_FINE * rows))
    left = weight * np.exp(power * begin) * _steps(power * _FINE, count * rows)
    right = _steps(power, _FINE).T
    # The real part of a product of complex matrices is one product of real ones.
    pairs = np.concatenate([left.real, -left.imag], axis=1).reshape(count, rows, -1)
    samples: Samples = (pairs @ np.concatenate([right.real, right.imag])).ravel()[: end - begin]
    return samples


def _steps(power: NDArray[np.complex128], count: int) -> NDArray[np.complex128]:
    """Give the powers 0 to count - 1 of exponentials, a row each: products of few, which are quicker than many."""
    few = math.isqrt(count - 1) + 1
    small = np.exp(np.outer(np.arange(few), power))
    large = np.exp(np.outer(few * np.arange(-(-count // few)), power))
    steps: NDArray[np.complex128] = (large[:, None, :] * small).reshape(-1, len(power))[:count]
    return steps


_SWELL_FROM = 0.3


def _fade_in(samples: Samples, instrument: Instrument, begin: int) -> None:
    """Let the first ticks of a tone rise."""
    attack, swell = instrument.attack_ticks, instrument.swell_ticks
    stop = min(max(attack, swell) - begin, len(samples))
    if stop <= 0:
        return
    ticks = np.arange(begin, begin + stop, dtype=np.float64)
    gain = ramp(ticks, attack)
    if swell:
        # The ear, and whoever measures onsets, is told at once that a tone begins.
        gain = _SWELL_FROM * gain + (1 - _SWELL_FROM) * ramp(ticks, swell)
    samples[:stop] *= gain


class _Tone:
    """A note that sounds, with the ticks between which it is heard."""

    def __init__(self, note: Note, timbre: Timbre, last: int) -> None:
        self.place = place_of(note)
        self.first = note.start_tick
        self._instrument = instrument_of(note.part, timbre)
        self._tone = tone_of(self._instrument, note)
        self.stop = min(note.end_tick + self._instrument.release_ticks, last)

    def samples(self, begin: int, end: int) -> Samples:
        """Make it from one of its own ticks up to another."""
        samples = _partials(self._tone, begin, end)
        _fade_in(samples, self._instrument, begin)
        burst = self._tone.burst[begin:end]
        samples[: len(burst)] += burst
        # A tone near the end of the sound has less time to fade, and still fades.
        length = self.stop - self.first
        release = min(self._instrument.release_ticks, length)
        if end > length - release:
            start = max(begin, length - release)
            samples[start - begin :] *= ramp(length - np.arange(start, end, dtype=np.float64), release)
        return samples


class _Stroke:
    """A stroke that sounds."""

    def __init__(self, stroke: Stroke, last: int) -> None:
        self.place = place_of(stroke)
        self.first = stroke.start_tick
        self._all = stroke_samples(stroke)[: last - stroke.start_tick]
        if len(self._all) == last - stroke.start_tick:
            length = min(len(self._all), TICKS_PER_SECOND // 20)
            self._all[-length:] *= ramp(np.arange(length, 0, -1.0), length)
        self.stop = self.first + len(self._all)

    def samples(self, begin: int, end: int) -> Samples:
        """Give it from one of its own ticks up to another."""
        return self._all[begin:end]


def sound_blocks(sound: Sound) -> Iterator[Samples]:
    """Make a sound block by block.

    Parameters
    ----------
    sound : Sound
        The sound.

    Yields
    ------
    ndarray of float64, shape (m, 2), m <= `BLOCK_TICKS`
        Left and right, `sound.ticks` in all. Their level is that of the velocities; see `mix.mastered`.

    Examples
    --------
    >>> [len(block) for block in sound_blocks(Sound(70_000, (Note(0, 48_000, 440.0),)))]
    [65536, 4464]
    """
    waiting: list[Note | Stroke] = sorted([*sound.notes, *sound.strokes], key=lambda one: -one.start_tick)
    sounding: list[_Tone | _Stroke] = []
    room = Room(sound.ticks)
    for begin in range(0, sound.ticks, BLOCK_TICKS):
        end = min(begin + BLOCK_TICKS, sound.ticks)
        middle, side = np.zeros(end - begin), np.zeros(end - begin)
        while waiting and waiting[-1].start_tick < end:
            one = waiting.pop()
            sounding.append(
                _Stroke(one, sound.ticks) if isinstance(one, Stroke) else _Tone(one, sound.timbre, sound.ticks)
            )
        for heard in sounding:
            low, high = max(heard.first, begin), min(heard.stop, end)
            samples = heard.samples(low - heard.first, high - heard.first)
            middle[low - begin : high - begin] += samples
            if heard.place:
                side[low - begin : high - begin] -= heard.place * samples
        sounding = [heard for heard in sounding if heard.stop > end]
        yield room.add(middle, side)


def render(sound: Sound) -> Samples:
    """Make a whole sound at once.

    Parameters
    ----------
    sound : Sound, at most ten minutes
        The sound.

    Returns
    -------
    ndarray of float64, shape (sound.ticks, 2)
        Its samples, left and right.

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
    return np.concatenate(blocks) if blocks else np.zeros((0, 2))
