"""How far voices move from one set of tones to another, and the sets one step away.

The size of a voice leading is measured over its voices by the sum of the distances (L1), the root of the sum of their
squares (L2) or the largest (Linf). The minimal voice leading is the smallest over all ways of sending each tone to one
of the other set. No smallest one need let voices cross, so between sets of equal size only the d rotations of one
against the other have to be tried.

Conventions: sets are pitch classes of n divisions of the octave; a voice takes the shorter way round, and upwards where
both are equal. Between sets of unequal size each tone of the larger moves to one tone of the smaller, every one of
which is reached: tones of the smaller are doubled, those of the larger never are.

References: Tymoczko, A Geometry of Music (2011), chapter 2 and appendix, from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale

__all__ = ["Norm", "OneStepMove", "VoiceLeading", "minimal_voice_leading", "one_step_neighbours", "voice_leading_size"]


class Norm(StrEnum):
    """How the distances of the voices make one size."""

    L1 = "L1"
    """Their sum."""
    L2 = "L2"
    """The root of the sum of their squares."""
    LINF = "Linf"
    """The largest of them."""


@dataclass(frozen=True, slots=True)
class VoiceLeading:
    """Where each voice goes.

    Parameters
    ----------
    moves : tuple of (int, int)
        Pitch class a voice starts from, and the steps it moves, negative downwards.
    size : int or float
        Its size, in steps of the division.
    """

    moves: tuple[tuple[int, int], ...]
    size: int | float


@dataclass(frozen=True, slots=True)
class OneStepMove:
    """A scale with one tone moved by one step.

    Parameters
    ----------
    tone : int
        The tone moved, in steps above the root.
    step : int, 1 or -1
        Which way.
    scale : Scale
        What comes of it, counted from the same root, which may itself have moved away.
    """

    tone: int
    step: int
    scale: Scale


def _way(start: int, end: int, divisions: int) -> int:
    up = (end - start) % divisions
    return up if 2 * up <= divisions else up - divisions


def _added(total: int, way: int, norm: Norm) -> int:
    """Take one more voice into a total; squares are kept for L2."""
    match norm:
        case Norm.L1:
            return total + abs(way)
        case Norm.L2:
            return total + way * way
        case Norm.LINF:
            return max(total, abs(way))


def _checked(tones: Sequence[int], divisions: int) -> list[int]:
    members = sorted(set(tones))
    if not members or len(members) != len(tones) or not 0 <= members[0] <= members[-1] < divisions:
        raise DomainError(
            f"{tuple(tones)}",
            f"a voice leading needs one or more pitch classes from 0 to {divisions - 1}, each once",
            "Reduce them by octaves and leave out repetitions.",
        )
    return members


def minimal_voice_leading(
    start: Sequence[int], end: Sequence[int], divisions: int = 12, norm: Norm = Norm.L1
) -> VoiceLeading:
    """Find a smallest voice leading from one set to another.

    Parameters
    ----------
    start, end : sequence of int in [0, divisions)
        Pitch classes, each once, in any order.
    divisions : int > 0
        Equal divisions of the octave.
    norm : Norm
        How the size is measured.

    Returns
    -------
    VoiceLeading
        One of the smallest, a voice for each tone of the larger set, by the pitch class it starts from.

    Raises
    ------
    DomainError
        If a set is empty, or a pitch class out of range or given twice.

    Examples
    --------
    >>> minimal_voice_leading((0, 4, 7), (9, 0, 4))
    VoiceLeading(moves=((0, 0), (4, 0), (7, 2)), size=2)
    """
    first, second = _checked(start, divisions), _checked(end, divisions)
    larger, smaller = (first, second) if len(first) >= len(second) else (second, first)
    total, targets = min(
        _aligned(larger, smaller[turn:] + smaller[:turn], divisions, norm) for turn in range(len(smaller))
    )
    pairs = list(zip(larger, targets, strict=True))
    if larger is not first:
        pairs = [(b, a) for a, b in pairs]
    moves = tuple(sorted((a, _way(a, b, divisions)) for a, b in pairs))
    return VoiceLeading(moves, math.sqrt(total) if norm is Norm.L2 else total)


def _aligned(larger: list[int], smaller: list[int], divisions: int, norm: Norm) -> tuple[int, list[int]]:
    """Send the larger set, in order round the circle, onto the smaller, whose first tone the lowest one goes to.

    Each tone of the smaller set takes a run of neighbours; the run of its first tone may begin before the lowest.
    """
    candidates = []
    for early in range(len(larger) - len(smaller) + 1):
        turned = larger[len(larger) - early :] + larger[: len(larger) - early]
        total, targets = _runs(turned, smaller, divisions, norm)
        candidates.append((total, targets[early:] + targets[:early]))
    return min(candidates)


def _runs(larger: list[int], smaller: list[int], divisions: int, norm: Norm) -> tuple[int, list[int]]:
    """Cut the larger set into as many runs as the smaller has tones, at the least cost."""
    spare = len(larger) - len(smaller)
    # rows[j] holds the best totals where the tone in hand goes to smaller[j], with the choice that led there.
    totals: dict[int, tuple[int, list[int]]] = {
        0: (_added(0, _way(larger[0], smaller[0], divisions), norm), [smaller[0]])
    }
    for place, tone in enumerate(larger[1:], 1):
        following: dict[int, tuple[int, list[int]]] = {}
        for target in range(max(0, place - spare), min(place, len(smaller) - 1) + 1):
            came = [totals[before] for before in (target, target - 1) if before in totals]
            total, targets = min(came)
            way = _way(tone, smaller[target], divisions)
            following[target] = _added(total, way, norm), [*targets, smaller[target]]
        totals = following
    return totals[len(smaller) - 1]


def voice_leading_size(
    start: Sequence[int], end: Sequence[int], divisions: int = 12, norm: Norm = Norm.L1
) -> int | float:
    """Give the size of the minimal voice leading between two sets.

    Parameters
    ----------
    start, end : sequence of int in [0, divisions)
        Pitch classes, each once, in any order.
    divisions : int > 0
        Equal divisions of the octave.
    norm : Norm
        How the size is measured.

    Returns
    -------
    int or float, steps of the division
        The size; whole for L1 and Linf.

    Raises
    ------
    DomainError
        If a set is empty, or a pitch class out of range or given twice.

    Examples
    --------
    >>> voice_leading_size((0, 4, 7), (5, 9, 0)), voice_leading_size((0, 4, 7), (5, 9, 0), norm=Norm.LINF)
    (3, 2)
    """
    return minimal_voice_leading(start, end, divisions, norm).size


def one_step_neighbours(scale: Scale) -> tuple[OneStepMove, ...]:
    """Find the scales got by moving one tone by one step of the division into an empty place.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of OneStepMove
        By the tone moved, upwards from the root; down before up. Every scale stands once.

    Examples
    --------
    >>> [(move.tone, move.step) for move in one_step_neighbours(Scale.of(0, 2, 4, divisions=6))][:3]
    [(0, -1), (0, 1), (2, -1)]
    """
    found: dict[int, OneStepMove] = {}
    for tone in scale.tones:
        for step in (-1, 1):
            place = (tone + step) % scale.divisions
            mask = scale.mask & ~(1 << tone) | 1 << place
            if not scale.mask >> place & 1 and mask not in found:
                found[mask] = OneStepMove(tone, step, Scale(mask, scale.divisions, scale.root))
    return tuple(found.values())
