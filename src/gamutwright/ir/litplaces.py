"""Which places of which pictures are lit, found in the figures of a film before anything is drawn.

Whatever has the colour of the moment in some figure and not in all of the same kind gives a place: a disc on the mark.
Whether it is lit in each of them is taken from the figures by geometry (`ir.covering`), not from pixels. So a verifier
can ask of every picture whether what should be lit is, and whether anything is that is lit only at another time.

Conventions: figures in their own units, places in pixels of the frame; frames are counted from 0.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from gamutwright.ir.covering import Cover, share_of_role
from gamutwright.ir.evidence import Spot, View
from gamutwright.ir.figure import Arc, Dot, Figure, Group, Path, Role, Shape
from gamutwright.ir.metrics import on_circle
from gamutwright.ir.timeline import FRAME_TICKS, Shot

__all__ = ["Mark", "marks_of", "views_of"]

SETTLED_FRAMES = 4
"""How far behind the end of a change a picture is read."""
LARGEST_SPOT = 23.0
LEAST_PIXELS = 4.0
"""Smaller places are lost in the coding of colours, which have half as many pixels."""
CLEAR_SHARE = 0.25
"""A place is only promised where at least this share of it changes colour."""


_Disc = tuple[float, float, float]
_Placed = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Mark:
    """A place that is lit in some figure.

    Parameters
    ----------
    spot : Spot
        The place.
    shares : tuple of float
        How much of it is lit in each of the figures.
    most : float
        The most of these.
    """

    spot: Spot
    shares: tuple[float, ...]
    most: float


def views_of(
    shots: Sequence[Shot],
    moving: Callable[[Shot, Shot], int],
    placed: Callable[[Figure], _Placed],
    lit_roles: frozenset[Role] = frozenset({Role.NOW}),
    marks: Callable[[tuple[Figure, ...], _Placed, frozenset[Role]], tuple[Mark, ...]] | None = None,
) -> tuple[tuple[Spot, ...], tuple[View, ...], int]:
    """Say which places are lit in which frames.

    Parameters
    ----------
    shots : sequence of Shot
        The shots, their figures without engravings.
    moving : callable
        As for `changes_of`.
    placed : callable
        Gives pixels a unit of a figure, and the pixel of its left upper corner.
    lit_roles : frozenset of Role
        The roles with the colour of what is being said.
    marks : callable, optional
        Finds the places of figures of one kind; `marks_of` without it.

    Returns
    -------
    tuple of Spot
        All places that are lit at some time.
    tuple of View
        By frame.
    int
        In how many frames something is lit that cannot be read.
    """
    kinds: dict[tuple[str, float, float], dict[Figure, None]] = {}
    for shot in shots:
        if shot.figure is not None:
            kinds.setdefault(_kind(shot, shot.figure), {})[shot.figure] = None
    places: list[Spot] = []
    states: dict[tuple[tuple[str, float, float], Figure], tuple[tuple[int, ...], tuple[int, ...]]] = {}
    for kind, figures in kinds.items():
        found = (marks or marks_of)(tuple(figures), placed(next(iter(figures))), lit_roles)
        for place, figure in enumerate(figures):
            shares = [(len(places) + index, mark.shares[place], mark.most) for index, mark in enumerate(found)]
            # Between the two another mark touches the place, and its colour would prove nothing.
            lit = tuple(number for number, share, most in shares if share >= 0.75 * most)
            states[kind, figure] = lit, tuple(number for number, share, most in shares if share <= 0.15 * most)
        places += [mark.spot for mark in found]
    views, unread = [], 0
    for index, shot in enumerate(shots):
        if shot.figure is None:
            continue
        change = moving(shots[index - 1], shot) if index else 0
        held = (shot.end_tick - shot.start_tick) // FRAME_TICKS - change
        lit, dark = states[_kind(shot, shot.figure), shot.figure]
        if lit or dark:
            frame = shot.start_tick // FRAME_TICKS + change + min(SETTLED_FRAMES, held // 2)
            views.append(View(frame, shot.panel.heading or shot.figure.title, lit, dark))
        unread += not lit and any(_paint(shape) in lit_roles for shape in _flat(shot.figure.shapes))
    return tuple(places), tuple(views), unread


def _kind(shot: Shot, figure: Figure) -> tuple[str, float, float]:
    return shot.drawing, figure.width, figure.height


def marks_of(figures: tuple[Figure, ...], placed: _Placed, roles: frozenset[Role]) -> tuple[Mark, ...]:
    """Find a disc for everything that is lit in some figure and not in all of them.

    Parameters
    ----------
    figures : tuple of Figure
        Figures of one kind, each once.
    placed : tuple of float
        Pixels a unit, and the pixel of their left upper corner.
    roles : frozenset of Role
        The roles with the colour of what is being said.

    Returns
    -------
    tuple of Mark
        The places.
    """
    covers = [Cover(figure) for figure in figures]
    scale, left, top = placed
    found: dict[tuple[float, ...], Mark] = {}
    for name, discs in _lit_discs(figures, roles):
        best: tuple[float, _Disc, tuple[float, ...]] = (0.0, (0, 0, 0), ())
        for disc in discs:
            if disc[2] * scale < LEAST_PIXELS:
                continue
            shares = tuple(share_of_role(cover, *disc, roles) for cover in covers)
            rise = max(shares) - (min(shares) if len(shares) > 1 else 0.0)
            if rise > best[0]:
                best = rise, disc, shares
        if best[0] >= CLEAR_SHARE:
            x, y, radius = best[1]
            most = max(best[2])
            spot = Spot(
                name, round(left + scale * x, 2), round(top + scale * y, 2), round(scale * radius, 2), round(most, 3)
            )
            found.setdefault((round(spot.x), round(spot.y)), Mark(spot, best[2], most))
    return tuple(found.values())


def _lit_discs(figures: Sequence[Figure], roles: frozenset[Role]) -> list[tuple[str, list[_Disc]]]:
    """List discs in which something might be seen lit: on marks in the colour of the moment, and at named places."""
    found: dict[tuple[str, tuple[_Disc, ...]], None] = {}
    for figure in figures:
        for shape in _flat(figure.shapes):
            if _paint(shape) in roles and (discs := _shape_discs(shape)):
                found[shape.name or "mark", tuple(discs)] = None
        for part in figure.parts:
            found[part.name, ((part.x, part.y, min(part.radius, LARGEST_SPOT)),)] = None
    return [(name, list(discs)) for name, discs in found]


def _paint(shape: Shape) -> Role | None:
    """Say in which role a shape is painted, where it is painted thickly enough to be taken for it."""
    if isinstance(shape, Dot | Path) and shape.fill is not None:
        return shape.fill.role if shape.fill.tint >= 0.6 else _paint(replace(shape, fill=None))
    if isinstance(shape, Dot | Path | Arc) and shape.stroke is not None:
        return shape.stroke.role
    return None


def _flat(shapes: tuple[Shape, ...]) -> list[Shape]:
    return [inner for shape in shapes for inner in (_flat(shape.shapes) if isinstance(shape, Group) else [shape])]


def _shape_discs(shape: Shape) -> list[_Disc]:
    match shape:
        case Dot():
            return [(shape.x, shape.y, min(shape.radius, LARGEST_SPOT))] if shape.fill else []
        case Arc():
            middle = on_circle(shape, shape.start + shape.sweep / 2)
            return [(*middle, min(shape.stroke.width / 2, LARGEST_SPOT))]
        case Path() if set(shape.verbs) <= set("MLZ"):
            points = list(zip(shape.numbers[::2], shape.numbers[1::2], strict=True))
            middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
            found = [(*middle, LARGEST_SPOT / 2), (*middle, LARGEST_SPOT / 4)] if shape.fill else []
            reach = shape.stroke.width / 2 if shape.stroke is not None else 0.0
            return found + [
                (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, reach)
                for a, b in pairwise(points)
                for share in (0.5, 0.3, 0.7)
                if reach
            ]
        case _:
            return []
