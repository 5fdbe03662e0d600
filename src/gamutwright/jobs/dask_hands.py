"""The hands of a Dask worker: processes of its own that do its jobs, while Dask's threads only wait for them.

In a thread of the worker a job would share Python's lock with Dask's own work, and the whole process has settings of
memory that suit tables: it gives memory back to the system at every turn, which frames of a film are made anew for each
time. A process beside it, kept from job to job, is like one of this machine's own pool, and what a job does to it does
nothing to the worker.

Sources: distributed 2026.8, `distributed.yaml` (nanny.pre-spawn-environ) and nanny.py (workers are daemons), read; the
manual of glibc, mallopt(3), from memory: with a threshold set, blocks of 128 KiB and more are mapped anew each time.

Conventions: a process is used by one thread at a time. It ends with its worker, however that ends.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from gamutwright.errors import JobError
from gamutwright.jobs.asking import Asked, Refusal
from gamutwright.jobs.outcome import Report
from gamutwright.jobs.processes import Gone, Processes, Word

__all__ = ["Dropped", "perform"]

MEMORY_SETTING = "MALLOC_TRIM_THRESHOLD_"
"""What Dask sets for its workers; it costs the making of a film a seventh of its time."""


@dataclass(frozen=True, slots=True)
class Dropped:
    """The answer where a process or a worker died of a job, or the job is lost; `why` says by what."""

    why: str


class _Hand:
    """A process for one job at a time."""

    def __init__(self) -> None:
        # A daemon: one that waits for its next job must not hold up the end of its worker.
        self._processes = Processes(is_daemon=True)

    def do(self, asked: Asked, told: Callable[[str, int, int], None]) -> Report | Refusal | Dropped:
        try:
            self._be_ready()
        except (JobError, OSError) as error:
            rule = error.rule if isinstance(error, JobError) else error
            return Refusal((f"no process can be started there, see whether its memory ran out ({rule})",))
        self._processes.ask(self._processes.ready[0], asked)
        while True:
            for _, said in self._processes.heard():
                if isinstance(said, Word):
                    told(said.stage, said.done, said.total)
                elif isinstance(said, Gone):
                    return Dropped(said.how)
                elif isinstance(said, Report | Refusal):
                    return said

    def end(self) -> None:
        self._processes.end(at_once=True)

    def _be_ready(self) -> None:
        # One that has died since its last job is no fault of the next.
        self._processes.heard(timeout_s=0.0)
        while not self._processes.ready:
            with _startable():
                self._processes.start(1)
            self._processes.heard()


_starting = threading.Lock()
_idle: list[_Hand] = []
"""Those of this worker that have nothing to do; appended to and popped from, which no other thread can cut through."""


def perform(asked: Asked, note: tuple[str, str, int, str]) -> Report | Refusal | Dropped:
    """Have a job done, on a worker of the cluster.

    Parameters
    ----------
    asked : Asked
        The job.
    note : tuple
        Topic of what is told; key, attempt and worker.

    Returns
    -------
    Report, Refusal or Dropped
        How it ended, why it was not begun, or what its process died of.
    """
    from distributed import get_worker  # noqa: PLC0415 - an optional part

    topic, *where = note
    worker = get_worker()
    try:
        hand = _idle.pop()
    except IndexError:
        hand = _Hand()
    try:
        answer = hand.do(asked, lambda stage, done, total: worker.log_event(topic, (*where, stage, done, total)))
    except BaseException:
        # Nobody knows what it is doing.
        hand.end()
        raise
    _idle.append(hand)
    return answer


@contextlib.contextmanager
def _startable() -> Iterator[None]:
    """Start processes from within a worker as from any program.

    The nanny marks workers as daemons, and those may have no children, lest they be orphaned; ours end by themselves.
    """
    own = multiprocessing.current_process()
    with _starting:
        is_daemon, setting = own.daemon, os.environ.pop(MEMORY_SETTING, None)
        own.daemon = False
        try:
            yield
        finally:
            own.daemon = is_daemon
            if setting is not None:
                os.environ[MEMORY_SETTING] = setting
