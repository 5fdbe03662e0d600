"""Chains of one-step changes: one tone at a time moves by one step into an empty place, as few times as can be.

The fewest changes are as many as the size of the minimal voice leading (`near`), so a change lies on a shortest chain
exactly if it makes that size one smaller. All scales on shortest chains are found level by level; then, counting back
from the end, the most named scales that can still come; with that known, the best chains are listed first.

Conventions: any tone may move, the root too: the root is then followed, so that it stays the same voice. The last scale
is shown on its own root, whether or not that is where the first root went.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from gamutwright.catalogue.names import Names, default_names
from gamutwright.catalogue.near import sizes_to
from gamutwright.errors import DomainError, InputError
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.voiceleading import one_step_neighbours

__all__ = ["Chain", "between"]

LONGEST_CHAIN = 40
MOST_ON_THE_WAY = 10_000

Move = tuple[int, int]
"""A pitch class and the steps it moves."""
Onward = dict[Scale, tuple[tuple[Move, Scale], ...]]
"""For each scale the changes that lead nearer to the end."""


@dataclass(frozen=True, slots=True)
class Chain:
    """A shortest way from one scale to another, one tone by one step at a time.

    Parameters
    ----------
    scales : tuple of Scale
        From the first to the last; each on the root that has been followed, the last on its own.
    moves : tuple of (int, int)
        For each change the pitch class that moved and by how many steps, 1 or -1.
    named : int
        How many scales on the way, both ends left out, have a traditional name on the root that was followed.
    """

    scales: tuple[Scale, ...]
    moves: tuple[tuple[int, int], ...]
    named: int


def between(start: Scale, end: Scale, *, limit: int = 5, names: Names | None = None) -> tuple[Chain, ...]:
    """Find shortest chains of one-step changes from one scale to another.

    Parameters
    ----------
    start, end : Scale
        Scales of one division with equally many tones; they need not have the same root.
    limit : int > 0
        The most chains.
    names : Names, optional
        What counts as named; the names held and the teacher's own without it.

    Returns
    -------
    tuple of Chain
        Those through the most named scales first; among equals those that stay longer on the first root, then those
        whose tones are lower at the first difference.

    Raises
    ------
    InputError
        If the scales have different numbers of tones or divisions, or a root is missing.
    DomainError
        If they are too far apart for their chains to be listed.

    Examples
    --------
    >>> chain = between(Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(2, 4, 6, 7, 9, 11, 1))[0]
    >>> [scale.pitch_classes for scale in chain.scales]
    [(0, 2, 4, 5, 7, 9, 11), (0, 2, 4, 6, 7, 9, 11), (2, 4, 6, 7, 9, 11, 1)]
    """
    _check_ends(start, end, limit)
    called = (names or default_names()).by_mask(start.divisions)
    first = Scale(start.mask, start.divisions, start.root)
    goal = Scale(end.pitch_class_mask, end.divisions)
    (total,) = sizes_to(goal, [first.pitch_class_mask])
    if total > LONGEST_CHAIN:
        raise _too_far(total)
    onward = _onward(first, total, goal)
    best = _most_named(onward, called)
    chains: list[Chain] = []
    # Best first: what was named so far and what can still be is known exactly, so no chain is built in vain.
    waiting: list[tuple[int, tuple[tuple[bool, int], ...], tuple[Scale, ...], tuple[Move, ...]]]
    waiting = [(-best[first], (), (first,), ())]
    while waiting and len(chains) < limit:
        promised, order, way, moves = heapq.heappop(waiting)
        if len(moves) == total:
            chains.append(Chain((*way[:-1], end) if total else (start,), moves, -promised))
            continue
        named_so_far = sum(scale.mask in called for scale in way[1:])
        for move, scale in onward[way[-1]]:
            promise = named_so_far + best[scale]
            place = (scale.root != start.root, scale.pitch_class_mask)
            heapq.heappush(waiting, (-promise, (*order, place), (*way, scale), (*moves, move)))
    return tuple(chains)


def _check_ends(start: Scale, end: Scale, limit: int) -> None:
    if not (start.is_rooted and end.is_rooted):
        raise InputError(
            "a set without its root", "a chain follows the root", "Add the root to both, or choose another."
        )
    if start.divisions != end.divisions:
        raise InputError(
            f"scales of {start.divisions} and {end.divisions} divisions",
            "a chain stays in one division",
            "Give both in one.",
        )
    if start.cardinality != end.cardinality:
        raise InputError(
            f"scales of {start.cardinality} and {end.cardinality} tones",
            "a one-step change moves a tone and never adds or removes one",
            "Choose scales with equally many tones, or ask for the nearest with --like.",
        )
    if limit < 1:
        raise InputError(f"limit {limit}", "at least one chain is listed", "Choose a positive number.")


def _too_far(steps: int) -> DomainError:
    return DomainError(
        f"scales {steps} one-step changes apart",
        "there are too many chains between them to be compared",
        "Choose scales nearer to each other, or put one between them.",
    )


def _followed(scale: Scale) -> Iterator[tuple[Move, Scale]]:
    """One-step changes, the root followed where it is the tone that moves."""
    for move in one_step_neighbours(scale):
        moved = move.scale
        if not moved.is_rooted:
            turned = rotated_mask(moved.mask, -move.step, scale.divisions)
            moved = Scale(turned, scale.divisions, (scale.root + move.step) % scale.divisions)
        yield ((scale.root + move.tone) % scale.divisions, move.step), moved


def _onward(first: Scale, total: int, goal: Scale) -> Onward:
    """Every scale on a shortest way with the changes that lead nearer, the nearest to the start first."""
    onward: Onward = {}
    level = [first]
    for rest in range(total - 1, -1, -1):
        changed = {scale: tuple(_followed(scale)) for scale in level}
        sets = list({moved.pitch_class_mask for moves in changed.values() for _, moved in moves})
        nearer = {mask for mask, size in zip(sets, sizes_to(goal, sets), strict=True) if size == rest}
        for scale, moves in changed.items():
            onward[scale] = tuple((move, moved) for move, moved in moves if moved.pitch_class_mask in nearer)
        level = list(dict.fromkeys(moved for scale in level for _, moved in onward[scale]))
        if len(onward) + len(level) > MOST_ON_THE_WAY:
            raise _too_far(total)
    return onward | dict.fromkeys(level, ())


def _most_named(onward: Onward, called: Mapping[int, Sequence[str]]) -> dict[Scale, int]:
    """For each scale the most named ones from it to the end, the end left out."""
    best: dict[Scale, int] = {}
    for scale, nearer in reversed(onward.items()):
        ahead = max((best[moved] for _, moved in nearer), default=0)
        best[scale] = ahead + (bool(nearer) and scale.mask in called)
    return best
