"""`gamutwright series plan`: the order of a course, what it covers, and drafts of what it lacks."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

from rich.console import Console
from rich.table import Table
from rich.text import Text

from gamutwright.cli.progress import stage_bars
from gamutwright.codec import to_plain
from gamutwright.facts.registry import default_registry
from gamutwright.jobs.run import LocalPool
from gamutwright.series.course_drafts import draft_missing
from gamutwright.series.coverage import coverage_of, coverage_rows
from gamutwright.series.planning import CoursePlan, plan_rows
from gamutwright.series.workshop import Workshop, open_course, plan_of

__all__ = ["run"]

SHOWN_WARNINGS = 12


def run(place: Path, *, is_drafting: bool, workers: int | None, as_json: bool) -> None:
    """Plan a course, and draft what it lacks.

    Parameters
    ----------
    place : Path
        The course.
    is_drafting : bool
        Whether scripts that are missing are written.
    workers : int or None
        How many processes.
    as_json : bool
        Print JSON instead of tables.
    """
    registry = default_registry()
    with stage_bars(is_transient=True) as tell:
        workshop = open_course(place, workers, tell)
        planned = plan_of(workshop, registry, lambda done, total: tell("planning", done, total))
        written: tuple[str, ...] = ()
        if is_drafting:
            with LocalPool(workshop.store, workers) as pool:
                members = {member.slug: member for member in workshop.members}
                written = draft_missing(
                    workshop.course, members, planned.places, pool, lambda done, total: tell("drafting", done, total)
                )
    scales = [member.scale for member in workshop.members if member.scale is not None]
    told = {said.fact_id for member in workshop.members if member.summary for said in member.summary.told}
    told |= {fact_id for place_ in planned.places for fact_id in place_.explains}
    covered = coverage_of(scales, registry, told)
    if as_json:
        data = ({"plan": to_plain(plan_rows(planned)), "warnings": list(planned.warnings),
                     "coverage": to_plain(covered), "drafted": list(written)})  # fmt: skip
        print(json.dumps(data, ensure_ascii=False, indent=1))
        return
    console = Console(highlight=False)
    _print_plan(console, workshop, planned)
    _print_rows(console, "Coverage of the field", coverage_rows(covered)["sizes"])
    _print_rows(console, "Facts told", coverage_rows(covered)["levels"], leaving=("untold",))
    for warning in planned.warnings[:SHOWN_WARNINGS]:
        console.print(Text(f"note: {warning}", style="yellow"))
    if len(planned.warnings) > SHOWN_WARNINGS:
        console.print(
            Text(f"and {len(planned.warnings) - SHOWN_WARNINGS} more notes (--json lists them)", style="yellow")
        )
    missing = sum(not member.source for member in workshop.members)
    if written:
        first = workshop.course.script_of(written[0])
        console.print(
            f"{len(written)} scripts drafted, {first} the first. Make them your own; then: gamutwright series check"
        )
    elif missing:
        console.print(
            f"{missing} lessons have no script yet. Draft them in this order with: gamutwright series plan --draft"
        )


def _print_plan(console: Console, workshop: Workshop, planned: CoursePlan) -> None:
    titles = {fact.id: fact.title for fact in default_registry().facts.values()}
    names = {member.slug: member.title for member in workshop.members}
    table = Table(title=Text(workshop.course.title, style="bold"), title_justify="left", box=None, pad_edge=False)
    for heading in ("", "lesson", "level", "story", "new ideas", "near to"):
        table.add_column(heading, justify="right" if not heading else "left", header_style="dim")
    language = ""
    for place in planned.places:
        if place.candidate.language != language and language:
            table.add_section()
        language = place.candidate.language
        new = [titles.get(fact_id, fact_id) for fact_id in place.explains]
        near = "; ".join(f"{kin.kind} of {kin.number}" for kin in place.kin[:2])
        table.add_row(
            str(place.number), names.get(place.candidate.slug, place.candidate.slug), place.level, place.story,
            ", ".join(new[:4]) + (f" and {len(new) - 4} more" if new[4:] else ""), near,
        )  # fmt: skip
    console.print(table)


def _print_rows(console: Console, title: str, rows: Sequence[dict[str, str]], leaving: Sequence[str] = ()) -> None:
    if not rows:
        return
    keys = [key for key in rows[0] if key not in leaving]
    table = Table(title=Text(title, style="bold"), title_justify="left", box=None, pad_edge=False)
    for key in keys:
        table.add_column(key.replace("_", " "), header_style="dim")
    for row in rows:
        table.add_row(*(row[key] for key in keys))
    console.print(table)
