"""`gamutwright draft`: a first version of a lesson's script."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from gamutwright.catalogue.shares import shares_of
from gamutwright.errors import FileError
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.files import write_text
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.draft import ALLOWED_PART, ALLOWED_SECONDS, draft, outline
from gamutwright.lessons.parse import load, parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.stories.choosing import fitting_stories
from gamutwright.lessons.stories.material import material_of
from gamutwright.lessons.stories.own import Own, read_own

if TYPE_CHECKING:
    from gamutwright.cli.options import LevelName, NoteNames
    from gamutwright.theory.scale import Scale

__all__ = ["explained_in", "run"]


def explained_in(paths: list[Path]) -> frozenset[str]:
    """List the facts that earlier scripts have explained.

    Parameters
    ----------
    paths : list of Path
        Scripts.

    Returns
    -------
    frozenset of str
        Ids of the facts they define or explain.
    """
    marks = (mark for path in paths for line in load(path).lines for mark in line.marks)
    return frozenset(fact_id for mark in marks if (fact_id := mark.explained))


def run(
    text: str,
    *,
    divisions: int,
    names: NoteNames,
    root: str | None,
    level: LevelName,
    minutes: float,
    language: str,
    seed: int,
    story: str,
    is_listing: bool,
    course: Path | None,
    after: list[Path],
    output: Path | None,
    is_forced: bool,
) -> None:
    """Read a scale, draft its lesson, and print or write the script.

    Parameters
    ----------
    text : str
        The scale as typed.
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : NoteNames
        Language of note names in `text`.
    root : str or None
        A root stated apart from the text.
    level : LevelName
        Who the lesson is for.
    minutes : float
        Length aimed at.
    language : str
        Language of the lesson.
    seed : int
        Settles equal choices.
    story : str
        The story to tell; "" for the one that fits best.
    is_listing : bool
        Whether the stories that fit are listed instead.
    course : Path or None
        A course whose own stories and words are used.
    after : list of Path
        Earlier scripts, whose explanations are not repeated.
    output : Path or None
        Where the script goes; standard output without it.
    is_forced : bool
        Whether a file that is there may be replaced.
    """
    scale = read_scale(text, divisions=divisions, names=names.value, root=root).scale
    if output and output.exists() and not is_forced:
        raise FileError(
            str(output), "it is there already, and may hold your work", "Choose another name, or add --force."
        )
    wish = Wish(Level(level.value), minutes, explained_in(after), seed, story)
    own = read_own(course) if course else Own()
    if is_listing:
        _list_stories(scale, wish, language, own)
        return
    written = draft(scale, wish, language, registry=default_registry(), shares=shares_of(scale.divisions), own=own)
    if output is None:
        typer.echo(written.source, nl=False)
        return
    write_text(output, written.source)
    seconds = round(written.minutes * 60)
    typer.echo(
        f"{output}: '{written.story.id}', about {seconds // 60} min {seconds % 60:02d} s. "
        f"Check it with: gamutwright check {output}",
        err=True,
    )
    off = seconds - minutes * 60
    if abs(off) > max(ALLOWED_PART * minutes * 60, ALLOWED_SECONDS):
        said = (
            "Its story takes that long at least" if off > 0 else "There is no more to tell of this scale at this level"
        )
        typer.echo(f"{said}: ask for {written.minutes:.1f} minutes, or for another story or level.", err=True)


def _list_stories(scale: Scale, wish: Wish, language: str, own: Own) -> None:
    """Print the stories that fit, the best first, each with the question it asks."""
    registry, wording = default_registry(), own.wording_for(language)
    material = material_of(scale, {}, registry, wording, wish.level)
    for story in fitting_stories(own.told(), material):
        told = outline(scale, replace(wish, story=story.id), language, registry=registry, own=own)[1]
        lines = [line.text for line in parse(f"---\nscale: C\n---\n{told[0].text}\n").lines if line.text]
        typer.echo(f"{story.id:16} {' '.join(lines[-2:])}")
