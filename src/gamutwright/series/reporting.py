"""The state of a course on one sheet: what is built, what waits, what no longer holds of what was published.

Conventions: plain data in the form that `gamutwright.publish.site.state_page` draws; times of day are ISO 8601 in UTC,
times in a film as players show them. Packages are held against today's definitions once for each version of theirs and
ours.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from gamutwright.codec import Plain, digest, to_plain
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel
from gamutwright.lessons.parse import parse
from gamutwright.publish.errata import errata
from gamutwright.publish.told_lesson import clock_time
from gamutwright.series.building import State
from gamutwright.series.contents import Member
from gamutwright.series.course import Course
from gamutwright.series.course_checks import Found
from gamutwright.series.coverage import coverage_of
from gamutwright.series.line_recordings import Recorded, states_of_lines
from gamutwright.series.published import Package
from gamutwright.settings import takes_folder

__all__ = ["Inquiry", "course_report"]

_COST_S = 0.05


@dataclass(frozen=True, slots=True, eq=False)
class Inquiry:
    """What a report is made from.

    Parameters
    ----------
    course : Course
        The course.
    states : tuple of State
        The state of its lessons, in order.
    packages : mapping of str to Package
        What was published.
    checks : tuple of Found
        What has to agree between lessons.
    """

    course: Course
    states: tuple[State, ...]
    packages: Mapping[str, Package]
    checks: tuple[Found, ...]


def course_report(inquiry: Inquiry, registry: Registry, pool: LocalPool) -> dict[str, Plain]:
    """Report on a course.

    Parameters
    ----------
    inquiry : Inquiry
        What was found out.
    registry : Registry
        The facts on offer.
    pool : LocalPool
        Holds packages against today's definitions.

    Returns
    -------
    dict
        Title, time, lessons, checks, totals and coverage.
    """
    corrections = _corrections(inquiry, pool)
    lessons = [_lesson(inquiry.course, state, corrections.get(state.member.slug, {})) for state in inquiry.states]
    return {
        "format": "gamutwright.course-report/1",
        "title": inquiry.course.title,
        "made": dt.datetime.now(tz=dt.UTC).replace(microsecond=0).isoformat(),
        "lessons": list(lessons),
        "checks": [
            {
                "rule": found.rule.value,
                "state": found.standing.value,
                "detail": f"{found.detail}. {found.next_step}" if found.next_step else found.detail,
                "lessons": list(found.lessons),
            }
            for found in inquiry.checks
        ],
        "totals": _totals(inquiry, lessons),
        "coverage": _coverage([state.member for state in inquiry.states], registry),
    }


def _corrections(inquiry: Inquiry, pool: LocalPool) -> dict[str, dict[str, Any]]:
    """Hold every package against today's definitions."""
    digests = FileDigests(inquiry.course.kept / "digests.json")
    program = [
        sources_digest("facts", "theory", "lessons", "phrasing", "languages", "inputs", "catalogue", "publish"),
        installed_packs(),
    ]
    jobs = {}
    for slug, package in inquiry.packages.items():
        files = [digests.of(package.folder / name) for name in ("ledger.json", "script.md")]
        jobs[slug] = Job(digest(["errata", program, files]), _held_against, package.folder, _COST_S)
    digests.save()
    pool.finish(jobs.values())
    found: dict[str, dict[str, Any]] = {}
    for slug, job in jobs.items():
        data = pool.result(job).data
        found[slug] = data if isinstance(data, dict) else {}
    return found


def _held_against(folder: Any) -> Parcel:  # noqa: ANN401 - the payload of a job: a Path
    return Parcel(to_plain(errata(folder, default_registry())))


def _lesson(course: Course, state: State, corrections: Mapping[str, Any]) -> dict[str, Plain]:
    member = state.member
    built_s, film_s = state.made.get("built_s"), state.made.get("film_s")
    faults = member.summary.faults if member.summary else ()
    return {
        "slug": member.slug,
        "number": member.number,
        "title": member.title,
        "language": member.language,
        "level": member.level,
        "state": state.condition.value,
        "detail": state.detail,
        "minutes": round(film_s / 60, 2) if isinstance(film_s, int | float) else member.minutes,
        "built_at": _moment(built_s) if isinstance(built_s, int | float) else "",
        "stale_takes": _stale_takes(course, member),
        "faults": [
            {"line": fault.line, "column": fault.column, "words": fault.words, "reason": fault.reason}
            for fault in faults
        ],
        "changed_definitions": [
            {"title": changed["title"], "times": [_time(start_ms) for start_ms in changed["starts_ms"]]}
            for changed in corrections.get("redefined", ())
        ],
        "errata": [
            {
                "time": _time(one["start_ms"]),
                "said": one["said"],
                "now": one["now"] or one["reason"],
                "caption": one["corrected"] or one["caption"],
            }
            for one in corrections.get("corrections", ())
        ],
    }


def _time(start_ms: int) -> str:
    return clock_time(start_ms * TICKS_PER_SECOND // 1000)


def _moment(seconds: float) -> str:
    return dt.datetime.fromtimestamp(seconds, tz=dt.UTC).replace(microsecond=0).isoformat()


def _stale_takes(course: Course, member: Member) -> list[Plain]:
    """List the recordings whose line has other words now."""
    folder = takes_folder(course.script_of(member.slug))
    if not folder.is_dir() or member.summary is None or member.summary.problem:
        return []
    states = states_of_lines(parse(member.source, member.slug), folder)
    return [{"line": state.line.id, "text": state.line.text} for state in states if state.state is Recorded.STALE]


def _totals(inquiry: Inquiry, lessons: Sequence[Mapping[str, Plain]]) -> dict[str, Plain]:
    conditions = [state.condition.value for state in inquiry.states]
    told = {said.fact_id for state in inquiry.states if state.member.summary for said in state.member.summary.told}
    # What was published stays published, whether or not something has changed since.
    film_s = [length for state in inquiry.states if isinstance(length := state.made.get("film_s"), int | float)]

    def count(key: str) -> int:
        return sum(len(rows) for lesson in lessons if isinstance(rows := lesson[key], list))

    return {
        "lessons": len(conditions),
        **{condition.replace(" ", "_"): conditions.count(condition) for condition in dict.fromkeys(conditions)},
        "minutes": round(sum(film_s) / 60, 1),
        "facts": len(told),
        "stale_takes": count("stale_takes"),
        "errata": count("errata"),
        "changed_definitions": count("changed_definitions"),
    }


def _coverage(members: Sequence[Member], registry: Registry) -> list[Plain]:
    """Say what of the field the course shows, as rows of what, how many, and of how many."""
    scales = [member.scale for member in members if member.scale is not None]
    told = {said.fact_id for member in members if member.summary for said in member.summary.told}
    covered = coverage_of(scales, registry, told)
    rows: list[Plain] = []
    for division in covered.divisions:
        for size in division.sizes:
            if size.lessons:
                what = f"classes of {size.tones} tones in {division.divisions} divisions"
                rows.append({"what": what, "shown": size.classes_shown, "of": size.classes})
    sides = [side for side in covered.sides if side.yes + side.no]
    both = sum(bool(side.yes and side.no) for side in sides)
    rows.append({"what": "properties shown on both sides", "shown": both, "of": len(sides)})
    rows += [
        {"what": f"facts of the level {row.level}", "shown": row.told, "of": row.applicable} for row in covered.levels
    ]
    return rows
