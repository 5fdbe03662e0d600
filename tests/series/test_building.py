"""Building a course: what changed and nothing else, one broken lesson not in the way of the others."""

from __future__ import annotations

import hashlib
import json
import os
import pickle
import shutil
import time
import zipfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import TracebackType
from typing import Self

import pytest

from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Outcome, Told
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.series.building import Built, Condition, State, build, due, states_of
from gamutwright.series.orders import make_lesson
from gamutwright.series.website import write_site
from gamutwright.series.workshop import Workshop, open_course
from series.courses import HEAD, course_in, script
from thinning import usually

SCRIPTS = {
    "dorian": script(),
    "ionian": script("C D E F G A B", "Ionian on C", 2),
    "broken": script("G A B C D E F", "Mixolydian on G", 3, "six"),
}


def states(folder: Path) -> tuple[Workshop, dict[str, State]]:
    workshop = open_course(folder, 1)
    return workshop, {
        state.member.slug: state for state in states_of(workshop.course, workshop.members, workshop.store)
    }


def built(folder: Path, *only: str, is_again: bool = False) -> dict[str, Built]:
    workshop, found = states(folder)
    with LocalPool(workshop.store, 1) as pool:
        todo = due(tuple(found.values()), only, is_again=is_again)
        return {one.slug: one for one in build(workshop.course, todo, pool)}


def digests(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted((folder / "out").rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, Built]]:
    folder = course_in(tmp_path_factory.mktemp("course"), SCRIPTS)
    return folder, built(folder)


@pytest.fixture
def course(made: tuple[Path, dict[str, Built]], tmp_path: Path) -> Path:
    """A copy of the built course, with its store and its times."""
    folder = tmp_path / "moved"
    shutil.copytree(made[0], folder)
    return folder


def test_a_broken_lesson_does_not_stop_the_others(made: tuple[Path, dict[str, Built]]):
    folder, done = made
    assert {slug: one.condition for slug, one in done.items()} == {"dorian": Condition.BUILT, "ionian": Condition.BUILT}
    _, found = states(folder)
    assert {slug: state.condition for slug, state in found.items()} == {
        "dorian": Condition.BUILT, "ionian": Condition.BUILT, "broken": Condition.FAULTS,
    }  # fmt: skip
    # Mixolydian has seven tones (common practice, no source).
    assert "six" in found["broken"].detail
    assert "seven" in found["broken"].detail
    assert found["dorian"].made["film_s"] > 5


def test_a_package_is_whole_and_points_to_its_siblings(made: tuple[Path, dict[str, Built]]):
    folder, _ = made
    book = json.loads((folder / "out" / "dorian" / "ledger.json").read_text("utf-8"))
    assert {(one["slug"], one["kind"]) for one in book["lesson"]["siblings"]} == {
        ("ionian", "next"), ("ionian", "mode"), ("broken", "mode"),
    }  # fmt: skip
    with zipfile.ZipFile(folder / "out" / "dorian.zip") as bundle:
        assert "dorian/film.mp4" in bundle.namelist()
    # The last card of the film announces the lesson that follows.
    assert "Ionian on C" in (folder / "out" / "dorian" / "publish.md").read_text("utf-8")


def test_what_has_not_changed_is_not_built_again(course: Path):
    before = digests(course)
    assert built(course) == {}
    assert digests(course) == before


def test_one_edited_line_builds_one_lesson(course: Path):
    path = course / "lessons" / "dorian" / "script.md"
    path.write_text(path.read_text("utf-8").replace("It has [seven]", "It is made of [seven]"), encoding="utf-8")
    before = digests(course)
    assert list(built(course)) == ["dorian"]
    after = digests(course)
    assert {name.split("/")[1].removesuffix(".zip") for name in after if after[name] != before[name]} == {"dorian"}


CHANGES: dict[str, Callable[[Path], object]] = {
    "no film": lambda folder: (folder / "out" / "ionian" / "film.mp4").unlink(),
    "other captions": lambda folder: (folder / "out" / "ionian" / "captions.vtt").write_text("WEBVTT\n"),
    "no parcel": lambda folder: (folder / "out" / "ionian.zip").unlink(),
    "nothing left": lambda folder: shutil.rmtree(folder / "out" / "ionian"),
}


@pytest.mark.parametrize("change", usually(CHANGES, "other captions", "no parcel"))
def test_a_package_that_was_touched_is_made_again_as_it_was(course: Path, change: str):
    before = digests(course)
    CHANGES[change](course)
    assert list(built(course)) == ["ionian"]
    assert digests(course) == before


def test_a_title_that_changes_is_told_to_the_lessons_that_point_to_it(course: Path):
    path = course / "lessons" / "ionian" / "script.md"
    path.write_text(path.read_text("utf-8").replace("Ionian on C", "The major scale on C"), encoding="utf-8")
    assert set(built(course)) == {"dorian", "ionian"}
    assert "The major scale on C" in (course / "out" / "dorian" / "publish.md").read_text("utf-8")


def test_what_a_teacher_put_beside_a_package_stays_and_counts_for_nothing(course: Path):
    (course / "out" / "ionian" / "notes.txt").write_text("mine")
    assert built(course) == {}
    assert list(built(course, "ionian", is_again=True)) == ["ionian"]
    assert (course / "out" / "ionian" / "notes.txt").read_text() == "mine"


def test_a_changed_setting_builds_all_again_and_a_moved_course_nothing(course: Path):
    (course / "series.toml").write_text(HEAD.replace('size = "720p"', 'size = "720p"\ntheme = "light"'))
    _, found = states(course)
    assert {state.condition for slug, state in found.items() if slug != "broken"} == {Condition.TO_BUILD}
    (course / "series.toml").write_text(HEAD)
    moved = course.with_name("elsewhere")
    course.rename(moved)
    assert built(moved) == {}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda folder: (folder / "out" / "ionian.zip").unlink(), "not as it was made"),
        (lambda folder: (folder / "lessons" / "ionian" / "notes.txt").write_text("x"), "files beside it"),
        (lambda folder: (folder / "series.toml").write_text(HEAD.replace("720p", "1080p")), "look"),
        (lambda folder: (folder / "series.toml").write_text(HEAD + "[voice]\nrate = 1.2\n"), "voice"),
        (lambda folder: (folder / "series.toml").write_text(HEAD + '[music]\nwritten_for = ["F"]\n'), "music"),
        (
            lambda folder: (folder / "lessons" / "dorian" / "script.md").write_text(script(title="Dorian by the quay")),
            "lessons it points to",
        ),
        (
            lambda folder: (folder / "lessons" / "ionian" / "script.md").write_text(
                script("C D E F G A B", "Ionian on C", 2).replace("It has [seven]", "It holds [seven]")
            ),
            "script",
        ),
    ],
)
def test_why_a_lesson_waits_is_said_and_what_was_published_stays_known(
    course: Path, change: Callable[[Path], object], said: str
):
    change(course)
    _, found = states(course)
    state = found["ionian"]
    assert state.condition is Condition.TO_BUILD
    assert state.detail.removeprefix("changed since it was built: ") in {said, "its package is not as it was made"}
    assert said in state.detail
    assert state.made["film_s"] > 5


def test_what_was_published_stays_known_while_its_script_has_faults(course: Path):
    (course / "lessons" / "ionian" / "script.md").write_text(script("C D E F G A B", "Ionian on C", 2, "nine"))
    _, found = states(course)
    assert found["ionian"].condition is Condition.FAULTS
    assert found["ionian"].made["film_s"] > 5
    workshop, found = states(course)
    paths = write_site(workshop.course, tuple(found.values()), workshop.store)
    assert "Ionian on C" in next(path for path in paths if path.name == "index.html").read_text("utf-8")


def test_a_damaged_memory_costs_time_only(course: Path):
    (course / ".gamutwright" / "digests.json").write_text('{"x": [1]}')
    for entry in (course / ".gamutwright" / "store").glob("??/*"):
        entry.write_bytes(entry.read_bytes()[:-1])
    before = digests(course)
    assert set(built(course)) == {"dorian", "ionian"}
    assert digests(course) == before


def test_a_file_that_changed_without_looking_changed_for_a_moment_is_read_again(course: Path):
    path = course / "out" / "ionian" / "captions.vtt"
    text = path.read_text("utf-8")
    path.write_text(text.replace("seven", "eight"), encoding="utf-8")
    status = path.stat()
    # Same size, and a time of change as it was: only the number of the file or the time of reading tells.
    os.utime(path, ns=(status.st_atime_ns, time.time_ns()))
    assert list(built(course)) == ["ionian"]


def test_a_failure_is_remembered_until_something_changes_and_tried_again(course: Path):
    (course / "lessons" / "dorian" / "script.md").write_text(
        script().replace("lesson: 1\n", "lesson: 1\nsupporters: friends.txt\n"), encoding="utf-8"
    )
    done = built(course)
    assert done["dorian"].condition is Condition.FAILED
    assert "friends.txt" in done["dorian"].detail
    _, found = states(course)
    assert found["dorian"].condition is Condition.FAILED
    assert "friends.txt" in found["dorian"].detail
    # What was published before stays.
    assert (course / "out" / "dorian" / "film.mp4").is_file()
    (course / "lessons" / "dorian" / "friends.txt").write_text("The harbour pilots\n", encoding="utf-8")
    assert built(course)["dorian"].condition is Condition.BUILT


@dataclass
class Elsewhere:
    """A runner whose workers see nothing of the course: jobs are pickled, files come along, parcels go back."""

    store: Store
    workers: int = 1
    is_shared: bool = False
    orders: list[Job] = field(default_factory=list)

    def outcomes(self, jobs: Iterable[Job], told: Told | None = None) -> Iterator[Outcome]:
        for job in jobs:
            self.orders.append(job)
            there = pickle.loads(pickle.dumps(job))  # noqa: S301 - written here a moment ago
            assert there.payload.files
            nowhere = replace(
                there.payload,
                script=Path("/nowhere/script.md"),
                folder=Path("/nowhere/out"),
                store=Path("/nowhere/store"),
            )
            parcel = make_lesson(nowhere)
            self.store.put(job.key, parcel)
            yield Outcome(job, parcel, None, "", 1.0, "elsewhere")

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        pass


def test_a_worker_that_does_not_see_the_course_makes_the_same_package(
    course: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
):
    monkeypatch.setenv("GAMUTWRIGHT_CACHE", str(tmp_path / "cache"))
    before = digests(course)
    workshop, found = states(course)
    shutil.rmtree(course / "out" / "ionian")
    workshop, found = states(course)
    (one,) = build(workshop.course, due(tuple(found.values())), Elsewhere(workshop.store))
    assert (one.slug, one.condition, one.worker) == ("ionian", Condition.BUILT, "elsewhere")
    assert digests(course) == before
    assert built(course) == {}
    parcel = workshop.store.get(found["ionian"].key)
    assert parcel is not None
    assert parcel.blobs == ()
