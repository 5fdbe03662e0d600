"""The first screen: the lessons of the course and their states, its plan and check, and a new lesson from a scale.

Where there is no course yet, it offers to begin one.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from pydantic import BaseModel, ConfigDict, Field

from gamutwright.errors import InputError, told
from gamutwright.jobs.run import LocalPool
from gamutwright.languages import known_languages, language_of
from gamutwright.render.soundfont import players_of
from gamutwright.series.building import Condition, State, due, states_of, tally_of
from gamutwright.series.contents import Member, free_slug, read_rooted_scale, slug_of
from gamutwright.series.course import FILE_NAME, Language, begin_course, read_course
from gamutwright.series.course_drafts import Spot, draft_job
from gamutwright.series.course_settings import soundfonts_of, write_settings
from gamutwright.series.examining import lesson_title
from gamutwright.series.overseeing import STATE_PAGE
from gamutwright.series.workshop import open_course
from gamutwright.studio.coursework import found
from gamutwright.studio.documents import Documents
from gamutwright.studio.made import has_desktop, show_folder
from gamutwright.studio.static import render
from gamutwright.studio.tongue import say, tongue

__all__ = ["router"]

router = APIRouter()


def _languages() -> dict[str, str]:
    """Say what the languages of lessons are called on the studio's screens."""
    return {tag: language_of(tag).name for tag in known_languages()}


class NewLesson(BaseModel):
    """What a new lesson is drafted from."""

    model_config = ConfigDict(extra="forbid")

    scale: Annotated[str, Field(min_length=1, max_length=200)]
    divisions: Annotated[int, Field(ge=0, le=72)] = 0
    language: Language | Literal[""] = ""
    minutes: Annotated[float, Field(gt=0, le=60)] = 6.0


class NewCourse(BaseModel):
    """What a course is begun with."""

    model_config = ConfigDict(extra="forbid")

    title: Annotated[str, Field(min_length=1, max_length=200)]
    language: Language = "en"
    level: Annotated[str, Field(pattern="^(foundation|further|research)$")] = "further"


class Playing(BaseModel):
    """On what a course is played, and what its packages hold for players."""

    model_config = ConfigDict(extra="forbid")

    soundfont: Annotated[str, Field(max_length=200)] = ""
    instruments: Annotated[list[Annotated[str, Field(max_length=200)]], Field(max_length=16)] = []
    written_for: Annotated[list[Literal["Bb", "Eb", "F"]], Field(max_length=3)] = []
    play_along: bool = True


@router.get("/")
def course_page(request: Request) -> HTMLResponse:
    """Show the lessons of the course; where there is none yet, offer to begin one."""
    folder = request.app.state.place.course
    if not (folder / FILE_NAME).is_file():
        title = say("A new course")
        return render(
            request, "begin.html.jinja", title=title, course_title=title, here="course", folder=str(folder),
            languages=_languages(), language=tongue().tag,
        )  # fmt: skip
    workshop = open_course(folder, 1)
    course = workshop.course
    states = states_of(course, workshop.members, workshop.store)
    return render(
        request,
        "course.html.jinja",
        title=course.title,
        course_title=course.title,
        here="course",
        summary=_summary(states),
        tongues=_by_language(states),
        minutes=f"{course.minutes:g}",
        language=course.language,
        languages=_languages(),
        folder=str(course.out),
        sound=course.sound,
        music=course.music,
        fonts=sorted({*soundfonts_of(course.folder), course.sound.soundfont} - {""}),
        has_desktop=has_desktop(),
    )


@router.post("/api/course/playing")
def set_playing(request: Request, wanted: Playing) -> dict[str, bool]:
    """Write down on what a course is played; what is not among its files, or plays nothing, is refused."""
    course = read_course(request.app.state.place.course)
    if wanted.soundfont and wanted.soundfont not in (course.sound.soundfont, *soundfonts_of(course.folder)):
        raise InputError(
            wanted.soundfont, told("there is no such SoundFont beside series.toml"), told("Put the file there.")
        )
    players_of(course.folder / wanted.soundfont if wanted.soundfont else None, wanted.instruments)
    write_settings(
        course.folder,
        {
            "sound": {"soundfont": wanted.soundfont, "instruments": wanted.instruments},
            "music": {"written_for": wanted.written_for, "play_along": wanted.play_along},
        },
    )
    return {"saved": True}


@router.post("/api/course", status_code=201)
def begin(request: Request, wanted: NewCourse) -> dict[str, str]:
    """Begin a course in the folder that the studio was started in."""
    folder = request.app.state.place.course
    begin_course(folder, wanted.title, wanted.language, wanted.level)
    return {"title": read_course(folder).title}


@router.get("/api/course")
def course_data(request: Request) -> dict[str, Any]:
    """Tell of the lessons, of what check and plan have found last, and which pages the course has."""
    workshop = open_course(request.app.state.place.course, 1)
    course = workshop.course
    states = states_of(course, workshop.members, workshop.store)
    return {
        "summary": _summary(states),
        "lessons": [_row(state) for state in states],
        "due": len(due(states)),
        "missing": sum(state.condition is Condition.NO_SCRIPT for state in states),
        "check": _checks(found(course, "check")),
        "plan": found(course, "plan"),
        "pages": [name for name in ("index.html", STATE_PAGE) if (course.out / name).is_file()],
    }


@router.post("/api/course/folder")
def open_folder(request: Request) -> dict[str, bool]:
    """Show the folder of what is published on the desktop, where there is one."""
    return {"opened": show_folder(read_course(request.app.state.place.course).out)}


def _checks(kept: dict[str, Any] | None) -> dict[str, Any] | None:
    """Name the rules of a check in the language that is spoken now."""
    return kept and {
        **kept,
        "checks": [{**one, "rule": tongue().retold(told(one["rule"]))} for one in kept.get("checks", [])],
    }


def _summary(states: tuple[State, ...]) -> str:
    if not states:
        return ""
    counted = ", ".join(f"{count} {say(condition.value)}" for condition, count in tally_of(states).items())
    if len(states) == 1:
        return say("One lesson: {counted}.", counted=counted)
    return say("{count} lessons: {counted}.", count=len(states), counted=counted)


def _by_language(states: tuple[State, ...]) -> list[tuple[dict[str, str], list[dict[str, object]]]]:
    """Put lessons of one language together, in the order in which the languages come."""
    rows: dict[str, list[dict[str, object]]] = {}
    for state in states:
        rows.setdefault(state.member.language, []).append(_row(state))
    return [({"tag": tag, "name": language_of(tag).name}, own) for tag, own in rows.items()]


def _row(state: State) -> dict[str, object]:
    member = state.member
    return {
        "slug": member.slug,
        "number": member.number,
        "title": member.title,
        "state": say(state.condition.value),
        "shape": state.condition.value.replace(" ", "-"),
        "detail": tongue().retold(state.detail) if state.condition is not Condition.NO_SCRIPT else "",
        "has_script": bool(member.source),
        "can_be_made": state.condition in {Condition.TO_BUILD, Condition.FAILED},
    }


@router.post("/api/lessons", status_code=201)
def draft_lesson(request: Request, wanted: NewLesson) -> dict[str, str]:
    """Draft a lesson about a scale, as the next of its language; lessons before it need not be explained again.

    Divisions and language are the course's where nothing else is asked for.
    """
    workshop = open_course(request.app.state.place.course, 1)
    course = workshop.course
    scale = read_rooted_scale(wanted.scale, wanted.divisions or course.divisions)
    language = wanted.language or course.language
    before = [member for member in workshop.members if member.language == language and member.summary]
    known = {said.fact_id for member in before if member.summary for said in member.summary.defined}
    level = course.levels[min(len(before), len(course.levels) - 1)]
    number = max((member.number or 0 for member in before), default=0) + 1
    # A lesson that waits for its script gives its folder to the one that is written now.
    slug = free_slug(slug_of(scale), [member.slug for member in workshop.members if member.source])
    title = lesson_title(scale, language)
    member = Member(slug, scale, language, level, wanted.minutes, title)
    with LocalPool(workshop.store, 1) as pool:
        data = pool.result(draft_job(course, member, Spot(number, level), known)).data
    assert isinstance(data, dict)  # noqa: S101 - what a draft gives
    Documents(course).save(slug, str(data["source"]), "")
    return {"slug": slug}
