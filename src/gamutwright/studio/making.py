"""The screen on which a lesson is made: what it will consist of, what is not proved yet, and what came out of it.

Conventions: what was made is served below `/made/`, where no script runs. Lengths are seconds, sizes bytes.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable
from typing import Annotated, Any, Final

from fastapi import APIRouter, Query, Request
from fastapi.responses import FileResponse, HTMLResponse

from gamutwright.codec import to_plain
from gamutwright.errors import GamutwrightError
from gamutwright.facts.registry import default_registry
from gamutwright.publish.errata import errata, errata_page
from gamutwright.series.building import Condition, State, states_of
from gamutwright.series.course import Course, read_course
from gamutwright.series.published import Reading
from gamutwright.series.workshop import Workshop, open_course
from gamutwright.studio.lessons import lesson_course, lesson_frame, script_path
from gamutwright.studio.lessonwork import verified
from gamutwright.studio.made import course_file, has_desktop, package_file, package_names, show_folder, type_of
from gamutwright.studio.static import render
from gamutwright.studio.tongue import say

__all__ = ["router"]

router = APIRouter()

KNOWN: Final = (
    ("film.mp4", "Film"),
    ("index.html", "Page"),
    ("handout.pdf", "Handout"),
    ("answers.pdf", "Answers"),
    ("score.musicxml", "Score (MusicXML)"),
    ("play-along.m4a", "Play-along (M4A)"),
    ("play-along.mid", "Play-along (MIDI)"),
    ("play-along.pdf", "Chords to play along (PDF)"),
    ("captions.srt", "Captions (SRT)"),
    ("captions.vtt", "Captions (WebVTT)"),
    ("chapters.vtt", "Chapters (WebVTT)"),
    ("quiz.imscc", "Quiz (Common Cartridge)"),
    ("quiz-qti3.zip", "Quiz (QTI 3)"),
    ("poster.png", "Still"),
    ("publish.md", "Title, description, tags"),
    ("ledger.json", "Ledger of every statement"),
    ("script.md", "Script"),
    ("metadata.jsonld", "Description for search engines"),
    ("ro-crate-metadata.json", "List of files with digests"),
)
"""What the files of a package are called, in the order in which they are told; those of sounds come after them."""


@router.get("/lesson/{slug}/make")
def make_page(request: Request, slug: str) -> HTMLResponse:
    """Show the screen on which a lesson is made."""
    course = lesson_course(request, slug)
    source = script_path(course, slug).read_text(encoding="utf-8")
    return render(
        request,
        "make.html.jinja",
        **lesson_frame(course, slug, source, "make", say("Make")),
        folder=str(course.out / slug),
        has_desktop=has_desktop(),
    )


@router.get("/api/lesson/{slug}/made")
def made(request: Request, slug: str) -> dict[str, Any]:
    """Tell what state a lesson is in, and all that was made of it."""
    lesson_course(request, slug)
    workshop = open_course(request.app.state.place.course, 1)
    states = states_of(workshop.course, workshop.members, workshop.store)
    state = next(state for state in states if state.member.slug == slug)
    names = package_names(workshop.course, slug)
    return {
        "state": state.condition.value,
        "detail": state.detail,
        **_faults(state),
        "version": str(state.made.get("built_s", "")),
        "about": {key: state.made.get(key) for key in ("film_s", "lines", "captions", "chapters", "built_s", "took_s")},
        "files": _files(workshop.course, slug, names),
        "language": state.member.language,
        "reading": _reading(verified(workshop, slug)) if names else None,
        "corrections": _corrections(workshop, slug) if names else None,
        "publish": _publish(workshop.course, slug) if names else "",
    }


@router.post("/api/lesson/{slug}/folder")
def open_folder(request: Request, slug: str) -> dict[str, bool]:
    """Show the folder of a package on the desktop, where there is one."""
    return {"opened": show_folder(lesson_course(request, slug).out / slug)}


@router.api_route("/made/{name}", methods=["GET", "HEAD"])
def site_file(request: Request, name: str) -> FileResponse:
    """Send a page of the course's site, or the zip of a lesson."""
    return _sent(course_file(_course(request), name), name)


@router.api_route("/made/{slug}/{name:path}", methods=["GET", "HEAD"])
def made_file(request: Request, slug: str, name: str, v: Annotated[str, Query(max_length=40)] = "") -> FileResponse:  # noqa: ARG001 - another address for another version
    """Send a file of a package, or the part of it that is asked for."""
    return _sent(package_file(_course(request), slug, name), name)


def _course(request: Request) -> Course:
    return read_course(request.app.state.place.course)


def _sent(path: Any, name: str) -> FileResponse:  # noqa: ANN401 - a Path
    return FileResponse(path, media_type=type_of(name), headers={"Cache-Control": "no-cache"}, stat_result=path.stat())


def _faults(state: State) -> dict[str, Any]:
    """Tell what keeps a lesson from being made."""
    summary = state.member.summary
    if summary is None or state.condition is not Condition.FAULTS:
        return {"problem": "", "faults": []}
    rows = [{"line": one.line, "words": one.words, "reason": one.reason, "mend": one.mend} for one in summary.faults]
    return {"problem": summary.problem, "faults": rows}


def _files(course: Course, slug: str, names: Iterable[str]) -> list[dict[str, Any]]:
    """List the files of a package, the ones that are asked for most first, its zip last."""
    words = dict(KNOWN)
    places = {name: place for place, (name, _) in enumerate(KNOWN)}
    rows = []
    for name in sorted(names, key=lambda name: (places.get(name, len(places)), name)):
        with contextlib.suppress(GamutwrightError, OSError):
            size = package_file(course, slug, name).stat().st_size
            rows.append({"name": name, "words": say(words.get(name, name)), "bytes": size, "is_known": name in words})
    with contextlib.suppress(GamutwrightError, OSError):
        size = course_file(course, f"{slug}.zip").stat().st_size
        rows.append({"name": "", "words": say("Everything (zip)"), "bytes": size, "is_known": True})
    return rows


def _reading(reading: Reading | None) -> dict[str, Any] | None:
    if reading is None:
        return None
    return {
        "at": reading.at,
        "held": reading.held,
        "broken": list(reading.broken),
        "checks": reading.report.get("checks", []),
    }


def _corrections(workshop: Workshop, slug: str) -> dict[str, Any]:
    """Tell what no longer holds of a package by today's facts and definitions."""
    try:
        found = errata(workshop.course.out / slug, default_registry())
    except GamutwrightError as error:
        return {"problem": str(error), "corrections": [], "redefined": [], "note": ""}
    plain = to_plain(found)
    assert isinstance(plain, dict)  # noqa: S101 - a record
    return {
        "problem": "",
        "corrections": plain["corrections"],
        "redefined": plain["redefined"],
        "note": errata_page(found) if found.corrections or found.redefined else "",
    }


def _publish(course: Course, slug: str) -> str:
    try:
        return package_file(course, slug, "publish.md").read_text(encoding="utf-8")
    except (GamutwrightError, OSError, UnicodeDecodeError):
        return ""
