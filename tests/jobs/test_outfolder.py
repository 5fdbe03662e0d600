"""Folders of results: nothing that others put there is ever touched, and no moment of a kill leaves half a package."""

from __future__ import annotations

import json
import os
import shutil
import stat
from pathlib import Path

import pytest

from gamutwright.errors import FileError
from gamutwright.files import workplace
from gamutwright.jobs import outfolder
from gamutwright.jobs.outfolder import CRATE, LIST, listed_files, making, owned_files, put_files, recover
from gamutwright.jobs.record import content_digest


def make(folder: Path, files: dict[str, str], *, adds: bool = False, is_whole: bool = True) -> tuple[Path, ...]:
    with making(folder, files, adds=adds, is_whole=is_whole) as made:
        for name, text in files.items():
            (made.place / name).parent.mkdir(parents=True, exist_ok=True)
            (made.place / name).write_text(text, encoding="utf-8")
    return made.kept


def crate_of(files: dict[str, str], folder: Path) -> str:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return json.dumps(
        {"@graph": [{"@type": "File", "@id": name, "sha256": content_digest(folder / name)} for name in files]}
    )


def package(folder: Path, files: dict[str, str]) -> tuple[Path, ...]:
    """Make files with a list of a package, as packages have it."""
    with making(folder, is_whole=True) as made:
        (made.place / CRATE).write_text(crate_of(files, made.place), encoding="utf-8")
    return made.kept


def picture(folder: Path) -> dict[str, object]:
    """Tell everything that can be seen of a folder: kinds, modes, contents, targets."""
    seen: dict[str, object] = {}
    for path in sorted(folder.rglob("*")):
        mode = path.lstat().st_mode
        content = path.readlink().as_posix() if path.is_symlink() else path.read_bytes() if stat.S_ISREG(mode) else b""
        seen[path.relative_to(folder).as_posix()] = (oct(mode), content)
    return seen


def of_a_teacher(folder: Path) -> Path:
    """Fill a folder with all that a teacher may have in it."""
    folder.mkdir(mode=0o700)
    (folder / "index.html").write_text("my own page")
    (folder / "script.md").write_text("my own script")
    (folder / "empty").mkdir(mode=0o750)
    (folder / "away").symlink_to("nowhere")
    (folder / "linked").symlink_to("index.html")
    os.mkfifo(folder / "pipe", 0o600)
    (folder / "private.txt").write_text("for nobody")
    (folder / "private.txt").chmod(0o400)
    return folder


def test_a_folder_that_somebody_else_filled_is_refused_and_left_alone(tmp_path: Path):
    folder = of_a_teacher(tmp_path / "mine")
    before = picture(tmp_path)
    with pytest.raises(FileError, match=r"it holds away, empty, index\.html, linked, pipe and 2 others") as told:
        make(folder, {"index.html": "ours"})
    assert "--into" in told.value.next_step
    assert picture(tmp_path) == before


@pytest.mark.parametrize("name", ["index.html", "pipe", "away", "empty", "linked/page.html", "empty/../index.html"])
def test_what_is_there_is_not_replaced_even_beside_other_things(name: str, tmp_path: Path):
    folder = of_a_teacher(tmp_path / "mine")
    before = picture(tmp_path)
    with pytest.raises(FileError, match="Move it away, or choose another folder"):
        put_files(folder, {"new.html": b"ours", name: b"ours"})
    assert picture(tmp_path) == before


def test_new_files_are_put_beside_other_things_which_stay_as_they_are(tmp_path: Path):
    folder = of_a_teacher(tmp_path / "mine")
    before = picture(folder)
    for text in ("one", "two", "two"):
        make(folder, {"film.mp4": text, "sounds/a.flac": text}, adds=True)
        after = picture(folder)
        assert {name: after[name] for name in before} == before
        assert set(after) - set(before) == {"film.mp4", "sounds", "sounds/a.flac", LIST}
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert (folder / "film.mp4").read_text() == "two"


def test_what_is_ours_is_replaced_and_the_last_time_is_kept(tmp_path: Path):
    folder = tmp_path / "out" / "acoustic"
    assert make(folder, {"index.html": "one", "old.html": "one"}) == ()
    kept = make(folder, {"index.html": "two"})
    assert kept == (tmp_path / "out" / ".acoustic.replaced" / "made",)
    assert {path.name: path.read_text() for path in kept[0].iterdir()} == {"index.html": "one", "old.html": "one"}
    assert sorted(path.name for path in folder.iterdir()) == [LIST, "index.html"]
    make(folder, {"index.html": "three"})
    assert {path.name: path.read_text() for path in kept[0].iterdir()} == {"index.html": "two"}


def test_changes_by_hand_are_never_lost(tmp_path: Path):
    folder = tmp_path / "acoustic"
    for number in range(1, 4):
        make(folder, {"index.html": f"made {number}", "film.mp4": f"made {number}"})
        (folder / "index.html").write_text(f"changed by hand {number}")
        (folder / "index.html").chmod(0o640)
    (folder / "film.mp4").unlink()
    (folder / "film.mp4").symlink_to("/dev/null")
    kept = make(folder, {"index.html": "made 4", "film.mp4": "made 4"})
    assert kept == (tmp_path / ".acoustic.replaced" / "3", tmp_path / ".acoustic.replaced" / "made")[: len(kept)]
    for number in range(1, 4):
        changed = tmp_path / ".acoustic.replaced" / str(number) / "index.html"
        assert changed.read_text() == f"changed by hand {number}"
    assert (tmp_path / ".acoustic.replaced" / "3" / "film.mp4").readlink() == Path("/dev/null")
    assert stat.S_IMODE((folder / "index.html").stat().st_mode) == 0o640, "no mode is widened"


def test_files_of_another_kind_stay_ours_and_a_whole_takes_away_what_is_no_longer_made(tmp_path: Path):
    folder = tmp_path / "acoustic"
    make(folder, {"film-draft.mp4": "draft"}, is_whole=False)
    make(folder, {"film.mp4": "film"}, is_whole=False)
    assert set(owned_files(folder)) == {"film-draft.mp4", "film.mp4"}
    make(folder, {"film.mp4": "film", "index.html": "page"})
    assert sorted(path.name for path in folder.iterdir()) == [LIST, "film.mp4", "index.html"]


def test_a_package_without_our_list_owns_what_it_lists(tmp_path: Path):
    folder = tmp_path / "acoustic"
    package(folder, {"index.html": "one", "sounds/a.flac": "one"})
    (folder / LIST).unlink()
    (folder / "notes.txt").write_text("ask the choir")
    package(folder, {"index.html": "two"})
    assert listed_files(folder) == {"index.html": content_digest(folder / "index.html")}
    assert (folder / "notes.txt").read_text() == "ask the choir"
    assert not (folder / "sounds" / "a.flac").exists()


@pytest.mark.parametrize(
    "told",
    [
        "[" * 100_000,
        "[]",
        "null",
        '{"format": "gamutwright.folder/1", "files": [1]}',
        '{"format": "gamutwright.folder/1", "files": {"../secret": "", "/etc/passwd": "", "a/../../secret": ""}}',
    ],
    ids=["deep", "array", "null", "no names", "names outside"],
)
def test_a_list_that_says_nothing_sensible_makes_nothing_ours(told: str, tmp_path: Path):
    (tmp_path / "secret").write_text("mine")
    folder = tmp_path / "acoustic"
    folder.mkdir()
    (folder / LIST).write_text(told)
    assert owned_files(folder) == {}
    with pytest.raises(FileError, match="which was not made by gamutwright"):
        make(folder, {"index.html": "ours"})
    assert (tmp_path / "secret").read_text() == "mine"


def test_a_failure_changes_nothing(tmp_path: Path):
    folder = tmp_path / "acoustic"
    make(folder, {"index.html": "one"})
    before = picture(tmp_path)
    with pytest.raises(RuntimeError, match="no more"), making(folder) as made:  # noqa: PT012 - half of it is made
        (made.place / "index.html").write_text("two")
        raise RuntimeError("no more")
    assert picture(tmp_path) == before


class Killed(BaseException):
    """Stands for a kill: nothing that clears up behind it does anything."""


def kill_after(monkeypatch: pytest.MonkeyPatch, steps: int) -> None:
    """Let the program end after so many changes of the disk, in the middle of moving."""
    left = [steps]

    def counted(real: object) -> object:
        def step(*args: object, **more: object) -> object:
            if left[0] <= 0:
                raise Killed
            left[0] -= 1
            return real(*args, **more)  # type: ignore[operator] # one of the functions below

        return step

    for module, name in ((Path, "replace"), (os, "link"), (Path, "rename"), (Path, "mkdir"), (Path, "unlink")):
        monkeypatch.setattr(module, name, counted(getattr(module, name)))
    monkeypatch.setattr(shutil, "rmtree", lambda *_, **__: None if left[0] else _raise())


def _raise() -> None:
    raise Killed


def died(folder: Path) -> None:
    """Let the workplaces of this process be those of one that is no more."""
    for left in folder.glob(f".*-{os.getpid()}.*"):
        left.rename(left.with_name(left.name.replace(f"-{os.getpid()}.", f"-{2**22 + 1}.", 1)))


@pytest.mark.parametrize("is_linking", [True, False], ids=["links", "copies"])
def test_a_kill_at_any_moment_leaves_the_old_a_package_in_the_making_or_the_new_one(
    is_linking: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    old = {"index.html": "one", "sounds/a.flac": "one", "sounds/b.flac": "same", "gone.html": "one"}
    new = {"index.html": "two", "sounds/a.flac": "two", "sounds/b.flac": "same", "new/page.html": "two"}
    if not is_linking:
        monkeypatch.setattr(os, "link", lambda *_, **__: (_ for _ in ()).throw(OSError("no links here")))
    ends: set[str] = set()
    for steps in range(200):
        home = tmp_path / str(steps)
        home.mkdir()
        folder = home / "acoustic"
        package(folder, old)
        (folder / "notes.txt").write_text("ask the choir")
        (folder / "index.html").write_text("changed by hand")
        with monkeypatch.context() as patch:
            kill_after(patch, steps)
            try:
                package(folder, new)
                is_done = True
            except Killed:
                is_done = False
        there = {name: content_digest(folder / name) for name in listed_files(folder)}
        if there:
            is_whole = all(
                digest == listed_files(folder)[name] for name, digest in there.items() if name != "index.html"
            )
            assert is_whole, "what lists its files has them"
            ends.add("new" if "new/page.html" in there else "old")
        else:
            ends.add("none")
        died(home)
        recover(folder)
        names = set(listed_files(folder))
        assert names in (set(old), set(new))
        for name in names:
            text = (new if names == set(new) else old)[name]
            assert (folder / name).read_text() == (
                "changed by hand" if text == "one" and name == "index.html" else text
            )
        assert (folder / "notes.txt").read_text() == "ask the choir"
        hand = [*home.glob(".acoustic.replaced/[0-9]/index.html"), folder / "index.html"]
        assert any(path.read_text() == "changed by hand" for path in hand)
        package(folder, new)
        assert not [path.name for path in home.iterdir() if path.name not in {"acoustic", ".acoustic.replaced"}]
        if is_done:
            break
    assert ends == {"old", "none", "new"}
    assert is_done


def test_what_was_ready_goes_where_a_name_was_taken_meanwhile(tmp_path: Path):
    folder = tmp_path / "acoustic"
    make(folder, {"index.html": "one"})
    ready = workplace(folder, "ready")
    ready.mkdir()
    (ready / "page.html").write_text("two")
    (ready / LIST).write_text(json.dumps({"files": {"page.html": ""}, "before": {}, "gone": ["index.html"]}))
    died(tmp_path)
    (folder / "page.html").write_text("mine")
    recover(folder)
    assert (folder / "page.html").read_text() == "mine"
    assert (folder / "index.html").read_text() == "one"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["acoustic"]


def test_a_folder_may_be_a_link_the_current_one_or_no_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to("real")
    make(tmp_path / "link", {"index.html": "one"})
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "index.html").read_text() == "one"
    monkeypatch.chdir(tmp_path / "real")
    make(Path(), {"index.html": "two"})
    assert (tmp_path / "real" / "index.html").read_text() == "two"
    with pytest.raises(FileError, match="it is no folder"):
        make(Path("index.html"), {"index.html": "three"})


def test_a_place_without_room_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    folder = tmp_path / "acoustic"
    make(folder, {"index.html": "one"})
    before = picture(tmp_path)

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(outfolder, "write_text", full)
    with pytest.raises(FileError, match="No space left on device"):
        make(folder, {"index.html": "two"})
    assert picture(tmp_path) == before
