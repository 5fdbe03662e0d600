"""Samples in time, made block by block as often as they are asked for.

Levels can only be set once a whole sound was heard, so what is measured must be made again to be written. A signal is
therefore a recipe: it is run twice instead of kept in memory.

**Conventions.** Samples are float64 at 48,000 a second; full scale is 1. Blocks of one channel have the shape (m,), of
two (m, 2), left and right. One channel of two is their mean, and two of one are that one twice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gamutwright.ir.sound import TICKS_PER_SECOND, Sound
from gamutwright.render.synth import BLOCK_TICKS, Samples, sound_blocks

__all__ = ["Signal", "true_runs"]


@dataclass(frozen=True, slots=True, eq=False)
class Signal:
    """A recipe for samples.

    Parameters
    ----------
    ticks : int >= 0
        How many samples there are.
    make : callable
        Gives them from the beginning, in blocks of any length, each time it is called.
    channels : int, 1 or 2
        How many channels the blocks have.
    """

    ticks: int
    make: Callable[[], Iterator[Samples]]
    channels: int = 1

    @classmethod
    def of_samples(cls, samples: NDArray[np.floating]) -> Signal:
        """Take samples that are in memory.

        Parameters
        ----------
        samples : ndarray of float, shape (m,) or (m, 2)
            The samples.

        Returns
        -------
        Signal
            The same, in blocks.

        Examples
        --------
        >>> Signal.of_samples(np.zeros(3)).ticks
        3
        """

        def make() -> Iterator[Samples]:
            for begin in range(0, len(samples), BLOCK_TICKS):
                yield samples[begin : begin + BLOCK_TICKS].astype(np.float64)

        return cls(len(samples), make, samples.ndim)

    @classmethod
    def of_sound(cls, sound: Sound) -> Signal:
        """Play a sound on our own synthesiser.

        Parameters
        ----------
        sound : Sound
            The sound.

        Returns
        -------
        Signal
            Its samples in two channels, at the level of its velocities.

        Examples
        --------
        >>> Signal.of_sound(Sound(10)).samples().shape
        (10, 2)
        """
        return cls(sound.ticks, lambda: sound_blocks(sound), channels=2)

    @property
    def seconds(self) -> float:
        """Length in seconds."""
        return self.ticks / TICKS_PER_SECOND

    def amplified(self, gain: float) -> Signal:
        """Multiply every sample.

        Parameters
        ----------
        gain : float
            The factor.

        Returns
        -------
        Signal
            The louder or softer signal.

        Examples
        --------
        >>> Signal.of_samples(np.ones(2)).amplified(0.5).samples()
        array([0.5, 0.5])
        """
        return Signal(self.ticks, lambda: (block * gain for block in self.make()), self.channels)

    def in_channels(self, channels: int) -> Signal:
        """Give the same in one channel or in two.

        Parameters
        ----------
        channels : int, 1 or 2
            How many are wanted.

        Returns
        -------
        Signal
            The same where it has as many.

        Examples
        --------
        >>> Signal.of_samples(np.array([[1.0, 0.0]])).in_channels(1).samples()
        array([0.5])
        >>> Signal.of_samples(np.ones(1)).in_channels(2).samples()
        array([[1., 1.]])
        """
        if channels == self.channels:
            return self
        if channels == 1:
            return Signal(self.ticks, lambda: (block.mean(axis=1) for block in self.make()))
        return Signal(self.ticks, lambda: (np.repeat(block[:, None], 2, axis=1) for block in self.make()), 2)

    def samples(self) -> Samples:
        """Make everything at once, for short signals.

        Returns
        -------
        ndarray of float64, shape (ticks,) or (ticks, 2)
            All samples.
        """
        blocks = list(self.make())
        return np.concatenate(blocks) if blocks else np.zeros((0, 2) if self.channels == 2 else 0)


def true_runs(is_set: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Find where something holds without a break.

    Parameters
    ----------
    is_set : ndarray of bool, shape (m,)
        Whether it holds at each place.

    Returns
    -------
    ndarray of int, shape (runs, 2)
        Start and end of each run, half-open, in order.

    Examples
    --------
    >>> true_runs(np.array([True, False, True, True])).tolist()
    [[0, 1], [2, 4]]
    """
    return np.flatnonzero(np.diff(is_set, prepend=False, append=False)).reshape(-1, 2)
