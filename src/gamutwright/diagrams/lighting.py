"""Tones lit in a picture that is already drawn: what sounds or is named at this moment, and nothing else changes.

The picture keeps every shape in its place. Pegs, rungs, keys, notes and names of the lit tones take the role of the
moment, pegs and rungs grow, so that the eye finds them without colour too.

Conventions: tones are steps above the root of the picture's scale; one octave above it is another tone where the
picture has it, and the root where it has not. On a fretboard all places of the very pitch are lit. A picture without
such places comes back as it is.
"""

from __future__ import annotations

from dataclasses import replace

from gamutwright.diagrams.fretboard import fretted
from gamutwright.ir.figure import Dot, Engraving, Face, Figure, Fill, Group, Path, Role, Shape, Stroke, Text, walk
from gamutwright.ir.metrics import text_width
from gamutwright.theory.scale import Scale

__all__ = ["with_scale_lit", "with_tones_lit"]

_BY_PITCH_CLASS = frozenset({"clock"})
_BY_STEP = frozenset({"ladder", "keyboard", "staff"})
_GROWTH = 1.6
_FRETTED_GROWTH = 1.15


def with_tones_lit(figure: Figure, diagram: str, scale: Scale, tones: tuple[int, ...]) -> Figure:
    """Light tones.

    Parameters
    ----------
    figure : Figure
        The picture of a scale.
    diagram : str
        The diagram it is.
    scale : Scale
        Its scale.
    tones : tuple of int
        Steps above the root, from 0 up to the octave.

    Returns
    -------
    Figure
        The same picture with these tones lit; the same object where nothing could be.

    Examples
    --------
    >>> from gamutwright.diagrams.atlas import draw_diagram
    >>> from gamutwright.diagrams.sketch import Sketch
    >>> triad = Scale.of(0, 4, 7)
    >>> lit = with_tones_lit(draw_diagram("clock", Sketch(triad)), "clock", triad, (4,))
    >>> [shape.name for shape in walk(lit.shapes) if getattr(shape, "role", None) is Role.NOW]
    ['name 4']
    """
    n = scale.divisions
    if diagram == "fretboard":
        shapes = _lit(figure.shapes, {name for tone in tones for name in fretted(scale, tone)}, set())
        return figure if shapes == figure.shapes else replace(figure, shapes=shapes)
    if diagram in _BY_PITCH_CLASS:
        numbers = {(tone + scale.root) % n for tone in tones}
    elif diagram in _BY_STEP:
        there = {shape.name for shape in walk(figure.shapes)}
        numbers = {
            tone if tone < n or f"rung {tone}" in there or f"key {tone}" in there else tone % n for tone in tones
        }
        if diagram == "staff":
            numbers = set(tones)
    else:
        return figure
    names = {f"{kind} {number}" for kind in ("peg", "rung", "name") for number in numbers}
    shapes = _lit(figure.shapes, names, numbers)
    return figure if shapes == figure.shapes else replace(figure, shapes=shapes)


def with_scale_lit(figure: Figure, number: int) -> Figure:
    """Light the name of one of two scales that stand side by side, and underline it for whoever sees no colour.

    Parameters
    ----------
    figure : Figure
        A comparison.
    number : int
        1 or 2.

    Returns
    -------
    Figure
        The picture with that name lit; the same object where it has none.
    """
    name = f"scale name {number}"
    for shape in walk(figure.shapes):
        if isinstance(shape, Text) and shape.name == name:
            half, y = text_width(shape.text, shape.size, shape.face) / 2, shape.y + shape.size * 0.62
            under = Path("ML", (shape.x - half, y, shape.x + half, y), None, Stroke(Role.NOW, 4), f"under {number}")
            return replace(figure, shapes=(*_lit(figure.shapes, {name}, set()), under))
    return figure


def _lit(shapes: tuple[Shape, ...], names: set[str], numbers: set[int]) -> tuple[Shape, ...]:
    return tuple(_lit_shape(shape, names, numbers) for shape in shapes)


def _lit_shape(shape: Shape, names: set[str], numbers: set[int]) -> Shape:
    match shape:
        case Group():
            return replace(shape, shapes=_lit(shape.shapes, names, numbers))
        case Engraving():
            return _lit_engraving(shape, numbers)
        case Text() if shape.name in names:
            return replace(shape, role=Role.NOW, face=shape.face if shape.face is Face.SERIF else Face.STRONG)
        case Dot() if shape.name in names:
            # Frets leave little room.
            growth = _FRETTED_GROWTH if shape.name.startswith("string") else _GROWTH
            return replace(shape, fill=Fill(Role.NOW), radius=shape.radius * growth)
        case Path() if shape.name in names and shape.stroke is not None:
            return replace(shape, stroke=Stroke(Role.NOW, shape.stroke.width * _GROWTH))
        case _:
            return shape


def _lit_engraving(engraving: Engraving, numbers: set[int]) -> Engraving:
    """Light notes and the names under them; the octave is the note whose label is that of a step beyond the others."""
    named = {label.text.name.removeprefix("name "): label.place for label in engraving.labels}
    places = {place for number in numbers if (place := named.get(str(number)))}
    if not places:
        return engraving
    labels = tuple(
        replace(label, text=replace(label.text, role=Role.NOW, face=Face.STRONG))
        if label.place in places and label.text.name.startswith("name ")
        else label
        for label in engraving.labels
    )
    roles = dict(engraving.roles) | dict.fromkeys(sorted(places), Role.NOW)
    return replace(engraving, roles=tuple(roles.items()), labels=labels)
