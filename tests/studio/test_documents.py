"""Scripts in the studio: what is saved is there, what was there is kept, and nobody writes over anybody."""

from __future__ import annotations

import datetime as dt
import itertools
import os
import pickle
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import FileError
from gamutwright.lessons.parse import MOST_BYTES
from gamutwright.series.course import Course
from gamutwright.studio.documents import KEPT, ChangedMeanwhileError, Documents

texts = st.text(st.characters(exclude_categories=("Cs",)), max_size=200)


@pytest.fixture
def documents(tmp_path: Path) -> Documents:
    return Documents(Course(tmp_path, "Scales by the harbour"))


@given(st.lists(texts, min_size=1, max_size=6))
def test_every_text_comes_back_as_it_was(tmp_path_factory: pytest.TempPathFactory, drawn: list[str]):
    documents = Documents(Course(tmp_path_factory.mktemp("course"), "Scales"))
    version = ""
    for text in drawn:
        saved = documents.save("dorian", text, version)
        assert (documents.read("dorian"), saved.text) == (saved, text)
        version = saved.version
    # Every text that another came after is kept, the newest first; the same text twice in a row is one version.
    kept = [documents.kept("dorian", entry.version) for entry in documents.history("dorian")]
    changes = [text for text, after in itertools.pairwise(drawn) if text != after]
    assert kept == changes[::-1]


def test_a_save_against_another_version_writes_nothing(documents: Documents, tmp_path: Path):
    opened = documents.save("dorian", "Listen.", "")
    elsewhere = documents.save("dorian", "Listen closely.", opened.version)
    with pytest.raises(ChangedMeanwhileError) as caught:
        documents.save("dorian", "Hear me.", opened.version)
    assert caught.value.now == elsewhere
    assert pickle.loads(pickle.dumps(caught.value)).now == elsewhere  # noqa: S301 - written here
    assert documents.read("dorian") == elsewhere
    with pytest.raises(ChangedMeanwhileError):
        documents.save("dorian", "A new script.", "")
    # An editor beside the studio counts like another tab.
    (tmp_path / "lessons" / "dorian" / "script.md").write_text("By hand.")
    with pytest.raises(ChangedMeanwhileError):
        documents.save("dorian", "Mine.", elsewhere.version)


def test_the_same_text_again_is_no_new_version(documents: Documents):
    first = documents.save("dorian", "Listen.", "")
    assert documents.save("dorian", "Listen.", "gone") == first
    assert documents.history("dorian") == ()


def test_of_saves_at_once_one_wins_and_the_others_are_told(documents: Documents):
    opened = documents.save("dorian", "Listen.", "")
    told: list[str] = []

    def save(text: str) -> None:
        try:
            documents.save("dorian", text, opened.version)
            told.append("saved")
        except ChangedMeanwhileError:
            told.append("refused")

    threads = [threading.Thread(target=save, args=(f"Tab {k}.",)) for k in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(told) == ["refused"] * 19 + ["saved"]
    assert len(documents.history("dorian")) == 1


def test_two_studios_on_one_course_do_not_write_over_each_other(tmp_path: Path):
    code = """
import sys
from pathlib import Path
from gamutwright.series.course import Course
from gamutwright.studio.documents import ChangedMeanwhileError, Documents
documents, done = Documents(Course(Path(sys.argv[1]), "Scales")), 0
while done < 30:
    now = documents.read("dorian")
    try:
        documents.save("dorian", now.text + sys.argv[2], now.version)
        done += 1
    except ChangedMeanwhileError:
        pass
"""
    writers = [subprocess.Popen([sys.executable, "-c", code, str(tmp_path), sign]) for sign in "ab"]  # noqa: S603 - ourselves
    assert [writer.wait(120) for writer in writers] == [0, 0]
    text = Documents(Course(tmp_path, "Scales")).read("dorian").text
    assert (text.count("a"), text.count("b")) == (30, 30)


def test_a_kill_while_saving_leaves_a_whole_script(tmp_path: Path):
    code = """
import sys
from pathlib import Path
from gamutwright.series.course import Course
from gamutwright.studio.documents import Documents
documents, version, count = Documents(Course(Path(sys.argv[1]), "Scales")), "", 0
while True:
    count += 1
    version = documents.save("dorian", f"{count}\\n" * 2000, version).version
"""
    path = tmp_path / "lessons" / "dorian" / "script.md"
    for _ in range(5):
        path.unlink(missing_ok=True)
        with subprocess.Popen([sys.executable, "-c", code, str(tmp_path)]) as writer:  # noqa: S603 - ourselves
            while not path.exists():
                time.sleep(0.01)
            time.sleep(0.15)
            os.kill(writer.pid, signal.SIGKILL)
        lines = path.read_text().splitlines()
        assert len(lines) == 2000
        assert len(set(lines)) == 1


def test_versions_stay_in_order_when_the_clock_goes_back(documents: Documents, monkeypatch: pytest.MonkeyPatch):
    hours = iter([18, 17, 20, 3, 19])
    monkeypatch.setattr(
        "gamutwright.studio.documents._now", lambda: dt.datetime(2026, 3, 4, next(hours), tzinfo=dt.UTC)
    )
    version = ""
    for count in range(6):
        version = documents.save("dorian", f"Draft {count}.", version).version
    kept = [documents.kept("dorian", entry.version) for entry in documents.history("dorian")]
    assert kept == [f"Draft {n}." for n in (4, 3, 2, 1, 0)]


def test_versions_kept_before_they_were_counted_come_last(documents: Documents, tmp_path: Path):
    first = documents.save("dorian", "Now.", "")
    documents.save("dorian", "Later.", first.version)
    (folder,) = {path.parent for path in tmp_path.rglob("*.md") if path.name != "script.md"}
    (folder / "20260304T180000000000-abc.md").write_text("Long ago.")
    (folder / "20260304T190000000000-abd.md").write_text("Before.")
    assert [documents.kept("dorian", entry.version) for entry in documents.history("dorian")] == [
        "Now.", "Before.", "Long ago.",
    ]  # fmt: skip


def test_versions_thin_out_with_time_and_end(documents: Documents, monkeypatch: pytest.MonkeyPatch):
    moment = dt.datetime(2026, 3, 4, 18, 0, tzinfo=dt.UTC)
    clock = [moment]
    monkeypatch.setattr("gamutwright.studio.documents._now", lambda: clock[0])
    version = ""
    for count in range(61):
        version = documents.save("dorian", f"Draft {count}.", version).version
        clock[0] += dt.timedelta(seconds=10)
    kept = [documents.kept("dorian", entry.version) for entry in documents.history("dorian")]
    # Six saves a minute over ten minutes. Draft n is written over at 10 * (n + 1) s, the last one kept at 600 s: those
    # written over since 480 s are all there, and before that the last of each minute.
    assert kept == [f"Draft {n}." for n in (*range(59, 46, -1), 46, 40, 34, 28, 22, 16, 10, 4)]
    monkeypatch.setattr("gamutwright.studio.documents.KEPT", 5)
    assert KEPT > 5
    documents.save("dorian", "The last.", version)
    assert len(documents.history("dorian")) == 5


def test_what_cannot_be_is_told(documents: Documents, tmp_path: Path):
    with pytest.raises(FileError, match="two lessons"):
        documents.save("dorian", "x" * (MOST_BYTES + 1), "")
    with pytest.raises(FileError, match="not kept"):
        documents.kept("dorian", "../../series.toml")
    path = tmp_path / "lessons" / "dorian" / "script.md"
    path.parent.mkdir(parents=True)
    path.write_bytes(b"\xff\xfe")
    with pytest.raises(FileError, match="UTF-8"):
        documents.read("dorian")
