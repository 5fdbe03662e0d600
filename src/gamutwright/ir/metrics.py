"""How much room words and shapes take, without a renderer.

The advances are those of the fonts that the renderers use, kept in a table beside this file; a test compares the two.
Text is set glyph by glyph without kerning, so these widths are the widths that are drawn. Accidentals come from a
music font and are matched to the letters in size and baseline by `SIGNS`.

Conventions: units are those of a figure; a box is (left, top, right, bottom), y downwards.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources

from gamutwright.ir.figure import Anchor, Arc, Dot, Engraving, Face, Group, Path, Shape, Text

__all__ = [
    "CAP_HEIGHT",
    "SIGNS",
    "Box",
    "Sign",
    "box_of",
    "boxes_overlap",
    "is_drawable",
    "on_circle",
    "shortened",
    "text_width",
    "union",
]

CAP_HEIGHT = 0.66
"""Height of the capitals of all faces, in ems."""

ASCENT, DESCENT = 0.74, 0.22
"""How far letters reach above and below the baseline, in ems."""

UNKNOWN_ADVANCE = 1000
"""For a character the table does not hold: an em, so that a wrong guess leaves room."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Sign:
    """How a glyph of the music font stands among letters.

    Parameters
    ----------
    code_point : int
        Its place in the music font (SMuFL).
    scale : float
        Its size relative to the letters.
    rise : float
        How far it is raised, in ems of the letters.
    before, advance : float
        Room before it, and all of its room, in ems of the letters.
    """

    code_point: int
    scale: float
    rise: float
    before: float
    advance: float


SIGNS = {
    "♭": Sign(0xE260, 1.08, 0.15, 0.03, 0.305),
    "♮": Sign(0xE261, 1.0, 0.33, 0.04, 0.25),
    "♯": Sign(0xE262, 1.0, 0.33, 0.04, 0.33),
    "𝄪": Sign(0xE263, 1.0, 0.33, 0.05, 0.33),
    "𝄫": Sign(0xE264, 1.08, 0.15, 0.03, 0.51),
}


@cache
def _advances() -> dict[str, tuple[int, ...]]:
    text = resources.files("gamutwright.ir").joinpath("advances.txt").read_text(encoding="utf-8")
    rows = [line.split() for line in text.splitlines() if not line.startswith("#")]
    return {chr(int(row[0], 16)): tuple(int(advance) for advance in row[1:]) for row in rows}


def is_drawable(letter: str) -> bool:
    """Say whether every typeface has a character.

    Parameters
    ----------
    letter : str
        One character.

    Returns
    -------
    bool
        Whether a picture can show it.

    Examples
    --------
    >>> is_drawable("ễ"), is_drawable("𝄫"), is_drawable("中")
    (True, True, False)
    """
    return letter in SIGNS or letter in _advances()


@lru_cache(maxsize=1 << 14)
def text_width(text: str, size: float = 36.0, face: Face = Face.SANS) -> float:
    """Measure a line of text.

    Parameters
    ----------
    text : str
        The words.
    size : float
        Type size in units.
    face : Face
        Which typeface.

    Returns
    -------
    float
        Its width in units.

    Examples
    --------
    >>> text_width("12", 100)
    99.4
    >>> text_width("E♭", 100) > text_width("E", 100)
    True
    """
    table, column = _advances(), list(Face).index(face)
    thousandths = sum(
        SIGNS[letter].advance * 1000
        if letter in SIGNS
        else table[letter][column]
        if letter in table
        else UNKNOWN_ADVANCE
        for letter in text
    )
    return round(thousandths * size / 1000, 6)


def shortened(text: str, width: float, size: float = 36.0, face: Face = Face.SANS) -> str:
    """Cut a line of text that is too wide, at a word where one ends near, and say so with an ellipsis.

    Parameters
    ----------
    text : str
        The words.
    width : float
        The room in units.
    size, face
        As for `text_width`.

    Returns
    -------
    str
        The text, or as much of it as fits.

    Examples
    --------
    >>> shortened("melodic minor on the ninth degree", 300)
    'melodic minor…'
    """
    if text_width(text, size, face) <= width:
        return text
    kept = text
    while kept and text_width(kept + "…", size, face) > width:
        kept = kept[:-1]
    head, space, tail = kept.rpartition(" ")
    if space and len(tail) <= 12 and len(head) * 2 >= len(kept):
        kept = head
    return kept.rstrip(" ,;:(–") + "…"


def box_of(shape: Shape) -> Box:
    """Give the smallest upright box around a shape, line widths included.

    Parameters
    ----------
    shape : Shape
        Any shape; a curve counts with its control points.

    Returns
    -------
    Box
        Left, top, right, bottom.

    Examples
    --------
    >>> box_of(Dot(10, 10, 4))
    (6, 6, 14, 14)
    """
    match shape:
        case Text():
            width = text_width(shape.text, shape.size, shape.face)
            left = shape.x - {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[shape.anchor] * width
            baseline = shape.y + CAP_HEIGHT / 2 * shape.size
            return left, baseline - ASCENT * shape.size, left + width, baseline + DESCENT * shape.size
        case Dot():
            reach = shape.radius + (shape.stroke.width / 2 if shape.stroke else 0)
            return shape.x - reach, shape.y - reach, shape.x + reach, shape.y + reach
        case Arc():
            angles = [shape.start + shape.sweep * step / 24 for step in range(25)]
            points = [on_circle(shape, angle) for angle in angles]
            return _around(points, shape.stroke.width / 2)
        case Path():
            points = list(zip(shape.numbers[::2], shape.numbers[1::2], strict=True))
            return _around(points, shape.stroke.width / 2 if shape.stroke else 0)
        case Engraving():
            return shape.x, shape.y, shape.x + shape.width, shape.y + shape.height
        case Group():
            return union(box_of(inner) for inner in shape.shapes)


def on_circle(arc: Arc, degrees: float) -> tuple[float, float]:
    """Give the place on an arc's circle that lies in a direction.

    Parameters
    ----------
    arc : Arc
        The arc.
    degrees : float
        Clockwise from the top.

    Returns
    -------
    tuple of float
        x and y, in the middle of the band.

    Examples
    --------
    >>> on_circle(Arc(10, 10, 5, 0, 90), 90)
    (15.0, 10.0)
    """
    turn = math.radians(degrees)
    return arc.x + arc.radius * math.sin(turn), arc.y - arc.radius * math.cos(turn)


def _around(points: list[tuple[float, float]], reach: float) -> Box:
    if not points:
        return 0.0, 0.0, 0.0, 0.0
    across, down = zip(*points, strict=True)
    return min(across) - reach, min(down) - reach, max(across) + reach, max(down) + reach


def union(boxes: Iterable[Box]) -> Box:
    """Give the smallest box around boxes.

    Parameters
    ----------
    boxes : iterable of Box
        The boxes.

    Returns
    -------
    Box
        All of them; an empty box at the origin for none.

    Examples
    --------
    >>> union([(0, 0, 1, 1), (2, 3, 4, 5)])
    (0, 0, 4, 5)
    """
    sides = list(zip(*boxes, strict=True))
    if not sides:
        return 0.0, 0.0, 0.0, 0.0
    return min(sides[0]), min(sides[1]), max(sides[2]), max(sides[3])


def boxes_overlap(one: Box, other: Box, slack: float = 0.0) -> bool:
    """Say whether two boxes share more than an edge.

    Parameters
    ----------
    one, other : Box
        The boxes.
    slack : float
        Overlap in units that is forgiven; negative demands a gap.

    Returns
    -------
    bool
        Whether they overlap by more than that, both across and down.

    Examples
    --------
    >>> boxes_overlap((0, 0, 2, 2), (1, 1, 3, 3)), boxes_overlap((0, 0, 2, 2), (2, 0, 3, 3))
    (True, False)
    """
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > slack and down > slack
