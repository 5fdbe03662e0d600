"""Running jobs on the workers of a Dask cluster, and living through what happens to clusters.

- **Environment.** Every worker is compared with this machine before it is given work (`environment`), and again by
  every job; those that differ are refused.
- **Store.** Whether the workers see the folder of the store is found out by having them read and write there. Where
  they do, a result goes into the store where it is made and only a receipt travels; elsewhere the result is sent, and
  put into the store here.
- **Death.** What ended is fetched at once, so the death of a worker loses no more than the job it had in hand.
- **A lost scheduler** is looked for again; only what had not ended is begun again.

What to do next is decided by the roster, as on one machine.

Conventions: one job for each thread of a worker, and jobs use whole cores, so workers are to have one thread. A
function under way cannot be stopped on a worker: what is let go of runs to its end there, and is ignored.
"""

from __future__ import annotations

import time
from collections.abc import Generator, Iterable, Iterator
from dataclasses import replace
from types import TracebackType
from typing import Self

from gamutwright.errors import FileError, GamutwrightError, JobError
from gamutwright.jobs.asking import Refusal
from gamutwright.jobs.dask_client import Cancelled, Connection, Happening, Stage
from gamutwright.jobs.dask_hands import Dropped
from gamutwright.jobs.dask_members import Members
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event, Outcome, Report, Told, lost_error, report_of, work_name
from gamutwright.jobs.roster import Assignment, Begin, GiveUp, Instruction, Roster, Task
from gamutwright.jobs.store import Store

__all__ = ["ClusterPool"]

CONNECT_S = 10.0
"""How long a scheduler may take to answer at first: a wrong address is told soon."""
LOOK_S = 0.5
"""How often the list of workers is looked at."""
REMIND_S = 5.0
"""How often it is told that nothing is there."""
ARRIVE_S = 5.0
"""How long a file that another machine wrote may take to be seen here."""


class ClusterPool:
    """Runs jobs on a Dask cluster.

    Parameters
    ----------
    address : str
        Where the scheduler is, as in tcp://192.168.1.20:8786.
    store : Store
        Where results are kept.
    patience_s : float
        How long to wait for a scheduler that was lost, and for a first or a last worker to come.
    late_after_s : float
        No job is begun by a second worker before it has taken that long.
    is_shared : bool, optional
        Whether the workers see the folder of the store; found out without it.
    told : callable, optional
        Told what happens while the cluster is joined, before there are jobs.
    """

    def __init__(
        self,
        address: str,
        store: Store,
        *,
        patience_s: float = 60.0,
        late_after_s: float = 120.0,
        is_shared: bool | None = None,
        told: Told | None = None,
    ) -> None:
        self.address, self.store = address, store
        self.patience_s, self.late_after_s = patience_s, late_after_s
        self.workers, self.is_shared = 0, bool(is_shared)
        self._told, self._asked_shared = told, is_shared
        self._members: Members | None = None
        self._is_running = False

    def __enter__(self) -> Self:
        self._joined()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._members is not None:
            self._members.connection.close()
            self._members = None

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
            One for each key. Its result is in the store by then.

        Raises
        ------
        JobError
            If scheduler or workers are gone for longer than the patience; what ended until then is in the store.
        """
        if self._is_running:
            raise JobError("this pool", "it is already running jobs", "End the first run before the second.")
        every = {job.key: job for job in jobs}
        if not every:
            return
        self._is_running = True
        try:
            yield from _Run(self, self._joined(), every, told or _unheard).outcomes()
        finally:
            self._is_running = False

    def _joined(self) -> Members:
        """Join the cluster, unless that is done, and wait for its first worker."""
        if self._members is None:
            connection = Connection(self.address, min(CONNECT_S, self.patience_s))
            members = Members(connection, self.store.folder, is_shared=self._asked_shared)
            try:
                self._wait_for_one(members)
            except BaseException:
                connection.close()
                raise
            self.rejoined(members)
        return self._members or members

    def rejoined(self, members: Members) -> None:
        """Take in a new connection and who is seen through it.

        Parameters
        ----------
        members : Members
            The workers.
        """
        self._members, self.workers, self.is_shared = members, members.hands, bool(members.is_shared)

    def _wait_for_one(self, members: Members) -> None:
        patience = _Patience(self.patience_s)
        while True:
            try:
                members.changes()
            except GamutwrightError:
                raise
            except OSError as error:
                raise JobError(
                    self.address, f"its scheduler went away ({error})", "Start it, and then this again."
                ) from error
            if members.refused:
                raise members.refusal()
            if members.there:
                return
            if patience.is_reminder_due():
                (self._told or _unheard)(Event("waiting", "", "", "no worker is there", 0, 0))
            patience.check(members.no_worker(self.address, self.patience_s))
            time.sleep(LOOK_S)


class _Patience:
    """Counts how long nothing was there."""

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._since_s: float | None = None
        self._reminded_s = 0.0

    def rest(self) -> None:
        """Take in that everything is there."""
        self._since_s = None

    def is_reminder_due(self) -> bool:
        """Whether it is time to say that something is missing."""
        now_s = time.monotonic()
        is_due = self._since_s is None or now_s - self._reminded_s >= REMIND_S
        if self._since_s is None:
            self._since_s = now_s
        if is_due:
            self._reminded_s = now_s
        return is_due

    def check(self, error: JobError) -> None:
        """Raise the error where it has been missing for too long."""
        if self._since_s is not None and time.monotonic() - self._since_s > self._seconds:
            raise error


class _Run:
    """One run of jobs: carries out what the roster decides."""

    def __init__(self, pool: ClusterPool, members: Members, jobs: dict[str, Job], told: Told) -> None:
        self._pool, self._members, self._jobs, self._tell = pool, members, jobs, told
        self._roster = Roster((Task(job.key, job.cost_s, work_name(job)) for job in jobs.values()), pool.late_after_s)
        self._kept_before = {key for key in jobs if pool.store.has(key)}
        self._at_hand: list[tuple[Assignment, Report]] = []
        self._ended: list[Outcome] = []
        self._patience = _Patience(pool.patience_s)
        self._looked_s = 0.0

    def outcomes(self) -> Iterator[Outcome]:
        for name, worker in self._members.there.items():
            self._obey(self._roster.joined(name, worker.threads, time.monotonic()))
        try:
            while True:
                while self._ended:
                    yield self._ended.pop(0)
                if self._roster.is_over:
                    return
                self._listen()
        finally:
            self._members.connection.forget_all()

    def _listen(self) -> None:
        while self._at_hand:
            self._take(*self._at_hand.pop())
        for what, happening in self._members.connection.heard(0.0 if self._ended else LOOK_S):
            self._take_in(what, happening)
        if not self._roster.is_over:
            try:
                if not self._members.connection.is_alive:
                    self._find_again()
                elif time.monotonic() - self._looked_s >= LOOK_S:
                    self._look()
                    self._looked_s = time.monotonic()
            except GamutwrightError:
                raise
            except OSError:
                self._find_again()
        self._obey(self._roster.passed(time.monotonic()))

    def _event(self, kind: str, detail: str = "", what: Assignment | None = None) -> None:
        key, worker = (what.key, what.worker) if what else ("", "")
        self._tell(Event(kind, key, worker, detail, self._roster.done, self._roster.total))

    def _look(self) -> None:
        """Take in which workers left and came."""
        refused = set(self._members.refused)
        left, came = self._members.changes()
        self._left(left, "its worker is gone")
        for name in came:
            self._obey(self._roster.joined(name, self._members.there[name].threads, time.monotonic()))
        self._told_of(refused, is_changed=bool(left or came))
        if self._members.there:
            self._patience.rest()
        else:
            if self._patience.is_reminder_due():
                self._event("waiting", "no worker is there")
            self._patience.check(self._members.no_worker(self._pool.address, self._pool.patience_s))

    def _told_of(self, refused: set[str], *, is_changed: bool) -> None:
        self._pool.workers = self._members.hands
        if is_changed:
            count = len(self._members.there)
            self._event("workers", "1 worker" if count == 1 else f"{count} workers")
        for name, (_, why) in self._members.refused.items():
            if name not in refused:
                self._tell(Event("workers", "", name, f"not used: {why}", self._roster.done, self._roster.total))

    def _left(self, workers: list[str], why: str, *, is_blamed: bool = True) -> None:
        if workers:
            for what in self._roster.under_way:
                if what.worker in workers:
                    self._members.connection.forget(what)
            self._obey(self._roster.left(*workers, now_s=time.monotonic(), is_blamed=is_blamed), why)

    def _find_again(self) -> None:
        """Look for a scheduler that was lost, and begin again what had not ended."""
        self._members.connection.close()
        workers = list(self._members.there)
        self._members.there = {}
        self._left(workers, "the scheduler is gone", is_blamed=False)
        patience, pool = _Patience(self._pool.patience_s), self._pool
        while self._members.connection.is_closed:
            if patience.is_reminder_due():
                self._event("waiting", "the scheduler is gone")
            patience.check(
                JobError(
                    pool.address,
                    f"its scheduler was lost and has not come back for {pool.patience_s:g} s",
                    "Start it and its workers, and then this again: what was finished is kept.",
                )
            )
            try:
                connection = Connection(pool.address, min(REMIND_S, pool.patience_s))
            except JobError:
                time.sleep(LOOK_S)
            else:
                self._members = Members(connection, pool.store.folder, is_shared=pool.is_shared)
                pool.rejoined(self._members)

    def _take_in(self, what: Assignment, happening: Happening) -> None:
        connection = self._members.connection
        if isinstance(happening, Stage):
            self._tell(Event("stage", what.key, what.worker, happening.stage, happening.done, happening.total))
            return
        if isinstance(happening, Cancelled | Dropped) and not connection.is_alive:
            return  # With the scheduler; that is seen next.
        connection.forget(what)
        if isinstance(happening, Report):
            self._take(what, happening)
        elif isinstance(happening, Refusal):
            refused = set(self._members.refused)
            self._members.refuse(what.worker, ", ".join(happening.why))
            self._left([what.worker], "its worker is not used", is_blamed=False)
            self._told_of(refused, is_changed=True)
        else:
            why = happening.why if isinstance(happening, Dropped) else "it was cancelled"
            self._obey(self._roster.dropped(what, time.monotonic()), why)

    def _take(self, what: Assignment, report: Report) -> None:
        """Take in that a job ended; the result is in the store before anybody hears of it."""
        try:
            report = self._kept(what.key, report)
        except FileError as error:
            report = replace(report, parcel=None, error=error)
        if report.error is None and report.parcel is None:
            self._obey(self._roster.dropped(what, time.monotonic()), "its result does not arrive in the store")
            return
        counts, instructions = self._roster.ended(what, time.monotonic())
        if counts:
            job = self._jobs[what.key]
            self._ended.append(Outcome(job, report.parcel, report.error, report.trace, report.seconds, what.worker))
        self._obey(instructions)

    def _kept(self, key: str, report: Report) -> Report:
        store = self._pool.store
        if report.error is not None:
            return report
        if report.parcel is not None:
            store.put(key, report.parcel)
            return report
        deadline_s = time.monotonic() + ARRIVE_S
        parcel = store.get(key)
        while parcel is None and time.monotonic() < deadline_s:
            time.sleep(0.1)
            parcel = store.get(key)
        return replace(report, parcel=parcel)

    def _obey(self, instructions: list[Instruction], why: str = "") -> None:
        for instruction in instructions:
            if isinstance(instruction, Begin):
                self._begin(instruction)
            elif isinstance(instruction, GiveUp):
                job = self._jobs[instruction.key]
                error = lost_error(job, instruction.deaths)
                self._ended.append(Outcome(job, None, error, "", 0.0, instruction.worker))
            else:
                self._event("lost", why, instruction.what)

    def _begin(self, begin: Begin) -> None:
        what, job = begin.what, self._jobs[begin.what.key]
        found = self._found(what)
        if found is not None:
            self._at_hand.append((what, found))
            return
        folder = self._pool.store.folder.resolve() if self._pool.is_shared else None
        try:
            self._members.connection.begin(what, job, folder)
        except Exception as raised:  # noqa: BLE001 - pickling raises whatever the payload's own methods raise
            # Where the scheduler is gone it is not the job's fault; that is seen next.
            if self._members.connection.is_alive:
                self._at_hand.append((what, report_of(work_name(job), raised)))
            return
        if begin.late_s:
            self._event("again", f"it has taken {begin.late_s:.0f} s elsewhere", what)
        else:
            self._event("begun", "", what)

    def _found(self, what: Assignment) -> Report | None:
        """Give what a worker put into the store before it was lost with its receipt."""
        if what.attempt == 1 or not self._pool.is_shared or what.key in self._kept_before:
            return None
        parcel = self._pool.store.get(what.key)
        return Report(parcel, None, "", 0.0) if parcel is not None else None


def _unheard(event: Event) -> None:
    """Stand in where nobody listens."""
