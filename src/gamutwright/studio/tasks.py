"""Tasks of a course: what is to be done, in which order, what became of it. Records on disk, and nothing that runs.

A task waits, runs and ends; which changes there are stands in one table, so that nothing is cancelled twice or begun
while another runs. Every change is on the disk before it is told. Whoever opens the course again after the studio was
closed, or after a kill, finds what ran or waited as interrupted, and goes on with one click.

Conventions: one file for each task, `.gamutwright/tasks/<id>.json`; an id is sixteen hexadecimal digits, and nothing
else becomes part of a path. Times are ISO 8601 in UTC, durations seconds. Records can be deleted at any time.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import json
import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from pathlib import Path
from typing import Any, Final

from pydantic import TypeAdapter, ValidationError

from gamutwright.codec import plain_from_json, to_plain
from gamutwright.errors import GamutwrightError, JobError, told
from gamutwright.files import make_folder, write_text

__all__ = ["KEPT", "MOST_WAITING", "State", "Task", "TaskBook", "UnknownTaskError"]

KEPT: Final = 50
"""How many tasks that have ended are kept."""
MOST_WAITING: Final = 1_000
CLOSED: Final = "The studio was closed before it ended. What was finished is kept."


class State(StrEnum):
    """What state a task is in."""

    WAITING = "waiting"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"
    INTERRUPTED = "interrupted"


CHANGES: Final[Mapping[State, frozenset[State]]] = {
    State.WAITING: frozenset({State.RUNNING, State.CANCELLED, State.INTERRUPTED}),
    State.RUNNING: frozenset({State.DONE, State.FAILED, State.CANCELLED, State.INTERRUPTED}),
    State.DONE: frozenset(),
    State.FAILED: frozenset({State.WAITING}),
    State.CANCELLED: frozenset({State.WAITING}),
    State.INTERRUPTED: frozenset({State.WAITING}),
}
"""What a task in a state can become; one that is done is begun anew as another."""
OPEN: Final = (State.WAITING, State.RUNNING)


class UnknownTaskError(GamutwrightError, LookupError):
    """A task that is not there, or not any more."""

    status = 404


@dataclass(frozen=True, slots=True)
class Task:
    """Something that is done for the teacher and takes long.

    Parameters
    ----------
    id : str
        Sixteen hexadecimal digits.
    kind : str
        What is done.
    lesson : str
        Slug of the lesson it is about; "" for the course.
    state : State
        Its state.
    turn : int
        Those that wait are taken in this order.
    made_at, begun_at, ended_at : str
        When it was asked for, begun and ended, ISO 8601 in UTC; "" where it was not.
    seconds : float
        How long it took.
    message : str
        What became of it, in words.
    result : dict
        What it gave.
    minutes : float
        The length of what was made, for reckoning the next one; 0 where it has none.
    measured : dict of str to float
        How long its stages took, in seconds.
    """

    id: str
    kind: str
    lesson: str = ""
    state: State = State.WAITING
    turn: int = 0
    made_at: str = ""
    begun_at: str = ""
    ended_at: str = ""
    seconds: float = 0.0
    message: str = ""
    result: dict[str, Any] = field(default_factory=dict)
    minutes: float = 0.0
    measured: dict[str, float] = field(default_factory=dict)

    @property
    def is_open(self) -> bool:
        """Whether it waits or runs."""
        return self.state in OPEN


_READER = TypeAdapter(Task)


class TaskBook:
    """The tasks of a course.

    Parameters
    ----------
    folder : Path
        Where they are written down; it is made with the first.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as name:
    ...     book = TaskBook(Path(name))
    ...     first, second = book.add("package", "dorian"), book.add("check")
    ...     _ = book.to_front(second.id)
    ...     begun = book.change(book.next().id, State.RUNNING)
    ...     again = TaskBook(Path(name))
    ...     _ = again.interrupt()
    ...     begun.kind, book.next(), sorted((task.kind, task.state.value) for task in again)
    ('check', None, [('check', 'interrupted'), ('package', 'interrupted')])
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._tasks: dict[str, Task] = {}
        for path in sorted(folder.glob("*.json")) if folder.is_dir() else ():
            # What cannot be read was written by another version, or damaged; there is nothing to go on with.
            with contextlib.suppress(OSError, ValidationError, ValueError):
                task = _READER.validate_python(plain_from_json(path.read_bytes()))
                if task.id == path.stem and _is_id(task.id):
                    self._tasks[task.id] = task

    def __iter__(self) -> Iterator[Task]:
        """Give what runs, what waits in its order, and what has ended, the last first."""
        yield from (task for task in self._tasks.values() if task.state is State.RUNNING)
        yield from self.waiting
        ended = [task for task in self._tasks.values() if not task.is_open]
        yield from sorted(ended, key=lambda task: (task.ended_at, -task.turn), reverse=True)

    @property
    def waiting(self) -> tuple[Task, ...]:
        """What waits, in its order."""
        waiting = [task for task in self._tasks.values() if task.state is State.WAITING]
        return tuple(sorted(waiting, key=lambda task: task.turn))

    def get(self, task_id: str) -> Task:
        """Give a task.

        Parameters
        ----------
        task_id : str
            Its id, as somebody names it.

        Returns
        -------
        Task
            As it is now.

        Raises
        ------
        UnknownTaskError
            If there is none.
        """
        task = self._tasks.get(task_id)
        if task is None:
            raise UnknownTaskError(
                told("task {task_id}", task_id=repr(task_id[:32])),
                told("there is no such task, or not any more"),
                told("Look at the list of the course."),
            )
        return task

    def add(self, kind: str, lesson: str = "") -> Task:
        """Put a task at the end of those that wait; one that waits for the same is not put there twice.

        Parameters
        ----------
        kind : str
            What is to be done.
        lesson : str
            The lesson; "" for the course.

        Returns
        -------
        Task
            It, or the one that waits already.

        Raises
        ------
        JobError
            If too many wait.
        FileError
            If it cannot be written down.
        """
        waiting = self.waiting
        same = next((task for task in waiting if (task.kind, task.lesson) == (kind, lesson)), None)
        if same is not None:
            return same
        if len(waiting) >= MOST_WAITING:
            raise JobError(
                told("{waiting} tasks", waiting=len(waiting)),
                told("so many wait already"),
                told("Let some of them end first."),
            )
        task = Task(secrets.token_hex(8), kind, lesson, turn=self._last_turn() + 1, made_at=_now())
        self._write(task)
        return task

    def next(self) -> Task | None:
        """Give the task that is to be begun now; None where one runs, or none waits."""
        if any(task.state is State.RUNNING for task in self._tasks.values()):
            return None
        return next(iter(self.waiting), None)

    def change(self, task_id: str, state: State, message: str = "", **more: object) -> Task:
        """Change the state of a task.

        Parameters
        ----------
        task_id : str
            The task.
        state : State
            What it becomes.
        message : str
            Why, in words.
        **more : object
            Further fields.

        Returns
        -------
        Task
            As it is now.

        Raises
        ------
        UnknownTaskError
            If there is none.
        JobError
            If it cannot become that, or another one runs.
        """
        task = self.get(task_id)
        if state not in CHANGES[task.state]:
            raise JobError(
                told("task '{kind}'", kind=task.kind),
                told("it is {value}, and cannot become {value2}", value=task.state.value, value2=state.value),
                told("Begin another."),
            )
        if state is State.RUNNING and self.next() is None:
            raise JobError(told("task '{kind}'", kind=task.kind), told("another one runs"), told("Let it wait."))
        if state is State.RUNNING:
            more = {"begun_at": _now(), **more}
        elif state is State.WAITING:
            more = {"begun_at": "", "ended_at": "", "seconds": 0.0, "result": {}, "turn": self._last_turn() + 1, **more}
        else:
            more = {"ended_at": _now(), **more}
        changed = replace(task, state=state, message=message, **more)  # type: ignore[arg-type] # fields by name
        self._write(changed)
        self._prune()
        return changed

    def to_front(self, task_id: str) -> Task:
        """Let a task that waits be the next.

        Parameters
        ----------
        task_id : str
            The task.

        Returns
        -------
        Task
            As it is now.

        Raises
        ------
        UnknownTaskError
            If there is none.
        JobError
            If it does not wait.
        """
        task = self.get(task_id)
        if task.state is not State.WAITING:
            raise JobError(
                told("task '{kind}'", kind=task.kind),
                told("it is {value}, and waits no more", value=task.state.value),
                told("Choose one that waits."),
            )
        task = replace(task, turn=min(one.turn for one in self.waiting) - 1)
        self._write(task)
        return task

    def interrupt(self, message: str = CLOSED) -> tuple[Task, ...]:
        """Say of everything that ran or waited that it was interrupted.

        Parameters
        ----------
        message : str
            Why, in words.

        Returns
        -------
        tuple of Task
            What it was, as it is now.
        """
        found = [task.id for task in self if task.is_open]
        return tuple(self.change(task_id, State.INTERRUPTED, message) for task_id in found)

    def paces(self, kind: str) -> dict[str, float]:
        """Give how long stages took for each minute of what was made, the last time each of them was measured.

        Parameters
        ----------
        kind : str
            The kind of tasks that is looked at.

        Returns
        -------
        dict of str to float
            Seconds for a minute, by stage.
        """
        found: dict[str, float] = {}
        for task in self:
            if task.kind == kind and task.minutes > 0:
                for stage, seconds in task.measured.items():
                    found.setdefault(stage, seconds / task.minutes)
        return found

    def _last_turn(self) -> int:
        return max((task.turn for task in self._tasks.values()), default=0)

    def _write(self, task: Task) -> None:
        make_folder(self._folder)
        write_text(self._folder / f"{task.id}.json", json.dumps(to_plain(task), ensure_ascii=False) + "\n")
        self._tasks[task.id] = task

    def _prune(self) -> None:
        for task in [task for task in self if not task.is_open][KEPT:]:
            with contextlib.suppress(OSError):
                (self._folder / f"{task.id}.json").unlink(missing_ok=True)
            del self._tasks[task.id]


def _is_id(text: str) -> bool:
    return len(text) == 16 and set(text) <= set("0123456789abcdef")


def _now() -> str:
    return dt.datetime.now(tz=dt.UTC).isoformat(timespec="milliseconds")
