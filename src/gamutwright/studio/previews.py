"""A lesson looked at without rendering it: any line with its sound, any moment as a still, the whole of it small.

What is seen here is what the film will show: the same timeline, the same pictures, the same sounds, only smaller. A
line's pictures and sounds are kept by their digests like those of a film, so that a line that was not changed is there
at once.

Conventions: times are seconds from the beginning of the film, or ticks of 1/48,000 s. The *key* of a lesson is the
digest of all that settles it. Work is done in a process of its own, one piece at a time, so that the studio answers
meanwhile; it ends with the studio.
"""

from __future__ import annotations

import functools
import itertools
import json
import tempfile
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from gamutwright.codec import Plain, digest
from gamutwright.errors import FileError, InputError
from gamutwright.facts.registry import default_registry
from gamutwright.files import make_folder, write_text
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, ShotKind, Speech, Timeline, excerpt
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.model import Job, sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel, Store, store_for
from gamutwright.lesson.claims import check
from gamutwright.lesson.parse import load
from gamutwright.lesson.script import Script
from gamutwright.series.building import settings_of
from gamutwright.series.course import Course, read_course
from gamutwright.settings import SIZES

__all__ = ["Film", "Previews", "line_span", "make_small_film", "small_film", "small_size"]

LONGEST_SIDE: Final = 960
"""Pixels; half of a film's usual size, a quarter of the work, and still read on a telephone."""
STAGED_KEPT: Final = 3
"""Lessons whose timelines a worker remembers."""
RECORD: Final = "seen.json"


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


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What a worker is asked for: of which lesson, and its line or tick where it is a part."""

    course: Path
    slug: str
    key: str
    line: str = ""
    tick: int = 0


def small_size(size: str) -> tuple[int, int]:
    """Give the size of previews of a film.

    Parameters
    ----------
    size : str
        A key of `SIZES`.

    Returns
    -------
    tuple of (int, int)
        Width and height in pixels, both even, in the same proportion.

    Examples
    --------
    >>> small_size("1080p"), small_size("vertical")
    ((960, 540), (540, 960))
    """
    width, height = SIZES[size]
    scale = LONGEST_SIDE / max(width, height)
    return round(width * scale / 2) * 2, round(height * scale / 2) * 2


def line_span(timeline: Timeline, line_id: str) -> tuple[int, int]:
    """Say when a line is told, with the sounds that follow it.

    Parameters
    ----------
    timeline : Timeline
        The film.
    line_id : str
        The line.

    Returns
    -------
    tuple of (int, int)
        Ticks: from its first word to the next line, to the next chapter, or to the cards at the end.

    Raises
    ------
    InputError
        If the film has no such line.
    """
    starts = [line.start_tick for line in timeline.lines]
    place = next((place for place, line in enumerate(timeline.lines) if line.id == line_id), None)
    if place is None:
        raise InputError(f"line {line_id[:64]!r}", "the lesson has no such line", "Load the page again.")
    line = timeline.lines[place]
    edges = [*starts[place + 1 : place + 2], *(start for start, _, _ in timeline.chapter_spans), timeline.ticks]
    edges += [shot.start_tick for shot in timeline.shots if shot.kind is ShotKind.END]
    return line.start_tick, min(edge for edge in edges if edge >= line.end_tick)


class Previews:
    """Previews of a course's lessons.

    Parameters
    ----------
    folder : Path
        The course.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
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
        data = self._made(course, slug, _tell_timeline).data
        assert isinstance(data, dict)  # noqa: S101 - as _tell_timeline gives it
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
        return self._made(course, slug, _film_line, line=line_id).blobs[0]

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
        # Pictures hold; one is drawn for all frames of a second's third at most.
        return self._made(course, slug, _draw_still, tick=tick // FRAME_TICKS * FRAME_TICKS).blobs[0]

    def end(self) -> None:
        """End the process that works for the previews."""
        with self._one_by_one:
            if self._pool is not None:
                self._pool.__exit__(None, None, None)
                self._pool = None

    def _made(
        self, course: Course, slug: str, work: Callable[[_Wanted], Parcel], *, line: str = "", tick: int = 0
    ) -> Parcel:
        wanted = _Wanted(course.folder, slug, self.key(course, slug), line, tick)
        store = _store(course)
        job = Job(digest(["preview", work.__name__, wanted.key, slug, line, tick]), work, wanted)
        parcel = store.get(job.key)
        if parcel is None:
            with self._one_by_one:
                self._pool = self._pool or LocalPool(store, 1, is_apart=True)
                self._pool.finish([job])
            parcel = store.get(job.key)
        if parcel is None:
            raise FileError(str(store.folder), "what was made is not there any more", "Try it again.")
        return parcel


def lesson_key(course: Course, slug: str, digests: FileDigests) -> str:
    """Digest all that settles a lesson.

    Parameters
    ----------
    course : Course
        The course, for its look and voice.
    slug : str
        The lesson.
    digests : FileDigests
        Of its files.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    settings = settings_of(course)
    files = [[path.name, digests.of(path)] for path in settings.inputs(course.script_of(slug))]
    look = [settings.size, settings.theme, settings.rate, settings.pitch]
    return digest(["seen", sources_digest(), installed_packs(), look, files])


def _store(course: Course) -> Store:
    return store_for(course.folder / "series.toml")


# --- in the worker ----------------------------------------------------------------------------------------------------


@functools.lru_cache(maxsize=STAGED_KEPT)
def _staged(folder: Path, slug: str, key: str) -> tuple[Script, Any, Any]:
    """Lay a lesson out in time; `key` is there so that another text is another lesson."""
    del key
    from gamutwright.stages import stage  # noqa: PLC0415 - large libraries, and only for the worker

    course = read_course(folder)
    script, choices = _small_choices(course, slug)
    report = check(script, default_registry())
    with LocalPool(_store(course), 1) as pool:
        return script, choices, stage(report, pool, choices)


def _small_choices(course: Course, slug: str) -> tuple[Script, Any]:
    from gamutwright.stages import DRAFT_STAMP, choices_of  # noqa: PLC0415 - as above

    path, settings = course.script_of(slug), settings_of(course)
    script = load(path)
    choices = choices_of(settings, script, path)
    width, height = small_size(settings.size)
    stamp = DRAFT_STAMP if check(script, default_registry()).faults else ""
    return script, replace(
        choices, style=replace(choices.style, width=width, height=height, stamp=stamp), is_draft=True
    )


def _tell_timeline(wanted: _Wanted) -> Parcel:
    """Say when everything happens, for a page."""
    from gamutwright.render.speech import parcel_to_speech  # noqa: PLC0415 - as above

    script, _, staged = _staged(wanted.course, wanted.slug, wanted.key)
    timeline: Timeline = staged.timeline
    store = _store(read_course(wanted.course))
    chapters = {line.id: index for index, chapter in enumerate(script.chapters) for line in chapter.lines}
    lines: list[Plain] = []
    for line in timeline.lines:
        parcel = store.get(staged.lines[line.id].key)
        speech = parcel_to_speech(parcel) if parcel is not None else Speech(line.end_tick - line.start_tick)
        start, end = line_span(timeline, line.id)
        lines.append(
            {
                "id": line.id,
                "chapter": chapters.get(line.id, 0),
                "start_s": _seconds(start),
                "end_s": _seconds(end),
                "words": _pieces(line.text, speech, start),
            }
        )
    told: dict[str, Plain] = {
        "key": wanted.key,
        "seconds": _seconds(timeline.ticks),
        "chapters": [
            {"title": title, "start_s": _seconds(start), "end_s": _seconds(end)}
            for start, end, title in timeline.chapter_spans
        ],
        "lines": lines,
        "faults": len(staged.report.faults),
    }
    return Parcel(told)


def _seconds(ticks: int) -> float:
    return round(ticks / TICKS_PER_SECOND, 3)


def _pieces(text: str, speech: Speech, start: int) -> list[Plain]:
    """Cut a line at the beginnings of its words: pieces that join to the whole, each with its moment."""
    cuts = [0, *(word.start_char for word in speech.words[1:]), len(text)]
    moments = [word.start_tick for word in speech.words] or [0]
    return [
        [text[begin:end], _seconds(start + moment)]
        for (begin, end), moment in zip(itertools.pairwise(cuts), moments, strict=True)
    ]


def _draw_still(wanted: _Wanted) -> Parcel:
    """Draw a moment as it looks when nothing moves."""
    from gamutwright.render.frames import FramePainter, Run  # noqa: PLC0415 - as above
    from gamutwright.render.raster import frame_to_png  # noqa: PLC0415 - as above

    _, choices, staged = _staged(wanted.course, wanted.slug, wanted.key)
    timeline, style = staged.timeline, choices.style
    shot = next((one for one in timeline.shots if one.end_tick > wanted.tick), timeline.shots[-1])
    painter = FramePainter(timeline, style.width, style.height, style.theme, style.stamp)
    return Parcel(None, (frame_to_png(painter.paint(Run(1, shot))),))


def _film_line(wanted: _Wanted) -> Parcel:
    """Make a film of one line, with its sounds."""
    from gamutwright.render.pictures import laid_out, picture_jobs  # noqa: PLC0415 - as above
    from gamutwright.render.soundtrack import packets_of, pieces_of, sound_job  # noqa: PLC0415 - as above
    from gamutwright.render.video import write_film  # noqa: PLC0415 - as above

    _, choices, staged = _staged(wanted.course, wanted.slug, wanted.key)
    piece = excerpt(staged.timeline, *line_span(staged.timeline, wanted.line))
    store = _store(read_course(wanted.course))
    with LocalPool(store, 1) as pool, tempfile.TemporaryDirectory() as folder:
        shots = picture_jobs(piece, choices.style)
        sounds = [sound_job(one, store) for one in pieces_of(piece, staged.lines, staged.sounds)]
        pool.finish([*(job for job, _ in shots), *sounds])
        film = Path(folder, "line.mp4")
        write_film(
            replace(piece, chapters=()),
            (packet for job, count in shots for packet in laid_out(pool.result(job), count)),
            (packet for job in sounds for packet in packets_of(pool.result(job))),
            film,
        )
        return Parcel(None, (film.read_bytes(),))


# --- the whole lesson, small ------------------------------------------------------------------------------------------


def _small_folder(course: Course, slug: str) -> Path:
    return course.kept / "seen" / slug


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
    folder = _small_folder(course, slug)
    try:
        told = json.loads((folder / RECORD).read_text(encoding="utf-8"))
        film = Film(folder / Path(told["film"]).name, folder / "captions.vtt", told["key"] == key)
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return film if film.path.is_file() and film.captions.is_file() else None


def make_small_film(payload: Mapping[str, Any], told: Callable[[str, int, int], None]) -> dict[str, Plain]:
    """Make the whole lesson at a low resolution; a script with faults is marked on every frame.

    Parameters
    ----------
    payload : mapping
        A task's: `course`, its folder, and `lesson`, its slug.
    told : callable
        Told the stage, how much of it is done, and how much there is.

    Returns
    -------
    dict
        A message, and the seconds that the film lasts.

    Raises
    ------
    GamutwrightError
        If the script cannot be read, or a file cannot be read or written.
    """
    from gamutwright.stages import make_film  # noqa: PLC0415 - as above

    course, slug = read_course(Path(payload["course"])), str(payload["lesson"])
    key = lesson_key(course, slug, FileDigests(course.kept / "digests.json"))
    script, choices = _small_choices(course, slug)
    place = _small_folder(course, slug)
    make_folder(place)
    made = make_film(script, place, choices, progress=told, store=_store(course))
    film = made.files[0]
    for other in ("film.mp4", "film-draft.mp4"):
        if other != film.name:
            (place / other).unlink(missing_ok=True)
    write_text(place / RECORD, json.dumps({"key": key, "film": film.name}) + "\n")
    is_draft = film.name != "film.mp4"
    said = "It can be watched, and is marked as a draft." if is_draft else "It can be watched."
    return {"message": said, "seconds": round(made.timeline.ticks / TICKS_PER_SECOND, 1)}
