"""`gamutwright series init`, `status`, `check` and `report`: keeping a course."""

from __future__ import annotations

import json
from pathlib import Path

from rich.console import Console
from rich.text import Text

from gamutwright.cli.progress import stage_bars
from gamutwright.codec import Plain, to_plain
from gamutwright.series.building import Condition, State, due, states_of, tally
from gamutwright.series.course import begin_course
from gamutwright.series.course_checks import Standing
from gamutwright.series.overseeing import check_all, report_on, write_report
from gamutwright.series.workshop import open_course

__all__ = ["check", "init", "report", "status"]

COLOURS = {
    Condition.BUILT: "green",
    Condition.TO_BUILD: "yellow",
    Condition.NO_SCRIPT: "dim",
    Condition.FAULTS: "bold red",
    Condition.FAILED: "bold red",
}
SIGNS = {Standing.HOLDS: ("ok", "green"), Standing.BROKEN: ("BROKEN", "bold red"), Standing.NOT_CHECKED: ("-", "dim")}


def _console() -> Console:
    return Console(highlight=False, soft_wrap=True)


def _print_json(data: Plain) -> None:
    print(json.dumps(data, ensure_ascii=False, indent=1))


def init(folder: Path, title: str, language: str, level: str) -> None:
    """Begin a course.

    Parameters
    ----------
    folder : Path
        Where.
    title, language, level : str
        What it is called, its language and its level.
    """
    path = begin_course(folder, title, language, level)
    console = _console()
    console.print(f"{path}  write down your scales, then see: gamutwright series plan {folder}")


def status(place: Path, *, as_json: bool) -> None:
    """Say which lessons are built, which wait, and why.

    Parameters
    ----------
    place : Path
        The course.
    as_json : bool
        Print JSON instead of a table.
    """
    with stage_bars(is_transient=True) as tell:
        workshop = open_course(place, None, tell)
        states = states_of(workshop.course, workshop.members, workshop.store)
    if as_json:
        _print_json({"title": workshop.course.title, "lessons": [_state_row(state) for state in states]})
        return
    console = _console()
    for state in states:
        member = state.member
        line = Text(f"{member.number or '-':>4}  {member.language}  ")
        line.append(f"{state.condition.value:15}", style=COLOURS[state.condition]).append(
            f"{member.slug:32} {member.title}"
        )
        console.print(line.append(f"  {state.detail}" if state.detail else "", style="dim"))
    console.print(Text(f"{len(states)} lessons: {tally(states) or 'none yet'}", style="bold"))
    if due(states):
        console.print("Build them with: gamutwright series build")


def _state_row(state: State) -> dict[str, Plain]:
    member = state.member
    return {
        "slug": member.slug, "number": member.number, "title": member.title, "language": member.language,
        "level": member.level, "state": state.condition.value, "detail": state.detail,
    }  # fmt: skip


def check(place: Path, *, with_films: bool, workers: int | None, as_json: bool) -> int:
    """Check what has to agree between lessons.

    Parameters
    ----------
    place : Path
        The course.
    with_films : bool
        Whether films are read back.
    workers : int or None
        How many processes.
    as_json : bool
        Print JSON instead of text.

    Returns
    -------
    int
        1 where a rule is broken, else 0.
    """
    with stage_bars(is_transient=True) as tell:
        workshop = open_course(place, workers, tell)
        _, found = check_all(workshop, workers, tell, with_films=with_films)
    broken = [one for one in found if one.standing is Standing.BROKEN]
    if as_json:
        _print_json({"title": workshop.course.title, "is_whole": not broken, "checks": to_plain(found)})
        return int(bool(broken))
    console = _console()
    for one in found:
        sign, style = SIGNS[one.standing]
        console.print(Text("  ").append(f"{sign:6}", style=style).append(f" {one.rule.value}"))
        if one.detail:
            where = f"{', '.join(one.lessons[:6])}{' ...' if one.lessons[6:] else ''}: " if one.lessons else ""
            console.print(Text(f"         {where}{one.detail}"))
        if one.next_step:
            console.print(Text(f"         next: {one.next_step}", style="italic"))
    count = f"{len(broken)} thing{'s' if len(broken) > 1 else ''} to mend" if broken else "nothing is broken"
    console.print(
        Text(
            f"{workshop.course.title}, {len(workshop.members)} lessons: {count}",
            style="bold red" if broken else "bold green",
        )
    )
    return int(bool(broken))


def report(place: Path, output: Path | None, *, workers: int | None, as_json: bool) -> int:
    """Write the state of a course as a page, or print it as data.

    Parameters
    ----------
    place : Path
        The course.
    output : Path or None
        Where the page goes; `out/state.html` of the course without it. Its data go beside it.
    workers : int or None
        How many processes.
    as_json : bool
        Print the data, and write nothing.

    Returns
    -------
    int
        1 where something waits to be mended, else 0.
    """
    with stage_bars(is_transient=True) as tell:
        workshop = open_course(place, workers, tell)
        inquiry, data = report_on(workshop, workers, tell)
    waits = any(one.standing is Standing.BROKEN for one in inquiry.checks) or any(
        state.condition in {Condition.FAULTS, Condition.FAILED} for state in inquiry.states
    )
    if as_json:
        _print_json(data)
        return int(waits)
    page = write_report(data, workshop.course, output)
    print(f"{page}  {page.with_suffix('.json').name} beside it")
    return int(waits)
