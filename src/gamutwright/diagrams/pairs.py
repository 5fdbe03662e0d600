"""Interval pairs by class: one small ring for every interval class, its pairs of tones drawn as chords of the circle.

Conventions: classes 1 to n/2 row by row; the caption gives the class and how many pairs it has. A class without pairs
keeps its place, empty.
"""

from __future__ import annotations

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import SMALLEST, Drawing, line
from gamutwright.diagrams.ring import Ring, arcs, pegs, ticks
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.diagrams.tables import MOST_CELLS, cells
from gamutwright.ir.figure import Figure, Group, Role, Stroke, Text
from gamutwright.theory.intervals import interval_class, pairs_of_class

__all__ = ["pairs"]


def pairs(sketch: Sketch) -> Figure:
    """Draw the pairs of tones of every interval class.

    Parameters
    ----------
    sketch : Sketch
        The scale and what is marked.

    Returns
    -------
    Figure
        The picture.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> pairs(Sketch(Scale.of(0, 4, 7))).alt
    'A ring for each interval class of C E G with its pairs as lines: 1: 0, 2: 0, 3: 1, 4: 1, 5: 1, 6: 0.'
    """
    scale = sketch.scale
    classes = range(1, scale.divisions // 2 + 1)
    drawing = Drawing()
    found = {index: pairs_of_class(scale, index) for index in classes}
    shown = _marked(sketch)
    table = cells(max(1, len(found)), scale.divisions)
    for (index, of_class), cell in zip(found.items(), table, strict=False):
        ring = cell.ring
        chords = [
            line(
                [ring.inner(low), ring.inner(high)],
                Stroke(Role.INK, max(2.0, ring.radius / 40)),
                f"{ring.name}{low} {high}",
            )
            for low, high in of_class
            if frozenset((low, high)) not in shown
        ]
        base = (*ticks(ring, scale), *arcs(ring, scale), *pegs(ring, scale))
        drawing.add(Group((*base, *chords), (ring.x, ring.y), ring.name + "ring"))
        _mark(drawing, sketch, ring, index)
        drawing.part(f"class {index}", ring.x, ring.y, ring.radius)
        pairs = sketch.word("pair" if len(of_class) == 1 else "pairs")
        caption = f"{index}: {len(of_class)} {pairs}"
        if not drawing.add_text(Text(ring.x, cell.caption_y, caption, SMALLEST)):
            drawing.add_text(Text(ring.x, cell.caption_y, f"{index}: {len(of_class)}", SMALLEST))
    rest = len(found) - MOST_CELLS
    said = ", ".join(f"{index}: {len(of_class)}" for index, of_class in found.items())
    words = f"A ring for each interval class of {tones_in_words(sketch)} with its pairs as lines: {said}."
    if rest > 0:
        words += f" The last {rest} classes are not drawn."
    return drawing.figure(sketch, "Pairs by interval class", words)


def _marked(sketch: Sketch) -> set[frozenset[int]]:
    return {frozenset(part) for place in sketch.shown if place.kind is not Kind.AXIS for part in place.parts}


def _mark(drawing: Drawing, sketch: Sketch, ring: Ring, of_class: int) -> None:
    """Draw the marked pairs of one class; numbers only on rings large enough to hold them."""
    n = sketch.scale.divisions
    for index, place in enumerate(sketch.shown):
        for part in place.parts:
            if len(part) < 2 or interval_class(part[1] - part[0], n) != of_class:
                continue
            ends = [ring.inner(part[0]), ring.inner(part[1])]
            drawing.add(line(ends, Stroke(Role.NOW, max(3.0, ring.radius / 28)), f"mark {index + 1}"))
            shares = (0.5, 0.3, 0.7, 0.4, 0.6, 0.2, 0.8)
            (x, y), (u, v) = ends
            points = [(x + (u - x) * share, y + (v - y) * share) for share in shares]
            if ring.radius >= 90:
                drawing.number(index, points, sketch)
            else:
                drawing.part(f"witness {index + 1}", *points[0], 10.0)
