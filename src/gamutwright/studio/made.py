"""What was made of a course, looked up for the screens: files by names that are listed, never by a path of an address.

Conventions: a package offers the files that its own list names, the course the few pages of its site and its zips.
Whatever a name or a link says, a file lies in the course's own folder, or it is not given.
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from gamutwright.errors import FileError, told
from gamutwright.jobs.outfolder import CRATE, listed_files
from gamutwright.series.course import Course, is_slug
from gamutwright.series.overseeing import STATE_PAGE

__all__ = ["SITE", "TYPES", "course_file", "has_desktop", "package_file", "package_names", "show_folder", "type_of"]

SITE: Final = (
    "index.html", "feed.xml", "feed.json", "sitemap.xml", "robots.txt", STATE_PAGE,
    STATE_PAGE.replace(".html", ".json"),
)  # fmt: skip
"""What a course may have beside its packages."""
PLAIN: Final = "text/plain; charset=utf-8"
TYPES: Final[Mapping[str, str]] = {
    ".flac": "audio/flac", ".html": "text/html; charset=utf-8", ".json": "application/json",
    ".jsonld": "application/json", ".m4a": "audio/mp4", ".md": PLAIN, ".mid": "audio/midi", ".mp4": "video/mp4",
    ".pdf": "application/pdf", ".png": "image/png", ".srt": PLAIN, ".txt": PLAIN, ".vtt": "text/vtt; charset=utf-8",
    ".zip": "application/zip",
}  # fmt: skip
"""How files are told to a browser; all others are downloads."""
DOWNLOAD: Final = "application/octet-stream"


def type_of(name: str) -> str:
    """Give the type under which a file is sent.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    str
        A type that a browser shows, or that of a download.

    Examples
    --------
    >>> type_of("film.mp4"), type_of("score.musicxml"), type_of("mine.js")
    ('video/mp4', 'application/octet-stream', 'application/octet-stream')
    """
    return TYPES.get(Path(name).suffix.lower(), DOWNLOAD)


def package_names(course: Course, slug: str) -> tuple[str, ...]:
    """List the files of a package.

    Parameters
    ----------
    course : Course
        The course.
    slug : str
        The lesson.

    Returns
    -------
    tuple of str
        Names, as the package's own list has them; () where there is no package.
    """
    listed = listed_files(course.out / slug)
    return (*listed, CRATE) if listed else ()


def package_file(course: Course, slug: str, name: str) -> Path:
    """Find a file of a package.

    Parameters
    ----------
    course : Course
        The course.
    slug, name : str
        Lesson and file, as somebody names them.

    Returns
    -------
    Path
        The file, inside the package.

    Raises
    ------
    FileError
        If there is no such package, it does not list the file, or the file lies elsewhere.
    """
    if is_slug(slug) and name in package_names(course, slug):
        # The list is a file too, and could name anything; so could a link.
        return _inside(course, f"{slug}/{name}", slug)
    raise _missing(f"{slug}/{name}")


def course_file(course: Course, name: str) -> Path:
    """Find a page of the course's site, or the zip of a lesson.

    Parameters
    ----------
    course : Course
        The course.
    name : str
        The file, as somebody names it.

    Returns
    -------
    Path
        The file, inside the course.

    Raises
    ------
    FileError
        If there is none, or it lies elsewhere.
    """
    if name in SITE or (name.endswith(".zip") and is_slug(name.removesuffix(".zip"))):
        return _inside(course, name, "")
    raise _missing(name)


def _inside(course: Course, name: str, folder: str) -> Path:
    path = (course.out / name).resolve()
    if path.is_file() and path.is_relative_to(course.folder.resolve() / "out" / folder):
        return path
    raise _missing(name)


def _missing(name: str) -> FileError:
    error = FileError(
        told("file {name}", name=repr(name[:100])),
        told("it is none of those that were made"),
        told("Make the package first."),
    )
    error.__cause__ = FileNotFoundError()  # which is told as 404
    return error


def has_desktop() -> bool:
    """Whether there is a window in which a folder could be shown."""
    return sys.platform in {"win32", "darwin"} or any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY"))


def show_folder(folder: Path) -> bool:
    """Show a folder with the program that the desktop has for it.

    Parameters
    ----------
    folder : Path
        The folder; never one that somebody named.

    Returns
    -------
    bool
        Whether a program for it was started.

    Raises
    ------
    FileError
        If there is no such folder.
    """
    if not folder.is_dir():
        raise FileError(str(folder), told("it is not there yet"), told("Make the package first."))
    if not has_desktop():
        return False
    opener = {"win32": "explorer", "darwin": "open"}.get(sys.platform, "xdg-open")
    try:
        process = subprocess.Popen(  # noqa: S603 - a fixed word and a folder of our own
            [opener, str(folder)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError:
        return False
    threading.Thread(target=process.wait, daemon=True).start()
    return True
