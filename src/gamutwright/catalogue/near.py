"""What is near a scale: the nearest by a chosen distance, those that contain it and those that lie within it.

Distances, all from the scale as given to scales on the same root:

- *voice leading*: the size of the minimal voice leading, in steps of the division (`theory.voiceleading`, L1);
- *common tones*: how many tones are not common to both, each counted once;
- *interval content*: the sum of the differences between the interval-class vectors, Morris's SIM (`theory.distance`);
- *one-step moves*: how many times one tone has to move by one step into an empty place.

Between sets of equal size the fewest one-step moves are as many as the size of the minimal voice leading: no smallest
voice leading needs voices to cross, so its voices can be moved one step at a time, the foremost first.

Conventions: two scales are compared on the same root unless any root is asked for, which takes every transposition of
the scale; it changes what contains the scale or lies within it, never the distances. Equal distances are put in the
order of the difference in size, then of the set.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from enum import StrEnum
from importlib.util import find_spec

import numpy as np
from numpy.typing import NDArray

from gamutwright.catalogue.fact_columns import MASK
from gamutwright.catalogue.query import BITS, Catalogue, Terms
from gamutwright.catalogue.rows import Rows
from gamutwright.errors import DomainError, InputError
from gamutwright.theory.pcset import interval_class_vector
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.voiceleading import voice_leading_size

__all__ = ["Distance", "containing", "like", "sizes_to", "within"]

LIMIT = 20
MOST_NEAREST = 10_000
WORTH_COMPILING = 1_000
LARGEST_WORD = 62
FIRST_REACH = 2
PIECE = 12


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
    ('((_set & 145) = 145)',)
    """
    parts = (f"({MASK} & {mask}) = {mask}" for mask in _transpositions(scale, any_root=any_root))
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
    ('((_set & 145) = _set)',)
    """
    parts = (f"({MASK} & {mask}) = {MASK}" for mask in _transpositions(scale, any_root=any_root))
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
) -> Rows:
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
        The columns wanted; all stored ones, `bits` and `class_bits` without it.
    limit : int in [1, 10000]
        The most rows.
    terms : Terms, optional
        Further conditions, as `containing` and `within` give them.

    Returns
    -------
    Rows
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
) -> Rows:
    """Find the nearest by voice leading: cheap lower bounds for all, exact sizes as far as they can matter."""
    nearest = _nearest(catalogue.sets(condition, terms), scale, limit)
    wanted = [catalogue.column(name) for name in columns] if columns is not None else list(catalogue.stored)
    among = Terms((f"{MASK} IN ({', '.join(str(mask) for _, mask in nearest) or '0'})",))
    rows = catalogue.find(columns=list(dict.fromkeys([BITS, *wanted])), terms=among)
    shown = rows.chosen(wanted)
    places = {Scale.from_bits(bits).mask: place for place, bits in enumerate(rows.column(BITS))}
    cells = [(size, *shown.cells[places[mask]]) for size, mask in nearest]
    return Rows({"distance": "INTEGER"} | dict(shown.kinds), cells)


def _nearest(masks: NDArray[np.uint64], scale: Scale, limit: int) -> list[tuple[int, int]]:
    """Give size and mask of the nearest sets, exactly as if all had been measured."""
    bounds = _ways_to(masks, scale)
    reach = FIRST_REACH
    while True:
        # Sets beyond the reach are farther away than it; they matter only if too few are found within.
        within_reach = masks[bounds <= reach]
        found = _nearest_within(within_reach, scale, limit)
        if within_reach.size == masks.size or (len(found) >= limit and found[limit - 1][0] <= reach):
            return [(size, mask) for size, _, mask in found]
        reach *= 2


def _nearest_within(masks: NDArray[np.uint64], scale: Scale, limit: int) -> list[tuple[int, int, int]]:
    """Measure sets in the order of their lower bounds, as far as they can matter: size, difference in tones, mask."""
    bounds = np.maximum(_ways_to(masks, scale), _ways_from(masks, scale))
    found: list[tuple[int, int, int]] = []
    for bound in np.unique(bounds):
        # A set whose bound is this high cannot come before `limit` sets that are nearer.
        if len(found) >= limit and found[limit - 1][0] < bound:
            break
        level = masks[bounds == bound].tolist()
        gaps = (abs(mask.bit_count() - scale.cardinality) for mask in level)
        found.extend(zip(sizes_to(scale, level), gaps, level, strict=True))
        found = heapq.nsmallest(limit, found)
    return found


def sizes_to(scale: Scale, masks: Sequence[int]) -> list[int]:
    """Measure the minimal voice leadings between a scale and many sets; compiled, where numba is, if they are many.

    Parameters
    ----------
    scale : Scale
        The scale; its tones are counted from its root.
    masks : sequence of int
        The sets, none of them empty, counted from the same root.

    Returns
    -------
    list of int, steps of the division
        The sizes (L1).

    Examples
    --------
    >>> sizes_to(Scale.of(0, 4, 7), [0b10001001, 0b1000010001])
    [1, 2]
    """
    divisions, tones = scale.divisions, scale.tones
    if len(masks) < WORTH_COMPILING or divisions > LARGEST_WORD or not find_spec("numba"):
        return [int(voice_leading_size(tones, Scale(mask, divisions).tones, divisions)) for mask in masks]
    from gamutwright.kernels.distance_matrix import voice_leading_sizes  # noqa: PLC0415 - it loads a compiler

    sizes: list[int] = voice_leading_sizes(np.array(masks, np.uint64), scale.mask, divisions).tolist()
    return sizes


def _ways_to(masks: NDArray[np.uint64], scale: Scale) -> NDArray[np.uint16]:
    """Bound voice leadings from below: each tone of a set goes at least to the nearest tone of the scale."""
    divisions = scale.divisions
    ways = [
        min(min((tone - step) % divisions, (step - tone) % divisions) for tone in scale.tones)
        for step in range(divisions)
    ]
    total = np.zeros(masks.size, np.uint16)
    for start in range(0, divisions, PIECE):
        piece = np.arange(1 << min(PIECE, divisions - start))
        table = np.zeros(piece.size, np.uint16)
        for step in range(start, min(start + PIECE, divisions)):
            table += ((piece >> (step - start)) & 1).astype(np.uint16) * np.uint16(ways[step])
        total += table[((masks >> np.uint64(start)) & np.uint64((1 << PIECE) - 1)).astype(np.intp)]
    return total


def _ways_from(masks: NDArray[np.uint64], scale: Scale) -> NDArray[np.uint16]:
    """Bound voice leadings from below: each tone of the scale goes at least to the nearest tone of a set."""
    divisions, own = scale.divisions, np.uint64(scale.mask)
    full, around = np.uint64((1 << divisions) - 1), np.uint64(divisions - 1)
    total, one, reached = np.zeros(masks.size, np.uint16), np.uint64(1), masks
    for _ in range(divisions // 2):
        total += np.bitwise_count(own & ~reached)
        up, down = (reached << one) | (reached >> around), (reached >> one) | (reached << around)
        reached = (reached | up | down) & full
    return total
