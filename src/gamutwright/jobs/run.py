"""Running jobs on the cores of this machine, with every result in the store.

A result is put into the store by the process that made it, so nothing large travels between processes, a run that is
stopped loses only what was in flight, and the next run takes up where it ended. A worker that dies takes its job with
it; the job is given to another, and given up when it has taken three workers down.

Conventions: results are asked for by `result`, which makes again what the store has lost since. Ctrl-C ends the
workers at once. Workers end by themselves when the program that started them is gone.
"""

from __future__ import annotations

import contextlib
import importlib
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path
from types import TracebackType
from typing import Self

from gamutwright.errors import JobError
from gamutwright.jobs.model import Job
from gamutwright.jobs.store import Parcel, Store

__all__ = ["LocalPool"]

INLINE_S = 2.0
"""Less work than this is done before processes have started."""
ATTEMPTS = 3
_WAITING_EACH = 4
"""Jobs handed out for each worker ahead of time."""


def cores() -> int:
    """Count the cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class LocalPool:
    """Runs jobs here.

    Parameters
    ----------
    store : Store
        Where results are kept.
    workers : int, optional
        How many processes; as many as there are cores without it.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder, LocalPool(Store(Path(folder))) as pool:
    ...     job = Job("ab" * 32, Parcel, {"ticks": 3})
    ...     pool.finish([job, job]), pool.finish([job]), pool.result(job).data
    (1, 0, {'ticks': 3})
    """

    def __init__(self, store: Store, workers: int | None = None) -> None:
        self.store, self.workers = store, workers or cores()
        self._executor: ProcessPoolExecutor | None = None
        self._earlier: frozenset[int | None] = frozenset()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._end(at_once=kind is not None)

    def warm(self, modules: Sequence[str]) -> None:
        """Start the workers, and have them import what they are going to need, while something else is done here.

        Parameters
        ----------
        modules : sequence of str
            Names of modules.
        """
        if self.workers > 1:
            executor = self._started()
            for _ in range(self.workers):
                executor.submit(_imported, tuple(modules))

    def finish(self, jobs: Iterable[Job], progress: Callable[[int, int], None] | None = None) -> int:
        """See to it that the result of every job is in the store.

        Parameters
        ----------
        jobs : iterable of Job
            The jobs; of several with one key one is run.
        progress : callable, optional
            Told the jobs done and the jobs in all.

        Returns
        -------
        int
            How many had to be run.

        Raises
        ------
        GamutwrightError
            What a job raised, or JobError where one took its workers down.
        """
        every = {job.key: job for job in jobs}
        todo = sorted(
            (job for job in every.values() if not self.store.has(job.key)), key=lambda job: job.cost_s, reverse=True
        )
        told = _Counter(len(every) - len(todo), len(every), progress)
        if self.workers == 1 or sum(job.cost_s for job in todo) < INLINE_S:
            for job in todo:
                self.store.put(job.key, job.work(job.payload))
                told.step()
        else:
            self._spread(todo, told)
        return len(todo)

    def result(self, job: Job) -> Parcel:
        """Give the result of a job, from the store or made here and now.

        Parameters
        ----------
        job : Job
            The job.

        Returns
        -------
        Parcel
            Its result.
        """
        parcel = self.store.get(job.key)
        if parcel is None:
            parcel = job.work(job.payload)
            self.store.put(job.key, parcel)
        return parcel

    def _spread(self, todo: list[Job], told: _Counter) -> None:
        """Hand jobs out as workers become free; begin again with those that a dead worker left."""
        waiting, attempts = list(reversed(todo)), dict.fromkeys((job.key for job in todo), 0)
        flying: dict[Future[None], Job] = {}
        while waiting or flying:
            try:
                executor = self._started()
                # What was in flight when a worker died goes one at a time, so that the one to blame is found.
                room = 1 if any(attempts[job.key] for job in waiting) else self.workers * _WAITING_EACH
                while waiting and len(flying) < room:
                    job = waiting[-1]
                    flying[executor.submit(_make, self.store.folder, job)] = job
                    waiting.pop()
                ready, _ = wait(flying, return_when=FIRST_COMPLETED)
                for future in ready:
                    future.result()
                    del flying[future]
                    told.step()
            except BrokenProcessPool:
                self._end(at_once=True)
                waiting += self._left(flying, attempts)
                flying = {}
                told.step(0)

    def _left(self, flying: dict[Future[None], Job], attempts: dict[str, int]) -> list[Job]:
        left = [job for job in flying.values() if not self.store.has(job.key)]
        for job in left:
            attempts[job.key] += 1
            if attempts[job.key] >= ATTEMPTS:
                raise JobError(
                    f"{job.work.__module__}.{job.work.__name__}",
                    f"{ATTEMPTS} processes that worked on it died",
                    "See whether memory ran out (`gamutwright doctor`), close other programs, and start it again: "
                    "what was finished is kept.",
                )
        return left

    def _started(self) -> ProcessPoolExecutor:
        if self._executor is None:
            self._earlier = frozenset(child.pid for child in multiprocessing.active_children())
            context = multiprocessing.get_context("spawn")
            self._executor = ProcessPoolExecutor(self.workers, mp_context=context, initializer=_prepare)
            with _deaf_to_interrupts():
                self._executor.submit(_imported, ())
        return self._executor

    def _end(self, *, at_once: bool) -> None:
        executor, self._executor = self._executor, None
        if executor is None:
            return
        if at_once:
            for child in multiprocessing.active_children():
                if child.pid not in self._earlier:
                    child.kill()
        executor.shutdown(wait=not at_once, cancel_futures=True)


class _Counter:
    """Counts what is done and tells it."""

    def __init__(self, done: int, total: int, progress: Callable[[int, int], None] | None) -> None:
        self._done, self._total, self._progress = done, total, progress
        self.step(0)

    def step(self, count: int = 1) -> None:
        self._done += count
        if self._progress:
            self._progress(self._done, self._total)


@contextlib.contextmanager
def _deaf_to_interrupts() -> Iterator[None]:
    """Start processes that do not hear Ctrl-C from their first moment on."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def _prepare() -> None:
    """Leave Ctrl-C to the program that started this worker, and end when that program is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_follow, args=(parent,), daemon=True).start()


def _follow(parent: multiprocessing.process.BaseProcess) -> None:
    parent.join()
    os._exit(1)


def _imported(modules: tuple[str, ...]) -> None:
    for module in modules:
        with contextlib.suppress(ImportError):
            importlib.import_module(module)


def _make(folder: Path, job: Job) -> None:
    Store(folder).put(job.key, job.work(job.payload))
