"""Many cases of one kind: a share of them in the usual run, all of them in the long one."""

from __future__ import annotations

import random
from collections.abc import Iterable
from typing import Any

import pytest

__all__ = ["thinned"]


def thinned(cases: Iterable[Any], usual: float) -> list[Any]:
    """Leave all but a share of the cases to the long run.

    Parameters
    ----------
    cases : iterable
        Cases of `pytest.mark.parametrize`; a tuple has a value for each of its names.
    usual : float
        The share that stays, chosen by lot and always the same; at least one case does.

    Returns
    -------
    list
        The cases in their order.
    """
    every = list(cases)
    stay = random.Random(len(every)).sample(range(len(every)), max(1, round(usual * len(every))))  # noqa: S311 - a lot
    return [
        pytest.param(*(case if isinstance(case, tuple) else (case,)), marks=() if index in stay else pytest.mark.long)
        for index, case in enumerate(every)
    ]
