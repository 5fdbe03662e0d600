"""The neighbours map: the scale in the middle, round it every scale that one tone's move of one step leads to.

Conventions: neighbours stand clockwise from the top, ordered by the tone that moves, downwards before upwards. In each
small ring the moved tone is lit; the word inside is its new name.
"""

from __future__ import annotations

import math
from itertools import pairwise

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import SMALLEST, Drawing, badge, line
from gamutwright.diagrams.ring import Ring, small_ring
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.ir.figure import Dot, Figure, Fill, Role, Stroke, Text
from gamutwright.theory.scale import Scale

__all__ = ["neighbours"]

_INSET = 86.0


def neighbours(sketch: Sketch) -> Figure:
    """Draw the map of a scale's neighbours.

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
    >>> neighbours(Sketch(Scale.of(0, 1, divisions=4))).alt
    'The scale 0 1 amid 2 neighbours that move one tone by one step: 0 down to 3, 1 up to 2.'
    """
    scale = sketch.scale
    moves = _moves(scale)
    drawing = Drawing()
    hub = Ring(500, 400, 130, 24, scale.divisions, "hub ")
    marked = {
        frozenset(place.parts[0]): index
        for index, place in reversed(list(enumerate(sketch.shown)))
        if place.kind is Kind.SCALE
    }
    spots = _around(len(moves), drawing.width, drawing.height)
    radius = min(62.0, _least_distance(spots) * 0.42)
    late = []
    for number, ((tone, target), (x, y)) in enumerate(zip(moves, spots, strict=True), 1):
        other = Scale(scale.mask & ~(1 << tone) | 1 << target, scale.divisions, scale.root)
        index = marked.get(frozenset(other.tones))
        role = Role.QUIET if index is None else Role.NOW
        drawing.add(line([(500, 400), (x, y)], Stroke(role, 2 if index is None else 4), f"way {number}"))
        late.append((Ring(x, y, radius, radius * 0.24, scale.divisions, f"neighbour {number} "), other, target, index))
    drawing.add(*_disc(hub), *small_ring(hub, scale))
    for ring, other, target, index in late:
        role = Role.INK if index is None else Role.NOW
        drawing.add(
            *_disc(ring), *small_ring(ring, other, {target: Role.NOW if index is not None else Role.OTHER}, role)
        )
        drawing.part(ring.name.strip(), ring.x, ring.y, ring.radius)
        if index is not None and sketch.is_numbered:
            drawing.add_over(*badge(index + 1, ring.x, ring.y, name=f"witness {index + 1}"))
        else:
            drawing.add_text(Text(ring.x, ring.y, sketch.name(target), SMALLEST, name=f"{ring.name}name"))
        if index is not None:
            drawing.part(f"witness {index + 1}", ring.x, ring.y, ring.radius)
    drawing.part("hub", hub.x, hub.y, hub.radius)
    said = ", ".join(
        f"{sketch.name(tone)} {'up' if (target - tone) % scale.divisions == 1 else 'down'} to {sketch.name(target)}"
        for tone, target in moves
    )
    words = f"The scale {tones_in_words(sketch)} amid {len(moves)} neighbours that move one tone by one step"
    return drawing.figure(sketch, "Neighbours", f"{words}{f': {said}' if said else ''}.")


def _moves(scale: Scale) -> list[tuple[int, int]]:
    """Tones that may move one step, with where they go."""
    n = scale.divisions
    return [
        (tone, (tone + way) % n) for tone in scale.tones for way in (-1, 1) if not scale.mask >> (tone + way) % n & 1
    ]


def _disc(ring: Ring) -> tuple[Dot, ...]:
    return (Dot(ring.x, ring.y, ring.radius + ring.band, Fill(Role.GROUND), None),)


def _least_distance(spots: list[tuple[float, float]]) -> float:
    """Measure how near two neighbours on the edge come to each other; across a corner that is less than along it."""
    return min((math.dist(one, other) for one, other in pairwise([*spots, *spots[:1]]) if one != other), default=1e3)


def _pitch(count: int, width: float, height: float) -> float:
    return (2 * (width - 2 * _INSET) + 2 * (height - 2 * _INSET)) / max(count, 1)


def _around(count: int, width: float, height: float) -> list[tuple[float, float]]:
    """Spread points evenly round the edge of the picture, clockwise from the middle of the top."""
    across, down = width - 2 * _INSET, height - 2 * _INSET
    points = []
    for index in range(count):
        way = (index + 0.5) * _pitch(count, width, height)
        way = (way + across / 2) % (2 * across + 2 * down)
        if way < across:
            points.append((_INSET + way, _INSET))
        elif way < across + down:
            points.append((width - _INSET, _INSET + way - across))
        elif way < 2 * across + down:
            points.append((width - _INSET - (way - across - down), height - _INSET))
        else:
            points.append((_INSET, height - _INSET - (way - 2 * across - down)))
    return points
