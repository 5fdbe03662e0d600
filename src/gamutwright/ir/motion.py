"""Change over time: states of one figure and the eased changes between them.

What moves is said here once, so every renderer shows the same motion: `Motion.at(time)` is a figure like any other.
Shapes are matched by name, unnamed ones by kind and order within their group. Numbers move, in groups with a pivot
along arcs around it; what cannot move (words, roles, another number of points) cross-fades; what comes or goes fades.

Conventions: times in milliseconds from the start; a turn is in degrees clockwise.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, fields, replace
from enum import StrEnum
from typing import TypeVar

from gamutwright.errors import DomainError
from gamutwright.ir.figure import Arc, Figure, Fill, Group, Path, Shape, Stroke

__all__ = ["Change", "Easing", "Motion", "State", "blended", "eased"]

_Point = tuple[float, float]
_Record = TypeVar("_Record")


class Easing(StrEnum):
    """How a change runs through its time."""

    STEADY = "steady"
    EASED = "eased"


def eased(progress: float, easing: Easing = Easing.EASED) -> float:
    """Say how far a change has come.

    Parameters
    ----------
    progress : float in [0, 1]
        Share of its time that has passed.
    easing : Easing
        How it runs.

    Returns
    -------
    float in [0, 1]
        Share of the change; starts and ends at rest when eased.

    Examples
    --------
    >>> eased(0.5), eased(0.25), eased(0.25, Easing.STEADY)
    (0.5, 0.15625, 0.25)
    """
    progress = min(1.0, max(0.0, progress))
    return progress if easing is Easing.STEADY else progress * progress * (3 - 2 * progress)


@dataclass(frozen=True, slots=True)
class State:
    """A figure that stays a while.

    Parameters
    ----------
    figure : Figure
        What is seen.
    hold_ms : float >= 0
        How long.
    """

    figure: Figure
    hold_ms: float = 0.0


@dataclass(frozen=True, slots=True)
class Change:
    """How one state becomes the next.

    Parameters
    ----------
    duration_ms : float >= 0
        How long it takes; 0 is a cut.
    easing : Easing
        How it runs.
    turn : float, degrees
        About how far shapes in a group with a pivot turn; each takes the way nearest to this.
    """

    duration_ms: float = 320.0
    easing: Easing = Easing.EASED
    turn: float = 0.0


@dataclass(frozen=True, slots=True)
class Motion:
    """States and the changes between them.

    Parameters
    ----------
    states : tuple of State
        At least one.
    changes : tuple of Change
        One fewer than the states.

    Raises
    ------
    DomainError
        If the numbers do not fit.
    """

    states: tuple[State, ...]
    changes: tuple[Change, ...] = ()

    def __post_init__(self) -> None:
        if not self.states or len(self.changes) != len(self.states) - 1:
            raise DomainError(
                f"{len(self.states)} states and {len(self.changes)} changes",
                "a motion has a change between every two states",
                "Give one change fewer than states.",
            )

    @property
    def duration_ms(self) -> float:
        """From the first state to the end of the last."""
        return sum(state.hold_ms for state in self.states) + sum(change.duration_ms for change in self.changes)

    def at(self, time_ms: float) -> Figure:
        """Give the figure at a time; before the start the first state, after the end the last.

        Parameters
        ----------
        time_ms : float
            Time from the start.

        Returns
        -------
        Figure
            What is seen then.

        Examples
        --------
        >>> from gamutwright.ir.figure import Dot
        >>> one, two = (Figure("a dot", "One dot.", (Dot(x, 0.0, 1.0),)) for x in (0.0, 10.0))
        >>> motion = Motion((State(one, 100), State(two)), (Change(200, Easing.STEADY),))
        >>> motion.at(150).shapes[0].x
        2.5
        """
        for index, state in enumerate(self.states):
            time_ms -= state.hold_ms
            if time_ms < 0 or index == len(self.changes):
                return state.figure
            change = self.changes[index]
            if time_ms < change.duration_ms:
                share = eased(time_ms / change.duration_ms, change.easing)
                return blended(state.figure, self.states[index + 1].figure, share, change.turn)
            time_ms -= change.duration_ms
        raise AssertionError  # the last state has returned above


def blended(one: Figure, other: Figure, share: float, turn: float = 0.0) -> Figure:
    """Give what lies between two states of a figure.

    Parameters
    ----------
    one, other : Figure
        The states.
    share : float in [0, 1]
        How far from the one to the other.
    turn : float, degrees
        As for `Change`.

    Returns
    -------
    Figure
        The figure between; words and parts are those of the nearer state.
    """
    if share <= 0:
        return one
    if share >= 1:
        return other
    return replace(other if share >= 0.5 else one, shapes=_shapes(one.shapes, other.shapes, share, turn, None))


def _keys(shapes: tuple[Shape, ...]) -> list[tuple[str, str, int]]:
    seen: Counter[tuple[str, str]] = Counter()
    keys = []
    for shape in shapes:
        kind = (type(shape).__name__, shape.name)
        keys.append((*kind, seen[kind]))
        seen[kind] += 1
    return keys


def _shapes(
    ones: tuple[Shape, ...], others: tuple[Shape, ...], share: float, turn: float, pivot: _Point | None
) -> tuple[Shape, ...]:
    """Match, move and fade; what leaves is painted under what stays."""
    keys, old = _keys(others), dict(zip(_keys(ones), ones, strict=True))
    new = set(keys)
    result: list[Shape] = [_faded(shape, 1 - share) for key, shape in old.items() if key not in new]
    for key, shape in zip(keys, others, strict=True):
        match old.get(key):
            case None:
                result.append(_faded(shape, share))
            case Group() as before if isinstance(shape, Group):
                inner = _shapes(before.shapes, shape.shapes, share, turn, shape.pivot)
                result.append(replace(shape, shapes=inner, opacity=_between(before.opacity, shape.opacity, share)))
            case before:
                result.extend(_moved(before, shape, share, turn, pivot))
    return tuple(result)


def _faded(shape: Shape, opacity: float) -> Shape:
    return replace(shape, opacity=shape.opacity * opacity)


def _between(one: float, other: float, share: float) -> float:
    return one + (other - one) * share


def _angle_between(one: float, other: float, share: float, turn: float) -> float:
    difference = (other - one - turn + 180.0) % 360.0 - 180.0 + turn
    return one + difference * share


def _point_between(one: _Point, other: _Point, share: float, turn: float, pivot: _Point | None) -> _Point:
    if pivot is None:
        return _between(one[0], other[0], share), _between(one[1], other[1], share)
    (x, y) = pivot
    radii = math.hypot(one[0] - x, one[1] - y), math.hypot(other[0] - x, other[1] - y)
    if min(radii) < 1e-6:
        return _point_between(one, other, share, turn, None)
    angles = [math.degrees(math.atan2(point[0] - x, y - point[1])) for point in (one, other)]
    angle = math.radians(_angle_between(angles[0], angles[1], share, turn))
    radius = _between(*radii, share)
    return x + radius * math.sin(angle), y - radius * math.cos(angle)


def _moved(one: Shape, other: Shape, share: float, turn: float, pivot: _Point | None) -> tuple[Shape, ...]:
    """Move a shape into its other state; where more than numbers differ, both states move and cross-fade."""
    if one == other:
        return (other,)
    there, back = _at(one, other, share, turn, pivot), _at(other, one, 1 - share, -turn, pivot)
    if _skeleton(one) == _skeleton(other):
        return (there,)
    return (_faded(there, 1 - share), _faded(back, share))


def _skeleton(record: object) -> tuple[object, ...]:
    """Everything about a record but its numbers."""
    found: list[object] = [type(record)]
    for item in fields(record):  # type: ignore[arg-type]
        value = getattr(record, item.name)
        if isinstance(value, Stroke | Fill):
            found.append(_skeleton(value))
        elif isinstance(value, tuple):
            found.append(len(value) if all(isinstance(part, float | int) for part in value) else value)
        elif not isinstance(value, float | int):
            found.append(value)
    return tuple(found)


def _at(one: Shape, other: Shape, share: float, turn: float, pivot: _Point | None) -> Shape:
    """Give the first shape with its numbers moved towards those of the second, its words and roles kept."""
    moved = _numbers(one, other, share)
    if isinstance(one, Path) and isinstance(other, Path) and isinstance(moved, Path):
        if one.verbs != other.verbs:
            return one
        starts, ends = (list(zip(*[iter(path.numbers)] * 2, strict=True)) for path in (one, other))
        points = [_point_between(start, end, share, turn, pivot) for start, end in zip(starts, ends, strict=True)]
        return replace(moved, numbers=tuple(number for point in points for number in point))
    if pivot is None or isinstance(one, Path | Group) or isinstance(other, Path | Group):
        return moved
    x, y = _point_between((one.x, one.y), (other.x, other.y), share, turn, pivot)
    if isinstance(moved, Arc) and isinstance(one, Arc) and isinstance(other, Arc):
        return replace(moved, x=x, y=y, start=_angle_between(one.start, other.start, share, turn))
    return _with(moved, {"x": x, "y": y})


def _numbers(one: _Record, other: _Record, share: float) -> _Record:
    changes: dict[str, object] = {}
    for item in fields(one):  # type: ignore[arg-type]
        before, after = getattr(one, item.name), getattr(other, item.name)
        if isinstance(before, float | int) and isinstance(after, float | int) and before != after:
            changes[item.name] = _between(before, after, share)
        elif isinstance(before, Stroke | Fill) and type(before) is type(after) and before != after:
            changes[item.name] = _numbers(before, after, share)
    return _with(one, changes)


def _with(record: _Record, changes: dict[str, object]) -> _Record:
    return replace(record, **changes)  # type: ignore[type-var]
