"""Every diagram by its id.

Conventions: ids are those that facts name in their `picture` field.
"""

from __future__ import annotations

from collections.abc import Callable
from difflib import get_close_matches

from gamutwright.diagrams.chordgraph import chordgraph
from gamutwright.diagrams.clock import clock
from gamutwright.diagrams.fourier_plot import fourier
from gamutwright.diagrams.fretboard import fretboard
from gamutwright.diagrams.keyboard import keyboard
from gamutwright.diagrams.ladder import ladder
from gamutwright.diagrams.modes import modes
from gamutwright.diagrams.neighbours import neighbours
from gamutwright.diagrams.pairs import pairs
from gamutwright.diagrams.sketch import Sketch
from gamutwright.diagrams.spectra_plot import spectra
from gamutwright.diagrams.staff import staff
from gamutwright.diagrams.two_scales import comparison
from gamutwright.diagrams.vector import vector
from gamutwright.errors import DomainError, told
from gamutwright.ir.figure import Figure

__all__ = ["DIAGRAMS", "draw_diagram"]

DIAGRAMS: dict[str, Callable[[Sketch], Figure]] = {
    "clock": clock,
    "keyboard": keyboard,
    "staff": staff,
    "ladder": ladder,
    "fretboard": fretboard,
    "spectra": spectra,
    "vector": vector,
    "pairs": pairs,
    "fourier": fourier,
    "chordgraph": chordgraph,
    "modes": modes,
    "neighbours": neighbours,
    "comparison": comparison,
}


def draw_diagram(diagram: str, sketch: Sketch) -> Figure:
    """Draw a diagram by its id.

    Parameters
    ----------
    diagram : str
        One of `DIAGRAMS`.
    sketch : Sketch
        What is drawn.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        If there is no such diagram, or it does not apply to the scale.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> draw_diagram("ladder", Sketch(Scale.of(0, 4, 7))).title
    'Ladder of steps'
    """
    if diagram not in DIAGRAMS:
        near = get_close_matches(diagram, DIAGRAMS, 1)
        hint = told("Did you mean {near}? ", near=near[0]) if near else ""
        raise DomainError(
            told("figure {diagram}", diagram=repr(diagram)),
            told("there is no diagram of this name"),
            told("{hint}Choose one of: {list}.", hint=hint, list=", ".join(DIAGRAMS)),
        )
    return DIAGRAMS[diagram](sketch)
