"""Figures as SVG text: exact, stable, the same wherever it is opened.

Words are drawn as outlines of the fonts, so no viewer needs them installed; what they say is in the title and the
description, and beside each outline in `data-text`. As live text they can be selected, searched and edited; a viewer
without the fonts takes its own, fitted into the same width.

Conventions: numbers have at most two decimals; named shapes carry `data-name`, since several pictures may share a page.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from xml.sax.saxutils import escape, quoteattr

from gamutwright.ir.figure import (
    Anchor,
    Arc,
    Dot,
    Engraving,
    Face,
    Figure,
    Fill,
    Group,
    Path,
    Role,
    Shape,
    Stroke,
    Text,
)
from gamutwright.ir.metrics import on_circle
from gamutwright.render.engrave import expanded
from gamutwright.render.fonts import baseline, glyph_run, outline
from gamutwright.render.theme import Theme, load_theme

__all__ = ["HATCH_PITCH", "HATCH_WIDTH", "figure_to_svg"]

HATCH_PITCH = 11.0
HATCH_WIDTH = 2.6
_FAMILIES = {
    Face.SANS: """font-family="'Source Sans 3','Source Sans Pro',sans-serif\"""",
    Face.STRONG: """font-family="'Source Sans 3','Source Sans Pro',sans-serif" font-weight="600\"""",
    Face.SERIF: """font-family="'Source Serif 4','Source Serif Pro',Georgia,serif" font-weight="600\"""",
}


@dataclass(slots=True)
class _Page:
    """The text while it is written, and what its definitions must hold."""

    theme: Theme
    is_live: bool = False
    lines: list[str] = field(default_factory=list)
    glyphs: dict[str, str] = field(default_factory=dict)
    hatches: dict[str, str] = field(default_factory=dict)


def figure_to_svg(
    figure: Figure, theme: Theme | str = "light", *, with_ground: bool = True, has_live_text: bool = False
) -> str:
    """Write a figure as SVG.

    Parameters
    ----------
    figure : Figure
        The figure.
    theme : Theme or str
        The theme, or its name.
    with_ground : bool
        Whether the ground is painted.
    has_live_text : bool
        Whether words are text that can be selected, and not outlines.

    Returns
    -------
    str
        A whole SVG document with title and description, ending in a line break.

    Examples
    --------
    >>> figure_to_svg(Figure("a dot", "One dot.", (Dot(5, 5, 2),), width=10, height=10)).splitlines()[0]
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" role="img">'
    """
    figure = expanded(figure)
    page = _Page(load_theme(theme) if isinstance(theme, str) else theme, has_live_text)
    if with_ground:
        ground = page.theme.looks[Role.GROUND].mark
        page.lines.append(f'<rect width="{_n(figure.width)}" height="{_n(figure.height)}" fill="{ground}"/>')
    _write_all(page, figure.shapes)
    head = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(figure.width)} {_n(figure.height)}" role="img">',
        f"<title>{escape(figure.title)}</title>",
        f"<desc>{escape(figure.alt)}</desc>",
    ]
    if page.glyphs or page.hatches:
        inner = [
            *(page.glyphs[key] for key in sorted(page.glyphs)),
            *(page.hatches[key] for key in sorted(page.hatches)),
        ]
        head += ["<defs>", *inner, "</defs>"]
    return "\n".join([*head, *page.lines, "</svg>", ""])


def _n(number: float) -> str:
    """Write a number with at most two decimals and nothing superfluous."""
    text = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def _write_all(page: _Page, shapes: tuple[Shape, ...]) -> None:
    for shape in shapes:
        if shape.opacity > 0:
            _write(page, shape)


def _common(shape: Shape) -> str:
    name = f" data-name={quoteattr(shape.name)}" if shape.name else ""
    return name + (f' opacity="{_n(shape.opacity)}"' if shape.opacity < 1 else "")


def _write(page: _Page, shape: Shape) -> None:
    match shape:
        case Dot():
            place = f'cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(shape.radius)}"'
            page.lines.append(
                f"<circle {place}{_paint(page, shape.fill, shape.stroke, is_dashed=False)}{_common(shape)}/>"
            )
        case Path():
            paint = _paint(page, shape.fill, shape.stroke)
            page.lines.append(f'<path d="{_commands(shape)}"{paint}{_common(shape)}/>')
        case Arc():
            page.lines.append(f'<path d="{_arc(shape)}"{_paint(page, None, shape.stroke, butt=True)}{_common(shape)}/>')
        case Text():
            _write_text(page, shape)
        case Group():
            page.lines.append(f"<g{_common(shape)}>")
            _write_all(page, shape.shapes)
            page.lines.append("</g>")
        case Engraving():  # pragma: no cover - `expanded` has turned all of them into groups
            raise AssertionError(shape.name)


def _paint(page: _Page, fill: Fill | None, stroke: Stroke | None, *, butt: bool = False, is_dashed: bool = True) -> str:
    if fill is None:
        text = ' fill="none"'
    else:
        look = page.theme.looks[fill.role]
        if fill.tint < 1 and look.hatch is not None:
            text = f' fill="url(#{_hatch(page, fill.role)})"'
        else:
            text = f' fill="{look.mark}"' + (f' fill-opacity="{_n(fill.tint)}"' if fill.tint < 1 else "")
    if stroke is None:
        return text
    look = page.theme.looks[stroke.role]
    weight = 1.0 if butt else look.weight
    text += f' stroke="{look.mark}" stroke-width="{_n(stroke.width * weight)}"'
    if stroke.tint < 1:
        text += f' stroke-opacity="{_n(stroke.tint)}"'
    if look.dash and is_dashed and not butt:
        text += f' stroke-dasharray="{" ".join(_n(length) for length in look.dash)}"'
    return text if butt else text + ' stroke-linejoin="round" stroke-linecap="round"'


def _hatch(page: _Page, role: Role) -> str:
    key = f"hatch-{page.theme.name}-{role}"
    look, middle = page.theme.looks[role], _n(HATCH_PITCH / 2)
    page.hatches[key] = (
        f'<pattern id="{key}" width="{_n(HATCH_PITCH)}" height="{_n(HATCH_PITCH)}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({-(look.hatch or 0)})"><line x1="0" y1="{middle}" x2="{_n(HATCH_PITCH)}" '
        f'y2="{middle}" stroke="{look.mark}" stroke-width="{_n(HATCH_WIDTH)}"/></pattern>'
    )
    return key


def _commands(path: Path) -> str:
    numbers = iter(path.numbers)
    written = []
    for verb in path.verbs:
        count = {"M": 2, "L": 2, "Q": 4, "C": 6, "Z": 0}[verb]
        written.append(verb + " ".join(_n(next(numbers)) for _ in range(count)))
    return "".join(written)


def _arc(arc: Arc) -> str:
    """Write an arc in halves, since a whole circle has no arc command of its own."""
    pieces = math.ceil(abs(arc.sweep) / 180) or 1
    points = []
    for piece in range(pieces + 1):
        x, y = on_circle(arc, arc.start + arc.sweep * piece / pieces)
        points.append(f"{_n(x)} {_n(y)}")
    radius = _n(arc.radius)
    direction = 1 if arc.sweep >= 0 else 0
    return f"M{points[0]}" + "".join(f"A{radius} {radius} 0 0 {direction} {point}" for point in points[1:])


def _write_text(page: _Page, text: Text) -> None:
    glyphs, width = glyph_run(text.text, text.size, text.face)
    left = text.x - {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[text.anchor] * width
    foot = baseline(text.y, text.size)
    colour = page.theme.looks[text.role].text
    if page.is_live:
        place = f'x="{_n(left)}" y="{_n(foot)}" textLength="{_n(width)}" lengthAdjust="spacingAndGlyphs"'
        look = f'{_FAMILIES[text.face]} font-size="{_n(text.size)}" fill="{colour}"'
        page.lines.append(f"<text {place} {look}{_common(text)}>{escape(text.text)}</text>")
        return
    uses = []
    for glyph in glyphs:
        shape = outline(glyph.font, glyph.index)
        if not shape.commands:
            continue
        key = f"glyph-{glyph.font}-{glyph.index}"
        page.glyphs.setdefault(key, f'<path id="{key}" d="{shape.commands}"/>')
        scale = f"{glyph.size / shape.units:.5f}".rstrip("0")
        place = f"translate({_n(left + glyph.x)} {_n(foot - glyph.rise)}) scale({scale} -{scale})"
        uses.append(f'<use href="#{key}" transform="{place}"/>')
    page.lines.append(f'<g fill="{colour}" data-text={quoteattr(text.text)}{_common(text)}>{"".join(uses)}</g>')
