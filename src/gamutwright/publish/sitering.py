"""The ring of steps, small enough for a list: band, pegs, the root with its double ring, no words.

It keeps the places of the large ring (`diagrams.ring`) and leaves out what nobody sees at the size of a thumbnail, so
that a course of hundreds stays one light page.

**Conventions.** The picture is a square of 80 units round the centre (0, 0); the root stands at the top, up is
clockwise. Colours are the page's custom properties, given by the classes `r` (band), `a` (polygon) and `p` (pegs).
"""

from __future__ import annotations

from gamutwright.diagrams.ring import Ring
from gamutwright.publish.pagetext import Raw

__all__ = ["little_ring"]

_RADIUS, _BAND, _HALF = 31.0, 8.0, 40


def little_ring(tones: tuple[int, ...], divisions: int) -> Raw:
    """Draw a scale as a small ring.

    Parameters
    ----------
    tones : tuple of int
        Steps above the root.
    divisions : int
        Steps of the octave.

    Returns
    -------
    Raw
        An SVG element that says nothing to who cannot see: the tones stand beside it in words.

    Examples
    --------
    >>> little_ring((0, 6), 12).count("M")
    6
    """
    ring = Ring(0.0, 0.0, _RADIUS, _BAND, divisions)
    heard = tuple(sorted(set(tones)))
    pegs = min(ring.pitch * 0.6, 6.4)
    parts = [_band(ring, heard), _polygon(ring, heard)]
    root = ring.point(0)
    if 0 in heard:
        # A gap cuts the root out of the band, so that its second ring is seen.
        parts.append(f'<path class="g" d="{_dots([root])}"/>')
        parts.append(f'<circle class="o" cx="{_n(root[0])}" cy="{_n(root[1])}" r="6.2"/>')
    else:
        parts.append(f'<circle class="q" cx="{_n(root[0])}" cy="{_n(root[1])}" r="4"/>')
    if heard:
        width = f' stroke-width="{_n(pegs)}"'
        parts.append(f'<path class="p"{width} d="{_dots([ring.point(tone) for tone in heard])}"/>')
    box = f"{-_HALF} {-_HALF} {2 * _HALF} {2 * _HALF}"
    return Raw(f'<svg class="ring" viewBox="{box}" aria-hidden="true">{"".join(parts)}</svg>')


def _n(value: float) -> str:
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def _at(point: tuple[float, float]) -> str:
    return f"{_n(point[0])} {_n(point[1])}"


def _band(ring: Ring, tones: tuple[int, ...]) -> str:
    """Draw each step as an arc with a gap at both ends, larger than in the large ring so that it is seen."""
    gap = 0.22
    arcs = []
    for index, low in enumerate(tones):
        high = tones[index + 1] if index + 1 < len(tones) else tones[0] + ring.divisions
        # Halfway through, because an arc of a whole turn has no end of its own.
        middle = (low + high) / 2
        arcs.append(
            f"M{_at(ring.point(low + gap))}"
            + "".join(f"A{_n(_RADIUS)} {_n(_RADIUS)} 0 0 1 {_at(ring.point(step))}" for step in (middle, high - gap))
        )
    return f'<path class="r" d="{"".join(arcs)}"/>' if arcs else ""


def _polygon(ring: Ring, tones: tuple[int, ...]) -> str:
    if len(tones) < 2:
        return ""
    corners = "L".join(_at(ring.inner(tone)) for tone in tones)
    return f'<path class="a" d="M{corners}Z"/>'


def _dots(points: list[tuple[float, float]]) -> str:
    """Draw dots as lines of no length with round ends."""
    return "".join(f"M{_at(point)}h0" for point in points)
