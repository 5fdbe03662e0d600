"""Builds whose processes are killed: nothing that was finished is lost, and nothing half-made is met.

Each build is a program of its own, killed with SIGKILL, which nobody can catch.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from cli import typed
from gamutwright.jobs.outfolder import CRATE, LIST, listed_files
from gamutwright.series.building import Condition, states_of
from gamutwright.series.workshop import open_course
from series.courses import course_in, script

LESSONS = 3


@pytest.fixture
def course(tmp_path: Path) -> Path:
    return course_of(LESSONS, tmp_path / "course")


def course_of(lessons: int, folder: Path) -> Path:
    return course_in(folder, {f"lesson-{k}": script(title=f"Lesson {k}", number=k) for k in range(1, lessons + 1)})


@contextmanager
def begun(course: Path, workers: int) -> Iterator[subprocess.Popen[str]]:
    """Start a build that has finished a lesson and is in the middle of others."""
    words = [sys.executable, "-m", "gamutwright", "series", "build", str(course), "--workers", str(workers)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:  # noqa: S603 - ourselves
        deadline = time.monotonic() + 120
        while not finished(course):
            assert process.poll() is None
            assert time.monotonic() < deadline
            time.sleep(0.02)
        yield process
        process.kill()


@pytest.fixture
def building(course: Path) -> Iterator[subprocess.Popen[str]]:
    with begun(course, 2) as process:
        yield process


def finished(course: Path) -> set[str]:
    return {path.parent.name for path in (course / "out").glob(f"lesson-*/{CRATE}")}


def children(process: int) -> list[int]:
    """List the processes that a process has started (Linux)."""
    found = []
    for place in Path("/proc").glob("[0-9]*"):
        try:
            fields = (place / "stat").read_text().rpartition(")")[2].split()
            command = (place / "cmdline").read_bytes()
        except OSError:
            continue
        if int(fields[1]) == process and b"spawn_main" in command:
            found.append(int(place.name))
    return found


def assert_whole(course: Path, lessons: int = LESSONS) -> None:
    """Every lesson is built, every file is the one that was listed, and no workplace is left."""
    workshop = open_course(course, 1)
    states = states_of(workshop.course, workshop.members, workshop.store)
    assert [state.condition for state in states] == [Condition.BUILT] * lessons
    for state in states:
        assert set(listed_files(course / "out" / state.member.slug))
    assert [path.name for path in (course / "out").glob(".*")] == [LIST]


def again(course: Path) -> str:
    done = typed.run("series", "build", str(course), "--workers", "1")
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_a_worker_that_is_killed_costs_the_lesson_in_hand(course: Path, building: subprocess.Popen[str]):
    workers = children(building.pid)
    assert len(workers) == 2
    os.kill(workers[0], signal.SIGKILL)
    said, _ = building.communicate(timeout=300)
    assert building.returncode == 0, said
    # Each lesson is told to be built once, the one in the dead worker's hand by another.
    assert sorted(line.split(":")[0].split()[-1] for line in said.splitlines() if "built in" in line) == [
        f"lesson-{k}" for k in range(1, LESSONS + 1)
    ]
    assert_whole(course)


def test_a_build_that_is_killed_goes_on_where_it_was(course: Path, building: subprocess.Popen[str]):
    workers = children(building.pid)
    building.kill()
    building.communicate()
    deadline = time.monotonic() + 30
    while any(Path(f"/proc/{worker}").exists() for worker in workers):
        assert time.monotonic() < deadline, "workers outlive the program that started them"
        time.sleep(0.05)
    done = finished(course)
    made = {slug: (course / "out" / slug / "film.mp4").stat().st_mtime_ns for slug in done}
    said = again(course)
    built = {line.split(":")[0].split()[-1] for line in said.splitlines() if "built in" in line}
    # What was finished stays as it was; the record of the lessons in flight may have been lost with the program.
    assert len(built & done) <= 2
    assert built | done == {f"lesson-{k}" for k in range(1, LESSONS + 1)}
    assert all((course / "out" / slug / "film.mp4").stat().st_mtime_ns == made[slug] for slug in done - built)
    assert_whole(course)
    assert "0 lessons built" in again(course)


def built_in(said: str) -> list[str]:
    return sorted(line.split(":")[0].split()[-1] for line in said.splitlines() if "built in" in line)


@pytest.mark.parametrize("is_killed", [False, True], ids=["ends", "is killed"])
def test_of_two_builds_at_once_the_second_follows_the_first(is_killed: bool, tmp_path: Path):
    course = course_of(2, tmp_path / "course")
    words = [sys.executable, "-m", "gamutwright", "series", "build", str(course), "--workers", "1"]
    with (
        begun(course, 1) as building,
        subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as second,  # noqa: S603 - ourselves
    ):
        assert second.stdout is not None
        head = ""
        while "is building this course" not in head:
            head += (line := second.stdout.readline())
            assert line, head
        if is_killed:
            building.kill()
        said, _ = building.communicate(timeout=300)
        followed = head + second.stdout.read()
        assert second.wait(300) == 0, followed
    assert f"process {building.pid} on" in head
    all_of_them = ["lesson-1", "lesson-2"]
    if not is_killed:
        assert built_in(said) == all_of_them
        assert not (course / "replaced" / "lessons").exists(), "nothing was made twice"
    assert set(built_in(followed)) <= set(all_of_them)
    assert_whole(course, 2)
