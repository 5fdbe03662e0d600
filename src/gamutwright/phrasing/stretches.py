"""Stretches of a text: which of many lie within which others, without holding each against each.

Conventions: a stretch begins at its first character and ends before its second number.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable
from itertools import accumulate

__all__ = ["within"]


def within(stretches: Iterable[tuple[int, int]]) -> Callable[[int, int], bool]:
    """Make a question out of stretches, whether another lies within one of them.

    Parameters
    ----------
    stretches : iterable of (int, int)
        They may overlap, and come in any order.

    Returns
    -------
    callable
        Told start and end of a stretch, it says whether it lies within one of these.

    Examples
    --------
    >>> is_bound = within([(4, 9), (0, 2)])
    >>> is_bound(5, 9), is_bound(5, 10), is_bound(2, 4)
    (True, False, False)
    """
    ordered = sorted(stretches)
    starts = [start for start, _ in ordered]
    furthest = list(accumulate((end for _, end in ordered), max))

    def is_within(start: int, end: int) -> bool:
        before = bisect_right(starts, start)
        return before > 0 and furthest[before - 1] >= end

    return is_within
