"""How alike two sets are: indices of similarity, and Forte's relations, from the intervals and subsets they hold.

* SIM and ASIM: Robert Morris, "A Similarity Index for Pitch-Class Sets", Perspectives of New Music 18 (1980).
* IcVSIM: Eric Isaacson, "Similarity of Interval-Class Content", Journal of Music Theory 34 (1990).
* cos(theta): Damon Scott and Eric Isaacson, "The Interval Angle", Perspectives of New Music 36 (1998).
* %REL2: Marcus Castren, "RECREL: A Similarity Measure for Set-Classes" (1994).
* REL: David Lewin, "A Response to a Response: On PC Set Relatedness", Perspectives of New Music 18 (1980).
* R0, R1, R2, Rp: Allen Forte, "The Structure of Atonal Music" (1973), section 1.13.

**Conventions**: both sets belong to the same division; roots do not matter. Vectors are interval-class vectors. SIM,
ASIM, IcVSIM and %REL2 are 0 for equal vectors and grow with unlikeness; cos(theta) and REL are 1 for equal content and
fall. REL compares subsets of two tones up to as many as the smaller set has. Where classes allow inversion, a subset
counts once; under transposition alone it counts once for each transposition that carries its class into the set, so a
tritone counts twice and an augmented triad three times, which is how the values printed by Tuire Kuusi (2001) arise.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import lru_cache
from itertools import combinations
from math import fsum, hypot, sqrt

from gamutwright.errors import DomainError
from gamutwright.theory.pcset import interval_class_vector, transposition_stabiliser
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = [
    "MOST_TONES_FOR_SUBSETS",
    "asim",
    "cos_theta",
    "forte_relations",
    "icv_sim",
    "percent_rel2",
    "rel_tn",
    "rel_tni",
    "sim",
    "subset_class_counts",
]

MOST_TONES_FOR_SUBSETS = 16
"""Most tones of a set whose subsets are listed: their number doubles with each tone."""


def _vectors(scale: Scale, other: Scale) -> tuple[tuple[int, ...], tuple[int, ...]]:
    if scale.divisions != other.divisions:
        raise DomainError(
            f"sets of {scale.divisions} and {other.divisions} divisions",
            "only sets of one division are compared",
            "Choose two sets of the same division.",
        )
    return interval_class_vector(scale), interval_class_vector(other)


def sim(scale: Scale, other: Scale) -> int:
    """Give Morris's SIM: the sum of the differences between the two vectors.

    Parameters
    ----------
    scale, other : Scale
        The sets, of one division.

    Returns
    -------
    int
        0 where the vectors are equal.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> sim(Scale.of(0, 1, 3, 6), Scale.of(0, 2, 4, 7))
    6
    """
    return sum(abs(v - w) for v, w in zip(*_vectors(scale, other), strict=True))


def asim(scale: Scale, other: Scale) -> Fraction | None:
    """Give Morris's ASIM: SIM divided by the number of intervals in both sets.

    Parameters
    ----------
    scale, other : Scale
        The sets, of one division.

    Returns
    -------
    Fraction or None
        In [0, 1]; None where neither set has an interval.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> asim(Scale.of(0, 1, 2, 3, 4), Scale.of(0, 2, 4, 6, 8))
    Fraction(3, 5)
    """
    intervals = sum(map(sum, _vectors(scale, other)))
    return Fraction(sim(scale, other), intervals) if intervals else None


def icv_sim(scale: Scale, other: Scale) -> float | None:
    """Give Isaacson's IcVSIM: the standard deviation of the differences between the two vectors.

    Parameters
    ----------
    scale, other : Scale
        The sets, of one division.

    Returns
    -------
    float or None
        0 where all entries differ by the same amount; None in the one division without interval classes.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> round(icv_sim(Scale.of(0, 1, 3, 6), Scale.of(0, 2, 4, 7)), 4)
    1.0
    """
    differences = [w - v for v, w in zip(*_vectors(scale, other), strict=True)]
    if not differences:
        return None
    mean = Fraction(sum(differences), len(differences))
    return sqrt(sum((difference - mean) ** 2 for difference in differences) / len(differences))


def cos_theta(scale: Scale, other: Scale) -> float | None:
    """Give the cosine of the angle between the two vectors.

    Parameters
    ----------
    scale, other : Scale
        The sets, of one division.

    Returns
    -------
    float or None
        In [0, 1]; None where a set has no interval.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> round(cos_theta(Scale.of(0, 4, 8), Scale.of(0, 4, 7)), 4)
    0.5774
    """
    one, two = _vectors(scale, other)
    lengths = hypot(*one) * hypot(*two)
    return min(1.0, sum(v * w for v, w in zip(one, two, strict=True)) / lengths) if lengths else None


def percent_rel2(scale: Scale, other: Scale) -> Fraction | None:
    """Give Castren's %REL2: half the sum of the differences between the two vectors in per cent.

    Parameters
    ----------
    scale, other : Scale
        The sets, of one division.

    Returns
    -------
    Fraction or None
        In [0, 100]; None where a set has fewer than two tones.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> percent_rel2(Scale.of(0, 1, 2, 3, 4), Scale.of(0, 2, 4, 6, 8))
    Fraction(60, 1)
    """
    one, two = _vectors(scale, other)
    if not sum(one) or not sum(two):
        return None
    shares = (abs(Fraction(v, sum(one)) - Fraction(w, sum(two))) for v, w in zip(one, two, strict=True))
    return 50 * sum(shares, Fraction(0))


@lru_cache(maxsize=1 << 14)
def _class_of(mask: int, divisions: int, *, inversions: bool) -> int:
    """Least mask among the transpositions of a set, and of its inversion where that counts."""
    forms = [mask, Scale(mask, divisions).inverted().mask] if inversions else [mask]
    return min(rotated_mask(form, steps, divisions) for form in forms for steps in range(divisions))


def subset_class_counts(scale: Scale, size: int, *, inversions: bool) -> Counter[int]:
    """Count the subsets of a size by class (the subset-class vector of Castren 1994).

    Parameters
    ----------
    scale : Scale, up to 16 tones
        The set.
    size : int >= 0
        Number of tones in a subset.
    inversions : bool
        Whether inversions count as one class.

    Returns
    -------
    Counter of int
        How many subsets belong to a class; a class is named by the least mask among its sets.

    Raises
    ------
    DomainError
        If the set has more than 16 tones.

    Examples
    --------
    >>> sorted(subset_class_counts(Scale.of(0, 1, 2, 3), 3, inversions=True).items())
    [(7, 2), (11, 2)]
    """
    if scale.cardinality > MOST_TONES_FOR_SUBSETS:
        raise DomainError(
            f"{scale.cardinality} tones",
            f"subsets are listed for sets of up to {MOST_TONES_FOR_SUBSETS} tones",
            "Choose a smaller set.",
        )
    bits = [1 << tone for tone in scale.tones]
    return Counter(
        _class_of(sum(subset), scale.divisions, inversions=inversions) for subset in combinations(bits, size)
    )


def _rel(scale: Scale, other: Scale, *, inversions: bool) -> float | None:
    _vectors(scale, other)
    roots: list[float] = []
    in_scale = in_other = 0
    for size in range(2, min(scale.cardinality, other.cardinality) + 1):
        mine = subset_class_counts(scale, size, inversions=inversions)
        others = subset_class_counts(other, size, inversions=inversions)
        for class_mask in mine.keys() | others.keys():
            weight = 1 if inversions else len(transposition_stabiliser(Scale(class_mask, scale.divisions)))
            in_scale += weight * mine[class_mask]
            in_other += weight * others[class_mask]
            roots.append(weight * sqrt(mine[class_mask] * others[class_mask]))
    return fsum(roots) / sqrt(in_scale * in_other) if roots else None


def rel_tn(scale: Scale, other: Scale) -> float | None:
    """Give Lewin's REL over classes under transposition.

    Parameters
    ----------
    scale, other : Scale, up to 16 tones
        The sets, of one division.

    Returns
    -------
    float or None
        In [0, 1]; None where a set has fewer than two tones.

    Raises
    ------
    DomainError
        If the divisions differ, or a set has more than 16 tones.

    Examples
    --------
    >>> round(rel_tn(Scale.of(0, 1, 2, 3, 4), Scale.of(0, 2, 4, 6, 8)), 4)
    0.2535
    """
    return _rel(scale, other, inversions=False)


def rel_tni(scale: Scale, other: Scale) -> float | None:
    """Give Lewin's REL over classes under transposition and inversion.

    Parameters
    ----------
    scale, other : Scale, up to 16 tones
        The sets, of one division.

    Returns
    -------
    float or None
        In [0, 1]; None where a set has fewer than two tones.

    Raises
    ------
    DomainError
        If the divisions differ, or a set has more than 16 tones.

    Examples
    --------
    >>> round(rel_tni(Scale.of(0, 2, 3, 5, 7), Scale.of(0, 2, 3, 4, 5, 8)), 4)
    0.5934
    """
    return _rel(scale, other, inversions=True)


def forte_relations(scale: Scale, other: Scale) -> tuple[str, ...]:
    """Name the relations of Forte 1973 that hold between two sets of equally many tones.

    Parameters
    ----------
    scale, other : Scale, 12 divisions, equally many tones
        The sets.

    Returns
    -------
    tuple of str
        In this order: "R0" no entry of the vectors is equal; "R1" four are, and the other two are exchanged; "R2" four
        are, and the other two are not exchanged; "Rp" they share a class of subsets with one tone fewer.

    Raises
    ------
    DomainError
        If the sets are not of twelve divisions or not of equally many tones.

    Examples
    --------
    >>> forte_relations(Scale.of(0, 1, 2, 3), Scale.of(0, 2, 5, 7))
    ('R1',)
    """
    if scale.divisions != 12 or other.divisions != 12 or scale.cardinality != other.cardinality:
        raise DomainError(
            f"sets of {scale.cardinality} and {other.cardinality} tones",
            "Forte's relations compare sets of equally many tones in twelve divisions",
            "Choose two such sets.",
        )
    one, two = _vectors(scale, other)
    apart = [index for index in range(6) if one[index] != two[index]]
    found = ["R0"] if len(apart) == 6 else []
    if len(apart) == 2:
        first, second = apart
        exchanged = one[first] == two[second] and one[second] == two[first]
        found.append("R1" if exchanged else "R2")
    fewer = scale.cardinality - 1
    if fewer > 0:
        mine = subset_class_counts(scale, fewer, inversions=True)
        if mine.keys() & subset_class_counts(other, fewer, inversions=True).keys():
            found.append("Rp")
    return tuple(found)
