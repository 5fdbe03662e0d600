"""`gamutwright series` from an empty folder to a built, checked and reported course, as a teacher types it."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from cli import typed
from series.courses import HEAD, course_in, script


def run(*words: str, code: int = 0) -> str:
    done = typed.run("series", *words)
    assert done.returncode == code, done.stdout + done.stderr
    return done.stdout + (done.stderr if code == 2 else "")


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A built course of two lessons, one of which points to the other as a mode."""
    folder = tmp_path_factory.mktemp("courses") / "evening"
    course_in(folder, {"dorian": script(), "ionian": script("C D E F G A B", "Ionian on C", 2)})
    run("build", str(folder), "--workers", "1")
    return folder


def test_from_an_empty_folder_to_drafts(tmp_path: Path):
    folder = tmp_path / "evening"
    assert "series.toml" in run("init", str(folder), "--title", "Scales by the harbour", "--level", "foundation")
    run("init", str(folder), code=2)
    planned = json.loads(run("plan", str(folder), "--json"))
    assert [row["lesson"] for row in planned["plan"]] == ["d-dorian", "g-acoustic"]
    assert planned["drafted"] == []
    assert "draft" in run("plan", str(folder)).lower()
    assert "2 scripts drafted" in " ".join(run("plan", str(folder), "--draft").split())
    found = json.loads(run("status", str(folder), "--json"))
    assert [(row["slug"], row["number"], row["state"]) for row in found["lessons"]] == [
        ("d-dorian", 1, "to build"), ("g-acoustic", 2, "to build"),
    ]  # fmt: skip
    assert json.loads(run("check", str(folder), "--json"))["is_whole"]
    # Seven tones of twelve: 462 rooted scales, 66 classes (Burnside's count of necklaces; from memory).
    assert "2 of 462" in run("plan", str(folder))


def test_a_built_course_checks_clean_and_stays_as_it_is(course: Path):
    assert "0 lessons built, 2 as they were" in run("build", str(course))
    assert (course / "out" / "index.html").is_file()
    assert "nothing is broken" in run("check", str(course))
    rows = json.loads(run("check", str(course), "--json"))["checks"]
    assert {row["standing"] for row in rows} == {"holds"}


def test_the_site_lists_what_is_built(course: Path):
    page = (course / "out" / "index.html").read_text("utf-8")
    assert "Dorian on D" in page
    assert "Ionian on C" in page
    assert "Ionian on C" in (course / "out" / "feed.xml").read_text("utf-8")


def test_a_report_is_a_page_and_data(course: Path, tmp_path: Path):
    run("report", str(course), "-o", str(tmp_path / "deep" / "state.html"))
    data = json.loads((tmp_path / "deep" / "state.json").read_text("utf-8"))
    assert [lesson["state"] for lesson in data["lessons"]] == ["built", "built"]
    assert data["totals"]["built"] == 2
    assert {check["state"] for check in data["checks"]} == {"holds"}
    assert {"what": "classes of 7 tones in 12 divisions", "shown": 1, "of": 66} in data["coverage"]
    assert "Scales by the harbour" in (tmp_path / "deep" / "state.html").read_text("utf-8")
    assert json.loads(run("report", str(course), "--json"))["lessons"] == data["lessons"]


def test_a_definition_that_changed_since_is_told_with_its_times(course: Path, tmp_path: Path):
    folder = tmp_path / "moved"
    subprocess.run(["cp", "-a", str(course), str(folder)], check=True)  # noqa: S603, S607 - keeps times of files
    book = folder / "out" / "dorian" / "ledger.json"
    told = json.loads(book.read_text("utf-8"))
    told["lesson"]["facts"][0]["definition"] = "0" * 64
    book.write_text(json.dumps(told), encoding="utf-8")
    data = json.loads(run("report", str(folder), "--json", code=1))
    (lesson,) = (lesson for lesson in data["lessons"] if lesson["slug"] == "dorian")
    (changed,) = lesson["changed_definitions"]
    lines = [line["start_ms"] for line in told["lesson"]["lines"] if line["id"] in {"count", "tones"}]
    assert changed["times"] == [f"{start // 60_000}:{start // 1000 % 60:02d}" for start in lines]
    # The ledger was tampered with: the lesson is built again, and all is well.
    assert "1 lesson built, 1 as they were" in run("build", str(folder))
    run("report", str(folder), "--json")


def test_one_broken_lesson_is_told_and_the_rest_is_built(tmp_path: Path):
    folder = course_in(tmp_path, {"dorian": script(count="six"), "ionian": script("C D E F G A B", "Ionian on C", 2)})
    said = run("build", str(folder), "--workers", "1", code=1)
    assert "1 lesson built" in said
    assert "dorian: faults" in said
    assert "'six'" in said
    assert "BROKEN" in run("check", str(folder), code=1)
    assert "faults" in run("status", str(folder))


def test_what_cannot_be_done_is_said(tmp_path: Path, course: Path):
    assert "series init" in run("status", str(tmp_path), code=2)
    assert "no such lesson" in run("build", str(course), "--only", "lydian", code=2)
    (tmp_path / "series.toml").write_text('title = "A"\nminuets = 3\n')
    assert "minuets" in run("plan", str(tmp_path), code=2)


def test_an_interrupt_stops_the_build_and_the_next_one_goes_on(tmp_path: Path):
    scripts = {f"lesson-{k}": script(title=f"Lesson {k}", number=k) for k in (1, 2)}
    folder = course_in(tmp_path, scripts, HEAD)
    with subprocess.Popen(  # noqa: S603 - ourselves
        [sys.executable, "-m", "gamutwright", "series", "build", str(folder), "--workers", "1"],
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as process:
        deadline = time.monotonic() + 120
        while not list((folder / "out").glob("lesson-*/film.mp4")):
            assert process.poll() is None
            assert time.monotonic() < deadline
            time.sleep(0.05)
        os.killpg(process.pid, signal.SIGINT)
        said, _ = process.communicate(timeout=60)
    assert process.returncode == 130, said
    assert "goes on" in said
    done = {path.parent.name for path in (folder / "out").glob("lesson-*/film.mp4")}
    assert len(done) == 1
    before = {slug: (folder / "out" / slug / "film.mp4").stat().st_mtime_ns for slug in done}
    run("build", str(folder), "--workers", "1")
    assert all((folder / "out" / slug / "film.mp4").is_file() for slug in scripts)
    kept = [slug for slug in done if (folder / "out" / slug / "film.mp4").stat().st_mtime_ns == before[slug]]
    # What was finished may have been in flight still: its film is there before the record of it.
    assert len(done) - len(kept) <= 1
