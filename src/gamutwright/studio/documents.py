"""Scripts while they are written in the studio: read with a version, saved against it, and never lost.

A save names the version it was made from. Where the file has become another one meanwhile (another tab, an editor, a
colleague), nothing is written and both texts stay. Every version that the studio writes over is kept beside the course,
so that undoing reaches back over a restart.

Conventions: a version is the digest of the file's bytes, "" where there is no file. Kept versions lie in
`.gamutwright/history/<slug>/<time>-<digest>.md`: all of the last minutes, the last of each minute before that, and the
oldest given up beyond `KEPT`. They can be deleted at any time.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import re
import threading
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from gamutwright.errors import FileError, GamutwrightError, told
from gamutwright.files import lock_file, make_folder, write_text
from gamutwright.lessons.parse import MOST_BYTES
from gamutwright.series.course import Course

__all__ = ["KEPT", "ChangedMeanwhileError", "Document", "Documents", "Kept"]

KEPT: Final = 500
DENSE: Final = dt.timedelta(minutes=2)
"""For how long every saved version is kept; a script is saved after every pause in typing."""
_STAMP: Final = "%Y%m%dT%H%M%S%f"
_LOCKS: defaultdict[str, threading.Lock] = defaultdict(threading.Lock)


class ChangedMeanwhileError(GamutwrightError, ValueError):
    """A save against a version that is no longer there; `now` is the document as it is."""

    def __init__(self, value: str, rule: str, next_step: str, now: Document | None = None) -> None:
        super().__init__(value, rule, next_step)
        self.args = (value, rule, next_step, now)
        self.now = now


@dataclass(frozen=True, slots=True)
class Document:
    """A script as it lies on the disk.

    Parameters
    ----------
    slug : str
        The lesson.
    text : str
        The script; "" where there is none.
    version : str
        Digest of its bytes; "" where there is none.
    """

    slug: str
    text: str
    version: str


@dataclass(frozen=True, slots=True)
class Kept:
    """An earlier version of a script.

    Parameters
    ----------
    version : str
        Digest of its bytes.
    saved_at : str
        When it was written over, ISO 8601 in UTC.
    characters : int
        Its length.
    """

    version: str
    saved_at: str
    characters: int


class Documents:
    """The scripts of a course.

    Parameters
    ----------
    course : Course
        The course.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     documents = Documents(Course(Path(folder), "Scales"))
    ...     first = documents.save("dorian", "Listen.", "")
    ...     second = documents.save("dorian", "Listen!", first.version)
    ...     [kept.characters for kept in documents.history("dorian")], documents.read("dorian") == second
    ([7], True)
    """

    def __init__(self, course: Course) -> None:
        self._course = course

    def read(self, slug: str) -> Document:
        """Read a script.

        Parameters
        ----------
        slug : str
            The lesson.

        Returns
        -------
        Document
            Its text and version.

        Raises
        ------
        FileError
            If it is there and cannot be read.
        """
        path = self._course.script_of(slug)
        try:
            content = path.read_bytes()
            return Document(slug, content.decode("utf-8"), _version(content))
        except FileNotFoundError:
            return Document(slug, "", "")
        except (OSError, UnicodeDecodeError) as error:
            raise FileError(
                str(path), told("it cannot be read ({error})", error=error), told("Scripts are UTF-8 text.")
            ) from error

    def save(self, slug: str, text: str, version: str) -> Document:
        """Write a script, where it is still the one that was changed.

        Parameters
        ----------
        slug : str
            The lesson.
        text : str
            Its new text.
        version : str
            The version that was changed; "" for a new script.

        Returns
        -------
        Document
            What is there now.

        Raises
        ------
        ChangedMeanwhileError
            If another version is there; nothing is written.
        FileError
            If it cannot be written, or is too long.
        """
        path = self._course.script_of(slug)
        if len(text.encode("utf-8", "surrogatepass")) > MOST_BYTES:
            raise FileError(
                slug,
                told("a script has at most {most_bytes} bytes", most_bytes=MOST_BYTES),
                told("Make two lessons of it."),
            )
        with self._locked(slug):
            now = self.read(slug)
            if now.text == text and now.version:
                return now
            if now.version != version:
                raise ChangedMeanwhileError(
                    told("the script of '{slug}'", slug=slug),
                    told("it was changed elsewhere since you opened it"),
                    told("Compare the two, and take one, or take yours over by hand."),
                    now,
                )
            make_folder(path.parent)
            if now.version:
                self._keep(now)
            write_text(path, text)
            return self.read(slug)

    def history(self, slug: str) -> tuple[Kept, ...]:
        """List the earlier versions of a script.

        Parameters
        ----------
        slug : str
            The lesson.

        Returns
        -------
        tuple of Kept
            The newest first.
        """
        found = []
        for path in _newest_first(self._folder(slug)):
            *_, stamp, version = path.stem.split("-")
            with contextlib.suppress(OSError, ValueError, UnicodeDecodeError):
                moment = dt.datetime.strptime(stamp, _STAMP).replace(tzinfo=dt.UTC)
                characters = len(path.read_bytes().decode("utf-8"))
                found.append(Kept(version, moment.isoformat(timespec="seconds"), characters))
        return tuple(found)

    def kept(self, slug: str, version: str) -> str:
        """Read an earlier version.

        Parameters
        ----------
        slug : str
            The lesson.
        version : str
            As `history` names it.

        Returns
        -------
        str
            Its text.

        Raises
        ------
        FileError
            If it is not kept.
        """
        for path in self._folder(slug).glob("*.md"):
            if path.stem.rpartition("-")[2] == version:
                return path.read_bytes().decode("utf-8")
        raise FileError(
            told("version {version} of '{slug}'", version=repr(version[:12]), slug=slug),
            told("it is not kept"),
            told("Choose one of the list."),
        )

    def _folder(self, slug: str) -> Path:
        return self._course.kept / "history" / slug

    def _keep(self, document: Document) -> None:
        folder = self._folder(document.slug)
        make_folder(folder)
        now = _now()
        count = max(map(_count, folder.glob("*.md")), default=0) + 1
        write_text(folder / f"{count}-{now.strftime(_STAMP)}-{document.version}.md", document.text)
        for path in _to_give_up(_newest_first(folder), now):
            path.unlink(missing_ok=True)

    @contextlib.contextmanager
    def _locked(self, slug: str) -> Iterator[None]:
        """Hold back every other save of this script, by this program and by another studio on the same course."""
        folder = self._course.kept
        make_folder(folder)
        with _LOCKS[str(folder / slug)], (folder / "scripts.lock").open("wb") as file:
            lock_file(file, waits=True)
            yield


def _count(path: Path) -> int:
    """Give the number of a kept version; the clock may be set back, and tells nothing of their order."""
    number = path.stem.partition("-")[0]
    return int(number) if re.fullmatch(r"[0-9]{1,9}", number) else 0


def _newest_first(folder: Path) -> list[Path]:
    return sorted(folder.glob("*.md"), key=lambda path: (_count(path), path.stem), reverse=True)


def _to_give_up(paths: list[Path], now: dt.datetime) -> Iterator[Path]:
    """Choose what is no longer kept, of versions with the newest first."""
    dense, seen, count = (now - DENSE).strftime(_STAMP), set[str](), 0
    for path in paths:
        stamp = path.stem.split("-")[-2]
        minute = stamp[: len("20261125T1712")]
        is_extra = stamp < dense and minute in seen
        seen.add(minute)
        count += not is_extra
        if is_extra or count > KEPT:
            yield path


def _now() -> dt.datetime:
    return dt.datetime.now(tz=dt.UTC)


def _version(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
