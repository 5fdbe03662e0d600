"""Coherence and sameness: how often counting scale steps disagrees with measuring intervals, pair by pair.

Jay Rahn, "Coordination of Interval Sizes in Seven-Tone Collections", Journal of Music Theory 35 (1991), names the
disagreements: ambiguities, contradictions and differences. Norman Carey, Journal of Music Theory 46 (2002) and Journal
of Mathematics and Music 1 (2007), counts them and divides by the most that can occur.

**Conventions**: an interval is a pair of tones with a direction, upwards from the first to the second, so a scale of N
tones has N(N - 1); spans and sizes are those of `spectra`. Counts are of pairs of such intervals, never of pairs of
sizes, and come from tables of how often each size occurs in each span. Nothing here depends on the root.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import interval_sizes

__all__ = [
    "IntervalPair",
    "ambiguities",
    "ambiguous_pairs",
    "coherence_failures",
    "coherence_quotient",
    "contradictions",
    "contradictory_pairs",
    "differences",
    "differing_pairs",
    "most_differences",
    "most_failures",
    "sameness_quotient",
]

IntervalPair = tuple[tuple[int, int], tuple[int, int]]
"""Two intervals, each as its first and second tone in steps above the root."""


def _size_counts(scale: Scale) -> list[Counter[int]]:
    """For each span from 1 upwards: how often each size occurs."""
    return [Counter(row) for row in interval_sizes(scale)]


def ambiguities(scale: Scale) -> int:
    """Count the pairs of intervals of different span but equal size.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Number of pairs.

    Examples
    --------
    >>> ambiguities(Scale.of(0, 2, 4, 5, 7, 9, 11)), ambiguities(Scale.of(0, 2, 3, 5, 7, 8, 11))
    (1, 18)
    """
    counts = _size_counts(scale)
    in_all: Counter[int] = Counter()
    for count in counts:
        in_all.update(count)
    within = sum(often * often for count in counts for often in count.values())
    return (sum(often * often for often in in_all.values()) - within) // 2


def contradictions(scale: Scale) -> int:
    """Count the pairs of intervals in which the one of smaller span has the larger size.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Number of pairs.

    Examples
    --------
    >>> contradictions(Scale.of(0, 2, 3, 7, 8)), contradictions(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (4, 0)
    """
    below = [0] * (scale.divisions + 1)
    found = 0
    for count in _size_counts(scale):
        larger = [0] * (scale.divisions + 1)
        for size in range(scale.divisions - 1, -1, -1):
            larger[size] = larger[size + 1] + below[size + 1]
        found += sum(often * larger[size] for size, often in count.items())
        for size, often in count.items():
            below[size] += often
    return found


def coherence_failures(scale: Scale) -> int:
    """Count ambiguities and contradictions together.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Number of pairs of intervals.

    Examples
    --------
    >>> coherence_failures(Scale.of(0, 2, 3, 7, 8))
    5
    """
    return ambiguities(scale) + contradictions(scale)


def differences(scale: Scale) -> int:
    """Count the pairs of intervals of equal span but different size.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Number of pairs.

    Examples
    --------
    >>> differences(Scale.of(0, 2, 4, 5, 7, 9, 11)), differences(Scale.of(0, 3, 6, 9))
    (56, 0)
    """
    tones = scale.cardinality
    equal = sum(often * often for count in _size_counts(scale) for often in count.values())
    return (max(0, tones - 1) * tones * tones - equal) // 2


def most_failures(tones: int) -> int:
    """Give the most coherence failures that a scale of so many tones can have in any division.

    Parameters
    ----------
    tones : int >= 0
        Number of tones N.

    Returns
    -------
    int
        N(N - 1)(N - 2)(3N - 5) / 24, as Carey (2002) gives it.

    Examples
    --------
    >>> [most_failures(tones) for tones in (2, 3, 4, 5, 7)]
    [0, 1, 7, 25, 140]
    """
    return tones * (tones - 1) * (tones - 2) * (3 * tones - 5) // 24


def most_differences(tones: int) -> int:
    """Give the most differences that a scale of so many tones can have in any division.

    Parameters
    ----------
    tones : int >= 0
        Number of tones N.

    Returns
    -------
    int
        N(N - 1)^2 / 2, as Carey (2002) gives it.

    Examples
    --------
    >>> [most_differences(tones) for tones in (1, 2, 3, 4, 5, 7)]
    [0, 1, 6, 18, 40, 126]
    """
    return tones * (tones - 1) ** 2 // 2


def coherence_quotient(scale: Scale) -> Fraction:
    """Give the share of possible coherence failures that the scale avoids.

    Parameters
    ----------
    scale : Scale
        The scale; fewer than three tones cannot fail and give 1.

    Returns
    -------
    Fraction
        In [0, 1].

    Examples
    --------
    >>> coherence_quotient(Scale.of(0, 2, 4, 5, 7, 9, 11))
    Fraction(139, 140)
    """
    return 1 - Fraction(coherence_failures(scale), max(1, most_failures(scale.cardinality)))


def sameness_quotient(scale: Scale) -> Fraction:
    """Give the share of possible differences that the scale avoids.

    Parameters
    ----------
    scale : Scale
        The scale; fewer than two tones cannot differ and give 1.

    Returns
    -------
    Fraction
        In [0, 1].

    Examples
    --------
    >>> sameness_quotient(Scale.of(0, 2, 4, 5, 7, 9, 11))
    Fraction(5, 9)
    """
    return 1 - Fraction(differences(scale), max(1, most_differences(scale.cardinality)))


def _intervals(scale: Scale) -> Iterator[tuple[int, int, tuple[int, int]]]:
    """Span, size and the two tones of every interval, upwards from the root."""
    tones, rows = scale.tones, interval_sizes(scale)
    for i, tone in enumerate(tones):
        for span, row in enumerate(rows, start=1):
            yield span, row[i], (tone, tones[(i + span) % len(tones)])


def ambiguous_pairs(scale: Scale) -> tuple[IntervalPair, ...]:
    """List the pairs of intervals of different span but equal size.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of IntervalPair
        The interval of smaller span first; ordered upwards from the root by that interval.

    Examples
    --------
    >>> ambiguous_pairs(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (((5, 11), (11, 5)),)
    """
    by_size: dict[int, list[tuple[int, tuple[int, int]]]] = {}
    for span, size, pair in _intervals(scale):
        by_size.setdefault(size, []).append((span, pair))
    return tuple(
        (pair, other)
        for span, size, pair in _intervals(scale)
        for other_span, other in by_size[size]
        if other_span > span
    )


def contradictory_pairs(scale: Scale) -> tuple[IntervalPair, ...]:
    """List the pairs of intervals in which the one of smaller span has the larger size.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of IntervalPair
        The interval of smaller span first; ordered upwards from the root by that interval.

    Examples
    --------
    >>> contradictory_pairs(Scale.of(0, 1, 2))
    (((2, 0), (0, 2)),)
    """
    ordered = list(_intervals(scale))
    smallest = [min(row) for row in interval_sizes(scale)]
    found: list[IntervalPair] = []
    for span, size, pair in ordered:
        if any(size > least for least in smallest[span:]):
            found.extend((pair, other) for wider, other_size, other in ordered if wider > span and other_size < size)
    return tuple(found)


def differing_pairs(scale: Scale) -> tuple[IntervalPair, ...]:
    """List the pairs of intervals of equal span but different size.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of IntervalPair
        Span by span; the interval that starts lower above the root first.

    Examples
    --------
    >>> differing_pairs(Scale.of(0, 7))
    (((0, 7), (7, 0)),)
    """
    tones, rows = scale.tones, interval_sizes(scale)
    count = len(tones)
    found: list[IntervalPair] = []
    for span, row in enumerate(rows, start=1):
        pairs = [(tones[i], tones[(i + span) % count]) for i in range(count)]
        for i, size in enumerate(row):
            found.extend((pairs[i], pairs[j]) for j in range(i + 1, count) if row[j] != size)
    return tuple(found)
