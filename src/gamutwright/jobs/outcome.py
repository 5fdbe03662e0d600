"""What becomes of jobs, what is told while they run, and what every runner of jobs can do.

Conventions: durations in seconds. Errors are those of `gamutwright.errors`: what a job raised on purpose is passed on
as it is; anything else becomes a JobError that names the work, and its traceback is kept beside it.
"""

from __future__ import annotations

import pickle
import time
import traceback
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from types import TracebackType
from typing import Protocol, Self

from gamutwright.errors import GamutwrightError, JobError
from gamutwright.jobs.job import Job
from gamutwright.jobs.store import Parcel, Store
from gamutwright.jobs.telling import listening

__all__ = ["Event", "Outcome", "Report", "Runner", "Told", "error_of", "lost_error", "report_of", "work_name", "worked"]


@dataclass(frozen=True, slots=True, eq=False)
class Outcome:
    """What became of a job.

    Parameters
    ----------
    job : Job
        The job.
    parcel : Parcel or None
        Its result; None where it failed.
    error : GamutwrightError or None
        Why it failed; None where it did not.
    trace : str
        Traceback of an exception that nobody expected; "" otherwise.
    seconds : float
        How long the work itself took.
    worker : str
        Which worker did it; "" where that is unknown.
    """

    job: Job
    parcel: Parcel | None
    error: GamutwrightError | None
    trace: str
    seconds: float
    worker: str


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened while jobs run.

    Parameters
    ----------
    kind : str
        `begun`; `stage` (told by the job itself); `lost` (its worker died); `again` (given to a second worker, since
        the first is late); `waiting` (no scheduler or no worker is there); `workers` (their number changed, or one is
        not used, and why).
    key : str
        The job's key; "" for `workers` and `waiting`.
    worker : str
        The worker; "" where it concerns none or all.
    detail : str
        The stage, or why.
    done, total : int
        For `stage`, how far the stage is; for all others, the jobs that ended and the jobs in all.
    """

    kind: str
    key: str
    worker: str
    detail: str
    done: int
    total: int


Told = Callable[[Event], None]


@dataclass(frozen=True, slots=True, eq=False)
class Report:
    """What a worker says of a job it ended; it can be pickled.

    Parameters
    ----------
    parcel : Parcel or None
        The result; None where the job failed, or where the result is in the store.
    error : GamutwrightError or None
        Why it failed.
    trace : str
        Traceback of an exception that nobody expected.
    seconds : float
        How long the work took.
    """

    parcel: Parcel | None
    error: GamutwrightError | None
    trace: str
    seconds: float


class Runner(Protocol):
    """What runs jobs, here or elsewhere.

    Parameters
    ----------
    store : Store
        Where results are kept.
    workers : int
        How many jobs can be worked on at once now.
    is_shared : bool
        Whether every worker sees the folder of the store.
    """

    store: Store
    workers: int
    is_shared: bool

    def outcomes(self, jobs: Iterable[Job], told: Told | None = None) -> Iterator[Outcome]:
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
        """
        ...

    def __enter__(self) -> Self: ...

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None: ...


def work_name(job: Job) -> str:
    """Name the work of a job as its programmer would.

    Parameters
    ----------
    job : Job
        The job.

    Returns
    -------
    str
        Module and function.

    Examples
    --------
    >>> work_name(Job("ab" * 32, worked, None))
    'gamutwright.jobs.outcome.worked'
    """
    return f"{job.work.__module__}.{getattr(job.work, '__qualname__', type(job.work).__qualname__)}"


def worked(job: Job, told: Callable[[str, int, int], None], store: Store | None = None) -> Report:
    """Do the work of a job, whatever it raises.

    Parameters
    ----------
    job : Job
        The job.
    told : callable
        Told stage, done and total while it works.
    store : Store, optional
        Where the result goes; without it, it is in the report.

    Returns
    -------
    Report
        How it ended.

    Examples
    --------
    >>> worked(Job("ab" * 32, Parcel, {"ticks": 3}), print).parcel
    Parcel(data={'ticks': 3}, blobs=())
    """
    begun_s = time.monotonic()
    try:
        with listening(told):
            parcel = job.work(job.payload)
        seconds = time.monotonic() - begun_s
        if store is None:
            return Report(parcel, None, "", seconds)
        store.put(job.key, parcel)
    except (Exception, SystemExit) as raised:  # noqa: BLE001 - one job's failure, of whatever kind, stops no other
        return report_of(work_name(job), raised, time.monotonic() - begun_s)
    return Report(None, None, "", seconds)


def report_of(work: str, error: Exception | SystemExit, seconds: float = 0.0) -> Report:
    """Report that a job failed.

    Parameters
    ----------
    work : str
        The name of its work.
    error : Exception or SystemExit
        What was raised.
    seconds : float
        How long it took.

    Returns
    -------
    Report
        With the error in words.
    """
    return Report(None, *error_of(work, error), seconds)


def error_of(work: str, error: Exception | SystemExit) -> tuple[GamutwrightError, str]:
    """Put what a job raised into words.

    Parameters
    ----------
    work : str
        The name of its work.
    error : Exception or SystemExit
        What it raised.

    Returns
    -------
    GamutwrightError
        The error itself where it was raised on purpose, else one that names it.
    str
        The traceback where nobody expected the error; "" otherwise.

    Examples
    --------
    >>> print(error_of("course.film", ZeroDivisionError("division by zero"))[0])
    course.film: it ended with ZeroDivisionError (division by zero). Please report this ...
    """
    if isinstance(error, GamutwrightError):
        return _carried(error), ""
    said = f"{type(error).__name__} ({error})" if str(error) else type(error).__name__
    return (
        JobError(
            work,
            f"it ended with {said}",
            "Please report this with its traceback; what else was finished is kept.",
        ),
        "".join(traceback.format_exception(error)),
    )


def _carried(error: GamutwrightError) -> GamutwrightError:
    """Give an error that can travel between processes: a kind of somebody else's may not be made for it."""
    try:
        pickle.loads(pickle.dumps(error))  # noqa: S301 - our own bytes
    except Exception:  # noqa: BLE001 - pickling raises whatever the object's own methods raise
        return GamutwrightError(error.value, error.rule, error.next_step)
    return error


def lost_error(job: Job, deaths: int) -> JobError:
    """Say that a job took its workers down.

    Parameters
    ----------
    job : Job
        The job.
    deaths : int
        How many died.

    Returns
    -------
    JobError
        What to raise or report.
    """
    return JobError(
        work_name(job),
        f"{deaths} processes that worked on it died",
        "See whether memory ran out (`gamutwright doctor`), close other programs, and start it again: "
        "what was finished is kept.",
    )
