"""Tasks about the whole course: building what changed, checking, reporting, planning, drafting what is missing.

What is found is written into the course's own folder, where the screens read it; a task's result only counts it.

Conventions: `.gamutwright/found/<kind>.json` holds what a kind of task found last, and when; it can be deleted.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Final

from gamutwright.codec import plain_from_json, to_plain
from gamutwright.errors import JobError, told
from gamutwright.facts.registry import default_registry
from gamutwright.files import make_folder, write_text
from gamutwright.jobs.outcome import Event
from gamutwright.jobs.run import LocalPool, cores
from gamutwright.series.building import Built, Condition, State, build, due, states_of
from gamutwright.series.course import Course
from gamutwright.series.course_checks import Standing
from gamutwright.series.course_drafts import draft_missing
from gamutwright.series.coverage import coverage_of, coverage_rows
from gamutwright.series.overseeing import check_all, report_on, write_report
from gamutwright.series.planning import CoursePlan, plan_rows
from gamutwright.series.stagewords import stage_words
from gamutwright.series.workshop import Workshop, plan_of
from gamutwright.studio.lessonwork import PACES, opening, site_of
from gamutwright.studio.tongue import say

if TYPE_CHECKING:
    from gamutwright.studio.taskrun import Tell

__all__ = ["check", "draft", "found", "make_all", "plan", "report"]

MADE_EACH_MINUTE_S: Final = sum(PACES[stage] for stage in ("voice", "making", "film", "package"))
FIXED_S: Final = 1.5
SHARES: Final[Mapping[str, tuple[float, float]]] = {
    "voice": (0.0, 0.08), "making": (0.08, 0.74), "level": (0.82, 0.0), "film": (0.82, 0.08), "package": (0.9, 0.1),
}  # fmt: skip
"""Where each stage begins in the making of a lesson, and how much of it it is."""
READ_EACH_MINUTE_S: Final = 1.8

Payload = Mapping[str, Any]


def make_all(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Build every lesson that changed, then the pages of the course, and report on it; films are read back for that.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is, and what becomes of each lesson.

    Returns
    -------
    dict
        A message, and the lessons that were built, failed, or wait for their statements.

    Raises
    ------
    JobError
        If a lesson could not be built, or a check of a film is broken; everything else was done.
    """
    workshop = opening(payload, tell, {"lessons": 20.0, "reading films": 5.0})
    todo = due(states_of(workshop.course, workshop.members, workshop.store))
    minutes = sum(state.member.minutes for state in todo)
    each = payload["paces"].get("lessons", MADE_EACH_MINUTE_S)
    tell.expect(
        {"lessons": minutes * each + FIXED_S * len(todo), "reading films": minutes * READ_EACH_MINUTE_S + FIXED_S},
        minutes,
    )
    ended = _built(workshop, todo, tell) if todo else ()
    states = site_of(workshop)
    inquiry, data = report_on(workshop, None, tell)
    write_report(data, workshop.course)
    _keep(workshop.course, "check", {"checks": to_plain(inquiry.checks)})
    failed = [one.slug for one in ended if one.condition is Condition.FAILED]
    waiting = [state.member.slug for state in states if state.condition is Condition.FAULTS]
    built = len(ended) - len(failed)
    said = (
        (say("{count} lessons built", count=built) if built != 1 else say("one lesson built"))
        if ended
        else say("Nothing had changed")
    )
    said += say(", {count} not all proved yet", count=len(waiting)) if waiting else ""
    if failed:
        which = ", ".join(failed[:5]) + (" …" if failed[5:] else "")
        first = next(one.detail for one in ended if one.condition is Condition.FAILED)
        raise JobError(
            told("the course, {said}", said=said),
            told("{failed} could not be built ({which}; {first})", failed=len(failed), which=which, first=first),
            told("Mend them, and go on."),
        )
    broken = [one for one in inquiry.checks if one.standing is Standing.BROKEN and "films hold" in one.rule.value]
    if broken:
        raise JobError(
            told("the course, {said}", said=said),
            told("a film is not as promised ({detail})", detail=broken[0].detail),
            told("Make it again."),
        )
    return {
        "message": say("{said}. The films were read back, and hold what is promised.", said=said),
        "built": built,
        "waiting": waiting,
    }


def _built(workshop: Workshop, todo: tuple[State, ...], tell: Tell) -> tuple[Built, ...]:
    """Build lessons, several at once, and tell of each."""
    minutes = {state.member.slug: max(state.member.minutes, 0.1) for state in todo}
    total, shares, ended = sum(minutes.values()), dict.fromkeys(minutes, 0.0), list[Built]()

    def go_on() -> None:
        tell("lessons", len(ended), len(todo), sum(minutes[slug] * share for slug, share in shares.items()) / total)

    def told(slug: str, event: Event) -> None:
        if not slug:
            return
        if event.kind == "begun":
            tell.part(slug, "running", "begins")
        elif event.kind == "stage":
            amount = f" {event.done:,} of {event.total:,}" if event.total else ""
            tell.part(slug, "running", f"{stage_words(event.detail)}{amount}")
            start, length = SHARES.get(event.detail, (shares[slug], 0.0))
            shares[slug] = max(shares[slug], start + length * (event.done / event.total if event.total else 0.0))
            go_on()

    def take(one: Built) -> None:
        ended.append(one)
        shares[one.slug] = 1.0
        tell.part(one.slug, "failed" if one.condition is Condition.FAILED else "done", one.detail)
        go_on()

    for state in todo:
        tell.part(state.member.slug, "waiting")
    go_on()
    own = cores()
    with LocalPool(workshop.store, min(own, len(todo))) as runner:
        return build(workshop.course, todo, runner, cores=own, told=told, ended=take)


def check(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Check what has to agree between the lessons.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.

    Returns
    -------
    dict
        A message, and how many things are to be mended.
    """
    workshop = opening(payload, tell, {"reading films": 5.0})
    tell.expect({"reading films": len(workshop.members) * FIXED_S})
    tell("reading films", 0, 0)
    _, checks = check_all(workshop, None, tell)
    _keep(workshop.course, "check", {"checks": to_plain(checks)})
    broken = sum(one.standing is Standing.BROKEN for one in checks)
    said = (
        say("{count} things to mend.", count=broken)
        if broken > 1
        else say("One thing to mend.")
        if broken
        else say("Nothing is broken.")
    )
    return {"message": said, "broken": broken}


def report(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Write the state of the course as a page and as data.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.

    Returns
    -------
    dict
        A message.
    """
    workshop = opening(payload, tell, {"reading films": 5.0})
    tell.expect({"reading films": len(workshop.members) * FIXED_S})
    tell("reading films", 0, 0)
    inquiry, data = report_on(workshop, None, tell)
    write_report(data, workshop.course)
    _keep(workshop.course, "check", {"checks": to_plain(inquiry.checks)})
    return {"message": say("The report is written.")}


def plan(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Plan the course: the order of its lessons, what each explains, what the course covers, and advice.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.

    Returns
    -------
    dict
        A message, and how many pieces of advice there are.
    """
    workshop, planned = _planned(payload, tell)
    registry = default_registry()
    titles = {fact.id: fact.title for fact in registry.facts.values()}
    scales = [member.scale for member in workshop.members if member.scale is not None]
    told = {said.fact_id for member in workshop.members if member.summary for said in member.summary.told}
    told |= {fact_id for place in planned.places for fact_id in place.explains}
    covered = coverage_rows(coverage_of(scales, registry, told))
    names = {member.slug: member.title for member in workshop.members}
    rows = [
        {**row, "title": names.get(row["lesson"], row["lesson"])}
        for row in plan_rows(planned, lambda fact_id: titles.get(fact_id, fact_id))
    ]
    _keep(
        workshop.course,
        "plan",
        {"places": to_plain(rows), "warnings": list(planned.warnings), **to_plain_rows(covered)},
    )
    advice = len(planned.warnings)
    said = say("{count} lessons planned", count=len(rows)) if len(rows) != 1 else say("one lesson planned")
    if advice:
        said = say("{said}, advice: {count}", said=said, count=advice)
    return {"message": f"{said}.", "advice": advice}


def draft(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Draft the scripts that are missing, in the order of the plan.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.

    Returns
    -------
    dict
        A message, and the lessons that have a script now.
    """
    workshop, planned = _planned(payload, tell)
    members = {member.slug: member for member in workshop.members}
    with LocalPool(workshop.store, None) as pool:
        written = draft_missing(
            workshop.course, members, planned.places, pool, lambda done, total: tell("drafting", done, total)
        )
    said = (
        say("Scripts drafted: {count}. Make them your own.", count=len(written))
        if written
        else say("No script was missing.")
    )
    return {"message": said, "drafted": len(written)}


def _planned(payload: Payload, tell: Tell) -> tuple[Workshop, CoursePlan]:
    workshop = opening(payload, tell, {"planning": 5.0})
    tell.expect({"planning": 1.0 + 0.3 * len(workshop.members)})
    tell("planning", 0, len(workshop.members))
    return workshop, plan_of(workshop, default_registry(), lambda done, total: tell("planning", done, total))


def to_plain_rows(tables: Mapping[str, list[dict[str, str]]]) -> dict[str, Any]:
    """Give the tables that a screen shows; lists of what is untold are left out.

    Parameters
    ----------
    tables : mapping
        As `coverage_rows` gives them.

    Returns
    -------
    dict
        `sizes` and `levels`.
    """
    levels = [{key: value for key, value in row.items() if key != "untold"} for row in tables["levels"]]
    return {"sizes": tables["sizes"], "levels": levels}


def found(course: Course, kind: str) -> dict[str, Any] | None:
    """Give what a kind of task found last.

    Parameters
    ----------
    course : Course
        The course.
    kind : str
        check or plan.

    Returns
    -------
    dict or None
        With `at`, when it was found; None where it was not looked for yet.
    """
    try:
        kept = plain_from_json((course.kept / "found" / f"{kind}.json").read_bytes())
        return kept if isinstance(kept, dict) and "at" in kept else None
    except (OSError, ValueError):
        return None


def _keep(course: Course, kind: str, what: Mapping[str, Any]) -> None:
    folder = course.kept / "found"
    make_folder(folder)
    kept = {"at": dt.datetime.now(tz=dt.UTC).isoformat(timespec="seconds"), **what}
    write_text(folder / f"{kind}.json", json.dumps(kept, ensure_ascii=False) + "\n")
