"""What is near a scale: the nearest by a chosen distance, those that contain it or lie within it, chains of one step.

Distances, all from the scale as given to scales on the same root:

- *voice leading*: the size of the minimal voice leading, in steps of the division (`theory.voiceleading`, L1);
- *common tones*: how many tones are not common to both, each counted once;
- *interval content*: the sum of the differences between the interval-class vectors, Morris's SIM (`theory.distance`);
- *one-step moves*: how many times one tone has to move by one step into an empty place.

Between sets of equal size the fewest one-step moves are as many as the size of the minimal voice leading: no smallest
voice leading needs voices to cross, so its voices can be moved one step at a time, the foremost first.

Conventions: two scales are compared on the same root unless any root is asked for, which takes every transposition of
the scale; it changes what contains the scale or lies within it, never the distances. Chains move any tone, the root
too: the root is then followed, so that it stays the same voice. Equal distances are put in the order of the difference
in size, then of the set.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from gamutwright.catalogue.columns import MASK
from gamutwright.catalogue.names import Names, default_names
from gamutwright.catalogue.query import Catalogue, Terms
from gamutwright.errors import DomainError, InputError
from gamutwright.theory.pcset import interval_class_vector
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.voiceleading import one_step_neighbours, voice_leading_size

if TYPE_CHECKING:
    import pyarrow as pa

__all__ = ["Chain", "Distance", "between", "containing", "like", "within"]

LIMIT = 20
MOST_NEAREST = 10_000
WORTH_COMPILING = 400
LONGEST_CHAIN = 40
MOST_ON_THE_WAY = 50_000


Move = tuple[int, int]
"""A pitch class and the steps it moves."""
Onward = dict[Scale, tuple[tuple[Move, Scale], ...]]
"""For each scale the changes that lead nearer to the end."""


class Distance(StrEnum):
    """By what scales are near each other."""

    VOICE_LEADING = "voice leading"
    COMMON_TONES = "common tones"
    INTERVAL_CONTENT = "interval content"
    ONE_STEP_MOVES = "one-step moves"


def _require_rooted(scale: Scale) -> None:
    if not scale.is_rooted:
        raise InputError(
            "a set without its root", "a catalogue holds scales with their root", "Add the root, or choose another."
        )


def _require_division(catalogue: Catalogue, scale: Scale) -> None:
    if scale.divisions != catalogue.divisions:
        raise InputError(
            f"a scale of {scale.divisions} divisions",
            f"this catalogue has {catalogue.divisions}",
            "Open the catalogue of the scale's own division.",
        )


def _transpositions(scale: Scale, *, any_root: bool) -> list[int]:
    turns = range(scale.divisions) if any_root else (0,)
    return list(dict.fromkeys(rotated_mask(scale.mask, turn, scale.divisions) for turn in turns))


def containing(scale: Scale, *, any_root: bool = False) -> Terms:
    """Ask for the scales that contain every tone of a scale, or of a set of tones above the root.

    Parameters
    ----------
    scale : Scale
        The scale; its tones are counted from its root, which need not be one of them.
    any_root : bool
        Whether any transposition of the scale will do.

    Returns
    -------
    Terms
        For `Catalogue.find`.

    Examples
    --------
    >>> containing(Scale.of(0, 4, 7)).where
    ('((mask & 145) = 145)',)
    """
    parts = (f"(mask & {mask}) = {mask}" for mask in _transpositions(scale, any_root=any_root))
    return Terms((f"({' OR '.join(parts)})",))


def within(scale: Scale, *, any_root: bool = False) -> Terms:
    """Ask for the scales all of whose tones belong to a scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    any_root : bool
        Whether any transposition of the scale will do.

    Returns
    -------
    Terms
        For `Catalogue.find`.

    Examples
    --------
    >>> within(Scale.of(0, 4, 7)).where
    ('((mask & 145) = mask)',)
    """
    parts = (f"(mask & {mask}) = mask" for mask in _transpositions(scale, any_root=any_root))
    return Terms((f"({' OR '.join(parts)})",))


def like(
    catalogue: Catalogue,
    scale: Scale,
    by: Distance | str = Distance.VOICE_LEADING,
    *,
    condition: str = "",
    columns: Sequence[str] | None = None,
    limit: int = LIMIT,
    terms: Terms | None = None,
) -> pa.Table:
    """Find the scales nearest to a scale, itself left out.

    Parameters
    ----------
    catalogue : Catalogue
        The catalogue of the scale's division.
    scale : Scale
        The scale.
    by : Distance
        The distance.
    condition : str
        A condition the scales found must meet.
    columns : sequence of str, optional
        The columns wanted; all stored ones and `bits` without it.
    limit : int in [1, 10000]
        The most rows.
    terms : Terms, optional
        Further conditions, as `containing` and `within` give them.

    Returns
    -------
    pyarrow.Table
        The nearest first, with a column `distance` before the others.

    Raises
    ------
    InputError
        If the condition or a column is not understood, or the scale lacks its root.
    DomainError
        If the distance is unknown, or the catalogue holds classes only and the distance is one between rooted scales.
    """
    _require_division(catalogue, scale)
    _require_rooted(scale)
    if by not in set(Distance):
        raise DomainError(f"'{by}'", f"distances are {', '.join(Distance)}", "Choose one of these.")
    if not catalogue.coverage.is_rooted and by != Distance.INTERVAL_CONTENT:
        raise DomainError(
            f"{by} in {scale.divisions} divisions",
            "the catalogue of so large a division holds one row for each class, so only interval content can be asked",
            f"Use the distance '{Distance.INTERVAL_CONTENT}', or a division of at most 24.",
        )
    if not 1 <= limit <= MOST_NEAREST:
        raise InputError(f"limit {limit}", f"the nearest 1 to {MOST_NEAREST:,} can be asked for", "Choose a number.")
    where = (f"{MASK} <> {scale.mask}", *(terms.where if terms else ()))
    size_tie = (f"abs(bit_count({MASK})::INTEGER - {scale.cardinality})",)
    match by:
        case Distance.COMMON_TONES:
            asked = Terms(where, f"bit_count(xor({MASK}, {scale.mask}::UBIGINT))::INTEGER", size_tie)
        case Distance.INTERVAL_CONTENT:
            vector = enumerate(interval_class_vector(scale), 1)
            parts = (f"abs(interval_class_vector[{place}] - {count})" for place, count in vector)
            asked = Terms((*where, "interval_class_vector IS NOT NULL"), " + ".join(parts), size_tie)
        case _:
            if by == Distance.ONE_STEP_MOVES:
                where = (*where, f"bit_count({MASK}) = {scale.cardinality}")
            return _by_voices(catalogue, scale, Terms(where), condition, columns, limit)
    return catalogue.find(condition, columns=columns, limit=limit, terms=asked)


def _by_voices(
    catalogue: Catalogue, scale: Scale, terms: Terms, condition: str, columns: Sequence[str] | None, limit: int
) -> pa.Table:
    """Find the nearest by voice leading: cheap lower bounds for all, exact sizes as far as they can matter."""
    import pyarrow as pa  # noqa: PLC0415 - loaded with the first answer anyway

    masks = catalogue.find(condition, columns=[MASK], terms=terms).column(MASK).to_numpy()
    nearest = _nearest(masks, scale, limit)
    wanted = [MASK, *(columns or [name for name in catalogue.kinds if name not in {MASK, "names"}])]
    chosen = ", ".join(str(mask) for _, mask in nearest) or "0"
    rows = catalogue.find(columns=list(dict.fromkeys(wanted)), terms=Terms((f"{MASK} IN ({chosen})",)))
    places = {mask: place for place, mask in enumerate(rows.column(MASK).to_pylist())}
    ordered = rows.take(pa.array([places[mask] for _, mask in nearest], pa.int64()))
    if columns is not None and MASK not in [name.lower() for name in columns]:
        ordered = ordered.drop_columns([MASK])
    return ordered.add_column(0, "distance", pa.array([size for size, _ in nearest], pa.int32()))


def _nearest(masks: NDArray[np.uint64], scale: Scale, limit: int) -> list[tuple[int, int]]:
    """Give size and mask of the nearest sets, exactly as if all had been measured."""
    bounds = _lower_bounds(masks, scale)
    found: list[tuple[int, int, int]] = []
    for bound in np.unique(bounds):
        # A set whose bound is this high cannot come before `limit` sets that are nearer.
        if sum(1 for size, *_ in found if size < bound) >= limit:
            break
        level = masks[bounds == bound]
        gaps = np.abs(np.bitwise_count(level).astype(np.int64) - scale.cardinality)
        found.extend(zip(_sizes(level, scale), gaps.tolist(), level.tolist(), strict=True))
        found = heapq.nsmallest(limit, found)
    return [(size, mask) for size, _, mask in found]


def _sizes(masks: NDArray[np.uint64], scale: Scale) -> list[int]:
    if masks.size < WORTH_COMPILING:
        tones = scale.tones
        return [
            int(voice_leading_size(tones, Scale(int(mask), scale.divisions).tones, scale.divisions)) for mask in masks
        ]
    from gamutwright.kernels.distance import voice_leading_sizes  # noqa: PLC0415 - it loads a compiler

    sizes: list[int] = voice_leading_sizes(masks, scale.mask, scale.divisions).tolist()
    return sizes


def _lower_bounds(masks: NDArray[np.uint64], scale: Scale) -> NDArray[np.int32]:
    """Bound voice leadings from below: each voice goes at least to the nearest tone of the other set, both ways."""
    divisions, full = scale.divisions, np.uint64((1 << scale.divisions) - 1)
    own = np.uint64(scale.mask)
    total_to, total_from = np.zeros(masks.size, np.int32), np.zeros(masks.size, np.int32)
    own_reach, reach = int(own), masks
    for _ in range(divisions // 2):
        total_to += np.bitwise_count(masks & ~np.uint64(own_reach))
        total_from += np.bitwise_count(own & ~reach)
        own_reach |= rotated_mask(own_reach, 1, divisions) | rotated_mask(own_reach, -1, divisions)
        up = (reach << np.uint64(1)) | (reach >> np.uint64(divisions - 1))
        down = (reach >> np.uint64(1)) | (reach << np.uint64(divisions - 1))
        reach = (reach | up | down) & full
    return np.maximum(total_to, total_from)


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
    goal = end.pitch_classes

    @cache
    def left(pitch_classes: frozenset[int]) -> int:
        return int(voice_leading_size(sorted(pitch_classes), goal, start.divisions))

    total = left(frozenset(start.pitch_classes))
    if total > LONGEST_CHAIN:
        raise _too_far(total)
    first = Scale(start.mask, start.divisions, start.root)
    onward = _onward(first, total, left)
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
            place = (scale.root != start.root, rotated_mask(scale.mask, scale.root, scale.divisions))
            heapq.heappush(waiting, (-promise, (*order, place), (*way, scale), (*moves, move)))
    return tuple(chains)


def _check_ends(start: Scale, end: Scale, limit: int) -> None:
    _require_rooted(start)
    _require_rooted(end)
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


def _onward(first: Scale, total: int, left: Callable[[frozenset[int]], int]) -> Onward:
    """Every scale on a shortest way with the changes that lead nearer, the nearest to the start first."""
    onward: Onward = {}
    level = [first]
    for rest in range(total - 1, -1, -1):
        following: dict[Scale, None] = {}
        for scale in level:
            nearer = tuple(
                (move, moved) for move, moved in _followed(scale) if left(frozenset(moved.pitch_classes)) == rest
            )
            onward[scale] = nearer
            following |= dict.fromkeys(moved for _, moved in nearer)
        level = list(following)
        if len(onward) + len(level) > MOST_ON_THE_WAY:
            raise _too_far(total)
    return onward | dict.fromkeys(level, ())


def _most_named(onward: Onward, called: Any) -> dict[Scale, int]:  # noqa: ANN401 - a mapping by mask
    """For each scale the most named ones from it to the end, the end left out."""
    best: dict[Scale, int] = {}
    for scale, nearer in reversed(onward.items()):
        ahead = max((best[moved] for _, moved in nearer), default=0)
        best[scale] = ahead + (bool(nearer) and scale.mask in called)
    return best
