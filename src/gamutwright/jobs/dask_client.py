"""One connection to a Dask cluster: what is there, what is begun where, and what is heard.

Everything that touches Dask is here, and nothing is decided here. Dask spreads no work by itself: each job is begun on
the worker that the roster named and on no other, so Dask neither moves it nor begins it again elsewhere when that
worker dies, and it is known what each worker has in hand.

Sources: the documentation of distributed 2026.8 (Client, Worker.log_event), and how it behaves: when the scheduler
goes, a client's futures are all cancelled and its workers end.

Conventions: a worker is named by its address. Happenings are put into one queue by the threads of Dask and read by the
thread that runs the jobs.
"""

from __future__ import annotations

import asyncio
import logging
import queue
import uuid
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future as Following
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from gamutwright.errors import JobError, MissingPartError
from gamutwright.jobs.asking import Refusal, asked_of
from gamutwright.jobs.dask_hands import Dropped, perform
from gamutwright.jobs.environment import snapshot
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Report, report_of
from gamutwright.jobs.roster import Assignment

if TYPE_CHECKING:
    from distributed import Client, Future

__all__ = ["Cancelled", "Connection", "Happening", "Stage", "There", "is_writable_here"]

LOGGERS = ("distributed", "distributed.client")
"""What is wrong is said in our words; Dask's would come between the lines of a progress display."""
CLOSE_S = 2.0
"""How long a goodbye may take."""


@dataclass(frozen=True, slots=True)
class Cancelled:
    """A job that is cancelled, as all are when the scheduler goes."""


@dataclass(frozen=True, slots=True)
class Stage:
    """How far a job is."""

    stage: str
    done: int
    total: int


Happening = Report | Refusal | Dropped | Cancelled | Stage


class There(NamedTuple):
    """A worker that is there: its identity, since a new one may get an old one's address, and its threads."""

    identity: str
    threads: int


class Connection:
    """A connection to a scheduler.

    Parameters
    ----------
    address : str
        Where the scheduler is.
    timeout_s : float
        How long to look for it.

    Raises
    ------
    MissingPartError
        If Dask distributed is not installed.
    JobError
        If nothing answers there.
    """

    def __init__(self, address: str, timeout_s: float) -> None:
        try:
            from distributed import Client  # noqa: PLC0415 - an optional part, and slow to import
        except ImportError as error:
            raise MissingPartError(
                "Dask distributed", "it is not installed", "Install it: pip install 'gamutwright[cluster]'."
            ) from error
        self._happenings = queue.SimpleQueue[tuple[Assignment, Happening]]()
        self._levels_before = {name: logging.getLogger(name).level for name in LOGGERS}
        self._set_levels(dict.fromkeys(LOGGERS, logging.CRITICAL + 1))
        self.is_closed = False
        self._name = uuid.uuid4().hex[:8]
        self._followed: dict[Assignment, tuple[Future[Any], Following[None]]] = {}
        try:
            # Looked for anew by us when it is lost, hence no patience of its own.
            self._client: Client = Client(address, timeout=timeout_s, set_as_default=False, name="gamutwright")
        except (OSError, ValueError, TypeError, ImportError) as error:
            self._set_levels(self._levels_before)
            raise JobError(
                address,
                f"no Dask scheduler answers there ({error})",
                "Start one with `dask scheduler` and give the address that it prints, as in tcp://192.168.1.20:8786.",
            ) from error
        # The client would connect again by itself, but without what it had begun, so that is a new connection for us.
        self._line = self._client.scheduler_comm
        self._client.subscribe_topic(self._topic, self._hear)

    @staticmethod
    def _set_levels(levels: Mapping[str, int]) -> None:
        for name, level in levels.items():
            logging.getLogger(name).setLevel(level)

    @property
    def _topic(self) -> str:
        return f"gamutwright-{self._name}"

    @property
    def is_alive(self) -> bool:
        """Whether the scheduler is at the other end, as far as is known."""
        return self._client.status == "running" and self._client.scheduler_comm is self._line

    def workers(self) -> dict[str, There]:
        """List the workers that are there.

        Returns
        -------
        dict
            By address.

        Raises
        ------
        OSError
            If the scheduler is gone.
        """
        info = self._client.scheduler_info()
        return {name: There(str(about["id"]), int(about["nthreads"])) for name, about in info["workers"].items()}

    def asked(self, function: Callable[..., Any], arguments: Sequence[Any], workers: Sequence[str]) -> dict[str, Any]:
        """Have workers call a function at once, whatever they are doing.

        Parameters
        ----------
        function : callable
            At the top level of a module; quick.
        arguments : sequence
            What it is given.
        workers : sequence of str
            Which.

        Returns
        -------
        dict
            What each answered: the result, or the exception it met.
        """
        answers = self._client.run(function, *arguments, workers=list(workers), on_error="return")
        return dict(answers)

    def begin(self, what: Assignment, job: Job, folder: Path | None) -> None:
        """Begin a job on the worker of its assignment.

        Parameters
        ----------
        what : Assignment
            What, which time of its being begun, by whom.
        job : Job
            The job.
        folder : Path, optional
            The store into which the worker puts the result; without it the worker sends the result.

        Raises
        ------
        Exception
            Whatever is raised where the payload cannot be pickled.
        """
        import dask  # noqa: PLC0415 - an optional part

        note = (self._topic, what.key, what.attempt, what.worker)
        asked = asked_of(job, folder, snapshot())
        with dask.config.set({"distributed.admin.large-graph-warning-threshold": "1TiB"}):
            future = self._client.submit(
                perform,
                asked,
                note,
                key=f"gamutwright-{what.key}-{what.attempt}-{self._name}",
                workers=[what.worker],
                allow_other_workers=False,
                pure=False,
                retries=0,
            )
        loop = self._client.loop.asyncio_loop  # type: ignore[union-attr] # that of asyncio is the only kind left
        self._followed[what] = (future, asyncio.run_coroutine_threadsafe(self._follow(what, future), loop))

    def forget(self, what: Assignment) -> None:
        """Let go of a job: what has not begun is not begun, and what ends is not sent.

        Parameters
        ----------
        what : Assignment
            Which.
        """
        future, following = self._followed.pop(what, (None, None))
        if future is not None and following is not None:
            following.cancel()
            future.release()

    def forget_all(self) -> None:
        """Let go of all jobs."""
        for what in list(self._followed):
            self.forget(what)
        while not self._happenings.empty():
            self._happenings.get()

    def heard(self, timeout_s: float) -> list[tuple[Assignment, Happening]]:
        """Wait until something happens, or time is up.

        Parameters
        ----------
        timeout_s : float
            How long.

        Returns
        -------
        list of tuple
            All that happened; what is not under way any more is left out.
        """
        heard: list[tuple[Assignment, Happening]] = []
        try:
            heard.append(self._happenings.get(timeout=timeout_s))
            while True:
                heard.append(self._happenings.get_nowait())
        except queue.Empty:
            return [(what, happening) for what, happening in heard if what in self._followed]

    def close(self) -> None:
        """Say goodbye; what is under way at the workers is let go of."""
        self.forget_all()
        self.is_closed = True
        try:
            self._client.close(timeout=CLOSE_S)
        except (OSError, RuntimeError):
            # It was closed by the loss of the scheduler, which is what was wanted.
            pass
        finally:
            self._set_levels(self._levels_before)

    async def _follow(self, what: Assignment, future: Future[Any]) -> None:
        from distributed import CancelledError, KilledWorker  # noqa: PLC0415 - an optional part

        happening: Happening
        try:
            happening = await future
        except KilledWorker as error:
            happening = Dropped(str(error))
        except CancelledError:
            happening = Cancelled()
        except OSError as error:
            happening = Dropped(str(error))
        except Exception as error:  # noqa: BLE001 - whatever went wrong on the way is that job's failure
            happening = report_of("a job", error)
        self._happenings.put((what, happening))

    def _hear(self, event: tuple[float, Any]) -> None:
        key, attempt, worker, stage, done, total = event[1]
        self._happenings.put((Assignment(key, attempt, worker), Stage(stage, done, total)))


def is_writable_here(folder: str, name: str, token: str) -> bool:
    """Whether this machine sees a file with the given content, and can write beside it.

    Parameters
    ----------
    folder, name : str
        Folder and name of the file.
    token : str
        Its content.

    Returns
    -------
    bool
        True if it is the same folder.

    Examples
    --------
    >>> is_writable_here("/nowhere at all", "token", "abc")
    False
    """
    place = Path(folder, name)
    try:
        if place.read_text(encoding="ascii") != token:
            return False
        ours = place.with_name(f"{name}-{uuid.uuid4().hex}")
        ours.write_text(token, encoding="ascii")
        ours.unlink()
    except (OSError, ValueError):
        return False
    return True
