"""The desk on which tasks are done: one at a time, each in a process of its own, told as it goes on, ended on demand.

One at a time because each uses every core. A task is ended with all the processes it has started: first politely, then
at once; what it left half-made is cleared away, and only then is it told as cancelled.

Conventions: durations are seconds. Whoever listens is called in the thread in which something happens, and must be
quick. A second studio on the same course sees the tasks and begins none.
"""

from __future__ import annotations

import contextlib
import json
import logging
import os
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Any, Final

from gamutwright.errors import DomainError, GamutwrightError, JobError, told
from gamutwright.files import make_folder
from gamutwright.jobs.outfolder import recover
from gamutwright.series.stagewords import stage_words
from gamutwright.studio.reckoning import Reckoning
from gamutwright.studio.taskrun import GRACE_S, KINDS
from gamutwright.studio.tasks import State, Task, TaskBook
from gamutwright.studio.tongue import say

__all__ = ["Desk"]

LOG: Final = logging.getLogger("gamutwright.studio")
WAIT_S: Final = 5.0
"""How long whoever cancels waits for the end at most."""
CLOSING: Final = "The studio was closed before it ended. What was finished is kept."
WORDS: Final = {
    State.CANCELLED: "Cancelled. What was finished is kept for the next time.",
    State.INTERRUPTED: CLOSING,
}


@dataclass(slots=True)
class _Running:
    """What is known of the task that runs."""

    task: Task
    begun_s: float = field(default_factory=time.monotonic)
    reckoning: Reckoning = field(default_factory=Reckoning)
    parts: dict[str, dict[str, str]] = field(default_factory=dict)
    minutes: float = 0.0
    result: dict[str, Any] | None = None
    error: str = ""
    becomes: State | None = None
    process: subprocess.Popen[bytes] | None = None
    ended: threading.Event = field(default_factory=threading.Event)


class Desk:
    """Does the tasks of a course.

    Parameters
    ----------
    course : Path
        Its folder.
    """

    def __init__(self, course: Path) -> None:
        self._course = course
        self._folder = course / ".gamutwright" / "tasks"
        self._lock = threading.RLock()
        self._listeners: list[Callable[[], None]] = []
        self._running: _Running | None = None
        self._is_closing = False
        self._claim: IO[bytes] | None = None
        self._book = TaskBook(self._folder)
        if self._folder.is_dir():
            self._claimed()

    # --- what is asked ---------------------------------------------------------------------------------------------

    def start(self, kind: str, lesson: str = "") -> Task:
        """Ask for a task; it begins at once where none runs.

        Parameters
        ----------
        kind : str
            What is to be done, one of `KINDS`.
        lesson : str
            The lesson, for the kinds that are about one; the caller has made sure that the course has it.

        Returns
        -------
        Task
            The task; one that waits for the same already is given instead of a second.

        Raises
        ------
        DomainError
            If there is no such kind, or a lesson is missing or too many.
        JobError
            If another studio has the course, or too many tasks wait.
        """
        wanted = KINDS.get(kind)
        if wanted is None:
            raise DomainError(
                told("task {kind}", kind=repr(kind[:32])),
                told("there is no such kind"),
                told("Ask for one of {list}.", list=", ".join(KINDS)),
            )
        if wanted.is_of_lesson != bool(lesson):
            rule = told("it is about one lesson") if wanted.is_of_lesson else told("it is about the whole course")
            raise DomainError(
                told("task '{kind}'", kind=kind),
                rule,
                told("Name a lesson.") if wanted.is_of_lesson else told("Name no lesson."),
            )
        with self._changing():
            task = self._book.add(kind, lesson)
            self._begin_next()
            return self._book.get(task.id)

    def cancel(self, task_id: str) -> Task:
        """End a task, or take it from those that wait; when this returns, it and all it left are gone.

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
            If it has ended already.
        """
        with self._changing():
            task, running = self._book.get(task_id), self._running
            if running is None or running.task.id != task_id:
                return self._book.change(task_id, State.CANCELLED, WORDS[State.CANCELLED])
            self._end(running, State.CANCELLED)
        running.ended.wait(WAIT_S)
        with self._lock:
            return self._book.get(task.id)

    def again(self, task_id: str) -> Task:
        """Go on with a task that was interrupted, cancelled or failed; what was finished is not done again.

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
            If it waits, runs or is done.
        """
        with self._changing():
            self._book.change(task_id, State.WAITING)
            self._begin_next()
            return self._book.get(task_id)

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
        with self._changing():
            return self._book.to_front(task_id)

    # --- what is told ----------------------------------------------------------------------------------------------

    def told(self) -> list[dict[str, Any]]:
        """Tell of all tasks: the one that runs, those that wait in their order, those that ended, the last first.

        Returns
        -------
        list of dict
            Plain data; see `kit/tasks.js` for what is in it.
        """
        with self._lock:
            if self._claim is None:
                self._book = TaskBook(self._folder)  # another studio writes there
            places = {task.id: place for place, task in enumerate(self._book.waiting, 1)}
            return [self._told(task, places.get(task.id, 0)) for task in self._book]

    @contextlib.contextmanager
    def listening(self, listener: Callable[[], None]) -> Iterator[None]:
        """Have somebody called whenever something has changed.

        Parameters
        ----------
        listener : callable
            Called in any thread.

        Yields
        ------
        None
            As long as it is called.
        """
        with self._lock:
            self._listeners.append(listener)
        try:
            yield
        finally:
            with self._lock:
                self._listeners.remove(listener)

    def close(self) -> None:
        """End what runs, and say of it and of all that waits that it was interrupted."""
        with self._lock:
            self._is_closing = True
            running = self._running
            if running is not None:
                self._end(running, State.INTERRUPTED)
        if running is not None:
            running.ended.wait(WAIT_S)
        with self._lock, contextlib.suppress(GamutwrightError):
            if self._claim is not None:
                self._book.interrupt()
                self._claim.close()
                self._claim = None

    def _told(self, task: Task, place: int) -> dict[str, Any]:
        told: dict[str, Any] = {
            "id": task.id, "kind": task.kind, "lesson": task.lesson, "state": task.state.value, "place": place,
            "made_at": task.made_at, "begun_at": task.begun_at, "ended_at": task.ended_at,
            "message": task.message, "result": task.result, "seconds": round(task.seconds, 1), "left": None,
            "stage": "", "done": 0, "total": 0, "share": 1.0 if task.state is State.DONE else 0.0,
            "stages": [], "parts": [],
        }  # fmt: skip
        running = self._running
        if running is None or running.task.id != task.id:
            return told
        now, reckoning = time.monotonic(), running.reckoning
        stage, left = reckoning.current, reckoning.left_s(now)
        told["seconds"] = round(now - running.begun_s, 1)
        told["left"] = None if left is None else round(left, 1)
        told["share"] = round(reckoning.share(now), 3)
        if stage is not None:
            told |= {"stage": stage_words(stage.name), "done": stage.done, "total": stage.total}
        told["stages"] = [
            {
                "name": one.name, "words": say(stage_words(one.name)), "done": one.done, "total": one.total,
                "share": round(one.share, 3), "is_over": one.ended_s is not None,
            }
            for one in reckoning.stages.values()
        ]  # fmt: skip
        told["parts"] = [{"name": name, **part} for name, part in running.parts.items()]
        return told

    def _tell(self) -> None:
        for listener in list(self._listeners):
            listener()

    @contextlib.contextmanager
    def _changing(self) -> Iterator[None]:
        with self._lock:
            if self._is_closing or not self._claimed():
                what = "this studio is being closed" if self._is_closing else "another studio works on this course"
                raise JobError(told("this task"), what, told("Use that one, or close it first."))
            yield
        self._tell()

    # --- what is done ----------------------------------------------------------------------------------------------

    def _claimed(self) -> bool:
        """Take the course's tasks for this studio; the claim ends with the process, however that ends."""
        if self._claim is not None:
            return True
        make_folder(self._folder)
        claim = (self._folder / "claim").open("ab")
        try:
            if os.name == "posix":
                import fcntl  # noqa: PLC0415 - posix alone has it

                fcntl.flock(claim, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            claim.close()
            return False
        self._claim, self._book = claim, TaskBook(self._folder)
        # What an earlier studio was at when it was closed or killed.
        with contextlib.suppress(GamutwrightError, OSError):
            for task in self._book.interrupt():
                self._clear(task)
        return True

    def _begin_next(self) -> None:
        """Begin the task whose turn it is, where none runs."""
        task = self._book.next()
        if task is None or self._is_closing or self._running is not None:
            return
        self._running = _Running(self._book.change(task.id, State.RUNNING))
        threading.Thread(target=self._attend, args=(self._running,), daemon=True).start()

    def _attend(self, running: _Running) -> None:
        """Start the process of a task, hear it, and see to it that nothing of it is left."""
        try:
            with self._lock:
                if running.becomes is None:
                    running.process = self._process(running.task)
            if running.process is not None:
                self._hear(running, running.process)
                _end_group(running.process)
        except OSError as error:
            running.error = str(
                JobError(
                    told("this task"), told("it cannot be begun ({error})", error=error), told("Close other programs.")
                )
            )
        finally:
            self._settle(running)

    def _process(self, task: Task) -> subprocess.Popen[bytes]:
        process = subprocess.Popen(
            [sys.executable, "-P", "-m", "gamutwright.studio.taskrun"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            start_new_session=True,
        )
        payload = {
            "id": task.id, "kind": task.kind, "work": KINDS[task.kind].work, "lesson": task.lesson,
            "course": str(self._course), "scratch": str(self._folder / task.id),
            "paces": self._book.paces(task.kind),
        }  # fmt: skip
        assert process.stdin is not None  # noqa: S101 - it is a pipe
        with contextlib.suppress(OSError):  # it is gone already, which is told when it is heard
            process.stdin.write((json.dumps(payload) + "\n").encode())
            process.stdin.flush()
        return process

    def _hear(self, running: _Running, process: subprocess.Popen[bytes]) -> None:
        assert process.stdout is not None  # noqa: S101 - it is a pipe
        for line in process.stdout:
            try:
                said = json.loads(line)
                with self._lock:
                    _take_in(running, said)
            except (ValueError, KeyError, TypeError, AttributeError):
                LOG.warning("A task said what cannot be understood: %r", line[:200])
            self._tell()

    def _settle(self, running: _Running) -> None:
        """Write down what became of a task whose process is gone, and begin the next."""
        task = running.task
        with contextlib.suppress(OSError):
            self._clear(task)
        with self._lock:
            state, message = _outcome(running)
            now = time.monotonic()
            try:
                self._book.change(
                    task.id, state, message, result=running.result or {}, seconds=round(now - running.begun_s, 2),
                    minutes=running.minutes, measured=running.reckoning.measured(now) if state is State.DONE else {},
                )  # fmt: skip
            except GamutwrightError:
                LOG.exception("What became of a task cannot be written down:")
            self._running = None
            running.ended.set()
            with contextlib.suppress(GamutwrightError):
                self._begin_next()
        self._tell()

    def _end(self, running: _Running, becomes: State) -> None:
        """Ask the process of a task to end, and see to it that it does."""
        if running.becomes is not None:
            return
        running.becomes = becomes
        if running.process is not None:
            _signal(running.process, polite=True)
            killer = threading.Timer(GRACE_S, _signal, (running.process,), {"polite": False})
            killer.daemon = True
            killer.start()

    def _clear(self, task: Task) -> None:
        """Clear away what a task left half-made."""
        shutil.rmtree(self._folder / task.id, ignore_errors=True)
        for slug in [task.lesson] if task.lesson else [path.name for path in self._course.glob("lessons/*")]:
            # What cannot be finished now is tried again, and told, by whoever makes it next.
            with contextlib.suppress(OSError):
                recover(self._course / "out" / slug, self._course / "replaced" / "lessons" / slug)


def _take_in(running: _Running, said: dict[str, Any]) -> None:
    """Take note of a line that a task wrote."""
    if "stage" in said:
        share = said.get("share")
        running.reckoning.tell(
            str(said["stage"]), int(said["done"]), int(said["total"]), time.monotonic(),
            None if share is None else float(share),
        )  # fmt: skip
    elif "expects" in said:
        running.reckoning.expect({str(name): float(seconds) for name, seconds in said["expects"].items()})
        running.minutes = float(said["minutes"])
    elif "part" in said:
        running.parts[str(said["part"])] = {"state": str(said["state"]), "words": str(said["words"])}
    elif "result" in said:
        running.result = dict(said["result"])
    elif "error" in said:
        running.error = str(said["error"])
        if said.get("trace"):
            LOG.error("A task failed:\n%s", said["trace"])


def _outcome(running: _Running) -> tuple[State, str]:
    """Say what became of a task whose process has ended."""
    if running.result is not None:
        # It was finished before it could be stopped.
        return State.DONE, str(running.result.get("message", ""))
    if running.becomes is not None:
        return running.becomes, WORDS[running.becomes]
    if running.error:
        return State.FAILED, running.error
    code = running.process.returncode if running.process is not None else None
    how = f"by signal {-code}" if code is not None and code < 0 else f"with exit code {code}"
    rule = told("its process ended {how} before it was done", how=how)
    return State.FAILED, str(
        JobError(told("this task"), rule, told("Close other programs and go on: what was finished is kept."))
    )


def _signal(process: subprocess.Popen[bytes], *, polite: bool) -> None:
    """Send a signal to a process and all it has started."""
    if process.poll() is not None:
        return
    with contextlib.suppress(OSError):
        if hasattr(os, "killpg"):
            os.killpg(process.pid, signal.SIGTERM if polite else signal.SIGKILL)
        elif polite:
            process.terminate()
        else:
            process.kill()


def _end_group(process: subprocess.Popen[bytes]) -> None:
    """Wait for the end of a process that has closed its line, and end whatever it has left running."""
    try:
        process.wait(GRACE_S)
    except subprocess.TimeoutExpired:
        _signal(process, polite=False)
        process.wait()
    if hasattr(os, "killpg"):
        with contextlib.suppress(OSError):
            os.killpg(process.pid, signal.SIGKILL)
    for line in (process.stdin, process.stdout):
        with contextlib.suppress(OSError):
            if line is not None:
                line.close()
