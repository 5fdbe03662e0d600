"""The first screen: the lessons of the course, what state each is in, and a new one from a scale."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from pydantic import BaseModel, ConfigDict, Field

from gamutwright.jobs.run import LocalPool
from gamutwright.series.building import Condition, State, states_of, tally
from gamutwright.series.contents import Member, free_slug, read_rooted_scale, slug_of
from gamutwright.series.drafting import draft_job
from gamutwright.series.examining import lesson_title
from gamutwright.series.workshop import open_course
from gamutwright.studio.documents import Documents
from gamutwright.studio.static import render

__all__ = ["router"]

router = APIRouter()


class NewLesson(BaseModel):
    """What a new lesson is drafted from."""

    model_config = ConfigDict(extra="forbid")

    scale: Annotated[str, Field(min_length=1, max_length=200)]
    language: Annotated[str, Field(pattern="^(en|de)$")] = "en"
    minutes: Annotated[float, Field(gt=0, le=60)] = 6.0


@router.get("/")
def course_page(request: Request) -> HTMLResponse:
    """Show the lessons of the course."""
    workshop = open_course(request.app.state.place.course, 1)
    states = states_of(workshop.course, workshop.members, workshop.store)
    return render(
        request,
        "course.html.jinja",
        title=workshop.course.title,
        course_title=workshop.course.title,
        here="course",
        summary=_summary(states),
        lessons=[_row(state) for state in states],
        minutes=f"{workshop.course.minutes:g}",
    )


def _summary(states: tuple[State, ...]) -> str:
    return f"{len(states)} lesson{'s' if len(states) != 1 else ''}: {tally(states)}." if states else ""


def _row(state: State) -> dict[str, object]:
    member = state.member
    return {
        "slug": member.slug,
        "number": member.number,
        "title": member.title,
        "state": state.condition.value,
        "shape": state.condition.value.replace(" ", "-"),
        "detail": state.detail if state.condition in {Condition.FAULTS, Condition.FAILED} else "",
        "has_script": bool(member.source),
    }


@router.post("/api/lessons", status_code=201)
def draft_lesson(request: Request, wanted: NewLesson) -> dict[str, str]:
    """Draft a lesson about a scale, as the next of its language; lessons before it need not be explained again."""
    workshop = open_course(request.app.state.place.course, 1)
    course = workshop.course
    scale = read_rooted_scale(wanted.scale, course.divisions)
    before = [member for member in workshop.members if member.language == wanted.language and member.summary]
    known = {said.fact_id for member in before if member.summary for said in member.summary.defined}
    level = course.levels[min(len(before), len(course.levels) - 1)]
    number = max((member.number or 0 for member in before), default=0) + 1
    # A lesson that waits for its script gives its folder to the one that is written now.
    slug = free_slug(slug_of(scale), [member.slug for member in workshop.members if member.source])
    title = lesson_title(scale, wanted.language)
    member = Member(slug, scale, wanted.language, level, wanted.minutes, title)
    with LocalPool(workshop.store, 1) as pool:
        data = pool.result(draft_job(course, member, (number, level), known)).data
    assert isinstance(data, dict)  # noqa: S101 - what a draft gives
    Documents(course).save(slug, str(data["source"]), "")
    return {"slug": slug}
