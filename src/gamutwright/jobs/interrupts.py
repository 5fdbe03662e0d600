"""Ctrl-C that waits for the end of a piece of work which must not be cut through.

Python raises KeyboardInterrupt wherever the program happens to be. Inside a function that a library written in C calls
back it is printed and forgotten, and what the function should have taken is missing; while a process is being started
the process would be there and nobody know of it. In such places the interrupt is noted, and raised when they are over.

Reference: Python documentation, module `signal`, "Execution of Python signal handlers" (read for 3.11): a handler runs
in the main thread, between two instructions, and only there.
"""

from __future__ import annotations

import contextlib
import signal
import threading
from collections.abc import Iterator

__all__ = ["held_interrupts"]


@contextlib.contextmanager
def held_interrupts() -> Iterator[None]:
    """Let an interrupt wait until the end of a block.

    In other threads than the main one nothing has to be done: interrupts are never raised there.

    Yields
    ------
    None
        The block should be short, since the program does not answer to Ctrl-C in the meantime.

    Examples
    --------
    >>> done = []
    >>> try:
    ...     with held_interrupts():
    ...         signal.raise_signal(signal.SIGINT)
    ...         done.append("the work")
    ... except KeyboardInterrupt:
    ...     done.append("the interrupt")
    >>> done
    ['the work', 'the interrupt']
    """
    before = signal.getsignal(signal.SIGINT)
    if threading.current_thread() is not threading.main_thread() or before is None:
        yield
        return
    came: list[int] = []
    signal.signal(signal.SIGINT, lambda number, _frame: came.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if came:
            signal.raise_signal(signal.SIGINT)
