"""The commands that keep a course; each hands its work to a module of its own."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from gamutwright.cli.options import AsJson, LevelName, Workers, is_a_file

__all__ = ["app"]

app = typer.Typer(
    name="series",
    help="Keep a course of lessons: plan it, draft it, build what changed, check it, report on it.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

Course = Annotated[Path, typer.Argument(metavar="[COURSE]", help="Its folder; the current one without it.")]


@app.command(
    epilog="Example:  gamutwright series init evening-course --title 'Scales by the harbour' --level foundation"
)
def init(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Where the course is going to be.")],
    *,
    title: Annotated[str, typer.Option("--title", help="What it is called.")] = "A course of scales",
    language: Annotated[str, typer.Option("--language", "-l", help="Its language.")] = "en",
    level: Annotated[LevelName, typer.Option("--level", help="Who it is for.")] = LevelName.FURTHER,
) -> None:
    """Begin a course: a series.toml to fill in."""
    from gamutwright.cli import keep_command

    keep_command.init(folder, title, language, level.value)


@app.command(epilog="Examples:  gamutwright series plan   |   gamutwright series plan evening-course --draft")
def plan(
    course: Course = Path(),
    *,
    draft: Annotated[bool, typer.Option("--draft", help="Write the scripts that are missing.")] = False,
    workers: Workers = None,
    as_json: AsJson = False,
) -> None:
    """Order the lessons, say what each explains and what the course covers; draft what is missing."""
    from gamutwright.cli import plan_command

    plan_command.run(course, is_drafting=draft, workers=workers, as_json=as_json)


@app.command(epilog="Example:  gamutwright series status evening-course")
def status(course: Course = Path(), *, as_json: AsJson = False) -> None:
    """Say which lessons are built, which wait, and why."""
    from gamutwright.cli import keep_command

    keep_command.status(course, as_json=as_json)


@app.command(
    epilog="Examples:  gamutwright series build   |   gamutwright series build --only g-acoustic --again   |   "
    "gamutwright series build --cluster tcp://192.0.2.7:8786"
)
def build(
    course: Course = Path(),
    *,
    only: Annotated[
        list[str] | None, typer.Option("--only", metavar="LESSON", help="This lesson only; may be repeated.")
    ] = None,
    again: Annotated[bool, typer.Option("--again", help="Build anew what is built already.")] = False,
    workers: Workers = None,
    cluster: Annotated[
        str | None, typer.Option("--cluster", metavar="ADDRESS", help="Build on the Dask cluster of this scheduler.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Make the package of every lesson that changed, and the page of the course."""
    from gamutwright.cli import build_command

    raise typer.Exit(
        build_command.run(course, only or [], is_again=again, workers=workers, cluster=cluster, as_json=as_json)
    )


@app.command(
    epilog="Examples:  gamutwright series check   |   gamutwright series check evening-course --no-films --json"
)
def check(
    course: Course = Path(),
    *,
    films: Annotated[bool, typer.Option("--films/--no-films", help="Read finished films back as well.")] = True,
    workers: Workers = None,
    as_json: AsJson = False,
) -> None:
    """Check what has to agree between lessons: numbers, titles, terms, names, values, links, films."""
    from gamutwright.cli import keep_command

    raise typer.Exit(keep_command.check(course, with_films=films, workers=workers, as_json=as_json))


@app.command(epilog="Examples:  gamutwright series report   |   gamutwright series report evening-course -o state.html")
def report(
    course: Course = Path(),
    *,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", metavar="FILE", callback=is_a_file, help="Where the page goes.")
    ] = None,
    workers: Workers = None,
    as_json: AsJson = False,
) -> None:
    """Write the state of the course as a page and as data: what waits, stale takes, corrections with times."""
    from gamutwright.cli import keep_command

    raise typer.Exit(keep_command.report(course, output, workers=workers, as_json=as_json))
