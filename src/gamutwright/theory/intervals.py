"""Intervals and common tones: which distances a set holds, and what it shares with its transpositions.

The interval class of two tones is the smaller of the two ways round the octave between them. Interval-class vectors
follow Allen Forte, "The Structure of Atonal Music" (1973); common tones under transposition and inversion John Rahn,
"Basic Atonal Theory" (1980), and Joseph Straus, "Introduction to Post-Tonal Theory"; deep scales Carlton Gamer, Journal
of Music Theory 11 (1967); rare intervals Richmond Browne, In Theory Only 5 (1981).

**Conventions**: a pair of tones is listed once, its lower tone above the root first. The half octave is counted once as
an interval class, but transposing by it carries both of its tones onto each other, so it yields two common tones.
"""

from __future__ import annotations

from itertools import combinations

from gamutwright.errors import DomainError
from gamutwright.theory.pcset import interval_class_vector
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = [
    "common_tones_inversion",
    "common_tones_transposition",
    "hemitonic_word",
    "interval_class",
    "is_deep",
    "pairs_by_interval_class",
    "pairs_of_class",
    "rare_intervals",
    "semitone_runs",
    "tones_without_fifth",
]

FIFTH = 7
"""Semitones of the perfect fifth in twelve divisions."""


def interval_class(size: int, divisions: int) -> int:
    """Give the interval class of a size: the smaller way round the octave.

    Parameters
    ----------
    size : int
        Steps of the division, in either direction.
    divisions : int > 0
        Equal divisions of the octave.

    Returns
    -------
    int in [0, divisions // 2]
        The interval class.

    Examples
    --------
    >>> interval_class(7, 12), interval_class(-3, 12)
    (5, 3)
    """
    return min(size % divisions, -size % divisions)


def pairs_of_class(scale: Scale, of_class: int) -> tuple[tuple[int, int], ...]:
    """List the pairs of tones of one interval class.

    Parameters
    ----------
    scale : Scale
        The scale.
    of_class : int in [1, divisions // 2]
        The interval class.

    Returns
    -------
    tuple of tuple of int
        Each pair once, the lower tone above the root first, upwards.

    Examples
    --------
    >>> pairs_of_class(Scale.of(0, 2, 4, 5, 7, 9, 11), 6)
    ((5, 11),)
    """
    return tuple(
        (low, high)
        for low, high in combinations(scale.tones, 2)
        if interval_class(high - low, scale.divisions) == of_class
    )


def pairs_by_interval_class(scale: Scale) -> tuple[tuple[int, tuple[int, int]], ...]:
    """List every pair of tones with its interval class, class by class.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of (int, tuple of int)
        Interval class and pair; within a class upwards from the root.

    Examples
    --------
    >>> pairs_by_interval_class(Scale.of(0, 4, 7))
    ((3, (4, 7)), (4, (0, 4)), (5, (0, 7)))
    """
    return tuple(
        sorted((interval_class(high - low, scale.divisions), (low, high)) for low, high in combinations(scale.tones, 2))
    )


def common_tones_transposition(scale: Scale) -> tuple[int, ...]:
    """Count the tones that the set shares with each of its transpositions.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int, length divisions - 1
        For transposition by 1, 2, ... steps.

    Examples
    --------
    >>> common_tones_transposition(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (2, 5, 4, 3, 6, 2, 6, 3, 4, 5, 2)
    """
    n = scale.divisions
    return tuple((scale.mask & rotated_mask(scale.mask, steps, n)).bit_count() for steps in range(1, n))


def common_tones_inversion(scale: Scale) -> tuple[int, ...]:
    """Count the tones that the set shares with each of its inversions (the index vector).

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int, length divisions
        Entry k for the inversion that sends x to k - x, tones counted from the root.

    Examples
    --------
    >>> common_tones_inversion(Scale.of(0, 4, 7))
    (1, 0, 1, 0, 2, 0, 0, 2, 1, 0, 0, 2)
    """
    n, inverted = scale.divisions, scale.inverted().mask
    return tuple((scale.mask & rotated_mask(inverted, index, n)).bit_count() for index in range(n))


def is_deep(scale: Scale) -> bool:
    """Whether every interval class occurs a different number of times.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        Whether the entries of the interval-class vector all differ; an interval class may be missing, but only one.

    Examples
    --------
    >>> is_deep(Scale.of(0, 2, 4, 5, 7, 9, 11)), is_deep(Scale.of(0, 2, 4, 6, 8, 10))
    (True, False)
    """
    vector = interval_class_vector(scale)
    return len(set(vector)) == len(vector)


def rare_intervals(scale: Scale) -> tuple[int, ...]:
    """Give the interval classes that occur, but less often than any other that does.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        Interval classes, ascending; empty for fewer than two tones.

    Examples
    --------
    >>> rare_intervals(Scale.of(0, 2, 4, 5, 7, 9, 11)), rare_intervals(Scale.of(0, 4, 7))
    ((6,), (3, 4, 5))
    """
    vector = interval_class_vector(scale)
    least = min((often for often in vector if often), default=0)
    return tuple(index for index, often in enumerate(vector, start=1) if often and often == least)


def _require_twelve(scale: Scale, notion: str) -> None:
    if scale.divisions != 12:
        raise DomainError(
            f"{scale.divisions} divisions", f"{notion} belong to twelve divisions", "Use twelve divisions."
        )


def tones_without_fifth(scale: Scale) -> tuple[int, ...]:
    """List the tones whose perfect fifth above is not in the scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of int
        Tones in steps above the root, upwards.

    Raises
    ------
    DomainError
        If the octave has another division.

    Examples
    --------
    >>> tones_without_fifth(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (11,)
    """
    _require_twelve(scale, "perfect fifths of seven semitones")
    lacking = scale.mask & ~rotated_mask(scale.mask, -FIFTH, 12)
    return Scale(lacking).tones


def semitone_runs(scale: Scale) -> tuple[tuple[int, int, int], ...]:
    """List the places where two semitone steps follow each other.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of tuple of int
        The three tones of each, upwards from the root by the first; runs across the root count.

    Raises
    ------
    DomainError
        If the octave has another division.

    Examples
    --------
    >>> semitone_runs(Scale.of(0, 3, 5, 6, 7, 10))
    ((5, 6, 7),)
    """
    _require_twelve(scale, "semitones")
    mask = scale.mask
    starts = mask & rotated_mask(mask, -1, 12) & rotated_mask(mask, -2, 12)
    return tuple((tone, (tone + 1) % 12, (tone + 2) % 12) for tone in Scale(starts).tones)


def hemitonic_word(scale: Scale) -> str:
    """Say whether the scale has semitone steps.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    str
        "anhemitonic" or "hemitonic".

    Raises
    ------
    DomainError
        If the octave has another division.

    Examples
    --------
    >>> hemitonic_word(Scale.of(0, 2, 4, 7, 9)), hemitonic_word(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('anhemitonic', 'hemitonic')
    """
    _require_twelve(scale, "semitones")
    return "hemitonic" if 1 in scale.step_pattern else "anhemitonic"
