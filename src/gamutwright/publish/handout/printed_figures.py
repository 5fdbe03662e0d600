"""Pictures for the printed sheets: the diagrams of the scale in ink, cut to what is drawn, and empty ones to draw on.

Conventions: SVG of the theme `print`, where hatching and weight stand for colour; sizes are in the units of a figure.
Alt texts are in the language of the sheet, since those of the diagrams are English.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.layout import Drawing, line, root_peg
from gamutwright.diagrams.ring import Ring, labels
from gamutwright.diagrams.sketch import USUAL, Sketch
from gamutwright.diagrams.staff import bare_staff
from gamutwright.ir.figure import Arc, Engraving, Figure, Path, Role, Stroke, Text, walk
from gamutwright.ir.metrics import box_of, union
from gamutwright.phrasing.card_words import card_words
from gamutwright.publish.handout.sheet_words import sheet_words
from gamutwright.render.engrave import expanded
from gamutwright.render.svg import figure_to_svg
from gamutwright.theory.scale import Scale

__all__ = ["MOST_FRETS", "Plate", "blank_plate", "music_plate", "plate", "plates_of"]

MOST_FRETS = 24
"""In finer divisions the frets of an octave stand too close for print."""
_MARGIN = 6.0
_GAP = 22.0
_CLEAR = 6.0
_KEYS = {"ladder": "ladder", "clock": "ring", "keyboard": "keyboard", "staff": "staff", "fretboard": "fretboard"}


@dataclass(frozen=True, slots=True)
class Plate:
    """A picture as it is printed.

    Parameters
    ----------
    id : str
        ladder, staff, keyboard, fretboard, or the ring of an exercise.
    svg : str
        The picture.
    alt : str
        What it shows, in words.
    ratio : float
        Width by height.
    """

    id: str
    svg: str
    alt: str
    ratio: float


def _cut(figure: Figure) -> tuple[str, float]:
    """Write a figure as SVG that shows only where something is drawn."""
    return _written(_gathered(expanded(figure)))


def _written(whole: Figure) -> tuple[str, float]:
    left, top, right, bottom = union(box_of(shape) for shape in whole.shapes)
    left, top = math.floor(left - _MARGIN), math.floor(top - _MARGIN)
    width, height = math.ceil(right + _MARGIN) - left, math.ceil(bottom + _MARGIN) - top
    svg = figure_to_svg(whole, "print", with_ground=False)
    before = f'viewBox="0 0 {whole.width:g} {whole.height:g}"'
    return svg.replace(before, f'viewBox="{left} {top} {width} {height}"', 1), width / height


def _gathered(figure: Figure) -> Figure:
    """Bring the names under a staff up to its notes, since paper has no frame to fill."""
    drawn = tuple(walk(figure.shapes))
    music = [shape for shape in drawn if isinstance(shape, Path) and shape.name.startswith("staff ")]
    names = [shape for shape in drawn if isinstance(shape, Text)]
    if not music or not names:
        return figure
    rise = min(name.y - name.size for name in names) - union(box_of(shape) for shape in music)[3] - _GAP
    moved = tuple(replace(shape, y=shape.y - rise) if isinstance(shape, Text) else shape for shape in drawn)
    return replace(figure, shapes=moved)


def plate(diagram: str, scale: Scale, language: str, tones: tuple[str, ...]) -> Plate:
    """Draw a diagram of the scale for print.

    Parameters
    ----------
    diagram : str
        ladder, clock, staff, keyboard or fretboard.
    scale : Scale
        The scale.
    language : str
        Language tag.
    tones : tuple of str
        Names of its tones in that language.

    Returns
    -------
    Plate
        The picture.

    Raises
    ------
    DomainError
        If the diagram does not apply to the scale.

    Examples
    --------
    >>> plate("keyboard", Scale.of(0, 4, 7), "de", ("C", "E", "G")).alt
    'Eine Klaviatur, auf der diese Töne markiert sind: C, E, G.'
    """
    sketch = Sketch(scale, words=card_words(language).inside)
    svg, ratio = _cut(draw_diagram(diagram, sketch))
    key = "keys" if diagram == "keyboard" and scale.divisions != 12 else _KEYS[diagram]
    alt = sheet_words(language).say(
        f"alt-{key}", all=scale.divisions, tones=", ".join(tones), sizes=" ".join(map(str, scale.step_pattern))
    )
    return Plate(key, svg, alt, ratio)


def plates_of(scale: Scale, language: str, tones: tuple[str, ...]) -> tuple[Plate, ...]:
    """Draw what the first page shows of a scale.

    Parameters
    ----------
    scale, language, tones
        As for `plate`.

    Returns
    -------
    tuple of Plate
        Ladder, staff in twelve divisions, keyboard, and fretboard where its frets have room.

    Examples
    --------
    >>> [plate.id for plate in plates_of(Scale.of(0, 3, 7, divisions=31), "en", ("0", "3", "7"))]
    ['ladder', 'keys']
    """
    diagrams = [USUAL, "staff", "keyboard", "fretboard"]
    if scale.divisions != 12:
        diagrams.remove("staff")
    if scale.divisions > MOST_FRETS:
        diagrams.remove("fretboard")
    return tuple(plate(diagram, scale, language, tones) for diagram in diagrams)


def blank_plate(kind: str, scale: Scale, language: str, root: str) -> Plate:
    """Draw an empty staff or an empty ring.

    Parameters
    ----------
    kind : str
        staff or ring.
    scale : Scale
        For its division and its root.
    language : str
        Language tag.
    root : str
        Name of the root in that language.

    Returns
    -------
    Plate
        The picture.

    Examples
    --------
    >>> blank_plate("ring", Scale.of(0, 4, 7), "en", "C").alt
    'An empty ring of 12 steps to draw on; the root C is at the top.'
    """
    svg, ratio = _cut(_blank_staff() if kind == "staff" else _blank_ring(scale, language))
    alt = sheet_words(language).say(f"alt-blank-{kind}", all=scale.divisions, root=root)
    return Plate(kind, svg, alt, ratio)


def music_plate(kind: str, figure: Figure, alt: str) -> Plate:
    """Print a line of music.

    Parameters
    ----------
    kind : str
        Name of the piece.
    figure : Figure
        The line, as `piece_strip` draws it.
    alt : str
        What it shows, in words.

    Returns
    -------
    Plate
        The picture, with chord symbols clear of the notes.
    """
    svg, ratio = _written(_cleared(expanded(figure)))
    return Plate(kind, svg, alt, ratio)


def _cleared(figure: Figure) -> Figure:
    """Lift the chord symbols over the highest note, which may stand on many ledger lines."""
    drawn = tuple(walk(figure.shapes))
    top = union(box_of(shape) for shape in drawn if isinstance(shape, Path))[1]
    texts = [shape for shape in drawn if isinstance(shape, Text)]
    rise = max(0.0, max((box_of(text)[3] for text in texts), default=top) - top + _CLEAR)
    placed = (replace(shape, y=shape.y - rise) if isinstance(shape, Text) else shape for shape in drawn)
    return replace(figure, shapes=tuple(placed)) if texts else figure


def _blank_staff() -> Figure:
    """Take a staff as it is engraved, and leave its notes out."""
    drawn = bare_staff(Sketch(Scale.of(0, 2, 4, 5, 7, 9, 11)), 1600, 240)
    empty = tuple(
        replace(shape, source=_without_notes(shape.source))
        for shape in walk(drawn.shapes)
        if isinstance(shape, Engraving)
    )
    return replace(drawn, shapes=empty)


def _without_notes(source: str) -> str:
    head, layer, rest = source.partition('<layer n="1">')
    return head + layer + '<space dur="1"/>' * 8 + rest[rest.index("</layer>") :]


def _blank_ring(scale: Scale, language: str) -> Figure:
    """Draw the band with a line at every step, and the root's double ring."""
    ring = Ring(500, 400, 296, 50, scale.divisions)
    drawing = Drawing()
    for out in (-ring.band / 2, ring.band / 2):
        drawing.add(Arc(ring.x, ring.y, ring.radius + out, 0, 360, Stroke(Role.INK, 2.0)))
    for step in range(1, scale.divisions):
        reach = ring.band / 2
        drawing.add(line([ring.point(step, -reach), ring.point(step, reach)], Stroke(Role.QUIET, 2.0)))
    drawing.add(*root_peg(*ring.point(0), ring.peg))
    labels(drawing, ring, Sketch(scale, words=card_words(language).inside), scale, 40, (0,))
    return drawing.figure(Sketch(scale), "Empty ring", "An empty ring.")
