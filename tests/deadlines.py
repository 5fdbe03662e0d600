"""Waiting with a limit: work that would never end fails instead of holding up the whole run.

A limit is generous, so that it says nothing of speed: what takes how long is measured in `benchmarks/`.
"""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

__all__ = ["GENEROUS_S", "before_long"]

GENEROUS_S = 120.0


@contextmanager
def before_long(seconds: float = GENEROUS_S) -> Iterator[None]:
    """Fail where the block has not ended in time; for the main thread of systems with timers."""

    def late(number: int, frame: FrameType | None) -> None:
        raise AssertionError(f"this has not ended after {seconds:g} s")

    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
