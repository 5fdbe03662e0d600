"""What is asked of the screen See over the wire: steps out of the course, other people's files, nonsense: refused.

The spellings of steps out of a folder are those that are usually tried (common practice, no source).
"""

from __future__ import annotations

import http.client
import json
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

import psutil
import pytest

from gamutwright.studio.previewwork import RECORD
from series.courses import course_in, script
from studio.serving import Studio, running, started

SECRET = b"nobody may read this"
STEPS = (
    "..",
    "%2e%2e",
    "..%2f..%2fsecret",
    "%2e%2e%2fsecret.mp4",
    "..%5c..",
    "%c0%ae%c0%ae",
    ".%00",
    "x" * 300,
    "%0a",
    "~",
)


@pytest.fixture(scope="module")
def harbour(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    folder = tmp_path_factory.mktemp("seen") / "course"
    course_in(folder, {"dorian": script()})
    (folder.parent / "secret.mp4").write_bytes(SECRET)
    with running(folder) as one:
        yield one


@pytest.mark.parametrize("step", STEPS)
def test_steps_out_of_the_course_reach_nothing(harbour: Studio, step: str):
    ways = [f"/api/lesson/{step}/{what}" for what in ("timeline", "still?tick=0", "small-film", "small-captions")]
    for way in (*ways, f"/api/lesson/{step}/clip/tones", f"/api/lesson/dorian/clip/{step}", f"/lesson/{step}/see"):
        answer = harbour.ask("GET", way)
        assert answer.status in {400, 404, 409, 422}, way
        assert SECRET not in answer.body


@pytest.mark.parametrize("tick", ["-1", "x", "1e3", "99999999999999", ""])
def test_a_moment_that_is_none_is_refused_in_words(harbour: Studio, tick: str):
    answer = harbour.ask("GET", f"/api/lesson/dorian/still?tick={tick}")
    assert answer.status == 422
    assert json.loads(answer.body)["next_step"]


def test_another_page_sees_nothing(harbour: Studio):
    assert harbour.ask("GET", "/api/lesson/dorian/timeline", is_in=False).status == 401
    assert harbour.ask("GET", "/api/lesson/dorian/timeline", origin="http://harbour.example").status == 403


def test_a_record_or_a_link_that_leads_out_gives_nothing(harbour: Studio):
    folder = harbour.place.course / ".gamutwright" / "seen" / "dorian"
    folder.mkdir(parents=True)
    (folder / "captions.vtt").write_text("WEBVTT\n")
    outside = harbour.place.course.parent / "secret.mp4"
    # A record names a file by more than its name; and a link stands where the film should be.
    (folder / RECORD).write_text(json.dumps({"key": "", "film": "../../../../secret.mp4"}))
    assert harbour.ask("GET", "/api/lesson/dorian/small-film").status in {404, 409}
    (folder / "film.mp4").symlink_to(outside)
    (folder / RECORD).write_text(json.dumps({"key": "", "film": "film.mp4"}))
    answer = harbour.ask("GET", "/api/lesson/dorian/small-film")
    assert answer.status in {404, 409}
    assert SECRET not in answer.body
    (folder / "film.mp4").unlink()
    (folder / "film.mp4").write_bytes(b"film")
    (folder / "captions.vtt").unlink()
    (folder / "captions.vtt").symlink_to(outside)
    answer = harbour.ask("GET", "/api/lesson/dorian/small-captions")
    assert answer.status in {404, 409}
    assert SECRET not in answer.body


def test_a_script_that_is_a_link_out_of_the_course_is_none(harbour: Studio):
    place = harbour.place.course / "lessons" / "linked"
    place.mkdir()
    outside = harbour.place.course.parent / "script.md"
    outside.write_text(script())
    (place / "script.md").symlink_to(outside)
    for way in ("/lesson/linked", "/lesson/linked/see", "/api/lesson/linked/timeline", "/api/lesson/linked/script"):
        assert harbour.ask("GET", way).status in {404, 409}
    answer = harbour.ask(
        "PUT", "/api/lesson/linked/script", b'{"text": "gone"}', content_type="application/json", if_match='""'
    )
    assert answer.status in {404, 409, 412}
    assert outside.read_text() == script()


def test_what_works_for_previews_ends_with_a_studio_that_is_killed(tmp_path: Path):
    course_in(tmp_path, {"dorian": script()})
    with started(tmp_path) as (process, url):
        parts = urlsplit(url)
        with closing(http.client.HTTPConnection("127.0.0.1", parts.port, timeout=30)) as line:
            line.request("GET", f"/?{parts.query}")
            cookie = line.getresponse().getheader("set-cookie").partition(";")[0]
        with closing(http.client.HTTPConnection("127.0.0.1", parts.port, timeout=30)) as line:
            line.request("GET", "/api/lesson/dorian/timeline", headers={"cookie": cookie})
            assert line.getresponse().status == 200
        workers = psutil.Process(process.pid).children(recursive=True)
        assert workers
        process.kill()
        assert psutil.wait_procs(workers, timeout=10)[1] == []
