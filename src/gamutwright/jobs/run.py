"""Running jobs on the cores of this machine, with every result in the store.

A result is put into the store by the process that made it, so nothing large travels between processes, a run that is
stopped loses only what was in flight, and the next run takes up where it ended. A worker that dies takes down only the
job it was working on; another begins it again, and it is given up when it has taken three workers down.

Conventions: work for one worker, and little work, is done in this process. What to do next is decided by the roster.
Ctrl-C ends the workers at once. Workers end by themselves when the program that started them is gone.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import time
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from types import TracebackType
from typing import Self

from gamutwright.errors import JobError
from gamutwright.jobs.asking import asked_of
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event, Outcome, Report, Told, lost_error, report_of, work_name, worked
from gamutwright.jobs.processes import Gone, Processes, Ready, Said, Word
from gamutwright.jobs.roster import Assignment, Begin, GiveUp, Instruction, Roster, Task
from gamutwright.jobs.store import Parcel, Store

__all__ = ["LocalPool"]

INLINE_S = 2.0
"""Less work than this is done before processes have started."""


def cores() -> int:
    """Count the cores this process may use: one where it is itself a worker, since its fellows have the others."""
    if multiprocessing.parent_process() is not None:
        return 1
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class LocalPool:
    """Runs jobs here.

    Parameters
    ----------
    store : Store
        Where results are kept.
    workers : int, optional
        How many processes; as many as there are cores without it.
    is_apart : bool
        Whether even little work is never done in this process, because others wait for it.

    Examples
    --------
    >>> import pathlib, tempfile
    >>> with tempfile.TemporaryDirectory() as folder, LocalPool(Store(pathlib.Path(folder))) as pool:
    ...     job = Job("ab" * 32, Parcel, {"ticks": 3})
    ...     pool.finish([job, job]), pool.finish([job]), pool.result(job).data
    (1, 0, {'ticks': 3})
    """

    is_shared = True

    def __init__(self, store: Store, workers: int | None = None, *, is_apart: bool = False) -> None:
        self.store, self.workers = store, workers or cores()
        self._is_apart = is_apart
        self._processes = Processes()
        self._is_running = False

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._processes.end(at_once=kind is not None)

    def warm(self, modules: Sequence[str]) -> None:
        """Start the workers, and have them import what they are going to need, while something else is done here.

        Parameters
        ----------
        modules : sequence of str
            Names of modules.
        """
        if self.workers > 1:
            self._processes.start(self.workers)
            self._processes.warm(modules)

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
        todo = [job for job in every.values() if not self.store.has(job.key)]
        done = len(every) - len(todo)
        if progress:
            progress(done, len(every))
        with contextlib.closing(self._outcomes(todo, None, is_read=False)) as outcomes:
            for outcome in outcomes:
                if outcome.error:
                    if outcome.trace:
                        outcome.error.add_note(outcome.trace)
                    raise outcome.error
                done += 1
                if progress:
                    progress(done, len(every))
        return len(todo)

    def outcomes(self, jobs: Iterable[Job], told: Told | None = None) -> Generator[Outcome, None, None]:
        """Run every job, and give what became of each as it ends.

        Parameters
        ----------
        jobs : iterable of Job
            The jobs; of several with one key one is run. They are run whether or not the store has their results.
        told : callable, optional
            Told what happens meanwhile, in the thread that asks for outcomes.

        Yields
        ------
        Outcome
            One for each key. Its result is in the store by then. Ending early ends the jobs under way.

        Raises
        ------
        JobError
            If no worker can be started, or the pool is already running jobs.
        """
        return self._outcomes(jobs, told, is_read=True)

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

    def _outcomes(self, jobs: Iterable[Job], told: Told | None, *, is_read: bool) -> Generator[Outcome, None, None]:
        every = {job.key: job for job in jobs}
        if self._is_running:
            raise JobError("this pool", "it is already running jobs", "End the first run before the second.")
        self._is_running = True
        try:
            is_little = self.workers == 1 or sum(job.cost_s for job in every.values()) < INLINE_S
            if is_little and not self._is_apart:
                yield from self._here(every, told)
            else:
                run = _Run(self, self._processes, every, told)
                yield from run.outcomes(is_read=is_read)
        finally:
            self._is_running = False

    def _here(self, every: dict[str, Job], told: Told | None) -> Iterator[Outcome]:
        worker, tell = f"process {os.getpid()}", told or _unheard
        ordered = sorted(every.values(), key=lambda job: job.cost_s, reverse=True)
        for done, job in enumerate(ordered):
            tell(Event("begun", job.key, worker, "", done, len(ordered)))

            def hear(stage: str, part: int, parts: int, key: str = job.key) -> None:
                tell(Event("stage", key, worker, stage, part, parts))

            report = worked(job, hear)
            if report.parcel is not None:
                self.store.put(job.key, report.parcel)
            yield Outcome(job, report.parcel, report.error, report.trace, report.seconds, worker)


class _Run:
    """One run of jobs over the workers of a pool: carries out what the roster decides."""

    def __init__(self, pool: LocalPool, processes: Processes, jobs: dict[str, Job], told: Told | None) -> None:
        self._store, self._workers, self._processes = pool.store, pool.workers, processes
        self._jobs, self._tell = jobs, told or _unheard
        self._roster = Roster(Task(job.key, job.cost_s, work_name(job)) for job in jobs.values())
        self._hands: dict[str, Assignment] = {}
        self._at_hand: list[tuple[Assignment, Report]] = []
        self._ended: list[Outcome] = []
        self._is_read = True

    def outcomes(self, *, is_read: bool) -> Iterator[Outcome]:
        """Run the jobs; `is_read` is whether results are read from the store."""
        self._is_read = is_read
        try:
            for name in self._processes.ready:
                self._obey(self._roster.joined(name, 1, time.monotonic()))
            while not self._roster.is_over or self._ended:
                while self._ended:
                    yield self._ended.pop(0)
                while self._at_hand:
                    self._take(*self._at_hand.pop())
                if not (self._ended or self._roster.is_over):
                    self._processes.start(min(self._workers, len(self._jobs)))
                    for name, said in self._processes.heard():
                        self._take_in(name, said)
        finally:
            for what in self._roster.under_way:
                self._processes.bury(what.worker)

    def _event(self, kind: str, key: str, worker: str, detail: str = "") -> None:
        self._tell(Event(kind, key, worker, detail, self._roster.done, self._roster.total))

    def _take_in(self, name: str, said: Said) -> None:
        if isinstance(said, Report):
            self._take(self._hands.pop(name), said)
        elif isinstance(said, Ready):
            self._obey(self._roster.joined(name, 1, time.monotonic()))
        elif isinstance(said, Gone):
            self._hands.pop(name, None)
            self._obey(self._roster.left(name, now_s=time.monotonic()), said.how)
        elif isinstance(said, Word) and name in self._hands:
            self._tell(Event("stage", self._hands[name].key, name, said.stage, said.done, said.total))

    def _take(self, what: Assignment, report: Report) -> None:
        parcel = self._store.get(what.key) if self._is_read and report.error is None else None
        if self._is_read and report.error is None and parcel is None:
            self._obey(self._roster.dropped(what, time.monotonic()), "its result is gone from the store")
            return
        _, instructions = self._roster.ended(what, time.monotonic())
        job = self._jobs[what.key]
        self._ended.append(Outcome(job, parcel, report.error, report.trace, report.seconds, what.worker))
        self._obey(instructions)

    def _obey(self, instructions: list[Instruction], why: str = "") -> None:
        for instruction in instructions:
            if isinstance(instruction, Begin):
                self._begin(instruction.what)
            elif isinstance(instruction, GiveUp):
                job = self._jobs[instruction.key]
                error = lost_error(job, instruction.deaths)
                self._ended.append(Outcome(job, None, error, "", 0.0, instruction.worker))
            else:
                self._event("lost", instruction.what.key, instruction.what.worker, why)

    def _begin(self, what: Assignment) -> None:
        job = self._jobs[what.key]
        self._hands[what.worker] = what
        try:
            asked = asked_of(job, self._store.folder)
        except Exception as raised:  # noqa: BLE001 - pickling raises whatever the payload's own methods raise
            del self._hands[what.worker]
            self._at_hand.append((what, report_of(work_name(job), raised)))
            return
        self._processes.ask(what.worker, asked)
        self._event("begun", what.key, what.worker)


def _unheard(event: Event) -> None:
    """Stand in where nobody listens."""
