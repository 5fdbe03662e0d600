"""`gamutwright draft`: a first version of a lesson's script."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from gamutwright.catalogue.shares import shares_of
from gamutwright.errors import FileError
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.files import write_text
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import load
from gamutwright.lessons.plan import Wish

if TYPE_CHECKING:
    from gamutwright.cli.options import LevelName, NoteNames

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
        Ids of the facts they define.
    """
    marks = (mark for path in paths for line in load(path).lines for mark in line.marks)
    return frozenset(fact_id for mark in marks if (fact_id := mark.get("define")))


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
    wish = Wish(Level(level.value), minutes, explained_in(after), seed)
    written = draft(scale, wish, language, registry=default_registry(), shares=shares_of(scale.divisions))
    if output is None:
        typer.echo(written.source, nl=False)
        return
    write_text(output, written.source)
    seconds = round(written.plan.seconds)
    typer.echo(
        f"{output}: about {seconds // 60} min {seconds % 60:02d} s. Check it with: gamutwright check {output}", err=True
    )
