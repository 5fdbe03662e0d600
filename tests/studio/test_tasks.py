"""Tasks: one at a time and in order, ended with all they started, and never forgotten, whatever is killed.

The rules of the queue are compared with a plain list kept beside it. Who is alive is asked of the system (psutil).
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import psutil
import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from gamutwright.errors import DomainError, JobError
from gamutwright.jobs.outfolder import LIST
from gamutwright.studio import taskrun
from gamutwright.studio.taskdesk import Desk
from gamutwright.studio.tasks import KEPT, State, TaskBook, UnknownTaskError
from series.courses import course_in, script
from studio.desks import TESTS, ended, own_kinds, told, until


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("PYTHONPATH", str(TESTS))
    for name, kind in own_kinds().items():
        monkeypatch.setitem(taskrun.KINDS, name, kind)
    return course_in(tmp_path / "course", {"dorian": script()})


@pytest.fixture
def desk(course: Path) -> Iterator[Desk]:
    made = Desk(course)
    yield made
    made.close()


def alive(process: int) -> bool:
    try:
        return psutil.Process(process).status() != psutil.STATUS_ZOMBIE
    except psutil.NoSuchProcess:
        return False


def pids(course: Path) -> list[int]:
    return until(lambda: (path := course / "pids.json").is_file() and json.loads(path.read_text()))


def left_half_made(course: Path) -> list[str]:
    return [path.name for path in (course / "out").glob("*")] + [
        path.name for path in (course / ".gamutwright" / "tasks").glob("*") if path.is_dir()
    ]


# --- the book --------------------------------------------------------------------------------------------------------

# Every change of state that makes sense, written down apart from the program.
SENSE = {
    ("waiting", "running"), ("waiting", "cancelled"), ("waiting", "interrupted"),
    ("running", "done"), ("running", "failed"), ("running", "cancelled"), ("running", "interrupted"),
    ("failed", "waiting"), ("cancelled", "waiting"), ("interrupted", "waiting"),
}  # fmt: skip
WAY = {
    State.WAITING: [], State.RUNNING: [State.RUNNING], State.CANCELLED: [State.CANCELLED],
    State.DONE: [State.RUNNING, State.DONE], State.FAILED: [State.RUNNING, State.FAILED],
    State.INTERRUPTED: [State.INTERRUPTED],
}  # fmt: skip


@pytest.mark.parametrize("after", State)
@pytest.mark.parametrize("before", State)
def test_a_task_becomes_only_what_makes_sense(tmp_path: Path, before: State, after: State):
    book = TaskBook(tmp_path)
    task = book.add("check")
    for state in WAY[before]:
        task = book.change(task.id, state)
    if (before.value, after.value) in SENSE:
        assert book.change(task.id, after).state is after
        assert [one.state for one in TaskBook(tmp_path)] == [after], "it is on the disk as well"
    else:
        with pytest.raises(JobError):
            book.change(task.id, after)
        assert book.get(task.id).state is before


class Queue(RuleBasedStateMachine):
    """A book beside a plain list of the lessons that wait."""

    def __init__(self) -> None:
        super().__init__()
        import tempfile  # noqa: PLC0415 - hypothesis makes many of these

        self.folder = tempfile.TemporaryDirectory()
        self.book = TaskBook(Path(self.folder.name))
        self.waiting: list[str] = []
        self.running = ""
        self.ids: dict[str, str] = {}

    def teardown(self) -> None:
        self.folder.cleanup()

    @rule(lesson=st.sampled_from("abcde"))
    def add(self, lesson: str) -> None:
        self.ids[lesson] = self.book.add("package", lesson).id
        if lesson not in self.waiting:
            self.waiting.append(lesson)

    @rule()
    def begin(self) -> None:
        task = self.book.next()
        assert (task is None) == (bool(self.running) or not self.waiting)
        if task is not None:
            self.running = self.waiting.pop(0)
            assert task.lesson == self.running
            self.book.change(task.id, State.RUNNING)

    @rule(state=st.sampled_from([State.DONE, State.FAILED, State.CANCELLED]))
    def end(self, state: State) -> None:
        for task in list(self.book):
            if task.state is State.RUNNING:
                self.book.change(task.id, state)
                self.running = ""

    @rule(data=st.data())
    def put_first(self, data: st.DataObject) -> None:
        if self.waiting:
            lesson = data.draw(st.sampled_from(self.waiting))
            self.waiting.remove(lesson)
            self.waiting.insert(0, lesson)
            self.book.to_front(self.ids[lesson])

    @rule(data=st.data())
    def take_back(self, data: st.DataObject) -> None:
        if self.waiting:
            lesson = data.draw(st.sampled_from(self.waiting))
            self.waiting.remove(lesson)
            self.book.change(self.ids[lesson], State.CANCELLED)

    @rule()
    def read_anew(self) -> None:
        self.book = TaskBook(Path(self.folder.name))

    @invariant()
    def agrees(self) -> None:
        assert [task.lesson for task in self.book.waiting] == self.waiting
        assert [task.lesson for task in self.book if task.state is State.RUNNING] == (
            [self.running] if self.running else []
        )


TestQueue = Queue.TestCase
TestQueue.settings = settings(max_examples=15, stateful_step_count=15, deadline=None)


def test_ended_tasks_are_kept_up_to_a_number(tmp_path: Path):
    book = TaskBook(tmp_path)
    last = [book.change(book.add("package", f"lesson-{k}").id, State.CANCELLED) for k in range(KEPT + 5)][-1]
    assert len(list(book)) == KEPT == len(list(tmp_path.glob("*.json")))
    assert next(iter(book)).id == last.id
    with pytest.raises(UnknownTaskError):
        book.get("0" * 16)


@pytest.mark.parametrize(
    "content", ["", "{", "[]", "null", '{"id": "x"}', '{"id": "../../etc/passwd", "kind": "check"}', "\udcff"]
)
def test_a_record_that_is_damaged_or_foreign_is_passed_over(tmp_path: Path, content: str):
    book = TaskBook(tmp_path)
    kept = book.add("check")
    (tmp_path / "0123456789abcdef.json").write_bytes(content.encode("utf-8", "surrogateescape"))
    assert [task.id for task in TaskBook(tmp_path)] == [kept.id]


# --- the desk --------------------------------------------------------------------------------------------------------


def test_tasks_are_done_one_after_another_in_their_order(course: Path, desk: Desk):
    first = desk.start("slow")
    pids(course)
    later = [desk.start("quick lesson", name) for name in ("one", "two", "three", "two")]
    assert later[3].id == later[1].id, "what waits already is not put there twice"
    desk.to_front(later[2].id)
    desk.cancel(later[0].id)
    assert [(task["lesson"], task["place"]) for task in desk.told() if task["state"] == "waiting"] == [
        ("three", 1), ("two", 2),
    ]  # fmt: skip
    desk.cancel(first.id)
    assert ended(desk, later[1].id)["message"] == "Done."
    assert (course / "order.txt").read_text().split() == ["three", "two"]
    assert told(desk, later[0].id)["state"] == "cancelled"


@pytest.mark.parametrize("kind", ["slow", "stubborn"])
def test_a_cancelled_task_is_gone_with_all_it_started_and_left(course: Path, desk: Desk, kind: str):
    task = desk.start(kind)
    processes = pids(course)
    assert all(map(alive, processes))
    assert len(left_half_made(course)) == 2
    assert desk.cancel(task.id).state is State.CANCELLED
    assert [process for process in processes if alive(process)] == []
    assert left_half_made(course) == []
    with pytest.raises(JobError):
        desk.cancel(task.id)
    assert desk.again(task.id).state is State.RUNNING


def test_who_asks_for_what_is_not_there_is_told(desk: Desk):
    for kind, lesson in (("nonsense", ""), ("package", ""), ("check", "dorian"), ("__class__", "")):
        with pytest.raises(DomainError):
            desk.start(kind, lesson)
    for ask in (desk.cancel, desk.again, desk.to_front):
        for task_id in ("", "0" * 16, "../claim", "claim"):
            with pytest.raises(UnknownTaskError):
                ask(task_id)
    assert desk.told() == []


@pytest.mark.parametrize(
    ("kind", "state", "words"),
    [
        ("loud", "done", "Done all the same."),
        ("strange", "done", "Done."),
        ("refused", "failed", "it is no scale of the harbour"),
        ("broken", "failed", "ZeroDivisionError"),
        ("killed", "failed", "by signal 9"),
        ("huge", "failed", "20,000 characters"),
    ],
)
def test_what_became_of_a_task_is_told_in_words(course: Path, desk: Desk, kind: str, state: str, words: str):
    found = ended(desk, desk.start(kind).id)
    assert (found["state"], words in found["message"]) == (state, True), found
    assert TaskBook(course / ".gamutwright" / "tasks").get(found["id"]).message == found["message"]


def test_what_was_measured_helps_the_next_time(desk: Desk):
    assert ended(desk, desk.start("quick").id)["result"]["paces"] == {}
    paces = ended(desk, desk.start("quick").id)["result"]["paces"]
    assert list(paces) == ["voice"]
    assert paces["voice"] >= 0


def test_a_hundred_tasks_at_once_are_all_done(course: Path, desk: Desk):
    first = desk.start("slow")
    names = [f"lesson-{k}" for k in range(100)]
    tasks = [desk.start("quick lesson", name) for name in names]
    for task in tasks[5:]:
        desk.cancel(task.id)
    desk.cancel(first.id)
    for task in tasks[:5]:
        ended(desk, task.id)
    assert (course / "order.txt").read_text().split() == names[:5]


def test_a_second_studio_sees_the_tasks_and_begins_none(course: Path, desk: Desk):
    task = desk.start("slow")
    pids(course)
    other = Desk(course)
    assert [(one["id"], one["state"]) for one in other.told()] == [(task.id, "running")]
    with pytest.raises(JobError, match="another studio"):
        other.start("quick")
    other.close()
    assert told(desk, task.id)["state"] == "running"
    desk.close()
    third = Desk(course)
    assert told(third, task.id)["state"] == "interrupted"
    third.close()


def test_looking_at_a_folder_writes_nothing_into_it(tmp_path: Path):
    desk = Desk(tmp_path)
    assert desk.told() == []
    desk.close()
    assert list(tmp_path.iterdir()) == []


def test_a_studio_that_is_closed_ends_its_task_and_tells_so_later(course: Path):
    desk = Desk(course)
    task, waits = desk.start("slow"), desk.start("quick")
    processes = pids(course)
    desk.close()
    assert not any(map(alive, processes))
    with pytest.raises(JobError, match="closed"):
        desk.start("quick")
    again = Desk(course)
    assert {one["id"]: one["state"] for one in again.told()} == {task.id: "interrupted", waits.id: "interrupted"}
    assert again.again(waits.id).state is State.RUNNING
    assert ended(again, waits.id)["state"] == "done"
    again.close()


@pytest.mark.parametrize("kind", ["slow", "stubborn"])
def test_a_task_ends_with_a_studio_that_is_killed(course: Path, kind: str):
    words = [sys.executable, "-m", "studio.desks", str(course), kind]
    with subprocess.Popen(words, env={**os.environ, "PYTHONPATH": str(TESTS)}) as studio:  # noqa: S603 - ourselves
        processes = pids(course)
        studio.send_signal(signal.SIGKILL)
    until(lambda: not any(map(psutil.pid_exists, processes)))
    desk = Desk(course)
    (task,) = desk.told()
    assert (task["kind"], task["state"]) == (kind, "interrupted")
    assert left_half_made(course) == []
    desk.close()


def test_a_package_that_was_killed_in_the_making_leaves_nothing_and_goes_on(course: Path):
    """SIGKILL of the studio while the film is made; then one click, and the package is there and verified."""
    words = [sys.executable, "-m", "studio.desks", str(course), "package", "dorian"]
    with subprocess.Popen(words, env={**os.environ, "PYTHONPATH": str(TESTS)}) as studio:  # noqa: S603 - ourselves
        until(lambda: list((course / "out").glob(".dorian-*-new/*")) or (course / "out" / "dorian").exists())
        child = [process.pid for process in psutil.Process(studio.pid).children(recursive=True)]
        studio.send_signal(signal.SIGKILL)
    until(lambda: not any(map(psutil.pid_exists, child)))
    assert [path.name for path in (course / "out").glob("*")] == []
    desk = Desk(course)
    (task,) = desk.told()
    assert task["state"] == "interrupted"
    kept = len(list((course / ".gamutwright" / "store").glob("*/*")))
    assert kept > 0, "what was finished is kept"
    desk.again(task["id"])
    found = ended(desk, task["id"])
    desk.close()
    assert (found["state"], found["result"]["is_new"]) == ("done", True), found["message"]
    assert sorted(path.name for path in (course / "out").glob(".*")) == [LIST]
    assert (course / "out" / "dorian" / "film.mp4").is_file()
