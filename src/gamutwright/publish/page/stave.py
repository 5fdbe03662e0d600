"""A staff as SVG for a page: each sign is drawn once and used where it stands.

**Conventions.** Signs have ids made of their outlines, so that all staves of a page share them. Chord symbols are
text in the letters of the page.
"""

from __future__ import annotations

import hashlib
from html import escape

from gamutwright.ir.figure import Figure, Path, Text, walk

__all__ = ["HEAD_RIGHT", "stave_markup"]

HEAD_RIGHT = 7.6
"""How far the middle of a note head lies right of that of the part a figure names."""
_MARGIN = 6.0


def stave_markup(figure: Figure, alt: str) -> tuple[str, tuple[tuple[str, str], ...]]:
    """Write an expanded staff as SVG in which each sign is drawn once and used where it stands.

    Parameters
    ----------
    figure : Figure
        A staff, its engraving turned into paths.
    alt : str
        What it shows.

    Returns
    -------
    str
        The picture, as wide as the music.
    tuple of (str, str)
        The signs, by id.
    """
    paths = [shape for shape in walk(figure.shapes) if isinstance(shape, Path)]
    left = min((min(path.numbers[0::2]) for path in paths), default=0.0) - _MARGIN
    width = max((max(path.numbers[0::2]) for path in paths), default=0.0) + _MARGIN - left
    signs: dict[str, str] = {}
    drawn = []
    for path in paths:
        if path.fill is None:
            thick = round(path.stroke.width, 1) if path.stroke else 1.0
            drawn.append(f'<path d="{_outline(path, 0.0, 0.0)}" stroke-width="{thick}"/>')
            continue
        x, y = path.numbers[:2]
        outline = _outline(path, x, y)
        key = "s" + hashlib.sha256(outline.encode()).hexdigest()[:8]
        signs[key] = f'<path id="{key}" d="{outline}"/>'
        drawn.append(f'<use href="#{key}" x="{x:.1f}" y="{y:.1f}"/>')
    drawn += [
        f'<text x="{text.x:.0f}" y="{text.y:.0f}">{escape(text.text)}</text>'
        for text in walk(figure.shapes)
        if isinstance(text, Text)
    ]
    return (
        f'<svg viewBox="{left:.0f} 0 {width:.0f} {figure.height:.0f}" role="img" aria-label="{escape(alt)}">'
        f'<g class="ink">{"".join(drawn)}</g></svg>'
    ), tuple(signs.items())


def _outline(path: Path, x: float, y: float) -> str:
    found, at = [], 0
    for verb in path.verbs:
        count = {"M": 2, "L": 2, "Q": 4, "C": 6, "Z": 0}[verb]
        numbers = path.numbers[at : at + count]
        at += count
        found.append(verb + " ".join(f"{n - (y if k % 2 else x):.1f}" for k, n in enumerate(numbers)))
    return "".join(found).replace(".0 ", " ").replace("-0 ", "0 ")
