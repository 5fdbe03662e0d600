"""Telling from inside a job how far it is, whatever process it runs in.

The work calls `tell`; who listens is settled by the runner around it (`listening`). Without a runner nothing happens.

Conventions: a job may tell as often as it likes; no more than about five words a second are passed on, with a few at
once where stages are short, so that telling costs next to nothing.
"""

from __future__ import annotations

import contextlib
import threading
import time
from collections.abc import Callable, Iterator
from contextvars import ContextVar

__all__ = ["listening", "tell"]

PER_SECOND = 5.0
"""How many words a job may say a second in the long run, and how many at once."""


class _Ear:
    """Passes on what is told, not too much of it."""

    def __init__(self, told: Callable[[str, int, int], None], clock: Callable[[], float]) -> None:
        self._told, self._clock = told, clock
        self._allowed, self._then = PER_SECOND, clock()
        self._one_by_one = threading.Lock()

    def hear(self, stage: str, done: int, total: int) -> None:
        with self._one_by_one:
            now = self._clock()
            self._allowed = min(PER_SECOND, self._allowed + (now - self._then) * PER_SECOND)
            self._then = now
            if self._allowed >= 1:
                self._allowed -= 1
                self._told(stage, done, total)


# A variable of the context, not of the process: a worker may have several threads, each with a job.
_LISTENER: ContextVar[_Ear | None] = ContextVar("listener", default=None)


def tell(stage: str, done: int, total: int) -> None:
    """Tell how far the work is.

    Parameters
    ----------
    stage : str
        What is being done, in the user's words.
    done, total : int
        How much of the stage is done.

    Examples
    --------
    >>> tell("pictures", 3, 10)
    >>> with listening(lambda stage, done, total: print(stage, done, total)):
    ...     tell("pictures", 4, 10)
    pictures 4 10
    """
    ear = _LISTENER.get()
    if ear is not None:
        ear.hear(stage, done, total)


@contextlib.contextmanager
def listening(told: Callable[[str, int, int], None], clock: Callable[[], float] = time.monotonic) -> Iterator[None]:
    """Hear what is told inside the block, in this thread.

    Parameters
    ----------
    told : callable
        Told stage, done and total.
    clock : callable, optional
        Gives the time in seconds.

    Yields
    ------
    None
        While it is heard.
    """
    token = _LISTENER.set(_Ear(told, clock))
    try:
        yield
    finally:
        _LISTENER.reset(token)
