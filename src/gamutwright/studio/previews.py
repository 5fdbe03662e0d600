"""A lesson looked at without rendering it: any line with its sound, any moment as a still, the whole of it small.

What is seen here is what the film will show: the same timeline, the same pictures, the same sounds, only smaller. A
line's pictures and sounds are kept by their digests like those of a film, so that a line that was not changed is there
at once.

Conventions: times are seconds from the beginning of the film, or ticks of 1/48,000 s. The *key* of a lesson is the
digest of all that settles it. Work is done in a process of its own, one piece at a time, so that the studio answers
meanwhile; it ends with the studio.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gamutwright.codec import Plain, digest, plain_from_json
from gamutwright.errors import FileError, told
from gamutwright.ir.timeline import FRAME_TICKS
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.job import Job
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel
from gamutwright.series.course import Course
from gamutwright.series.workshop import store_of
from gamutwright.studio.previewwork import (
    RECORD,
    Wanted,
    draw_still,
    film_line,
    lesson_key,
    small_folder,
    tell_timeline,
)

__all__ = ["Film", "Previews", "small_film"]


@dataclass(frozen=True, slots=True)
class Film:
    """The whole lesson, small.

    Parameters
    ----------
    path : Path
        The film.
    captions : Path
        Its captions.
    is_new : bool
        Whether it shows the lesson as it is now.
    """

    path: Path
    captions: Path
    is_new: bool


class Previews:
    """Previews of a course's lessons."""

    def __init__(self) -> None:
        self._one_by_one = threading.Lock()
        self._pool: LocalPool | None = None
        self._digests: FileDigests | None = None

    def key(self, course: Course, slug: str) -> str:
        """Digest all that settles a lesson.

        Parameters
        ----------
        course : Course
            The course, for its look and voice.
        slug : str
            The lesson.

        Returns
        -------
        str
            64 hexadecimal digits.
        """
        self._digests = self._digests or FileDigests(course.kept / "digests.json")
        return lesson_key(course, slug, self._digests)

    def timeline(self, course: Course, slug: str) -> dict[str, Plain]:
        """Tell when everything of a lesson happens.

        Parameters
        ----------
        course : Course
            The course.
        slug : str
            The lesson.

        Returns
        -------
        dict
            Plain data: length, chapters, lines with the moments of their words, pictures, faults.

        Raises
        ------
        GamutwrightError
            If the script cannot be read, or a file that it names.
        """
        data = self._made(course, slug, tell_timeline).data
        assert isinstance(data, dict)  # noqa: S101 - as tell_timeline gives it
        return data

    def clip(self, course: Course, slug: str, line_id: str) -> bytes:
        """Make a small film of one line.

        Parameters
        ----------
        course : Course
            The course.
        slug : str
            The lesson.
        line_id : str
            The line.

        Returns
        -------
        bytes
            An MP4 file.
        """
        return self._made(course, slug, film_line, line=line_id).blobs[0]

    def still(self, course: Course, slug: str, tick: int) -> bytes:
        """Draw what is seen at a moment.

        Parameters
        ----------
        course : Course
            The course.
        slug : str
            The lesson.
        tick : int
            The moment.

        Returns
        -------
        bytes
            A PNG file.
        """
        return self._made(course, slug, draw_still, tick=tick // FRAME_TICKS * FRAME_TICKS).blobs[0]

    def end(self) -> None:
        """End the process that works for the previews."""
        with self._one_by_one:
            if self._pool is not None:
                self._pool.__exit__(None, None, None)
                self._pool = None

    def _made(
        self, course: Course, slug: str, work: Callable[[Wanted], Parcel], *, line: str = "", tick: int = 0
    ) -> Parcel:
        wanted = Wanted(course.folder, slug, self.key(course, slug), line, tick)
        store = store_of(course)
        job = Job(digest(["preview", work.__name__, wanted.key, slug, line, tick]), work, wanted)
        parcel = store.get(job.key)
        if parcel is None:
            with self._one_by_one:
                self._pool = self._pool or LocalPool(store, 1, is_apart=True)
                self._pool.finish([job])
            parcel = store.get(job.key)
        if parcel is None:
            raise FileError(str(store.folder), told("what was made is not there any more"), told("Try it again."))
        return parcel


def small_film(course: Course, slug: str, key: str) -> Film | None:
    """Find the small film of a lesson.

    Parameters
    ----------
    course : Course
        The course.
    slug : str
        The lesson.
    key : str
        Digest of the lesson as it is now.

    Returns
    -------
    Film or None
        The film that was made last; None where there is none.
    """
    folder = small_folder(course, slug)
    try:
        told: Any = plain_from_json((folder / RECORD).read_bytes())
        film = Film(folder / Path(told["film"]).name, folder / "captions.vtt", told["key"] == key)
    except (OSError, ValueError, KeyError, TypeError):
        return None
    files, home = (film.path, film.captions), course.folder.resolve()
    # A link that leads out of the course shows nothing.
    is_whole = all(path.is_file() and path.resolve().is_relative_to(home) for path in files)
    return film if is_whole else None
