"""The work behind previews, done in a process of its own: a lesson laid out in time, a moment drawn, a line filmed.

Conventions: as in `previews`. What is made here depends on nothing but what is asked for; its key is the digest of all
that settles a lesson.
"""

from __future__ import annotations

import functools
import itertools
import json
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from gamutwright.codec import Plain, digest
from gamutwright.errors import InputError, told
from gamutwright.facts.registry import default_registry
from gamutwright.files import make_folder, write_text
from gamutwright.ir.timeline import TICKS_PER_SECOND, ShotKind, Speech, Timeline, excerpt
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.job import sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel
from gamutwright.lessons.claims import Report, check
from gamutwright.lessons.parse import load
from gamutwright.lessons.script import Script
from gamutwright.series.building import settings_of
from gamutwright.series.course import Course, read_course
from gamutwright.series.workshop import store_of
from gamutwright.settings import SIZES
from gamutwright.studio.tongue import say

__all__ = [
    "RECORD", "Wanted", "draw_still", "film_line", "lesson_key", "line_span", "make_small_film", "small_folder",
    "small_size", "tell_timeline",
]  # fmt: skip

LONGEST_SIDE: Final = 960
"""Pixels; half of a film's usual size, a quarter of the work, and still read on a telephone."""
STAGED_KEPT: Final = 3
"""Lessons whose timelines a worker remembers."""
RECORD: Final = "seen.json"
"""Beside a small film: of which lesson it is."""


@dataclass(frozen=True, slots=True)
class Wanted:
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
        raise InputError(
            told("line {line_id}", line_id=repr(line_id[:64])),
            told("the lesson has no such line"),
            told("Load the page again."),
        )
    line = timeline.lines[place]
    edges = [*starts[place + 1 : place + 2], *(start for start, _, _ in timeline.chapter_spans), timeline.ticks]
    edges += [shot.start_tick for shot in timeline.shots if shot.kind is ShotKind.END]
    return line.start_tick, min(edge for edge in edges if edge >= line.end_tick)


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
    look = [settings.size, settings.theme, settings.rate, settings.pitch, *settings.instruments]
    return digest(["seen", sources_digest(), installed_packs(), look, files])


@functools.lru_cache(maxsize=STAGED_KEPT)
def _staged(folder: Path, slug: str, key: str) -> tuple[Script, Any, Any]:
    """Lay a lesson out in time; `key` is there so that another text is another lesson."""
    del key
    from gamutwright.stages import stage  # noqa: PLC0415 - large libraries, and only for the worker

    course = read_course(folder)
    report, choices = _small_choices(course, slug)
    with LocalPool(store_of(course), 1) as pool:
        return report.script, choices, stage(report, pool, choices)


def _small_choices(course: Course, slug: str) -> tuple[Report, Any]:
    from gamutwright.stages import DRAFT_STAMP, choices_of  # noqa: PLC0415 - as above

    path, settings = course.script_of(slug), settings_of(course)
    script = load(path)
    choices = choices_of(settings, script, path)
    width, height = small_size(settings.size)
    report = check(script, default_registry())
    stamp = DRAFT_STAMP if report.faults else ""
    return report, replace(
        choices, style=replace(choices.style, width=width, height=height, stamp=stamp), is_draft=True
    )


def tell_timeline(wanted: Wanted) -> Parcel:
    """Say when everything happens, for a page."""
    from gamutwright.render.speech import parcel_to_speech  # noqa: PLC0415 - as above

    script, _, staged = _staged(wanted.course, wanted.slug, wanted.key)
    timeline: Timeline = staged.timeline
    store = store_of(read_course(wanted.course))
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


def draw_still(wanted: Wanted) -> Parcel:
    """Draw a moment as it looks when nothing moves."""
    from gamutwright.render.frames import FramePainter, Run  # noqa: PLC0415 - as above
    from gamutwright.render.raster import frame_to_png  # noqa: PLC0415 - as above

    _, choices, staged = _staged(wanted.course, wanted.slug, wanted.key)
    timeline, style = staged.timeline, choices.style
    shot = next((one for one in timeline.shots if one.end_tick > wanted.tick), timeline.shots[-1])
    painter = FramePainter(timeline, style.width, style.height, style.theme, style.stamp)
    return Parcel(None, (frame_to_png(painter.paint(Run(1, shot))),))


def film_line(wanted: Wanted) -> Parcel:
    """Make a film of one line, with its sounds."""
    from gamutwright.render.pictures import laid_out, picture_jobs  # noqa: PLC0415 - as above
    from gamutwright.render.soundtrack import packets_of, pieces_of, sound_job  # noqa: PLC0415 - as above
    from gamutwright.render.video import write_film  # noqa: PLC0415 - as above

    _, choices, staged = _staged(wanted.course, wanted.slug, wanted.key)
    piece = excerpt(staged.timeline, *line_span(staged.timeline, wanted.line))
    store = store_of(read_course(wanted.course))
    with LocalPool(store, 1) as pool, tempfile.TemporaryDirectory() as folder:
        shots = picture_jobs(piece, choices.style)
        pieces = pieces_of(piece, staged.lines, staged.sounds)
        sounds = [sound_job(one, store, players=choices.players) for one in pieces]
        pool.finish([*(job for job, _ in shots), *sounds])
        film = Path(folder, "line.mp4")
        write_film(
            replace(piece, chapters=()),
            (packet for job, count in shots for packet in laid_out(pool.result(job), count)),
            (packet for job in sounds for packet in packets_of(pool.result(job))),
            film,
        )
        return Parcel(None, (film.read_bytes(),))


def small_folder(course: Course, slug: str) -> Path:
    """Give the folder of a lesson's small film.

    Parameters
    ----------
    course : Course
        The course.
    slug : str
        The lesson.

    Returns
    -------
    Path
        It need not be there, and can be deleted.
    """
    return course.kept / "seen" / slug


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
    from gamutwright.stages import film_into  # noqa: PLC0415 - as above

    course, slug = read_course(Path(payload["course"])), str(payload["lesson"])
    key = lesson_key(course, slug, FileDigests(course.kept / "digests.json"))
    report, choices = _small_choices(course, slug)
    place = small_folder(course, slug)
    make_folder(place)
    made = film_into(place, report.script, choices, progress=told, store=store_of(course))
    film = made.files[0]
    for other in ("film.mp4", "film-draft.mp4"):
        if other != film.name:
            (place / other).unlink(missing_ok=True)
    write_text(place / RECORD, json.dumps({"key": key, "film": film.name}) + "\n")
    is_draft = film.name != "film.mp4"
    said = say("It can be watched, and is marked as a draft.") if is_draft else say("It can be watched.")
    return {"message": said, "seconds": round(made.timeline.ticks / TICKS_PER_SECOND, 1)}
