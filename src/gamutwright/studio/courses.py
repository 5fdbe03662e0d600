"""The first screen: the lessons of the course, what state each is in, and a new one from a scale."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from pydantic import BaseModel, ConfigDict, Field

from gamutwright.catalogue.shares import shares_of
from gamutwright.errors import InputError
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.lesson.draft import draft
from gamutwright.lesson.plan import Wish
from gamutwright.lesson.wording.engine import wording_for
from gamutwright.series.building import Condition, State, states_of
from gamutwright.series.contents import Member, slug_of
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
    counts = {condition: sum(state.condition is condition for state in states) for condition in Condition}
    said = ", ".join(f"{count} {condition.value}" for condition, count in counts.items() if count)
    return f"{len(states)} lesson{'s' if len(states) != 1 else ''}: {said}." if states else ""


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
    scale = read_scale(wanted.scale, divisions=course.divisions).scale
    if not scale.is_rooted:
        raise InputError(f"{wanted.scale!r}", "the root is not one of its tones", "Name a root that is.")
    before = [member for member in workshop.members if member.language == wanted.language and member.summary]
    known = {said.fact_id for member in before if member.summary for said in member.summary.defined}
    level = course.levels[min(len(before), len(course.levels) - 1)]
    number = max((member.number or 0 for member in before), default=0) + 1
    others = [("course", course.imprint)] if course.imprint else []
    made = draft(
        scale,
        Wish(Level(level), wanted.minutes, frozenset(known)),
        wording_for(wanted.language).language,
        registry=default_registry(),
        shares=shares_of(scale.divisions),
        others=(*others, ("lesson", str(number))),
    )
    slug = _free_slug(workshop.members, slug_of(scale))
    Documents(course).save(slug, made.source, "")
    return {"slug": slug}


def _free_slug(members: tuple[Member, ...], slug: str) -> str:
    """Give a folder's name that no lesson has; one that waits for its script is that lesson's."""
    taken = {member.slug for member in members if member.source}
    names = (slug, *(f"{slug[:60]}-{count}" for count in range(2, len(taken) + 3)))
    return next(name for name in names if name not in taken)
