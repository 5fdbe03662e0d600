"""Engravings become shapes: verovio lays the notation out, and what it drew is read back as paths.

Verovio's SVG is small and regular: glyphs as symbols that are used at points, lines as paths, stems as rectangles,
beams as polygons, dots as ellipses. All of them become plain paths with roles, so SVG, PNG and PDF show the same
engraving, and every note's place is known.

Conventions: the music is fitted to the width of its box; a space of the staff is at most `LARGEST_SPACE` units.
"""

from __future__ import annotations

import re
import threading
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from itertools import pairwise
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

from gamutwright.errors import MissingPartError
from gamutwright.ir.figure import Engraving, Figure, Fill, Group, Part, Path, Role, Shape, Stroke, Text, walk
from gamutwright.ir.metrics import text_width
from gamutwright.render.fonts import require

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

__all__ = ["LARGEST_SPACE", "expanded"]

LARGEST_SPACE = 29.0
_UNITS_IN_SPACE = 180.0
_STAFF_MIDDLE = 0.42
"""Where the middle of the staff stands in the box, as a share of its height."""

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_OWN = threading.local()
_OPTIONS = {
    "adjustPageHeight": True,
    "adjustPageWidth": True,
    "breaks": "none",
    "header": "none",
    "footer": "none",
    "pageMarginLeft": 0,
    "pageMarginRight": 0,
    "pageMarginTop": 0,
    "pageMarginBottom": 0,
    "spacingNonLinear": 0.6,
    "svgViewBox": True,
    "font": "Bravura",
}


@dataclass(frozen=True, slots=True)
class _Piece:
    """One drawn thing: to which named element it belongs, its outline in the engraver's units, filled or a line."""

    owner: str
    verbs: str
    numbers: tuple[float, ...]
    line_width: float


def expanded(figure: Figure) -> Figure:
    """Turn every engraving of a figure into plain shapes, with parts for the places it names.

    Parameters
    ----------
    figure : Figure
        Any figure; without engravings it comes back as it is.

    Returns
    -------
    Figure
        The figure without engravings.

    Raises
    ------
    MissingPartError
        If the engraver is not installed, with the command that installs it.
    """
    if not any(isinstance(shape, Engraving) for shape in walk(figure.shapes)):
        return figure
    return _expanded(figure)


@lru_cache(maxsize=256)
def _expanded(figure: Figure) -> Figure:
    parts = list(figure.parts)
    return replace(figure, shapes=_replaced(figure.shapes, parts), parts=tuple(parts))


def _replaced(shapes: tuple[Shape, ...], parts: list[Part]) -> tuple[Shape, ...]:
    result: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Group):
            result.append(replace(shape, shapes=_replaced(shape.shapes, parts)))
        elif isinstance(shape, Engraving):
            group, found = _engraved(shape)
            result.append(group)
            parts.extend(found)
        else:
            result.append(shape)
    return tuple(result)


def _engraved(engraving: Engraving) -> tuple[Group, tuple[Part, ...]]:
    scale = LARGEST_SPACE / _UNITS_IN_SPACE
    pieces = _pieces(engraving.source, round(engraving.width / scale))
    xs = [x for piece in pieces for x in piece.numbers[::2]]
    left, right = min(xs), max(xs)
    scale = min(scale, engraving.width / (right - left))
    staff = [y for piece in pieces if piece.owner == "staff" for y in piece.numbers[1::2]]
    middle = (min(staff) + max(staff)) / 2
    x_shift = engraving.x + (engraving.width - (right - left) * scale) / 2 - left * scale
    y_shift = engraving.y + engraving.height * _STAFF_MIDDLE - middle * scale
    roles, shapes = dict(engraving.roles), []
    spans: dict[str, list[tuple[float, float]]] = {}
    for index, piece in enumerate(pieces):
        numbers = tuple(
            round(number * scale + (x_shift, y_shift)[at % 2], 3) for at, number in enumerate(piece.numbers)
        )
        role = roles.get(piece.owner, Role.INK)
        name = f"{engraving.name} {piece.owner} {index}"
        if piece.line_width:
            line_role = Role.INK if piece.owner in roles else role
            shapes.append(Path(piece.verbs, numbers, None, Stroke(line_role, piece.line_width * scale), name))
        else:
            shapes.append(Path(piece.verbs, numbers, Fill(role), None, name))
            spans.setdefault(piece.owner, []).extend(zip(numbers[::2], numbers[1::2], strict=True))
    parts, labels = _placed(engraving, spans)
    return Group((*shapes, *labels), None, engraving.name, engraving.opacity), parts


def _placed(
    engraving: Engraving, spans: dict[str, list[tuple[float, float]]]
) -> tuple[tuple[Part, ...], tuple[Shape, ...]]:
    """Find the head of each named element, and put the labels over and under it."""
    spots: dict[str, tuple[float, float, float]] = {}
    for owner, points in spans.items():
        right = max(x for x, _ in points)
        width = LARGEST_SPACE * 1.7
        ys = [y for x, y in points if x > right - width]
        spots[owner] = (right - width / 2, (min(ys) + max(ys)) / 2, max(width, max(ys) - min(ys)) / 2)
    parts = tuple(Part(name, *spots[place]) for place, name in engraving.names if place in spots)
    labels = tuple(
        _hung(label.text, spots[label.place][0], engraving) for label in engraving.labels if label.place in spots
    )
    return parts, labels


def _hung(text: Text, x: float, engraving: Engraving) -> Text:
    """Put a label over or under its place, but inside the box of the engraving."""
    half = text_width(text.text, text.size, text.face) / 2
    x = min(max(x + text.x, engraving.x + half), engraving.x + engraving.width - half)
    return replace(text, x=x, y=engraving.y + text.y)


def _toolkit() -> Any:  # noqa: ANN401 - the library has no types
    """Give this thread's own engraver: what verovio knows of its fonts and files it knows of one thread."""
    if not hasattr(_OWN, "toolkit"):
        require("verovio", "verovio", "engraving notes")
        require("fontTools", "fonttools", "engraving notes")
        import verovio  # noqa: PLC0415 - only for notation

        verovio.enableLog(verovio.LOG_OFF)
        verovio.setDefaultResourcePath(str(resources.files("verovio") / "data"))
        _OWN.toolkit = verovio.toolkit()
    return _OWN.toolkit


def _svg(source: str, spacing: float) -> Element:
    toolkit = _toolkit()
    toolkit.setOptions({**_OPTIONS, "spacingLinear": spacing})
    if not toolkit.loadData(source):
        raise MissingPartError(
            "verovio", "it cannot read the notation of this figure", "Run: python -m pip install 'verovio>=6.4,<7'"
        )
    return ET.fromstring(toolkit.renderToSVG(1))  # noqa: S314 - text of our own engraver


@lru_cache(maxsize=512)
def _pieces(source: str, width: int) -> tuple[_Piece, ...]:
    """Engrave with the spacing that fills a width in the engraver's units."""
    narrow, wide = 0.05, 0.45
    widths = [_width(_read(_svg(source, spacing))) for spacing in (narrow, wide)]
    slope = (widths[1] - widths[0]) / (wide - narrow)
    spacing = narrow + (width - widths[0]) / slope if slope > 0 else narrow
    return _read(_svg(source, round(min(0.6, max(0.02, spacing)), 4)))


def _width(pieces: tuple[_Piece, ...]) -> float:
    xs = [x for piece in pieces for x in piece.numbers[::2]]
    return max(xs) - min(xs)


def _read(root: Element) -> tuple[_Piece, ...]:
    symbols = {
        symbol.get("id", ""): path.get("d", "")
        for symbol in root.iter()
        if _tag(symbol) == "g"
        and len(symbol) == 1
        and _tag(path := symbol[0]) == "path"
        and "-" in symbol.get("id", "")
    }
    pieces: list[_Piece] = []
    for child in root:
        if _tag(child) == "svg":
            _collect(child, (0.0, 0.0), "", symbols, pieces)
    return tuple(pieces)


def _tag(element: Element) -> str:
    return element.tag.rpartition("}")[2]


def _shift(element: Element) -> tuple[float, float]:
    transform = element.get("transform", "")
    if not transform.startswith("translate"):
        return 0.0, 0.0
    x, y = (float(number) for number in _NUMBER.findall(transform)[:2])
    return x, y


def _collect(
    element: Element, origin: tuple[float, float], owner: str, symbols: dict[str, str], pieces: list[_Piece]
) -> None:
    """Go down the tree, keeping where it has been shifted and to which note or staff a mark belongs."""
    name = element.get("id", "")
    kind, *others = (element.get("class") or "").split(" ")
    if "placeholder" in others:
        return
    if kind in {"note", "chord"} and not (owner and kind == "note"):
        owner = name
    elif kind == "staff":
        owner = "staff"
    elif kind in {"clef", "ledgerLines", "stem", "flag", "dots"}:
        # A note's place is that of its head.
        owner = kind
    shift = _shift(element)
    x, y = origin[0] + shift[0], origin[1] + shift[1]
    match _tag(element):
        case "use":
            key = next((value for attribute, value in element.attrib.items() if attribute.endswith("href")), "#")[1:]
            size = float(_NUMBER.findall(element.get("transform", ""))[2])
            pieces.append(_Piece(owner, *_outline(symbols[key], x, y, size), 0.0))
        case "path":
            width = float(element.get("stroke-width", "13"))
            pieces.append(_Piece(owner, *_outline(element.get("d", ""), x, y, 1.0, upside_down=False), width))
        case "rect":
            left, top = x + float(element.get("x", "0")), y + float(element.get("y", "0"))
            right, foot = left + float(element.get("width", "0")), top + float(element.get("height", "0"))
            pieces.append(_Piece(owner, "MLLLZ", (left, top, right, top, right, foot, left, foot), 0.0))
        case "polygon":
            numbers = [float(number) for number in _NUMBER.findall(element.get("points", ""))]
            moved = tuple(number + (x, y)[at % 2] for at, number in enumerate(numbers))
            pieces.append(_Piece(owner, "M" + "L" * (len(moved) // 2 - 1) + "Z", moved, 0.0))
        case "ellipse":
            middle = (x + float(element.get("cx", "0")), y + float(element.get("cy", "0")))
            pieces.append(
                _Piece(owner, *_round(middle, float(element.get("rx", "0")), float(element.get("ry", "0"))), 0.0)
            )
        case _:
            for child in element:
                inside = "" if owner == "staff" and (child.get("class") or "").startswith("layer") else owner
                _collect(child, (x, y), inside, symbols, pieces)


def _round(middle: tuple[float, float], wide: float, tall: float) -> tuple[str, tuple[float, ...]]:
    """Draw an ellipse as four curves; their handles are 0.5523 of a radius long."""
    x, y = middle
    corners = [(1, 0), (0, 1), (-1, 0), (0, -1), (1, 0)]
    numbers = [x + wide, y]
    for (ax, ay), (bx, by) in pairwise(corners):
        handles = ((ax + 0.5523 * bx, ay + 0.5523 * by), (bx + 0.5523 * ax, by + 0.5523 * ay), (bx, by))
        numbers += [part for px, py in handles for part in (x + wide * px, y + tall * py)]
    return "MCCCCZ", tuple(numbers)


@lru_cache(maxsize=2048)
def _commands(data: str) -> tuple[tuple[str, tuple[tuple[float, float], ...]], ...]:
    from fontTools.pens.recordingPen import (  # type: ignore[import-untyped]  # noqa: PLC0415 - only for notation
        RecordingPen,
    )
    from fontTools.svgLib.path import parse_path  # type: ignore[import-untyped]  # noqa: PLC0415 - as above

    pen = RecordingPen()
    parse_path(data, pen)
    return tuple(pen.value)


def _outline(data: str, x: float, y: float, size: float, *, upside_down: bool = True) -> tuple[str, tuple[float, ...]]:
    """Read path data into verbs and numbers, scaled and moved; glyphs have y upwards."""
    verbs, numbers = "", []
    flip = -1.0 if upside_down else 1.0
    for command, points in _commands(data):
        verb = {"moveTo": "M", "lineTo": "L", "curveTo": "C", "qCurveTo": "Q", "closePath": "Z"}.get(command)
        if verb is None:
            continue
        verbs += verb
        numbers += [part for (px, py) in points for part in (x + px * size, y + py * size * flip)]
    return verbs, tuple(numbers)
