"""Whether sound and picture come when they should, and together.

The sound: an example begins after a rest, so its first tone is where the level rises from nearly nothing. The
picture: a cut is where blocks of the frame change at once. Eased changes have no such moment and are left to the
places that are read behind them. The median of all is how far the one or the other is off.

Conventions: ticks; late is positive. One frame is allowed: ITU-R BT.1359 finds 45 ms of early sound noticeable (from
memory), and a frame lasts 33.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gamutwright.ir.evidence import Change, Example
from gamutwright.ir.timeline import FRAME_TICKS
from gamutwright.render.readback.watching import Group
from gamutwright.render.synth import Samples

__all__ = ["AROUND_TICKS", "Changes", "Late", "first_onsets", "onset_late_ticks"]

AROUND_TICKS = 12_000
"""How far around a promised onset is listened: a quarter of a second."""
REACH = 8
"""How many frames around a change are looked at."""
HOP = 48
RISEN = 0.15
LEAST_STEP = 0.01
"""Smaller changes of a block's luminance may be coding."""
LEAST_SHARE = 0.1
"""So may those that are much smaller than the one that follows."""


@dataclass(frozen=True, slots=True)
class Late:
    """How late something is.

    Parameters
    ----------
    tick : int
        When it should be.
    ticks : float
        How much later it is.
    """

    tick: int
    ticks: float


def onset_late_ticks(samples: Samples) -> float | None:
    """Say how late a tone begins that should begin in the middle.

    Parameters
    ----------
    samples : ndarray of float64
        From `AROUND_TICKS` before to as much behind.

    Returns
    -------
    float or None
        Ticks; None where nothing rises.

    Examples
    --------
    >>> onset_late_ticks(np.r_[np.zeros(12_480), np.ones(11_520)])
    480.0
    """
    hops = np.abs(samples[: len(samples) // HOP * HOP]).reshape(-1, HOP).max(axis=1, initial=0.0)
    if not len(hops) or hops.max() < 1e-4:
        return None
    first = int(np.argmax(hops >= RISEN * hops.max()))
    return None if first == 0 else float(first * HOP - AROUND_TICKS)


class Changes:
    """Gathers how much the picture changes from frame to frame.

    Parameters
    ----------
    frames : int
        About how many there are.
    """

    def __init__(self, frames: int) -> None:
        self._moved = np.zeros(frames + 1, np.float32)
        self._last: NDArray[np.float32] | None = None

    def see(self, group: Group) -> None:
        """See some more frames.

        Parameters
        ----------
        group : Group
            The frames.
        """
        before = group.luminance[:1] if self._last is None else self._last[None]
        moved = np.abs(np.diff(np.concatenate([before, group.luminance]), axis=0)).max(axis=(1, 2))
        end = group.first + len(moved)
        if end > len(self._moved):
            self._moved = np.concatenate([self._moved, np.zeros(end, np.float32)])
        self._moved[group.first : end] = moved
        self._last = group.luminance[-1]

    def late(self, changes: Sequence[Change]) -> list[Late]:
        """Say how late the cuts are that stand apart from others.

        Parameters
        ----------
        changes : sequence of Change
            What was promised.

        Returns
        -------
        list of Late
            Those that were seen.
        """
        found = []
        for index, change in enumerate(changes):
            low, high = change.frame - REACH, change.frame + change.moving + REACH
            before = changes[index - 1] if index else None
            after = changes[index + 1] if index + 1 < len(changes) else None
            is_apart = (before is None or before.frame + before.moving <= low - REACH) and (
                after is None or after.frame >= high + REACH
            )
            if change.moving or not is_apart or low < 1 or high >= len(self._moved):
                continue
            moved = self._moved[low : high + 1]
            if moved.max() < LEAST_STEP:
                continue
            seen = low + int(np.argmax(moved >= max(LEAST_STEP, LEAST_SHARE * float(moved.max()))))
            found.append(Late(change.frame * FRAME_TICKS, float((seen - change.frame) * FRAME_TICKS)))
        return found


def first_onsets(examples: Sequence[Example]) -> list[int]:
    """List when examples begin to sound.

    Parameters
    ----------
    examples : sequence of Example
        The examples.

    Returns
    -------
    list of int
        The ticks of their first tones or strokes.
    """
    begins = (
        [*(tone.start_tick for tone in one.tones), *(knock.start_tick for knock in one.knocks)] for one in examples
    )
    return [min(ticks) for ticks in begins if ticks]
