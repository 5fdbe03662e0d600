"""Many cases of one kind: some in the usual run, all of them in the long one."""

from __future__ import annotations

import random
from collections.abc import Iterable
from typing import Any

import pytest

__all__ = ["thinned", "usually"]


def usually(cases: Iterable[Any], *stay: Any) -> list[Any]:  # noqa: ANN401 - cases are anything
    """Leave all cases but those that are named to the long run.

    Parameters
    ----------
    cases : iterable
        Cases of `pytest.mark.parametrize`; a tuple has a value for each of its names.
    *stay : case
        Those of the usual run.

    Returns
    -------
    list
        The cases in their order.
    """
    every = list(cases)
    assert all(case in every for case in stay), stay
    return [
        pytest.param(*(case if isinstance(case, tuple) else (case,)), marks=() if case in stay else pytest.mark.long)
        for case in every
    ]


def thinned(cases: Iterable[tuple[Any, ...]], share: float) -> list[Any]:
    """Leave cases of several names to the long run; each value of each name stays in the usual one.

    Parameters
    ----------
    cases : iterable of tuple
        A value for each name.
    share : float
        How many stay at least, chosen by lot and always the same.

    Returns
    -------
    list
        The cases in their order.
    """
    every = list(cases)
    drawn = random.Random(len(every)).sample(every, len(every))  # noqa: S311 - a lot
    seen: set[tuple[int, str]] = set()
    stay: list[tuple[Any, ...]] = []
    for case in drawn:
        values = {(place, repr(value)) for place, value in enumerate(case)}
        if not values <= seen:
            stay.append(case)
            seen |= values
    further = [case for case in drawn if case not in stay]
    return usually(every, *stay, *further[: max(0, round(share * len(every)) - len(stay))])
