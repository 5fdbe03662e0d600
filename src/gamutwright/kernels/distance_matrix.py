"""Sizes of minimal voice leadings from one set to many, for the nearest scales of large divisions.

The method is that of `theory.voiceleading`: the larger set, in order round the circle, is cut into as many runs as the
smaller has tones, for every tone of the smaller that the first run may go to and every place where it may begin.

Conventions: as in `theory.voiceleading`, measured by the sum of the distances (L1).
"""

# numba compiles these functions from their bytecode, which its decorators do not type.
# mypy: disallow-untyped-decorators=False, disallow-untyped-calls=False

from __future__ import annotations

import numba
import numpy as np
from numpy.typing import NDArray

__all__ = ["voice_leading_sizes"]

FAR = 1 << 20


@numba.njit(nogil=True, cache=True)
def _members(word: np.uint64, divisions: int, tones: NDArray[np.int64]) -> int:
    count = 0
    for step in range(divisions):
        if (numba.uint64(word) >> numba.uint64(step)) & numba.uint64(1):
            tones[count] = step
            count += 1
    return count


@numba.njit(nogil=True, cache=True)
def _size(
    larger: NDArray[np.int64],
    n_larger: int,
    smaller: NDArray[np.int64],
    n_smaller: int,
    divisions: int,
    totals: NDArray[np.int64],
) -> int:
    best = FAR
    spare = n_larger - n_smaller
    for turn in range(n_smaller):
        for early in range(spare + 1):
            totals[:n_smaller] = FAR
            for place in range(n_larger):
                tone = larger[(place - early) % n_larger]
                # From the last target down, so that each total still is that of the tone before.
                for target in range(min(place, n_smaller - 1), max(0, place - spare) - 1, -1):
                    before = totals[target]
                    if target > 0:
                        before = min(before, totals[target - 1])
                    if place == 0:
                        before = 0
                    up = (smaller[(target + turn) % n_smaller] - tone) % divisions
                    totals[target] = before + min(up, divisions - up)
                if place > spare:
                    totals[place - spare - 1] = FAR
            best = min(best, totals[n_smaller - 1])
    return best


@numba.njit(nogil=True, cache=True)
def _sizes(masks: NDArray[np.uint64], other: np.uint64, divisions: int, found: NDArray[np.int32]) -> None:
    ours, theirs = np.empty(divisions, np.int64), np.empty(divisions, np.int64)
    totals = np.empty(divisions, np.int64)
    n_theirs = _members(other, divisions, theirs)
    for index in range(masks.size):
        n_ours = _members(masks[index], divisions, ours)
        if n_ours >= n_theirs:
            found[index] = _size(ours, n_ours, theirs, n_theirs, divisions, totals)
        else:
            found[index] = _size(theirs, n_theirs, ours, n_ours, divisions, totals)


def voice_leading_sizes(masks: NDArray[np.uint64], other: int, divisions: int) -> NDArray[np.int32]:
    """Measure the minimal voice leading between each of many sets and one other.

    Parameters
    ----------
    masks : array (n,) uint64
        The sets, none of them empty.
    other : int in [1, 2**divisions)
        The other set.
    divisions : int in [1, 36]
        Equal divisions of the octave.

    Returns
    -------
    array (n,) int32, steps of the division
        The sizes.

    Examples
    --------
    >>> voice_leading_sizes(np.array([0b000010010001, 0b001000010001], np.uint64), 0b001000010001, 12).tolist()
    [2, 0]
    """
    found = np.empty(masks.size, np.int32)
    _sizes(masks, np.uint64(other), divisions, found)
    return found
