"""Two scales side by side: two rings, tones they share in ink, tones of one alone told apart by colour and shape.

With several scales to compare with, the second ring gives way to a table of small ones; the last one pointed at is
lit.

Conventions: both rings have the root of the first scale at the top, so the same tone stands at the same place; a tone
that only the first has is a diamond, one that only the second has an empty circle. Without a second scale the first is
set beside its mirror image about the root.
"""

from __future__ import annotations

from dataclasses import replace

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import CAPTION, SMALLEST, Drawing, badge, outline, wrapped
from gamutwright.diagrams.ring import Ring, arcs, labels, pegs, sizes, small_ring, ticks
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.diagrams.tables import MOST_CELLS, cells
from gamutwright.ir.figure import Dot, Face, Figure, Fill, Group, Role, Stroke, Text
from gamutwright.ir.metrics import shortened, text_width
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = ["comparison"]

_NAME_WIDTH = 460.0


def comparison(sketch: Sketch) -> Figure:
    """Draw two scales side by side.

    Parameters
    ----------
    sketch : Sketch
        The scale, the other scale, or places that are scales.

    Returns
    -------
    Figure
        The picture.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> comparison(Sketch(Scale.of(0, 4, 7), other=Scale.of(0, 3, 7))).alt
    'Two rings side by side: C E G and C E♭ G; both have C G, only the first E, only the second E♭.'
    """
    others = [place for place in sketch.places if place.kind is Kind.SCALE]
    if others and sketch.other is None:
        return _with_many(sketch)
    scale = sketch.scale
    other = _on_root(sketch.other or scale.inverted(), scale.root)
    theirs = replace(sketch, scale=other, names=())
    drawing = Drawing()
    for number, (mine, two, x, role) in enumerate(
        ((sketch, other, 250, Role.NOW), (theirs, scale, 750, Role.OTHER)), 1
    ):
        ring, one = Ring(x, 380, 165, 36, scale.divisions, f"{number} "), mine.scale
        _one_ring(drawing, ring, mine, one, one.mask & ~two.mask, role)
        drawing.part(f"scale {number}", x, 380, 180)
        name = sketch.beside[number - 1] if len(sketch.beside) > 1 else "AB"[number - 1]
        for size in (48, 42, 36):
            if text_width(name, size, Face.SERIF) <= _NAME_WIDTH:
                break
        name = shortened(name, _NAME_WIDTH, size, Face.SERIF)
        drawing.add_text(Text(x, 660, name, size, face=Face.SERIF, name=f"scale name {number}"))
        drawing.add_text(Text(x, 716, f"{one.cardinality} {sketch.word('tones')}", SMALLEST, Role.QUIET))
    both, first, second = (
        Scale(mask, scale.divisions, scale.root).tones
        for mask in (scale.mask & other.mask, scale.mask & ~other.mask, other.mask & ~scale.mask)
    )
    named = ((theirs, other.tones), (sketch, both), (sketch, first), (theirs, second))
    names = [" ".join(mine.name(tone) for tone in tones) or "none" for mine, tones in named]
    return drawing.figure(
        sketch,
        "Two scales",
        f"Two rings side by side: {tones_in_words(sketch)} and {names[0]}; "
        f"both have {names[1]}, only the first {names[2]}, only the second {names[3]}.",
    )


def _on_root(scale: Scale, root: int) -> Scale:
    """Count the same pitch classes from another root."""
    return Scale(rotated_mask(scale.mask, scale.root - root, scale.divisions), scale.divisions, root)


def _one_ring(drawing: Drawing, ring: Ring, sketch: Sketch, scale: Scale, own: int, role: Role) -> None:
    """Draw one of the rings, with the tones that it alone has told apart."""
    drawing.add(Group((*ticks(ring, scale), *arcs(ring, scale)), (ring.x, ring.y)))
    shared = Scale(scale.mask & ~own, scale.divisions, scale.root)
    drawing.add(*pegs(ring, shared if shared.is_rooted or not own & 1 else scale))
    size = min(15.0, ring.pitch * 0.45)
    for tone in Scale(own, scale.divisions, scale.root).tones:
        x, y = ring.point(tone)
        if role is Role.NOW:
            corners = [(x, y - size), (x + size, y), (x, y + size), (x - size, y)]
            drawing.add(outline(corners, Fill(role), Stroke(Role.GROUND, 2), f"{ring.name}own {tone}"))
        else:
            drawing.add(Dot(x, y, size * 0.85, Fill(Role.GROUND), None))
            drawing.add(Dot(x, y, size * 0.62, None, Stroke(Role.INK, 1.5)))
            drawing.add(Dot(x, y, size * 0.85, None, Stroke(role, 4), f"{ring.name}own {tone}"))
    drawing.take(*pegs(ring, scale))
    sizes(drawing, ring, scale)
    labels(drawing, ring, sketch, scale, 34 if ring.divisions <= 24 else SMALLEST, tuple(sorted({0, *scale.tones})))


def _with_many(sketch: Sketch) -> Figure:
    """Draw the scale large and what it is compared with small; among many others it is small too, and the first."""
    scale = sketch.scale
    drawing = Drawing()
    others = sketch.places[:MOST_CELLS]
    if len(others) <= 6:
        ring = Ring(215, 400, 135, 36, scale.divisions, "1 ")
        _one_ring(drawing, ring, sketch, scale, 0, Role.INK)
        table = cells(len(others), scale.divisions, (430, 10, 995, 795), "other ", 260, 2)
    else:
        others = others[: MOST_CELLS - 1]
        first, *table = cells(len(others) + 1, scale.divisions, (0, 4, 1000, 798), "other ", 245, 2)
        ring = first.ring
        drawing.add(*small_ring(ring, scale))
        drawing.add_text(Text(ring.x, first.caption_y, sketch.word("the scale"), SMALLEST, Role.QUIET))
    drawing.part("scale 1", ring.x, ring.y, ring.radius)
    for index, (place, cell) in enumerate(zip(others, table, strict=False)):
        other = Scale(sum(1 << tone for tone in {tone % scale.divisions for tone in place.parts[0]}), scale.divisions)
        is_lit = index < len(sketch.shown)
        added = {tone: Role.OTHER for tone in other.tones if not scale.mask >> tone & 1}
        drawing.add(*small_ring(cell.ring, other, added, Role.NOW if is_lit else Role.INK))
        drawing.part(f"witness {index + 1}", cell.ring.x, cell.ring.y, cell.ring.radius)
        if is_lit and sketch.is_numbered and cell.ring.radius >= 40:
            drawing.add_over(*badge(index + 1, cell.ring.x, cell.ring.y, name=f"witness {index + 1}"))
        caption = to_symbols(place.label.split(":")[0]) or f"{other.cardinality} {sketch.word('tones')}"
        for row, words in enumerate(wrapped(caption, cell.width)):
            drawing.add_text(Text(cell.ring.x, cell.caption_y + row * CAPTION, words, SMALLEST))
    words = f"The ring of {tones_in_words(sketch)} beside {len(sketch.places)} other scales."
    if len(sketch.places) > len(others):
        words += f" Only the first {len(others)} are drawn."
    return drawing.figure(sketch, "Scales compared", words)
