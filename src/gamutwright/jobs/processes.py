"""Worker processes on this machine: started, spoken to, heard and buried, one job each at a time.

Each has a line of its own to this process, so one that dies takes nothing else with it, and what it had in hand is
known.

Conventions: a worker is named after its process. It does not hear Ctrl-C, which is this process's business, and it
ends by itself when this process is gone.
"""

from __future__ import annotations

import contextlib
import importlib
import multiprocessing
import os
import signal
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess

from gamutwright.errors import JobError
from gamutwright.jobs.asking import Asked, Refusal, answered
from gamutwright.jobs.interrupts import held_interrupts
from gamutwright.jobs.outcome import Report
from gamutwright.jobs.roster import ATTEMPTS

__all__ = ["Gone", "Processes", "Ready", "Said", "Word"]


@dataclass(frozen=True, slots=True)
class Ready:
    """A worker can take its first job."""


@dataclass(frozen=True, slots=True)
class Word:
    """How far a worker is with its job."""

    stage: str
    done: int
    total: int


@dataclass(frozen=True, slots=True)
class Gone:
    """A worker ended; `how` says by what."""

    how: str


Said = Ready | Word | Report | Refusal | Gone


@dataclass(frozen=True, slots=True, eq=False)
class _Worker:
    name: str
    process: BaseProcess
    line: Connection
    """To it goes what to import and what to do; from it come words, reports, and at first that it is there."""

    def end(self, *, at_once: bool) -> str:
        """End it, and say how it ended."""
        if at_once:
            self.process.kill()
        self.line.close()
        self.process.join()
        code = self.process.exitcode or 0
        self.process.close()
        return f"it was ended by signal {-code}" if code < 0 else f"it ended with exit code {code}"


class Processes:
    """The workers of a pool.

    Parameters
    ----------
    is_daemon : bool
        Whether they are ended where this process ends without having ended them, and start none of their own.
    """

    def __init__(self, *, is_daemon: bool = False) -> None:
        self._is_daemon = is_daemon
        self._there: dict[str, _Worker] = {}
        self._starting: dict[str, _Worker] = {}
        self._failed_starts = 0

    @property
    def ready(self) -> list[str]:
        """The names of those that can be given work."""
        return list(self._there)

    def start(self, count: int) -> None:
        """See to it that there are as many workers, or that they are being started.

        Parameters
        ----------
        count : int
            How many.
        """
        missing = count - len(self._there) - len(self._starting)
        if missing <= 0:
            return
        context = multiprocessing.get_context("spawn")
        with _deaf_to_interrupts():
            for _ in range(missing):
                ours, theirs = context.Pipe()
                process = context.Process(target=_serve, args=(theirs,), daemon=self._is_daemon)
                process.start()
                theirs.close()
                name = f"process {process.pid}"
                self._starting[name] = _Worker(name, process, ours)

    def ask(self, name: str, asked: Asked) -> None:
        """Give a worker a job; one that is gone is heard.

        Parameters
        ----------
        name : str
            A worker that has none.
        asked : Asked
            The job.
        """
        with contextlib.suppress(OSError):
            self._there[name].line.send(asked)

    def warm(self, modules: Sequence[str]) -> None:
        """Have all workers import what they are going to need.

        Parameters
        ----------
        modules : sequence of str
            Names of modules.
        """
        for worker in (*self._starting.values(), *self._there.values()):
            with contextlib.suppress(OSError):
                worker.line.send(tuple(modules))

    def heard(self, timeout_s: float | None = None) -> list[tuple[str, Said]]:
        """Wait until some worker says something or is gone.

        Parameters
        ----------
        timeout_s : float, optional
            How long; for ever without it.

        Returns
        -------
        list of tuple
            Its name, and what it said.

        Raises
        ------
        JobError
            If one after the other ends before it is ready.
        """
        everyone = {**self._starting, **self._there}
        spoken = wait([worker.line for worker in everyone.values()], timeout_s)
        heard: list[tuple[str, Said]] = []
        for name, worker in everyone.items():
            if worker.line in spoken:
                try:
                    said: Said = worker.line.recv()
                except (EOFError, OSError):
                    said = Gone(self.bury(name))
                if isinstance(said, Ready):
                    self._there[name] = self._starting.pop(name)
                    self._failed_starts = 0
                heard.append((name, said))
        return heard

    def bury(self, name: str) -> str:
        """End a worker at once, dead or alive.

        Parameters
        ----------
        name : str
            The worker.

        Returns
        -------
        str
            How it ended.

        Raises
        ------
        JobError
            If one after the other ended before it was ready.
        """
        self._failed_starts += name in self._starting
        how = (self._starting.pop(name, None) or self._there.pop(name)).end(at_once=True)
        if self._failed_starts >= 2 * ATTEMPTS:
            self._failed_starts = 0
            raise JobError(
                "the worker processes",
                f"they end before they are ready ({how})",
                "See whether memory ran out (`gamutwright doctor`). A program of your own must begin its work under "
                "`if __name__ == '__main__':`.",
            )
        return how

    def end(self, *, at_once: bool) -> None:
        """End all workers.

        Parameters
        ----------
        at_once : bool
            In the middle of what they are doing; otherwise they may end it.
        """
        # Those that are still starting have nothing to end.
        workers = [(worker, True) for worker in self._starting.values()]
        workers += [(worker, at_once) for worker in self._there.values()]
        self._starting, self._there = {}, {}
        for worker, is_now in workers:
            if is_now:
                worker.process.kill()
        for worker, is_now in workers:
            worker.end(at_once=is_now)


@contextlib.contextmanager
def _deaf_to_interrupts() -> Iterator[None]:
    """Start processes that do not hear Ctrl-C from their first moment on; this one hears it when they are started."""
    with held_interrupts():
        if not hasattr(signal, "pthread_sigmask"):  # pragma: no cover - Windows, whose processes inherit no such mask
            yield
            return
        # Where the tracker is started only with the first process, it takes the signal off the mask.
        resource_tracker.ensure_running()
        before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        try:
            yield
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _prepare() -> None:
    """Leave Ctrl-C to the program that started this worker, and end when that program is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_follow, args=(parent,), daemon=True).start()


def _follow(parent: BaseProcess) -> None:
    parent.join()
    os._exit(1)


def _serve(line: Connection) -> None:
    """Be a worker, until the line is closed."""
    _prepare()

    def hear(stage: str, done: int, total: int) -> None:
        line.send(Word(stage, done, total))

    line.send(Ready())
    while True:
        try:
            asked = line.recv()
        except (EOFError, OSError):
            return
        if isinstance(asked, Asked):
            line.send(answered(asked, hear))
        else:
            for module in asked:
                with contextlib.suppress(ImportError):
                    importlib.import_module(module)
