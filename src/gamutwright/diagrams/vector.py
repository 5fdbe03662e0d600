"""The interval-class vector as beads on rods: how many pairs of tones there are of each interval class.

Conventions: interval classes 1 to n/2 from left to right, unless the sketch brings values of its own.
"""

from __future__ import annotations

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.column_plot import Column, Columns
from gamutwright.diagrams.layout import BADGE, SMALLEST, Drawing, badge
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.ir.figure import Dot, Figure, Fill, Role, Text
from gamutwright.theory.intervals import interval_class
from gamutwright.theory.pcset import interval_class_vector

__all__ = ["vector"]


def vector(sketch: Sketch) -> Figure:
    """Draw the interval-class vector of a scale.

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
    >>> vector(Sketch(Scale.of(0, 4, 7))).alt
    'Columns for the interval classes of C E G: 1: 0, 2: 0, 3: 1, 4: 1, 5: 1, 6: 0.'
    """
    numbers: tuple[float, ...] = sketch.values or interval_class_vector(sketch.scale)
    labels = sketch.value_labels or tuple(str(index + 1) for index in range(len(numbers)))
    table = Columns([Column(*pair) for pair in zip(labels, numbers, strict=True)], max((*numbers, 1)))
    drawing = Drawing()
    table.draw(drawing)
    is_own = not sketch.values
    if is_own:
        _mark(drawing, sketch, table)
    drawing.add_text(Text(500, 772, sketch.word("interval class" if is_own else "steps"), SMALLEST, Role.QUIET))
    said = ", ".join(f"{label}: {number:g}" for label, number in zip(labels, numbers, strict=True))
    subject = "the interval classes of" if is_own else "the steps by which one may move"
    return drawing.figure(sketch, "Interval classes", f"Columns for {subject} {tones_in_words(sketch)}: {said}.")


def _mark(drawing: Drawing, sketch: Sketch, table: Columns) -> None:
    """Light one bead for each interval that is pointed at, from the ground up."""
    lit = [0] * len(table.columns)
    for index, place in enumerate(sketch.shown):
        if place.kind not in {Kind.INTERVAL, Kind.STEP} or len(place.parts[0]) < 2:
            continue
        low, high = place.parts[0][:2]
        column = interval_class(high - low, sketch.scale.divisions) - 1
        if not 0 <= column < len(lit) or lit[column] >= table.columns[column].value:
            continue
        x, y = table.bead_at(column, lit[column]) if table.has_beads else (table.x(column), table.y(lit[column] + 1))
        lit[column] += 1
        if sketch.is_numbered and table.bead >= BADGE - 5:
            drawing.add(*badge(index + 1, x, y, name=f"witness {index + 1}"))
        else:
            drawing.add(Dot(x, y, table.bead if table.has_beads else 9.0, Fill(Role.NOW), None, f"mark {index + 1}"))
        drawing.part(f"witness {index + 1}", x, y, table.bead)
