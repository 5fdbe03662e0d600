"""Propriety, stability and efficiency: whether a listener can place tones in a scale by their intervals.

A listener who can tell intervals by size also places tones in the scale if a larger span never sounds smaller. David
Rothenberg, "A Model for Pattern Perception with Musical Applications", Mathematical Systems Theory 11 and 12 (1978),
calls such scales proper and measures their stability and efficiency. Gerald Balzano, Computer Music Journal 4(4)
(1980), asks for slightly more and calls it coherence.

**Conventions**: spans and sizes are those of `spectra`; an interval with a direction goes upwards from its first tone.
Nothing here depends on the root.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import comb

from gamutwright.errors import DomainError
from gamutwright.theory.coherence import ambiguities, contradictions
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.spectra import interval_sizes

__all__ = [
    "MOST_TONES_FOR_EFFICIENCY",
    "efficiency",
    "is_balzano_coherent",
    "propriety",
    "stability",
    "unambiguous_pairs",
]

MOST_TONES_FOR_EFFICIENCY = 20
"""Most tones for which efficiency is computed: the work doubles with each tone."""


def propriety(scale: Scale) -> str:
    """Say whether a larger span is ever smaller in size, or equal.

    Parameters
    ----------
    scale : Scale
        The scale; fewer than three tones have one span at most and are strictly proper.

    Returns
    -------
    str
        "strictly proper" where every larger span is larger in size, "proper" where some are equal but none smaller,
        "improper" otherwise.

    Examples
    --------
    >>> propriety(Scale.of(0, 2, 4, 7, 9)), propriety(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('strictly proper', 'proper')
    >>> propriety(Scale.of(0, 2, 3, 7, 8))
    'improper'
    """
    rows = interval_sizes(scale)
    gaps = [min(high) - max(low) for low, high in pairwise(rows)]
    if all(gap > 0 for gap in gaps):
        return "strictly proper"
    return "proper" if all(gap >= 0 for gap in gaps) else "improper"


def is_balzano_coherent(scale: Scale) -> bool:
    """Whether no larger span is smaller, and none equal but for the two halves of the octave, once.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        Whether there is no contradiction and at most one ambiguity. A single ambiguity can only be that of the two
        sides of a half octave, since any other comes with the ambiguity of its inversions.

    Examples
    --------
    >>> is_balzano_coherent(Scale.of(0, 2, 4, 5, 7, 9, 11)), is_balzano_coherent(Scale.of(0, 2, 3, 5, 7, 8, 11))
    (True, False)
    """
    return contradictions(scale) == 0 and ambiguities(scale) <= 1


def unambiguous_pairs(scale: Scale) -> tuple[tuple[int, int], ...]:
    """List the pairs of tones whose distance occurs in one span only.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of tuple of int
        Lower and upper tone above the root, upwards.

    Examples
    --------
    >>> unambiguous_pairs(Scale.of(0, 1, 6))
    ((0, 1), (1, 6))
    """
    spans_of = Counter(size for row in interval_sizes(scale) for size in set(row))
    tones = scale.tones
    return tuple((low, high) for i, low in enumerate(tones) for high in tones[i + 1 :] if spans_of[high - low] == 1)


def stability(scale: Scale) -> Fraction | None:
    """Give the share of tone pairs whose distance alone tells their span.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Fraction or None
        In [0, 1]; None for an improper scale, for which Rothenberg gives it no meaning, and for fewer than two tones.

    Examples
    --------
    >>> stability(Scale.of(0, 2, 4, 5, 7, 9, 11))
    Fraction(20, 21)
    """
    if scale.cardinality < 2 or propriety(scale) == "improper":
        return None
    return Fraction(len(unambiguous_pairs(scale)), comb(scale.cardinality, 2))


def efficiency(scale: Scale) -> Fraction:
    """Give the share of the scale that must be heard, on average, before its transposition is certain.

    All orders of the tones are equally likely. With m tones heard the transposition is uncertain exactly if they lie
    together in some other transposition, so the mean number of tones to be heard is the sum over m of the share of
    m-tone subsets that do. A family of subsets is one big integer with a bit for each subset.

    Parameters
    ----------
    scale : Scale, 1 to 20 tones
        The scale. Transpositions that reproduce the scale count as one.

    Returns
    -------
    Fraction
        In [0, 1].

    Raises
    ------
    DomainError
        If the scale has no tone or too many.

    Examples
    --------
    >>> efficiency(Scale.of(0, 2, 4, 7, 9)), efficiency(Scale.of(0, 2, 4, 6, 8, 10))
    (Fraction(4, 5), Fraction(1, 6))
    """
    count = scale.cardinality
    if not 1 <= count <= MOST_TONES_FOR_EFFICIENCY:
        raise DomainError(
            f"{count} tones",
            f"efficiency is computed for 1 to {MOST_TONES_FOR_EFFICIENCY} tones",
            "Choose a scale with fewer tones.",
        )
    shared = {scale.mask & rotated_mask(scale.mask, k, scale.divisions) for k in range(1, scale.divisions)}
    shared.discard(scale.mask)
    uncertain = 0
    for common in shared:
        subsets = 1
        for index, tone in enumerate(scale.tones):
            if common >> tone & 1:
                subsets |= subsets << (1 << index)
        uncertain |= subsets
    layers = _subsets_by_size(count)
    return sum(
        (Fraction((uncertain & layer).bit_count(), comb(count, heard)) for heard, layer in enumerate(layers)),
        Fraction(0),
    ) / Fraction(count)


@cache
def _subsets_by_size(count: int) -> tuple[int, ...]:
    """For each size from 0 to `count`: the subsets of that size, bit s standing for the subset with mask s."""
    if count == 0:
        return (1,)
    fewer = (*_subsets_by_size(count - 1), 0)
    more = (0, *_subsets_by_size(count - 1))
    return tuple(without | with_last << (1 << count - 1) for without, with_last in zip(fewer, more, strict=True))
