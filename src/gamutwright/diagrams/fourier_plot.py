"""Fourier magnitudes: how strongly the tones gather at k places spread evenly round the octave, for each k.

The dashed line is the number of tones, which a magnitude reaches only where all of them gather.

Conventions: k runs from 1 to n/2, from left to right; magnitudes are not divided by the number of tones.
"""

from __future__ import annotations

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.column_plot import Column, Columns
from gamutwright.diagrams.layout import SMALLEST, Drawing, line
from gamutwright.diagrams.sketch import Sketch
from gamutwright.ir.figure import Anchor, Figure, Role, Stroke, Text
from gamutwright.theory.fourier import fourier_magnitudes

__all__ = ["fourier"]


def fourier(sketch: Sketch) -> Figure:
    """Draw the Fourier magnitudes of a scale.

    Parameters
    ----------
    sketch : Sketch
        The scale; values of its own replace those computed here.

    Returns
    -------
    Figure
        The picture.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> fourier(Sketch(Scale.of(0, 6))).alt
    'Columns for the Fourier magnitudes of C G♭, at most 2: 1: 0.00, 2: 2.00, 3: 0.00, 4: 2.00, 5: 0.00, 6: 2.00.'
    """
    numbers = sketch.values or fourier_magnitudes(sketch.scale)
    most = sketch.scale.cardinality
    table = Columns([Column(str(k), round(number, 9) + 0.0) for k, number in enumerate(numbers, 1)], most)
    table.has_beads = False
    drawing = Drawing()
    end = table.start + table.pitch * len(numbers)
    if numbers:
        drawing.add(line([(table.start, table.y(most)), (end, table.y(most))], Stroke(Role.OTHER, 3), "most"))
    table.draw(drawing)
    drawing.add_text(Text(500, 772, sketch.word("k parts of the octave"), SMALLEST, Role.QUIET))
    drawing.add_text(Text(end + 6, table.y(most) - 30, str(most), SMALLEST, Role.OTHER, Anchor.END))
    said = ", ".join(f"{k}: {number:.2f}" for k, number in enumerate(numbers, 1))
    return drawing.figure(
        sketch,
        "Fourier magnitudes",
        f"Columns for the Fourier magnitudes of {tones_in_words(sketch)}, at most {most}: {said}.",
    )
