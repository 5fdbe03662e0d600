"""Two builds of one course: the second watches the first, takes what it made, and makes the rest."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from types import TracebackType
from typing import Self

import pytest

from gamutwright.codec import digest
from gamutwright.errors import JobError
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event, Outcome
from gamutwright.jobs.record import content_digest
from gamutwright.jobs.store import Parcel, Store
from gamutwright.series.building import Built, Condition, State, build
from gamutwright.series.course import Course
from gamutwright.series.orders import Order
from gamutwright.series.turns import Turn
from gamutwright.settings import Settings
from series.courses import member, script


class Stand:
    """Runs no job, but says so; each waits for the word to go on."""

    is_shared = True
    workers = 1

    def __init__(self, store: Store, folder: Path, goes_on: Callable[[], object] = bool, broken: str = "") -> None:
        self.store, self.done, self._folder = store, list[str](), folder
        self._goes_on, self._broken = goes_on, broken

    def outcomes(self, jobs: Iterable[Job], told: Callable[[Event], None] | None = None) -> Iterator[Outcome]:
        for job in jobs:
            slug = job.payload.slug  # type: ignore[attr-defined] # an order
            if told:
                told(Event("begun", job.key, "stand", "", 0, 1))
                told(Event("stage", job.key, "stand", "film", 1, 2))
            self._goes_on()
            self.done.append(slug)
            if slug == self._broken:
                yield Outcome(job, None, JobError(slug, "it fell", "Mend it."), "", 1.0, "stand")
                continue
            place = self._folder / slug
            place.mkdir(parents=True, exist_ok=True)
            (place / "page.html").write_text(slug)
            place.with_name(f"{slug}.zip").write_text(slug)
            parcel = Parcel({"files": {"page.html": content_digest(place / "page.html")}})
            self.store.put(job.key, parcel)
            yield Outcome(job, parcel, None, "", 1.0, "stand")

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        pass


@pytest.fixture
def course(tmp_path: Path) -> Course:
    return Course(tmp_path, "Scales by the harbour")


def state(course: Course, slug: str, condition: Condition = Condition.TO_BUILD) -> State:
    order = Order(slug, course.script_of(slug), course.out / slug, course.kept, Settings(), ())
    return State(member(slug, script()), condition, digest(slug), order=order)


class Side:
    """A build in a thread of its own, and what it saw."""

    def __init__(self, course: Course, runner: Stand, todo: list[State]) -> None:
        self.events, self.ended, self.result = list[tuple[str, str]](), list[Built](), tuple[Built, ...]()
        self._work = (course, todo, runner)
        self.thread = threading.Thread(target=self._build)
        self.thread.start()

    def _build(self) -> None:
        def told(slug: str, event: Event) -> None:
            self.events.append((slug, event.kind))

        self.result = build(*self._work, told=told, ended=self.ended.append)


def until(holds: Callable[[], object]) -> None:
    deadline = time.monotonic() + 60
    while not holds():
        assert time.monotonic() < deadline
        time.sleep(0.01)


def two(course: Course, wants: tuple[list[str], list[str]], broken: str = "") -> tuple[Stand, Stand, Side, Side]:
    """Let a second build begin while the first is in the middle of its first lesson."""
    go, store = threading.Event(), Store(course.kept / "store")
    one, other = Stand(store, course.out, go.wait, broken), Stand(store, course.out)
    first = Side(course, one, [state(course, slug) for slug in wants[0]])
    until(lambda: first.events)
    second = Side(course, other, [state(course, slug) for slug in wants[1]])
    until(lambda: second.events)
    go.set()
    first.thread.join()
    second.thread.join()
    return one, other, first, second


def test_the_second_makes_nothing_and_ends_with_what_the_first_made(course: Course):
    one, other, first, second = two(course, (["dorian", "ionian"], ["dorian", "ionian"]))
    assert (one.done, other.done) == (["dorian", "ionian"], [])
    assert [(built.slug, built.condition, built.seconds, built.worker) for built in second.result] == [
        (built.slug, built.condition, built.seconds, built.worker) for built in first.result
    ]
    assert [event for event in second.events if event[0]] == first.events, "it shows what the first does"
    assert ("", "waiting") in second.events, "and whose work that is"
    assert [built.slug for built in second.ended] == ["dorian", "ionian"]


def test_what_failed_for_the_first_failed_for_the_second(course: Course):
    one, other, _, second = two(course, (["dorian", "ionian"], ["dorian", "ionian"]), broken="dorian")
    assert (one.done, other.done) == (["dorian", "ionian"], [])
    assert [(built.condition, built.detail) for built in second.result] == [
        (Condition.FAILED, "dorian: it fell. Mend it."), (Condition.BUILT, ""),
    ]  # fmt: skip


def test_the_second_makes_what_the_first_does_not(course: Course):
    one, other, _, second = two(course, (["dorian"], ["ionian", "dorian"]))
    assert (one.done, other.done) == (["dorian"], ["ionian"])
    assert [built.slug for built in second.result] == ["ionian", "dorian"]


def test_one_that_wants_less_does_not_wait_for_the_rest(course: Course):
    go, gone, store = threading.Event(), threading.Event(), Store(course.kept / "store")
    waits = iter([go, gone])
    one, other = Stand(store, course.out, lambda: next(waits).wait()), Stand(store, course.out)
    first = Side(course, one, [state(course, "dorian"), state(course, "ionian")])
    until(lambda: first.events)
    second = Side(course, other, [state(course, "dorian")])
    go.set()
    second.thread.join(60)
    assert [built.slug for built in second.result] == ["dorian"]
    assert first.thread.is_alive()
    gone.set()
    first.thread.join()


def test_what_was_made_between_looking_and_building_is_not_made_again(course: Course):
    store, todo = Store(course.kept / "store"), [state(course, "dorian")]
    build(course, todo, Stand(store, course.out))
    late = Stand(store, course.out)
    assert [built.condition for built in build(course, todo, late)] == [Condition.BUILT]
    assert late.done == []
    again = Stand(store, course.out)
    build(course, [state(course, "dorian", Condition.BUILT)], again)
    assert again.done == ["dorian"], "but it is where that was asked for"


def test_a_builder_that_was_killed_is_followed_by_the_next(course: Course, tmp_path: Path):
    code = """
import sys, time
from pathlib import Path
from gamutwright.series.turns import Turn
turn = Turn(Path(sys.argv[1]))
assert turn.take()
turn.begin()
turn.say({"built": {"slug": "dorian", "condition": "built", "detail": "", "seconds": 1.0, "worker": "", "trace": ""},
          "key": sys.argv[2]})
print("there", flush=True)
time.sleep(600)
"""
    command = [sys.executable, "-c", code, str(course.kept), digest("dorian")]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as builder:  # noqa: S603 - ourselves
        assert builder.stdout is not None
        assert builder.stdout.readline() == "there\n"
        stand = Stand(Store(course.kept / "store"), course.out)
        second = Side(course, stand, [state(course, "dorian"), state(course, "ionian")])
        until(lambda: second.ended)
        assert stand.done == []
        builder.kill()
    second.thread.join(60)
    assert stand.done == ["ionian"]
    assert [built.slug for built in second.result] == ["dorian", "ionian"]


@pytest.mark.parametrize(
    "line", ["[" * 5_000, "{", '{"built": 3}', '{"built": {"slug": "dorian"}, "key": "x"}', "\x00"]
)
def test_lines_that_say_nothing_are_passed_over(line: str, course: Course):
    with Turn(course.kept) as first, Turn(course.kept) as second:
        assert first.take()
        first.begin()
        with (course.kept / "build.jsonl").open("a") as file:
            file.write(line + "\n" + json.dumps({"key": "whole"}) + "\n" + '{"cut')
        assert [told.get("key") for told in second.heard()][-1] == "whole"
        assert not second.take()
    with Turn(course.kept) as third:
        assert third.take(), "it is free as soon as the first has left"
