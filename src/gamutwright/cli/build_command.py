"""`gamutwright series build`: every lesson that changed becomes its package, here or on a cluster."""

from __future__ import annotations

import gc
import json
from contextlib import AbstractContextManager
from pathlib import Path

import typer
from rich.console import Console
from rich.text import Text

from gamutwright.cli.buildview import BuildView, duration
from gamutwright.cli.progress import stage_bars
from gamutwright.cli.render_command import STOPPED
from gamutwright.codec import Plain
from gamutwright.errors import InputError
from gamutwright.jobs.outcome import Runner
from gamutwright.jobs.run import LocalPool, cores
from gamutwright.series.building import Built, Condition, State, build, due, states_of
from gamutwright.series.workshop import Workshop, open_course

__all__ = ["run"]


def run(
    place: Path, only: list[str], *, is_again: bool, workers: int | None, cluster: str | None, as_json: bool
) -> int:
    """Build a course.

    Parameters
    ----------
    place : Path
        The course.
    only : list of str
        Slugs of the lessons to build; all without any.
    is_again : bool
        Whether those that are built are built again.
    workers : int or None
        How many processes.
    cluster : str or None
        Address of a scheduler; this machine builds without it.
    as_json : bool
        Print JSON at the end.

    Returns
    -------
    int
        1 where a lesson failed or has faults, 130 where it was stopped, else 0.
    """
    # What is read here stays; looking through it for rubbish takes longer than all the rest where nothing has changed.
    gc.set_threshold(100_000)
    console = Console(highlight=False, stderr=as_json, soft_wrap=True)
    with stage_bars(is_transient=True) as tell:
        workshop = open_course(place, workers, tell)
        states = states_of(workshop.course, workshop.members, workshop.store)
    _check_names(only, states)
    todo = due(states, only, is_again=is_again)
    ended: list[Built] = []
    try:
        if todo:
            _build(workshop, todo, console, ended, workers, cluster)
    except KeyboardInterrupt:
        console.print(
            f"Stopped after {len(ended)} of {len(todo)} lessons. What was finished is kept; the same command goes on."
        )
        raise typer.Exit(STOPPED) from None
    after = states_of(workshop.course, workshop.members, workshop.store) if todo else states
    _write_site(workshop, after)
    failed = [one for one in ended if one.condition is Condition.FAILED]
    asked = [state for state in after if not only or state.member.slug in only]
    waiting = [state for state in asked if state.condition is Condition.FAULTS]
    if as_json:
        print(json.dumps(_plain(workshop, asked, ended), ensure_ascii=False, indent=1))
    else:
        _print_end(console, workshop, asked, ended)
    return int(bool(failed or waiting))


def _check_names(only: list[str], states: tuple[State, ...]) -> None:
    known = {state.member.slug for state in states}
    for slug in only:
        if slug not in known:
            raise InputError(f"lesson '{slug}'", "the course has no such lesson", "See: gamutwright series status")


def _runner(
    workshop: Workshop, todo: tuple[State, ...], workers: int, cluster: str | None
) -> AbstractContextManager[Runner]:
    if cluster is None:
        return LocalPool(workshop.store, min(workers, len(todo)))
    from gamutwright.jobs.dask_cluster import ClusterPool

    return ClusterPool(cluster, workshop.store)


def _build(
    workshop: Workshop, todo: tuple[State, ...], console: Console, ended: list[Built], workers: int | None,
    cluster: str | None,
) -> None:  # fmt: skip
    own = workers or cores()
    with _runner(workshop, todo, own, cluster) as runner:
        where = f"on {cluster}" if cluster else f"{own} process{'es' if own > 1 else ''}"
        costs = {state.member.slug: state.member.minutes for state in todo}
        with BuildView(console, costs, where) as view:

            def take(one: Built) -> None:
                ended.append(one)
                view.ended(one)

            build(workshop.course, todo, runner, cores=1 if cluster else own, told=view.told, ended=take)


def _write_site(workshop: Workshop, states: tuple[State, ...]) -> None:
    from gamutwright.series.website import write_site

    write_site(workshop.course, states, workshop.store)


def _print_end(console: Console, workshop: Workshop, states: list[State], ended: list[Built]) -> None:
    for one in ended:
        if one.trace:
            console.print(Text(f"{one.slug}:\n{one.trace}", style="dim"))
    for state in states:
        if state.condition in {Condition.FAULTS, Condition.FAILED}:
            console.print(Text(f"{state.member.slug}: {state.condition.value}: {state.detail}", style="bold red"))
    new = sum(one.condition is Condition.BUILT for one in ended)
    built = [state for state in states if state.condition is Condition.BUILT]
    length = sum(float(film_s) for state in built if isinstance(film_s := state.made.get("film_s"), int | float))
    waiting = len(states) - len(built)
    said = (
        f"{new} lessons built, {len(built) - new} as they were"
        if new != 1
        else f"1 lesson built, {len(built) - 1} as they were"
    )
    said += f", {waiting} not built (gamutwright series status says why)" if waiting else ""
    console.print(Text(f"{workshop.course.title}: {said}; {duration(length)} of film.", style="bold"))
    if built:
        console.print(
            f"{workshop.course.out / 'index.html'} is the course's page. Listen at a moderate level.", style="dim"
        )


def _plain(workshop: Workshop, states: list[State], ended: list[Built]) -> dict[str, Plain]:
    new = {one.slug: one for one in ended}
    return {
        "title": workshop.course.title,
        "lessons": [
            {
                "slug": state.member.slug,
                "state": state.condition.value,
                "detail": state.detail,
                "is_new": state.member.slug in new,
                "seconds": round(new[state.member.slug].seconds, 2) if state.member.slug in new else 0,
                "worker": new[state.member.slug].worker if state.member.slug in new else "",
                "files": state.made.get("files"),
            }
            for state in states
        ],
    }
