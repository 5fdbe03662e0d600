"""Modes as rotation: the same ring once for every tone, turned so that this tone stands at the top.

Conventions: modes in the order of the scale; the caption names the tone that is root.
"""

from __future__ import annotations

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import SMALLEST, Drawing, badge
from gamutwright.diagrams.ring import small_ring
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.diagrams.tables import MOST_CELLS, cells
from gamutwright.ir.figure import Figure, Role, Text
from gamutwright.ir.metrics import shortened, text_width
from gamutwright.theory.notenames import to_symbols

__all__ = ["modes"]


def modes(sketch: Sketch) -> Figure:
    """Draw the modes of a scale.

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
    >>> modes(Sketch(Scale.of(0, 4, 7))).alt
    'The ring of C E G turned to each of its tones: C: 4 3 5; E: 3 5 4; G: 5 4 3.'
    """
    scale = sketch.scale
    marked = {
        place.parts[0][0]: index for index, place in reversed(list(enumerate(sketch.shown))) if place.kind is Kind.MODE
    }
    labels = {place.parts[0][0]: to_symbols(place.label) for place in sketch.places if place.label}
    drawing = Drawing()
    table = cells(max(1, scale.cardinality), scale.divisions)
    for degree, (tone, cell) in enumerate(zip(scale.tones, table, strict=False), 1):
        ring, mode = cell.ring, scale.mode(degree)
        role = Role.NOW if tone in marked else Role.INK
        drawing.add(*small_ring(ring, mode, {0: role}, role))
        drawing.part(f"mode {degree}", ring.x, ring.y, ring.radius)
        caption = f"{sketch.name(tone)}  {labels.get(tone, '')}".strip()
        caption = shortened(caption, cell.width, SMALLEST)
        drawing.add_text(Text(ring.x, cell.caption_y, caption, SMALLEST, name=f"caption {degree}"))
        if tone in marked:
            index = marked[tone]
            if sketch.is_numbered:
                drawing.add_over(*badge(index + 1, ring.x, ring.y, name=f"witness {index + 1}"))
            drawing.part(f"witness {index + 1}", ring.x, ring.y, ring.radius)
    said = "; ".join(
        f"{sketch.name(tone)}: {' '.join(map(str, scale.mode(degree).step_pattern))}"
        for degree, tone in enumerate(scale.tones, 1)
    )
    words = f"The ring of {tones_in_words(sketch)} turned to each of its tones: {said or 'none'}."
    rest = scale.cardinality - MOST_CELLS
    if rest > 0:
        note = f"+ {rest}"
        drawing.add_text(Text(drawing.width - text_width(note, SMALLEST) / 2 - 8, 776, note, SMALLEST, Role.QUIET))
        words += f" The last {rest} are not drawn."
    return drawing.figure(sketch, "Modes as rotation", words)
