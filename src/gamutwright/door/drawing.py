"""A picture of a scale, with the places of a fact marked."""

from __future__ import annotations

from dataclasses import replace

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.sketch import USUAL, Sketch
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.phrasing.terminal import value_in_words, witnesses_in_words
from gamutwright.render.drawn import Drawn
from gamutwright.theory.scale import Scale

__all__ = ["drawn"]


def drawn(  # noqa: PLR0913 - each is an option of the picture, with a default
    scale: Scale,
    *,
    figure: str | None = None,
    mark: str | None = None,
    upto: int | None = None,
    other: Scale | None = None,
    tuning: tuple[int, ...] = (),
    theme: str = "light",
    pixels: float = 2.0,
) -> Drawn:
    """Draw a scale; in a notebook the result shows itself.

    Parameters
    ----------
    scale : Scale
        The scale.
    figure : str, optional
        Id of a diagram; that of the fact without it, or the usual one.
    mark : str, optional
        Id of the fact whose places are marked.
    upto : int, optional
        How many places are marked by now.
    other : Scale, optional
        A second scale.
    tuning : tuple of int
        Open strings of a fretboard.
    theme : str
        light, night or print.
    pixels : float
        Pixels a unit, for PNG.

    Returns
    -------
    Drawn
        The picture.

    Raises
    ------
    DomainError
        If the diagram or the fact does not apply.
    UnknownFactError
        If no pack offers the fact.

    Examples
    --------
    >>> drawn(Scale.of(0, 2, 4, 5, 7, 9, 11), mark="semitone_steps").figure.alt.split(". ")[-1]
    'Semitone steps: 2 steps (E–F, B–C).'
    """
    if mark is None:
        sketch, diagram = Sketch(scale), figure or USUAL
    else:
        fact = default_registry().fact(mark)
        diagram = figure or (fact.picture.diagram if fact.picture else USUAL)
        value = fact.evaluate(scale)
        statement = ""
        if value is not None:
            places = witnesses_in_words(scale, fact.places(scale))
            statement = f"{fact.title}: {value_in_words(fact, value)}{f' ({places})' if places else ''}."
        sketch = sketch_of(fact, scale, statement, diagram)
    sketch = replace(sketch, other=other or sketch.other, tuning=tuning)
    return Drawn(draw_diagram(diagram, sketch if upto is None else sketch.upto(max(0, upto))), theme, pixels)
