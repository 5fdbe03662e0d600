"""`gamutwright picture`: any diagram of a scale, with the places of a fact marked, as SVG, PNG or PDF."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.door.drawing import drawn
from gamutwright.errors import InputError
from gamutwright.inputs.text import read_scale
from gamutwright.theory.notenames import names_in, note_name_to_pitch_class

if TYPE_CHECKING:
    from gamutwright.cli.options import NoteNames

__all__ = ["read_tuning", "run"]


def run(
    text: str,
    *,
    divisions: int,
    names: NoteNames,
    root: str | None,
    figure: str | None,
    mark: str | None,
    upto: int | None,
    beside: str | None,
    tuning: str | None,
    theme: str,
    scale: float,
    has_live_text: bool,
    output: str | None,
) -> None:
    """Read a scale, draw it and write the picture.

    Parameters
    ----------
    text : str
        The scale as typed.
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : NoteNames
        Language of note names.
    root : str or None
        A root stated apart from the text.
    figure, mark : str or None
        Id of a diagram, and of the fact whose places are marked.
    upto : int or None
        How many places are marked by now.
    beside : str or None
        A second scale.
    tuning : str or None
        Open strings of a fretboard from the lowest.
    theme : str
        light, night or print.
    scale : float
        Pixels a unit, for PNG.
    has_live_text : bool
        Whether words of an SVG can be selected, and are not outlines.
    output : str or None
        The file; SVG is printed without it.
    """
    first = read_scale(text, divisions=divisions, names=names.value, root=root).scale
    second = read_scale(beside, divisions=divisions, names=names.value).scale if beside else None
    strings = read_tuning(tuning, divisions, names.value) if tuning else ()
    picture = drawn(first, figure=figure, mark=mark, upto=upto, other=second, tuning=strings, theme=theme, pixels=scale)
    picture = replace(picture, has_live_text=has_live_text)
    if output is None:
        print(picture.content(".svg").decode(), end="")
        return
    print(picture.save(Path(output)))


def read_tuning(text: str, divisions: int = 12, names: str = "english") -> tuple[int, ...]:
    """Read open strings, from the lowest; each is the next of its name above the one before.

    Parameters
    ----------
    text : str
        Note names in twelve divisions, pitch classes elsewhere, separated by spaces or commas.
    divisions : int
        Equal divisions of the octave.
    names : str
        Language of note names.

    Returns
    -------
    tuple of int
        Steps above the C of the lowest octave.

    Raises
    ------
    InputError
        If a string is no note.

    Examples
    --------
    >>> read_tuning("D A D G A D")
    (2, 9, 14, 19, 21, 26)
    """
    steps: list[int] = []
    for word in text.replace(",", " ").split():
        name = names_in(names).read(word) if divisions == 12 else None
        if name is not None:
            step = note_name_to_pitch_class(name)
        elif word.isdigit() and int(word) < divisions:
            step = int(word)
        else:
            raise InputError(
                f"open string {word!r}",
                "it is no note name and no pitch class of the division",
                "Write the strings from the lowest, as in: --tuning 'E A D G B E'.",
            )
        lowest = steps[-1] + 1 if steps else 0
        steps.append(step + -(-(lowest - step) // divisions) * divisions if step < lowest else step)
    return tuple(steps)
