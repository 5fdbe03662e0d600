"""Which story each lesson of a course tells, so that none is told twice in a row where it can be helped.

Conventions: a lesson tells the story that fits best, or the next one that fits nearly as well where the lesson before
it tells the same. A story that is far from fitting is worse than one told again.
"""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["NEARLY_AS_GOOD", "spread_stories"]

NEARLY_AS_GOOD = 4
"""How many points of its score a story may lie behind the best and still be told for the sake of variety."""


def spread_stories(offers: Sequence[Sequence[tuple[str, int]]]) -> tuple[str, ...]:
    """Choose a story for each lesson of a course.

    Parameters
    ----------
    offers : sequence of sequence of (str, int)
        For each lesson the stories that fit it and their scores, the best first; a single one where its script tells
        one already.

    Returns
    -------
    tuple of str
        A story for each lesson; "" where none fits.

    Examples
    --------
    >>> spread_stories([[("a", 9), ("b", 6)], [("a", 9), ("b", 6)], [("a", 9), ("c", 1)]])
    ('a', 'b', 'a')
    """
    chosen: list[str] = []
    for place, offered in enumerate(offers):
        before = chosen[-1] if chosen else ""
        after = offers[place + 1][0][0] if place + 1 < len(offers) and len(offers[place + 1]) == 1 else ""
        best = offered[0][1] if offered else 0
        near = [name for name, score in offered if score >= best - NEARLY_AS_GOOD]
        other = [name for name in near if name not in {before, after}] or [name for name in near if name != before]
        chosen.append((other or near or [""])[0])
    return tuple(chosen)
