"""Folders that results go to: what in them is ours, how it is replaced, and how to get back what was replaced.

The idea: a folder of results holds a list of what was made. Only what the list names is ours, and may be replaced or
taken away; nothing else is ever touched. What is new is made beside the folder first. When all of it is there it is
moved in, file by file, and what was there before goes into a folder beside. A program that is killed while it moves is
finished by the next one.

On disk, for a folder `out/acoustic`: in it the list `.gamutwright.json`; beside it `.acoustic.replaced/made` with the
files of the last time, as they were made, and `.acoustic.replaced/1`, `2` ... with those changed by hand since. A
course has a place of its own instead, since its folder of results is a site.

Conventions: names are relative, with `/`. A package is no package without its `CRATE`, which goes first and comes last,
so a half-moved one is none.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from typing import Any

from gamutwright.codec import plain_from_json
from gamutwright.errors import FileError
from gamutwright.files import leftovers, make_folder, workplace, write_bytes, write_text
from gamutwright.jobs.interrupts import held_interrupts
from gamutwright.jobs.record import content_digest

__all__ = [
    "CRATE",
    "LIST",
    "Making",
    "bundle_place",
    "listed_files",
    "making",
    "owned_files",
    "published_on",
    "put_files",
    "recover",
    "refuse_taken",
]

CRATE = "ro-crate-metadata.json"
LIST = ".gamutwright.json"
_FORMAT = "gamutwright.folder/1"
_LARGEST_LIST = 1 << 24
_OF_THE_SYSTEM = {".DS_Store", "Thumbs.db", "desktop.ini"}
_TOLD = 5


@dataclass(slots=True)
class Making:
    """Something that is being made.

    Parameters
    ----------
    place : Path
        Where to make it.
    folder : Path
        Where it goes.
    kept : tuple of Path
        When it is there: the folders that what was replaced can be had from, those with changes by hand first.
    """

    place: Path
    folder: Path
    kept: tuple[Path, ...] = field(default=())


def published_on(folder: Path) -> str:
    """Give the day on which a package was published.

    Parameters
    ----------
    folder : Path
        The package.

    Returns
    -------
    str
        Such as 2026-03-01; "" where there is no package.

    Examples
    --------
    >>> published_on(Path("nowhere"))
    ''
    """
    days = (entry.get("datePublished") for entry in _entries(folder) if entry.get("@id") == "./")
    return next((day for day in days if isinstance(day, str)), "")


def listed_files(folder: Path) -> dict[str, str]:
    """Give the names of the files of a package, and the digests they had when it was made.

    Parameters
    ----------
    folder : Path
        The package.

    Returns
    -------
    dict of str to str
        SHA-256 by name, the list itself left out; {} where there is no package.

    Examples
    --------
    >>> listed_files(Path("nowhere"))
    {}
    """
    files = [entry for entry in _entries(folder) if entry.get("@type") == "File"]
    return _names({entry["@id"]: entry.get("sha256") for entry in files if isinstance(entry.get("@id"), str)})


def _entries(folder: Path) -> list[dict[str, Any]]:
    graph = _plain(folder / CRATE).get("@graph")
    return [entry for entry in graph if isinstance(entry, dict)] if isinstance(graph, list) else []


def owned_files(folder: Path) -> dict[str, str]:
    """Give the names of all files in a folder that were made here, and the digests they had.

    Parameters
    ----------
    folder : Path
        A folder of results, or any other.

    Returns
    -------
    dict of str to str
        SHA-256 by name. A folder without our list owns what its package lists.
    """
    told = _plain(folder / LIST)
    if told.get("format") == _FORMAT and isinstance(told.get("files"), dict):
        return _names(told["files"])
    listed = listed_files(folder)
    return listed | {CRATE: content_digest(folder / CRATE)} if listed else {}


def _plain(path: Path) -> dict[str, Any]:
    try:
        if path.is_symlink() or path.stat().st_size > _LARGEST_LIST:
            return {}
        told = plain_from_json(path.read_bytes())
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}


def _names(told: Mapping[Any, Any]) -> dict[str, str]:
    """Take from a list what leads nowhere else."""
    return {name: str(digest) for name, digest in told.items() if isinstance(name, str) and _is_inside(name)}


def _files_in(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def _is_inside(name: str) -> bool:
    path = PurePosixPath(name)
    return bool(path.parts) and not path.is_absolute() and ".." not in path.parts and "\\" not in name


def bundle_place(folder: Path) -> Path:
    """Give the place of the zip beside a folder.

    Parameters
    ----------
    folder : Path
        The folder.

    Returns
    -------
    Path
        The zip.

    Examples
    --------
    >>> bundle_place(Path("out/acoustic")).as_posix()
    'out/acoustic.zip'
    """
    named = folder if folder.name not in {"", ".."} else folder.resolve()
    return named.with_name(f"{named.name}.zip")


@contextlib.contextmanager
def making(
    folder: Path, expected: Iterable[str] = (), *, adds: bool = False, is_whole: bool = False, aside: Path | None = None
) -> Iterator[Making]:
    """Give a place to make things in; they are moved to their folder, file by file, when all went well.

    Parameters
    ----------
    folder : Path
        Where they go. It is made where it is missing, and may otherwise be empty or have been made here.
    expected : iterable of str
        Names that are going to be made, so that it is told before the work where one of them is taken.
    adds : bool
        Whether the folder may hold other things.
    is_whole : bool
        Whether what was made here before, and is not made now, goes.
    aside : Path, optional
        The folder that what is replaced goes to; one beside the folder without it.

    Yields
    ------
    Making
        The place.

    Raises
    ------
    FileError
        If the folder holds other things, one of them has a name that is made, or nothing can be written.
    """
    goal = folder.resolve()
    with _told(folder):
        goal.parent.mkdir(parents=True, exist_ok=True)
        recover(goal, aside)
    _refuse_foreign(folder, goal, adds=adds)
    refuse_taken(goal, expected)
    place = workplace(goal, "new")
    with _told(folder):
        shutil.rmtree(place, ignore_errors=True)
        place.mkdir()
    made = Making(place, folder)
    try:
        yield made
        names = _files_in(place)
        refuse_taken(goal, names)
        with _told(folder):
            made.kept = _moved(place, goal, names, aside or _beside(goal), is_whole=is_whole)
    finally:
        shutil.rmtree(place, ignore_errors=True)


def put_files(folder: Path, files: Mapping[str, bytes], aside: Path | None = None) -> tuple[Path, ...]:
    """Write files into a folder that may hold other things.

    Parameters
    ----------
    folder : Path
        The folder; it is made where it is missing.
    files : mapping of str to bytes
        Content by name. One that would not change is left alone.
    aside : Path, optional
        As for `making`.

    Returns
    -------
    tuple of Path
        The folders that what was replaced can be had from.

    Raises
    ------
    FileError
        If a name is taken by what was not made here, or cannot be written.
    """
    with making(folder, files, adds=True, aside=aside) as made:
        for name, content in files.items():
            make_folder((made.place / name).parent)
            write_bytes(made.place / name, content)
    return made.kept


@contextlib.contextmanager
def _told(folder: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        if isinstance(error, FileError):
            raise
        raise FileError(
            str(folder), f"it cannot be written ({error.strerror or error})", "Choose another place, or make room."
        ) from error


def _refuse_foreign(folder: Path, goal: Path, *, adds: bool) -> None:
    """Refuse a folder that somebody else filled."""
    if not goal.exists():
        return
    if not goal.is_dir():
        raise FileError(str(folder), "it is no folder", "Give a folder, such as -o out/acoustic.")
    with _told(folder):
        there = sorted({entry.name for entry in goal.iterdir()} - _OF_THE_SYSTEM)
    if there and not adds and not owned_files(goal):
        others = f" and {len(there) - _TOLD} others" if len(there) > _TOLD else ""
        raise FileError(
            str(folder),
            f"it holds {', '.join(there[:_TOLD])}{others}, which was not made by gamutwright",
            "Give a folder of its own, such as -o out/acoustic, or add --into to put the new files beside what is "
            "there.",
        )


def refuse_taken(folder: Path, names: Iterable[str]) -> None:
    """Refuse to replace what was not made here.

    Parameters
    ----------
    folder : Path
        The folder.
    names : iterable of str
        What is going to be made in it.

    Raises
    ------
    FileError
        If one of the names is taken by something else, or lies behind a link.
    """
    owned = owned_files(folder)
    for name in names:
        if name == LIST:
            continue
        path = folder / name
        is_there = path.is_symlink() or path.exists()
        if is_there and (name not in owned or not (path.is_file() or path.is_symlink())):
            raise FileError(
                str(path), "it is there and was not made by gamutwright", "Move it away, or choose another folder."
            )
        for above in list(path.parents)[: len(PurePosixPath(name).parts) - 1]:
            if above.is_symlink() or (above.exists() and not above.is_dir()):
                raise FileError(str(above), "it is no folder of its own", "Move it away, or choose another folder.")


def _moved(place: Path, goal: Path, names: list[str], aside: Path, *, is_whole: bool) -> tuple[Path, ...]:
    """Write down what is going to happen, and do it."""
    files, owned = {name: content_digest(place / name) for name in names}, owned_files(goal)
    gone = [name for name in owned if name not in files and is_whole]
    rest = {name: digest for name, digest in owned.items() if name not in files and name not in gone}
    plan = {"format": _FORMAT, "files": rest | files, "before": owned, "gone": gone}
    write_text(place / LIST, json.dumps(plan, ensure_ascii=False, indent=1) + "\n")
    # Those that were changed by hand stay.
    shutil.rmtree(aside / "made", ignore_errors=True)
    ready = workplace(goal, "ready")
    shutil.rmtree(ready, ignore_errors=True)
    with held_interrupts():
        place.rename(ready)
        return _move(ready, goal, aside)


def _beside(goal: Path) -> Path:
    return goal.with_name(f".{goal.name}.replaced")


def _next_kept(aside: Path) -> str:
    numbers = [int(path.name) for path in aside.iterdir() if path.name.isdigit()] if aside.is_dir() else []
    return str(max(numbers, default=0) + 1)


def _move(ready: Path, goal: Path, aside: Path) -> tuple[Path, ...]:
    """Move what is ready into its folder; what a killed program did of it already is left as it is."""
    plan = _plain(ready / LIST)
    if not goal.exists():
        _write_list(ready, plan)
        ready.rename(goal)
        return ()
    names = [name for name in _files_in(ready) if content_digest(ready / name) != content_digest(goal / name)]
    before, gone = _names(plan.get("before", {})), list(_names(dict.fromkeys(plan.get("gone", []), "")))
    keep = _Keeper(goal, before, aside / _next_kept(aside), aside / "made")
    if CRATE in {*names, *gone}:
        keep.away(CRATE)
    for name in names:
        if name not in {CRATE, LIST}:
            keep.replace(ready / name, name)
    for name in gone:
        keep.away(name)
    _write_list(goal, plan)
    if CRATE in names:
        keep.replace(ready / CRATE, CRATE)
    shutil.rmtree(ready, ignore_errors=True)
    return keep.folders


def _write_list(folder: Path, plan: Mapping[str, Any]) -> None:
    told = {"format": _FORMAT, "files": plan.get("files", {})}
    write_text(folder / LIST, json.dumps(told, ensure_ascii=False, indent=1) + "\n")


class _Keeper:
    """Puts new files into a folder, and aside what was there."""

    def __init__(self, goal: Path, before: Mapping[str, str], changed: Path, made: Path) -> None:
        self._goal, self._before, self._changed, self._made = goal, before, changed, made

    @property
    def folders(self) -> tuple[Path, ...]:
        return tuple(folder for folder in (self._changed, self._made) if folder.is_dir())

    def replace(self, new: Path, name: str) -> None:
        path = self._goal / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.is_file() and not path.is_symlink():
            new.chmod(path.stat().st_mode & 0o7777)
        if path.is_symlink() or path.exists():
            self._keep(path, name)
        new.replace(path)

    def away(self, name: str) -> None:
        path = self._goal / name
        if path.is_symlink() or path.is_file():
            shutil.move(path, self._place(path, name))

    def _keep(self, path: Path, name: str) -> None:
        """Have a file in two places, so that there is no moment without it."""
        place = self._place(path, name)
        with contextlib.suppress(FileNotFoundError):
            place.unlink()
        try:
            os.link(path, place, follow_symlinks=False)
        except (OSError, NotImplementedError):
            shutil.copy2(path, place, follow_symlinks=False)

    def _place(self, path: Path, name: str) -> Path:
        is_as_made = not path.is_symlink() and content_digest(path) == self._before.get(name)
        place = (self._made if is_as_made else self._changed) / name
        place.parent.mkdir(parents=True, exist_ok=True)
        return place


def recover(folder: Path, aside: Path | None = None) -> None:
    """Clear away what a killed program left, and finish what it was moving.

    Parameters
    ----------
    folder : Path
        What was being made; the file beside it with its name and `.zip` belongs to it.
    aside : Path, optional
        As for `making`.

    Raises
    ------
    OSError
        If it cannot be finished.
    """
    goal = folder.resolve()
    for left, kind in leftovers(goal):
        if kind == "ready":
            # What is there and not ours by now was put there since; it stays, and so does what would replace it.
            with contextlib.suppress(FileError):
                refuse_taken(goal, _files_in(left))
                _move(left, goal, aside or _beside(goal))
            shutil.rmtree(left, ignore_errors=True)
        elif kind == "new":
            shutil.rmtree(left, ignore_errors=True)
    for left, _ in leftovers(bundle_place(goal)):
        left.unlink(missing_ok=True)
