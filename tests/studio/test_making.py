"""Tasks and what was made, over the wire: what is asked is done, and who asks for what is not theirs gets nothing."""

from __future__ import annotations

import http.client
import json
import os
import shutil
import signal
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import psutil
import pytest

from gamutwright.jobs.outfolder import CRATE, listed_files
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.series.building import Condition, states_of
from gamutwright.series.course import read_course
from gamutwright.series.workshop import open_course
from gamutwright.studio import made, taskrun
from series.courses import course_in, script
from studio.desks import TESTS, own_kinds, until
from studio.serving import Answer, Studio, running

SECRET = b"nobody may read this"


def post(studio: Studio, path: str, data: object = None) -> Answer:
    body = b"" if data is None else json.dumps(data).encode()
    return studio.ask("POST", path, body, content_type="application/json")


def start(studio: Studio, kind: str, lesson: str = "") -> str:
    answer = post(studio, "/api/tasks", {"kind": kind, "lesson": lesson})
    assert answer.status == 201, answer.body
    return str(json.loads(answer.body)["id"])


def tasks(studio: Studio) -> dict[str, dict[str, Any]]:
    return {task["id"]: task for task in json.loads(studio.ask("GET", "/api/tasks").body)["tasks"]}


def ended(studio: Studio, task_id: str) -> dict[str, Any]:
    return until(lambda: (task := tasks(studio)[task_id])["state"] not in {"waiting", "running"} and task)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    """A studio whose course was built by its own task: one lesson is made, one is not proved, one hides a trap."""
    course = course_in(
        tmp_path_factory.mktemp("made"),
        {"dorian": script(), "ionian": script("C D E F G A B", "<img src=x onerror=alert(1)>", 2, "six")},
    )
    (course / "outside.txt").write_bytes(SECRET)
    with running(course) as studio:
        found = ended(studio, start(studio, "course"))
        assert found["state"] == "done", found["message"]
        yield studio


@pytest.fixture
def studio(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Studio]:
    """A studio with the tests' own kinds of tasks."""
    monkeypatch.setenv("PYTHONPATH", str(TESTS))
    for name, kind in own_kinds().items():
        monkeypatch.setitem(taskrun.KINDS, name, kind)
    with running(course_in(tmp_path / "course", {"dorian": script()})) as one:
        yield one


# --- what is made ----------------------------------------------------------------------------------------------------


def test_what_the_task_made_is_what_a_build_remembers(built: Studio):
    """The build of the course (series.building) takes the packages for its own: nothing is left to be made."""
    workshop = open_course(built.place.course)
    states = {
        state.member.slug: state.condition for state in states_of(workshop.course, workshop.members, workshop.store)
    }
    assert states == {"dorian": Condition.BUILT, "ionian": Condition.FAULTS}
    assert (built.place.course / "out" / "index.html").is_file()
    assert (built.place.course / "out" / "state.html").is_file()


def test_a_package_is_told_as_done_only_when_its_film_was_read_back(built: Studio):
    data = json.loads(built.ask("GET", "/api/lesson/dorian/made").body)
    assert data["state"] == "built"
    assert data["reading"]["broken"] == []
    verdicts = [check["verdict"] for check in data["reading"]["checks"]]
    assert verdicts.count("held") == data["reading"]["held"] > 15
    assert data["corrections"] == {"problem": "", "corrections": [], "redefined": [], "note": ""}
    assert "## Title" in data["publish"]
    listed = listed_files(built.place.course / "out" / "dorian")
    assert {file["name"] for file in data["files"]} == {*listed, CRATE, ""}


def test_a_film_that_was_tampered_with_is_told_as_failed(built: Studio):
    film = built.place.course / "out" / "dorian" / "film.mp4"
    kept = film.read_bytes()
    try:
        film.write_bytes(kept[: len(kept) // 2])
        found = ended(built, start(built, "verify", "dorian"))
        assert found["state"] == "failed"
        assert "film" in found["message"]
        assert json.loads(built.ask("GET", "/api/lesson/dorian/made").body)["state"] == "to build"
    finally:
        film.write_bytes(kept)


def test_what_is_not_proved_is_not_made(built: Studio):
    found = ended(built, start(built, "package", "ionian"))
    assert (found["state"], "not proved" in found["message"]) == ("failed", True)
    data = json.loads(built.ask("GET", "/api/lesson/ionian/made").body)
    assert data["state"] == "faults"
    assert [fault["words"] for fault in data["faults"]] == ["six"]
    assert data["files"] == []
    assert not (built.place.course / "out" / "ionian").exists()


def test_an_older_package_tells_what_is_to_be_corrected(built: Studio):
    """A statement that was confirmed when it was published, in a script that says otherwise today."""
    place = built.place.course / "out" / "dorian" / "script.md"
    kept = place.read_bytes()
    try:
        book = json.loads((place.parent / "ledger.json").read_text())
        assert [claim["words"] for claim in book["claims"] if claim["fact"] == "cardinality"][-1] == "seven"
        place.write_bytes(kept.replace(b"D E F G A B C", b"D E F G A B"))
        found = json.loads(built.ask("GET", "/api/lesson/dorian/made").body)["corrections"]
        assert [(one["said"], one["now"]) for one in found["corrections"]] == [("seven", "six")]
        assert "seven" in found["note"]
    finally:
        place.write_bytes(kept)


# --- the files -------------------------------------------------------------------------------------------------------


def test_every_listed_file_is_sent_as_it_lies(built: Studio):
    out = built.place.course / "out"
    for name in (*listed_files(out / "dorian"), CRATE):
        answer = built.ask("GET", f"/made/dorian/{name}")
        assert (answer.status, answer.body) == (200, (out / "dorian" / name).read_bytes()), name
        assert answer.headers["x-content-type-options"] == "nosniff"
    assert built.ask("GET", "/made/dorian.zip").body == (out / "dorian.zip").read_bytes()
    head = built.ask("HEAD", "/made/dorian/film.mp4")
    assert (head.status, head.body) == (200, b"")
    assert head.headers["content-type"] == "video/mp4"


@pytest.mark.parametrize(
    ("asked", "status", "start_", "end"),
    [
        ("bytes=0-99", 206, 0, 100),
        ("bytes=100-", 206, 100, None),
        ("bytes=-50", 206, -50, None),
        ("bytes=9999999999-", 416, 0, 0),
    ],
)
def test_a_part_of_a_film_is_sent(built: Studio, asked: str, status: int, start_: int, end: int | None):
    """RFC 9110 section 14: byte ranges, from memory."""
    content = (built.place.course / "out" / "dorian" / "film.mp4").read_bytes()
    answer = built.ask("GET", "/made/dorian/film.mp4", range=asked)
    assert answer.status == status
    if status == 206:
        assert answer.body == content[start_:end]
        assert answer.headers["content-range"].endswith(f"/{len(content)}")


def test_pages_that_were_made_run_no_script(built: Studio):
    """CSP level 3, from memory: without `allow-scripts` a sandbox runs none, and default-src stands for script-src."""
    for path in ("/made/dorian/index.html", "/made/index.html", "/made/state.html"):
        policy = built.ask("GET", path).headers["content-security-policy"].split("; ")
        assert policy[0].split()[0] == "sandbox"
        assert "allow-scripts" not in policy[0]
        assert "default-src 'none'" in policy
        assert not any(part.startswith("script-src") for part in policy)
    for path in ("/made/dorian/film.mp4", "/made/dorian/script.md", "/made/nothing"):
        assert "script-src" not in built.ask("GET", path).headers["content-security-policy"]
    assert "script-src 'self'" in built.ask("GET", "/").headers["content-security-policy"]


@pytest.mark.parametrize(
    "path",
    [
        "../outside.txt", "dorian/../../outside.txt", "dorian/..%2f..%2foutside.txt", "..%2foutside.txt",
        "dorian/%2e%2e/%2e%2e/outside.txt", "dorian/..%252f..%252foutside.txt", "%2e%2e%2foutside.txt",
        "dorian//../../outside.txt", "dorian/..\\..\\outside.txt", "dorian/..%5c..%5coutside.txt", "./../outside.txt",
        "dorian/%c0%ae%c0%ae/outside.txt", "dorian/film.mp4%00.txt", "dorian/", "dorian", "", ".", "..", "dorian/.",
        "DORIAN/film.mp4", "dorian/FILM.MP4", "dorian/sounds", "dorian/sounds/", "outside.zip", "dorian.zip/",
        "dorian%2ffilm.mp4%2f..", "ionian/film.mp4", "dorian/film.mp4/", "-/film.mp4", "%2fetc%2fpasswd",
        "dorian/%2fetc%2fpasswd", "series.toml", "nowhere/index.html", "file:%2f%2f%2fetc%2fpasswd",
        "dorian/film.mp4;v=1", "dorian/.hidden", "lessons/dorian/script.md",
    ],
)  # fmt: skip
def test_no_spelling_leads_out_of_what_was_made(built: Studio, path: str):
    answer = built.ask("GET", f"/made/{path}")
    assert answer.status in {400, 404, 405}
    assert SECRET not in answer.body
    assert b"root:" not in answer.body


def test_links_and_lists_that_lead_out_give_nothing(tmp_path: Path):
    """A package from elsewhere may list anything and hold links; only files that really lie in it are given."""
    course = course_in(tmp_path / "course", {"dorian": script()})
    outside = tmp_path / "outside.txt"
    outside.write_bytes(SECRET)
    folder = course / "out" / "dorian"
    folder.mkdir(parents=True)
    (folder / "link.txt").symlink_to(outside)
    (folder / "series.txt").symlink_to(course / "series.toml")
    (folder / "whole").symlink_to(tmp_path)
    (folder / "own.txt").write_bytes(b"own")
    names = [
        "link.txt",
        "series.txt",
        "whole/outside.txt",
        "../../../outside.txt",
        str(outside),
        "own.txt",
        "gone.txt",
        ".",
    ]
    rows = [{"@id": name, "@type": "File", "sha256": ""} for name in names]
    (folder / CRATE).write_text(json.dumps({"@graph": rows}))
    (course / "out" / "index.html").symlink_to(outside)
    (course / "out" / "dorian.zip").symlink_to(outside)
    shutil.copytree(folder, tmp_path / "elsewhere", symlinks=True)
    (course / "out" / "lydian").symlink_to(tmp_path / "elsewhere")
    with running(course) as studio:
        for name in names:
            status = 200 if name == "own.txt" else 404
            quoted = name.replace("/", "%2f")
            assert studio.ask("GET", f"/made/dorian/{quoted}").status in {status, 400}, name
            assert SECRET not in studio.ask("GET", f"/made/dorian/{quoted}").body
        for path in ("index.html", "dorian.zip", "lydian/own.txt"):
            assert studio.ask("GET", f"/made/{path}").status == 404
        assert studio.ask("GET", "/api/lesson/dorian/made").status == 200, "and the screen lives with it"


# --- tasks over the wire ---------------------------------------------------------------------------------------------


def test_verbs_ids_and_kinds_that_nobody_knows_are_refused(studio: Studio):
    task_id = start(studio, "slow")
    for verb in ("", "delete", "CANCEL", "cancel/cancel", "__init__", "start", "told", "%63ancel%00"):
        assert post(studio, f"/api/tasks/{task_id}/{verb}").status in {400, 404, 405}, verb
    assert studio.ask("GET", f"/api/tasks/{task_id}/cancel").status in {404, 405}
    for odd in ("0" * 16, "..%2fclaim", "claim", "%00", "x" * 5000, task_id.upper(), f"{task_id}.json"):
        assert post(studio, f"/api/tasks/{odd}/cancel").status in {400, 404}, odd
    assert tasks(studio)[task_id]["state"] == "running"
    for data, status in (
        ({"kind": "nonsense"}, 422), ({"kind": "package"}, 422), ({"kind": "package", "lesson": "nowhere"}, 409),
        ({"kind": "package", "lesson": "../outside"}, 409), ({"kind": "check", "lesson": "dorian"}, 422),
        ({"kind": "check", "lesson": ["dorian"]}, 422), ({"kind": "check", "course": "/"}, 422), ([], 422), ({}, 422),
        ({"kind": "x" * 1000}, 422),
    ):  # fmt: skip
        assert post(studio, "/api/tasks", data).status == status, data
    assert post(studio, f"/api/tasks/{task_id}/cancel").status == 200
    assert post(studio, f"/api/tasks/{task_id}/cancel").status == 409, "it has ended already"


def test_a_hundred_requests_at_once_make_one_task_that_runs_and_one_that_waits(studio: Studio):
    from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415 - here alone

    first = start(studio, "slow")
    with ThreadPoolExecutor(20) as pool:
        ids = set(pool.map(lambda _: start(studio, "stubborn"), range(100)))
    assert len(ids) == 1
    states = {task_id: task["state"] for task_id, task in tasks(studio).items()}
    assert states == {first: "running", ids.pop(): "waiting"}


class Stream:
    """A stream of events, read piece by piece."""

    def __init__(self, studio: Studio) -> None:
        self.line = http.client.HTTPConnection("127.0.0.1", studio.port, timeout=20)
        self.line.request("GET", "/api/tasks/events", headers={"host": studio.host, "cookie": studio.cookie})
        self.answer = self.line.getresponse()

    def next(self) -> tuple[str, Any]:
        """Give the next event; "" at the end."""
        name, data = "", ""
        while line := self.answer.readline().decode().rstrip("\n"):
            field, _, value = line.partition(": ")
            name, data = (value, data) if field == "event" else (name, value)
        return name, json.loads(data) if data else None


def test_the_stream_tells_everything_first_and_then_what_changes(studio: Studio):
    before = start(studio, "quick")
    ended(studio, before)
    stream = Stream(studio)
    with closing(stream.line):
        assert stream.answer.getheader("content-type", "").startswith("text/event-stream")
        name, data = stream.next()
        assert (name, [task["id"] for task in data["tasks"]]) == ("all", [before])
        task_id = start(studio, "slow")
        seen = until(lambda: next((task for task in (stream.next()[1] or {}).get("tasks", ()) if task["stage"]), None))
        assert (seen["id"], seen["state"], seen["stage"], seen["total"]) == (task_id, "running", "speaking", 10)
        assert 0 < seen["left"] <= 600
        later = until(
            lambda: next((task for task in stream.next()[1]["tasks"] if task["seconds"] > seen["seconds"]), None)
        )
        assert later["id"] == task_id, "times go on by themselves"
        post(studio, f"/api/tasks/{task_id}/cancel")
        last = until(lambda: next((task for task in stream.next()[1]["tasks"] if task["state"] == "cancelled"), None))
        assert last["id"] == task_id


def test_the_stream_ends_with_the_studio(tmp_path: Path):
    with running(course_in(tmp_path / "course", {"dorian": script()})) as studio:
        stream = Stream(studio)
        assert stream.next()[0] == "all"
    assert stream.next() == ("", None)
    stream.line.close()


def test_a_task_that_is_killed_is_told_and_the_next_begins(studio: Studio):
    task_id = start(studio, "slow")
    path = studio.place.course / "pids.json"
    process, child = until(lambda: path.is_file() and json.loads(path.read_text()))
    waits = start(studio, "quick")
    os.kill(process, signal.SIGKILL)
    assert "by signal 9" in ended(studio, task_id)["message"]
    assert ended(studio, waits)["state"] == "done"
    until(lambda: not psutil.pid_exists(child) or psutil.Process(child).status() == psutil.STATUS_ZOMBIE)


# --- the course ------------------------------------------------------------------------------------------------------


def test_a_course_is_begun_planned_and_drafted_from_an_empty_folder(tmp_path: Path):
    with running(tmp_path) as studio:
        page = studio.ask("GET", "/")
        assert (page.status, b"A new course" in page.body) == (200, True)
        assert list(tmp_path.iterdir()) == [], "looking wrote nothing"
        for wrong in ({"title": "  "}, {"title": "x", "language": "xx"}, {"title": "x", "folder": "/tmp"}, {}):  # noqa: S108
            assert post(studio, "/api/course", wrong).status == 422
        title = 'By the quay "<script>"'
        assert post(studio, "/api/course", {"title": title, "level": "foundation"}).status == 201
        assert post(studio, "/api/course", {"title": "Another"}).status == 409
        page = studio.ask("GET", "/")
        assert b"<script>&" not in page.body
        assert b"&lt;script&gt;" in page.body
        found = ended(studio, start(studio, "draft"))
        assert (found["state"], found["result"]["drafted"]) == ("done", 2)
        assert ended(studio, start(studio, "plan"))["state"] == "done"
        data = json.loads(studio.ask("GET", "/api/course").body)
        assert [lesson["state"] for lesson in data["lessons"]] == ["to build", "to build"]
        assert [place["title"] for place in data["plan"]["places"]] == [lesson["title"] for lesson in data["lessons"]]
        assert data["plan"]["sizes"]
        assert data["plan"]["levels"]


def test_a_lesson_is_drafted_in_the_language_and_the_divisions_asked_for(tmp_path: Path):
    with running(tmp_path) as studio:
        assert post(studio, "/api/course", {"title": "Am Hafen", "language": "de"}).status == 201
        drafted = []
        for wanted in ({"scale": "D dorian"}, {"scale": "0 2 3", "divisions": 5, "language": "en", "minutes": 2}):
            answer = post(studio, "/api/lessons", wanted)
            assert answer.status == 201, answer.body
            slug = json.loads(answer.body)["slug"]
            drafted.append(parse((tmp_path / "lessons" / slug / "script.md").read_text("utf-8")))
        checked = [check(script) for script in drafted]
        assert [script.front.language for script in drafted] == ["de", "en"]
        assert [report.scale.divisions for report in checked] == [12, 5]
        assert [report.faults for report in checked] == [(), ()]
        for wrong in ({"scale": "0 2 7", "divisions": 5}, {"scale": "D dorian", "divisions": 73}, {"scale": ""}):
            assert post(studio, "/api/lessons", wrong).status == 422


@pytest.mark.long
def test_one_lesson_that_fails_stops_no_other_and_goes_on_when_it_is_mended(tmp_path: Path):
    course = course_in(tmp_path, {"dorian": script(), "lydian": script("F G A B C D E", "Lydian on F", 2)})
    (course / "out").mkdir()
    in_the_way = course / "out" / "lydian"
    in_the_way.write_text("a file where the folder belongs")
    with running(course) as studio:
        task_id = start(studio, "course")
        found = ended(studio, task_id)
        assert found["state"] == "failed"
        assert "one lesson built" in found["message"]
        assert "lydian" in found["message"]
        rows = json.loads(studio.ask("GET", "/api/course").body)["lessons"]
        assert {row["slug"]: row["state"] for row in rows} == {"dorian": "built", "lydian": "failed"}
        assert in_the_way.read_text() == "a file where the folder belongs"
        in_the_way.unlink()
        assert post(studio, f"/api/tasks/{task_id}/again").status == 200
        assert ended(studio, task_id)["state"] == "done"
        assert (course / "out" / "lydian" / "film.mp4").is_file()


def test_check_and_report_are_told_on_the_course(built: Studio):
    found = ended(built, start(built, "check"))
    data = json.loads(built.ask("GET", "/api/course").body)
    broken = [one["rule"] for one in data["check"]["checks"] if one["standing"] == "broken"]
    assert broken == ["every statement is proved"]
    assert found["result"]["broken"] == 1
    assert data["pages"] == ["index.html", "state.html"]


def test_a_folder_is_shown_only_where_there_is_a_desktop(
    built: Studio, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
):
    monkeypatch.setattr(made.sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert json.loads(post(built, "/api/lesson/dorian/folder").body) == {"opened": False}
    assert post(built, "/api/lesson/ionian/folder").status == 409
    assert post(built, "/api/lesson/..%2f..%2fetc/folder").status in {400, 404}
    told = tmp_path / "told"
    opener = tmp_path / "bin" / "xdg-open"
    opener.parent.mkdir()
    opener.write_text(f'#!/bin/sh\nprintf "%s" "$1" > "{told}.new" && mv "{told}.new" "{told}"\n')
    opener.chmod(0o755)
    monkeypatch.setenv("DISPLAY", ":9")
    monkeypatch.setenv("PATH", f"{opener.parent}:{os.environ['PATH']}")
    assert json.loads(post(built, "/api/lesson/dorian/folder").body) == {"opened": True}
    until(told.is_file)
    assert told.read_text() == str(built.place.course / "out" / "dorian")


def test_instruments_and_handouts_are_chosen(built: Studio):
    """The choice is written into the course's file, and refused where it plays nothing."""
    folder = built.place.course
    before = (folder / "series.toml").read_text("utf-8")
    try:
        refused = post(built, "/api/course/playing", {"soundfont": "harbour.sf2"})
        assert refused.status == 422
        assert post(built, "/api/course/playing", {"instruments": ["tune=flute"]}).status == 422
        assert post(built, "/api/course/playing", {"written_for": ["D"]}).status == 422
        assert (folder / "series.toml").read_text("utf-8") == before
        shutil.copyfile("/usr/share/sounds/sf2/TimGM6mb.sf2", folder / "harbour.sf2")
        assert b"harbour.sf2" in built.ask("GET", "/").body
        wanted = {"soundfont": "harbour.sf2", "instruments": ["tune=flute"], "written_for": ["Eb"], "play_along": False}
        assert post(built, "/api/course/playing", wanted).status == 200
        course = read_course(folder)
        assert (course.sound.soundfont, course.sound.instruments) == ("harbour.sf2", ("tune=flute",))
        assert (course.music.written_for, course.music.play_along) == (("Eb",), False)
    finally:
        (folder / "series.toml").write_text(before, encoding="utf-8")
        (folder / "harbour.sf2").unlink(missing_ok=True)
