"""One pass over the sound of a film: level and true peak of the whole, and the stretches that somebody wants to hear.

Conventions: samples are float64 at 48,000 a second, one channel where stretches are handed out, so a sample is a tick.
Memory holds one stretch at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np

from gamutwright.errors import FileError
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.render.loudness import Loudness, Meter
from gamutwright.render.readback.container import open_film
from gamutwright.render.synth import Samples

__all__ = ["LONGEST_STRETCH", "Heard", "Stretch", "listen"]

LONGEST_STRETCH = 4 * TICKS_PER_SECOND


@dataclass(frozen=True, slots=True)
class Stretch:
    """What somebody wants to hear.

    Parameters
    ----------
    start_tick, end_tick : int
        From when to when, at most four seconds.
    hear : callable
        Told the samples; there are fewer where the film ends.
    """

    start_tick: int
    end_tick: int
    hear: Callable[[Samples], None]


@dataclass(frozen=True, slots=True)
class Heard:
    """The sound as a whole.

    Parameters
    ----------
    ticks : int
        How long it is.
    channels : int
        How many channels it has.
    loudness : Loudness
        Measured on what a player decodes.
    """

    ticks: int
    channels: int
    loudness: Loudness


class _Tape:
    """Keeps of what was heard as much as is still wanted."""

    def __init__(self, stretches: Sequence[Stretch]) -> None:
        self._waiting = sorted(stretches, key=lambda stretch: stretch.end_tick, reverse=True)
        self._kept = np.zeros(0)
        self._first = 0

    def add(self, samples: Samples) -> None:
        self._kept = np.concatenate([self._kept, samples])
        self._hand_out(self._first + len(self._kept))
        earliest = self._first + len(self._kept)
        if self._waiting:
            # Stretches end in order, and none is longer than the limit.
            earliest = min(earliest, self._waiting[-1].end_tick - LONGEST_STRETCH)
        if earliest > self._first:
            self._kept = self._kept[earliest - self._first :]
            self._first = earliest

    def finish(self) -> None:
        self._hand_out(1 << 62)

    def _hand_out(self, upto: int) -> None:
        while self._waiting and self._waiting[-1].end_tick <= upto:
            stretch = self._waiting.pop()
            low = max(0, stretch.start_tick - self._first)
            stretch.hear(self._kept[low : max(low, stretch.end_tick - self._first)].copy())


def _decoded(path: Path, channels: int) -> Iterator[Samples]:
    with open_film(path) as film:
        resampler = av.AudioResampler(
            format="dblp", layout="mono" if channels == 1 else "stereo", rate=TICKS_PER_SECOND
        )
        for frame in film.decode(audio=0):
            for part in resampler.resample(frame):
                yield np.ascontiguousarray(part.to_ndarray().T)
        for part in resampler.resample(None):
            yield np.ascontiguousarray(part.to_ndarray().T)


def listen(
    path: Path,
    stretches: Sequence[Stretch],
    ticks: int,
    progress: Callable[[int, int], None] | None = None,
) -> Heard:
    """Hear a whole film.

    Parameters
    ----------
    path : Path
        The film.
    stretches : sequence of Stretch
        What is handed out, in one channel.
    ticks : int
        How long it should be, for the progress.
    progress : callable, optional
        Told the seconds heard, and how many there are.

    Returns
    -------
    Heard
        Length and level.

    Raises
    ------
    FileError
        If there is no sound, or it cannot be decoded.
    """
    heard, told = 0, 0
    try:
        with open_film(path) as film:
            if not film.streams.audio:
                raise FileError(str(path), "it holds no sound", "Give a finished film.")
            channels = min(2, film.streams.audio[0].channels)
        meter, tape = Meter(channels), _Tape(stretches)
        for block in _decoded(path, channels):
            meter.add(block)
            tape.add(block.mean(axis=1))
            heard += len(block)
            if progress and heard - told >= TICKS_PER_SECOND:
                told = heard
                progress(heard // TICKS_PER_SECOND, max(heard, ticks) // TICKS_PER_SECOND)
        tape.finish()
    except av.error.FFmpegError as error:
        raise FileError(
            str(path),
            f"its sound cannot be decoded behind {heard / TICKS_PER_SECOND:.1f} s ({error.strerror})",
            "Render it again.",
        ) from error
    return Heard(heard, channels, meter.result())
