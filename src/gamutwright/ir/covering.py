"""What lies on top at a point of a figure, by plain geometry and without drawing it.

A picture promises colours at places. To say which, before any pixel exists and apart from whoever paints them, the
shapes are taken in the order of painting and the last that covers a point counts. Words cover nothing here, and what is
painted thinly lets through what is below.

Conventions: units of the figure, as in `ir.figure`. Curves are taken as eight straight pieces.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from gamutwright.ir.figure import Arc, Dot, Figure, Fill, Group, Path, Role, Shape, Stroke

__all__ = ["Cover", "share_of_role"]

_Point = tuple[float, float]
_PIECES = 8
_OPAQUE = 0.6
_RINGS = (0.55, 0.7, 0.85)
_SPOKES = 16


@dataclass(frozen=True, slots=True)
class _Area:
    """Something painted: its box, and whether it covers a point."""

    left: float
    top: float
    right: float
    bottom: float
    role: Role
    covers: Callable[[float, float], bool]


def _lines(path: Path) -> list[list[_Point]]:
    """Flatten a path; each sub-path is a row of points."""
    rows: list[list[_Point]] = []
    numbers = iter(path.numbers)
    for verb in path.verbs:
        points = [(next(numbers), next(numbers)) for _ in range({"M": 1, "L": 1, "Q": 2, "C": 3, "Z": 0}[verb])]
        if verb == "M" or not rows:
            rows.append(points[:1])
        elif verb == "Z":
            rows[-1].append(rows[-1][0])
        elif verb == "L":
            rows[-1] += points
        else:
            rows[-1] += _curve([rows[-1][-1], *points])
    return [row for row in rows if row]


def _curve(points: list[_Point]) -> list[_Point]:
    found = []
    for step in range(1, _PIECES + 1):
        share, level = step / _PIECES, points
        while len(level) > 1:
            level = [(a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share) for a, b in pairwise(level)]
        found.append(level[0])
    return found


def _is_inside(rows: list[list[_Point]], x: float, y: float) -> bool:
    """Apply the non-zero winding rule."""
    winding = 0
    for row in rows:
        for (x0, y0), (x1, y1) in pairwise([*row, row[0]]):
            if (y0 <= y) != (y1 <= y):
                side = (x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)
                winding += (1 if y1 > y0 else -1) if (side > 0) == (y1 > y0) else 0
    return winding != 0


def _is_near(rows: list[list[_Point]], x: float, y: float, reach: float) -> bool:
    for row in rows:
        for (x0, y0), (x1, y1) in pairwise(row):
            dx, dy = x1 - x0, y1 - y0
            length = dx * dx + dy * dy
            share = min(1.0, max(0.0, ((x - x0) * dx + (y - y0) * dy) / length)) if length else 0.0
            if math.hypot(x - x0 - share * dx, y - y0 - share * dy) <= reach:
                return True
    return False


def _path_areas(path: Path, visible: float) -> Iterator[_Area]:
    rows = _lines(path)
    points = [point for row in rows for point in row]
    if not points:
        return
    xs, ys = [x for x, _ in points], [y for _, y in points]
    box = (min(xs), min(ys), max(xs), max(ys))
    if path.fill is not None and path.fill.tint * visible >= _OPAQUE:
        yield _Area(*box, path.fill.role, lambda x, y: _is_inside(rows, x, y))
    if path.stroke is not None and path.stroke.tint * visible >= _OPAQUE:
        reach = path.stroke.width / 2
        wide = (box[0] - reach, box[1] - reach, box[2] + reach, box[3] + reach)
        yield _Area(*wide, path.stroke.role, lambda x, y: _is_near(rows, x, y, reach))


def _round_areas(shape: Dot | Arc, visible: float) -> Iterator[_Area]:
    bands: list[tuple[float, float, Fill | Stroke]] = []
    if isinstance(shape, Dot) and shape.fill is not None:
        bands.append((0.0, shape.radius, shape.fill))
    if shape.stroke is not None:
        half = shape.stroke.width / 2
        bands.append((shape.radius - half, shape.radius + half, shape.stroke))
    for low, high, paint in bands:
        if paint.tint * visible < _OPAQUE:
            continue
        box = (shape.x - high, shape.y - high, shape.x + high, shape.y + high)
        yield _Area(*box, paint.role, lambda x, y, low=low, high=high: _is_in_band(shape, x, y, low, high))  # type: ignore[misc] # defaults bind the loop's values


def _is_in_band(shape: Dot | Arc, x: float, y: float, low: float, high: float) -> bool:
    if not low <= math.hypot(x - shape.x, y - shape.y) <= high:
        return False
    if isinstance(shape, Dot) or abs(shape.sweep) >= 360:
        return True
    turn = math.degrees(math.atan2(x - shape.x, shape.y - y)) - shape.start
    return turn % 360 <= shape.sweep if shape.sweep >= 0 else -turn % 360 <= -shape.sweep


def _areas(shapes: tuple[Shape, ...], opacity: float = 1.0) -> Iterator[_Area]:
    for shape in shapes:
        visible = shape.opacity * opacity
        match shape:
            case Group():
                yield from _areas(shape.shapes, visible)
            case Path():
                yield from _path_areas(shape, visible)
            case Dot() | Arc():
                yield from _round_areas(shape, visible)
            case _:
                continue


class Cover:
    """Says what is on top of a figure; made once for many points.

    Parameters
    ----------
    figure : Figure
        The figure, without engravings; an engraving covers nothing.

    Examples
    --------
    >>> cover = Cover(Figure("two", "Two dots.", (Dot(5, 5, 4), Dot(5, 5, 2, Fill(Role.NOW)))))
    >>> cover.role_at(5, 5).value, cover.role_at(5, 8).value, cover.role_at(0, 0).value
    ('now', 'ink', 'ground')
    """

    def __init__(self, figure: Figure) -> None:
        self._areas = list(_areas(figure.shapes))[::-1]

    def role_at(self, x: float, y: float) -> Role:
        """Say which role is on top at a point.

        Parameters
        ----------
        x, y : float
            The point.

        Returns
        -------
        Role
            Ground where nothing is.
        """
        for area in self._areas:
            if area.left <= x <= area.right and area.top <= y <= area.bottom and area.covers(x, y):
                return area.role
        return Role.GROUND


def share_of_role(cover: Cover, x: float, y: float, radius: float, roles: frozenset[Role]) -> float:
    """Say how much of the outer part of a disc shows one of some roles.

    Parameters
    ----------
    cover : Cover
        The figure.
    x, y, radius : float
        The disc; what lies within half its radius, where a number may stand, is left out.
    roles : frozenset of Role
        The roles.

    Returns
    -------
    float in [0, 1]
        The share.

    Examples
    --------
    >>> dot = Cover(Figure("a dot", "One dot.", (Dot(5, 5, 2, Fill(Role.NOW)),)))
    >>> share_of_role(dot, 5, 5, 2, frozenset({Role.NOW})), share_of_role(dot, 9, 9, 2, frozenset({Role.NOW}))
    (1.0, 0.0)
    """
    points = [
        (x + radius * ring * math.cos(turn), y + radius * ring * math.sin(turn))
        for ring in _RINGS
        for turn in (2 * math.pi * spoke / _SPOKES for spoke in range(_SPOKES))
    ]
    return sum(cover.role_at(*point) in roles for point in points) / len(points)
