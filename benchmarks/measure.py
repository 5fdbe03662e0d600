"""Timing helpers shared by the benchmarks."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """One line of the printed table."""

    what: str
    figure: str
    target: str = ""
    is_missed: bool = False
    against: str = ""
    ratio: str = ""


def seconds(work: Callable[[], object]) -> float:
    """Time one run."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def median_seconds(work: Callable[[], object], runs: int, warmup: int = 1) -> float:
    """Time several runs after a warm-up and take the median."""
    for _ in range(warmup):
        work()
    return statistics.median(seconds(work) for _ in range(runs))


def timed(what: str, took: float, target: float | None = None) -> Row:
    """Make a row of a time in seconds and the time allowed for it."""
    figure = f"{took * 1000:.1f} ms" if took < 1 else f"{took:.2f} s"
    if target is None:
        return Row(what, figure)
    allowed = f"≤ {target * 1000:g} ms" if target < 1 else f"≤ {target:g} s"
    return Row(what, figure, allowed, is_missed=took > target)
