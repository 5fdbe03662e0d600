"""Flashes, as WCAG 2.2 counts them: general flashes and red flashes, at most three in any second.

A general flash is a pair of opposing changes of relative luminance by a tenth or more of the brightest there is, the
darker of the two below 0.80. A red flash is a pair of opposing changes that involve saturated red, which makes up four
fifths of the light and whose (R - G - B) x 320 changes by more than 20. The criterion allows what flashes on less than
a quarter of 341 x 256 pixels of a picture of 1024 x 768, which is 2.8 % of it; here it may be 0.7 %, which also holds
for somebody who sits so near that the picture fills 60 degrees. Below any such share lie marks that move: they make
single blocks bright and dark again, and are no flash.

Conventions: frames are given as arrays of blocks; a second is 30 of them. Sources: WCAG 2.2, success criterion 2.3.1
and its definition of general flash and red flash (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["MOST_FLASHES", "FlashMeter", "Flashes", "blocks", "flashes_in_a_second"]

MOST_FLASHES = 3
SECOND = 30
GENERAL_STEP = 0.1
GENERAL_DARKER = 0.8
RED_STEP = 20.0
LARGEST_SHARE = 0.007
"""Of the picture; what flashes on less is not counted."""


@dataclass(frozen=True, slots=True)
class Flashes:
    """The worst second.

    Parameters
    ----------
    most : int
        How many flashes it has.
    frame : int
        Where it ends.
    """

    most: int
    frame: int


class FlashMeter:
    """Counts flashes as frames come, in memory that does not grow.

    Parameters
    ----------
    step : float
        The least change that counts.
    darker : float
        The darker side of a change lies below this.

    Examples
    --------
    >>> meter = FlashMeter()
    >>> meter.add(np.tile([[0.0], [0.0], [0.0], [1.0], [1.0], [1.0]], (10, 1)))
    >>> meter.result().most
    5
    """

    def __init__(self, step: float = GENERAL_STEP, darker: float = GENERAL_DARKER) -> None:
        self._step, self._darker = step, darker
        self._last: NDArray[np.float32] | None = None
        self._sign = np.zeros(0, np.int8)
        self._turns = np.zeros((SECOND, 0), np.bool_)
        self._frame = 0
        self._worst = Flashes(0, 0)

    def add(self, frames: NDArray[np.floating]) -> None:
        """See some more frames.

        Parameters
        ----------
        frames : array (frames, ...) of float
            A value for each block.
        """
        for frame in frames.reshape(len(frames), -1):
            self._see(frame)

    def _see(self, now: NDArray[np.floating]) -> None:
        if self._last is None:
            self._last = now.astype(np.float32)
            self._sign = np.zeros(len(now), np.int8)
            self._turns = np.zeros((SECOND, len(now)), np.bool_)
        rise = now - self._last
        sign = np.sign(rise).astype(np.int8)
        is_change = (np.abs(rise) >= self._step) & (np.minimum(now, self._last) < self._darker)
        is_turn = is_change & (sign != self._sign)
        # A change that goes on the same way moves the level from which the next one is counted.
        goes_on = (self._sign != 0) & (sign == self._sign)
        self._turns[self._frame % SECOND] = is_turn
        if is_turn.any():
            turns = self._turns.sum(axis=0)
            area = max(1, round(LARGEST_SHARE * len(turns)))
            # So many blocks, or more, have at least this many turns within the second.
            most = int(np.partition(turns, len(turns) - area)[len(turns) - area]) // 2
            if most > self._worst.most:
                self._worst = Flashes(most, self._frame)
        self._last = np.where(is_change | goes_on, now, self._last).astype(np.float32)
        self._sign = np.where(is_change, sign, self._sign)
        self._frame += 1

    def result(self) -> Flashes:
        """Say how bad the worst second was.

        Returns
        -------
        Flashes
            The number, and where.
        """
        return self._worst


def flashes_in_a_second(frames: NDArray[np.floating]) -> int:
    """Count the general flashes of the worst second.

    Parameters
    ----------
    frames : array (frames, ...) of float
        Relative luminance of blocks.

    Returns
    -------
    int
        Flashes in the worst second.

    Examples
    --------
    >>> flashes_in_a_second(np.linspace(0, 1, 60)[:, None])
    0
    """
    meter = FlashMeter()
    meter.add(frames)
    return meter.result().most


def blocks(frames: NDArray[np.uint8]) -> NDArray[np.float64]:
    """Average blocks of 20 by 20 pixels, in relative luminance.

    Parameters
    ----------
    frames : array (frames, height, width) uint8
        Grey in full range.

    Returns
    -------
    array (frames, rows, columns) float64
        Relative luminance (IEC 61966-2-1).

    Examples
    --------
    >>> blocks(np.full((1, 40, 60), 255, np.uint8)).shape
    (1, 2, 3)
    """
    value = np.arange(256) / 255
    linear = np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)[frames]
    count, height, width = linear.shape
    cut = linear[:, : height // 20 * 20, : width // 20 * 20]
    found: NDArray[np.float64] = cut.reshape(count, height // 20, 20, width // 20, 20).mean(axis=(2, 4))
    return found
