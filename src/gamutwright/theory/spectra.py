"""Spans and sizes: what lies between tones when one counts scale steps, and when one counts steps of the division.

An interval inside a scale has a *span* (or generic size), the scale steps it covers, and a *size* (or specific size),
the steps of the division it covers. The *spectrum* of a span is the set of sizes met in it. Spectra, Myhill's property,
cardinality equals variety and structure implies multiplicity come from Clough and Myerson, "Variety and Multiplicity in
Diatonic Systems", Journal of Music Theory 29 (1985); well-formed scales from Carey and Clampitt, "Aspects of
Well-Formed Scales", Music Theory Spectrum 11 (1989); pairwise well-formed scales from Clampitt's dissertation (1997).

**Conventions**: spans run from 1 to one less than the number of tones, the octave left out; sizes are steps of the
division, measured upwards. Nothing here depends on which tone is the root. Scales of fewer than two tones have no
spans, so every notion here is false or empty for them.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import gcd

from gamutwright.theory.scale import Scale, rotated_mask

__all__ = [
    "generator_chain",
    "generators",
    "has_cardinality_equals_variety",
    "has_structure_implies_multiplicity",
    "interval_sizes",
    "is_generated",
    "is_myhill",
    "is_pairwise_well_formed",
    "mean_spectrum_width",
    "spectra",
    "spectrum_widths",
    "well_formedness",
]


def interval_sizes(scale: Scale) -> tuple[tuple[int, ...], ...]:
    """Give the size of every interval, a row for each span and an entry for each lower tone.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of tuple of int, shape (tones - 1, tones)
        Row g - 1 holds the intervals of span g, upwards from the lowest tone above the root.

    Examples
    --------
    >>> interval_sizes(Scale.of(0, 4, 7))
    ((4, 3, 5), (7, 8, 9))
    """
    tones = scale.tones
    count = len(tones)
    twice = (*tones, *(tone + scale.divisions for tone in tones))
    return tuple(tuple(twice[i + span] - tones[i] for i in range(count)) for span in range(1, count))


def spectra(scale: Scale) -> tuple[tuple[int, ...], ...]:
    """Give the sizes met in each span.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of tuple of int
        For each span from 1 upwards its sizes, ascending, each once.

    Examples
    --------
    >>> spectra(Scale.of(0, 2, 4, 7, 9))
    ((2, 3), (4, 5), (7, 8), (9, 10))
    """
    return tuple(tuple(sorted(set(row))) for row in interval_sizes(scale))


def spectrum_widths(scale: Scale) -> tuple[int, ...]:
    """Give the width of each spectrum: its largest size less its smallest.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        One for each span, in steps of the division.

    Examples
    --------
    >>> spectrum_widths(Scale.of(0, 2, 3, 5, 7, 8, 11))
    (2, 1, 2, 2, 1, 2)
    """
    return tuple(max(row) - min(row) for row in interval_sizes(scale))


def mean_spectrum_width(scale: Scale) -> Fraction:
    """Give the sum of the spectrum widths divided by the number of tones (Clough and Douthett's variation).

    Parameters
    ----------
    scale : Scale
        The scale; the empty set counts as 0.

    Returns
    -------
    Fraction
        Steps of the division.

    Examples
    --------
    >>> mean_spectrum_width(Scale.of(0, 2, 4, 5, 7, 9, 11))
    Fraction(6, 7)
    """
    return Fraction(sum(spectrum_widths(scale)), max(1, scale.cardinality))


def is_myhill(scale: Scale) -> bool:
    """Whether every span comes in exactly two sizes.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        False for fewer than two tones.

    Examples
    --------
    >>> is_myhill(Scale.of(0, 2, 4, 7, 9)), is_myhill(Scale.of(0, 2, 4, 6, 8, 10))
    (True, False)
    """
    rows = interval_sizes(scale)
    return bool(rows) and all(len(set(row)) == 2 for row in rows)


def has_cardinality_equals_variety(scale: Scale) -> bool:
    """Whether every melodic line of k scale tones comes in exactly k species.

    A line is a pattern of k different scale degrees moved along the scale step by step; its species are the different
    patterns of sizes it then takes. A line of two tones is a span, so the property contains Myhill's; Clough and
    Myerson (1985) prove that Myhill's also suffices. That decides it here.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        False for fewer than two tones.

    Examples
    --------
    >>> has_cardinality_equals_variety(Scale.of(0, 2, 4, 5, 7, 9, 11))
    True
    """
    return is_myhill(scale)


def has_structure_implies_multiplicity(scale: Scale) -> bool:
    """Whether how often each species of a line occurs can be read off the gaps of the line on one cycle of the degrees.

    The cycle passes through all degrees by one fixed span, as the circle of fifths passes through the diatonic degrees.
    Lines of two tones decide: on some cycle, the two sizes of each span must occur as often as the two gaps say. For
    longer lines the property then follows (Clough and Myerson 1985).

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        False for fewer than two tones.

    Examples
    --------
    >>> has_structure_implies_multiplicity(Scale.of(0, 2, 4, 5, 7, 9, 11))
    True
    >>> has_structure_implies_multiplicity(Scale.of(0, 2, 4, 6, 8, 10))
    False
    """
    rows = interval_sizes(scale)
    count = scale.cardinality
    if not is_myhill(scale):
        return False
    often = [row.count(row[0]) for row in rows]
    for span in range(1, count):
        if gcd(span, count) != 1:
            continue
        if all(often[span * gap % count - 1] in (gap, count - gap) for gap in range(1, count)):
            return True
    return False


def generator_chain(scale: Scale, generator: int) -> tuple[int, ...]:
    """Give the scale as one unbroken chain of a single interval, or nothing where it is none.

    Parameters
    ----------
    scale : Scale
        The scale.
    generator : int in [1, divisions)
        The interval, in steps of the division.

    Returns
    -------
    tuple of int
        The tones in the order of the chain; a chain that closes into a ring starts at its lowest tone. Empty where the
        interval does not generate the scale.

    Examples
    --------
    >>> generator_chain(Scale.of(0, 2, 4, 5, 7, 9, 11), 7)
    (5, 0, 7, 2, 9, 4, 11)
    >>> generator_chain(Scale.of(0, 2, 3, 5, 7, 8, 11), 7)
    ()
    """
    divisions, mask = scale.divisions, scale.mask
    starts = mask & ~rotated_mask(mask, generator, divisions)
    if not mask or starts.bit_count() > 1:
        return ()
    tone = ((starts or mask) & -(starts or mask)).bit_length() - 1
    chain: list[int] = []
    while mask >> tone & 1:
        chain.append(tone)
        mask ^= 1 << tone
        tone = (tone + generator) % divisions
    return () if mask else tuple(chain)


def generators(scale: Scale) -> tuple[int, ...]:
    """Give every interval that generates the scale as one unbroken chain.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        Steps of the division, ascending; an interval and its inversion always come together. Empty for fewer than two
        tones, where every interval would do.

    Examples
    --------
    >>> generators(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (5, 7)
    """
    if scale.cardinality < 2:
        return ()
    return tuple(step for step in range(1, scale.divisions) if generator_chain(scale, step))


def is_generated(scale: Scale) -> bool:
    """Whether some interval generates the scale as one unbroken chain.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        False for fewer than two tones.

    Examples
    --------
    >>> is_generated(Scale.of(0, 2, 3, 5, 7, 8, 11))
    False
    """
    return bool(generators(scale))


def well_formedness(scale: Scale) -> str:
    """Say whether a generating interval always covers the same number of scale steps.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    str
        "non-degenerate" where it does, "degenerate" where moreover all steps are equal, "not well-formed" otherwise;
        "" for fewer than two tones, where the notion does not apply.

    Examples
    --------
    >>> well_formedness(Scale.of(0, 2, 4, 5, 7, 9, 11)), well_formedness(Scale.of(0, 4, 8))
    ('non-degenerate', 'degenerate')
    >>> well_formedness(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))
    'not well-formed'
    """
    count = scale.cardinality
    if count < 2:
        return ""
    if len(set(scale.step_pattern)) == 1:
        return "degenerate"
    degree = {tone: index for index, tone in enumerate(scale.tones)}
    for step in generators(scale):
        chain = [degree[tone] for tone in generator_chain(scale, step)]
        if len({(high - low) % count for low, high in pairwise(chain)}) == 1:
            return "non-degenerate"
    return "not well-formed"


def is_pairwise_well_formed(scale: Scale) -> bool:
    """Whether the steps have three sizes and become a well-formed pattern whenever two of the sizes are taken as equal.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        Whether each of the three identifications leaves a pattern of two letters in which every length of run has
        exactly two contents, which is non-degenerate well-formedness in terms of the pattern alone.

    Examples
    --------
    >>> is_pairwise_well_formed(Scale.of(0, 1, 3, 4, 8, 9, 11)), is_pairwise_well_formed(Scale.of(0, 2, 3, 5, 7, 8, 11))
    (True, False)
    """
    steps = scale.step_pattern
    letters = sorted(set(steps))
    if len(letters) != 3:
        return False
    return all(_is_balanced(tuple(int(step == alone) for step in steps)) for alone in letters)


def _is_balanced(word: tuple[int, ...]) -> bool:
    """Whether, around a circular word of 0 and 1, every length of run below the whole has exactly two sums."""
    count = len(word)
    ends = [0]
    for letter in word + word:
        ends.append(ends[-1] + letter)
    return all(len({ends[i + run] - ends[i] for i in range(count)}) == 2 for run in range(1, count))
