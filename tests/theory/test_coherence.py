"""Carey's counts against slow pairwise counting, exhaustive maxima and theorems."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.theory.coherence import (
    ambiguities,
    ambiguous_pairs,
    coherence_failures,
    coherence_quotient,
    contradictions,
    contradictory_pairs,
    differences,
    differing_pairs,
    most_differences,
    most_failures,
    sameness_quotient,
)
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import well_formedness

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
HARMONIC_MINOR = Scale.of(0, 2, 3, 5, 7, 8, 11)
MELODIC_MINOR = Scale.of(0, 2, 3, 5, 7, 9, 11)
PENTATONIC = Scale.of(0, 2, 4, 7, 9)
HIRAJOSHI = Scale.of(0, 2, 3, 7, 8)

scales = st.integers(1, 31).flatmap(
    lambda n: st.builds(lambda tones: Scale(sum(1 << t for t in tones), n), st.sets(st.integers(0, n - 1), max_size=9))
)


def slow_counts(tones: list[int], octave: int) -> tuple[int, int, int]:
    """Ambiguities, contradictions and differences by comparing every interval with every other, from the definition."""
    number = len(tones)
    intervals = [
        (span, tones[(i + span) % number] + octave * ((i + span) // number) - tones[i])
        for i in range(number)
        for span in range(1, number)
    ]
    ambiguous = contradictory = different = 0
    for one, other in combinations(sorted(intervals), 2):
        if one[0] == other[0]:
            different += one[1] != other[1]
        else:
            ambiguous += one[1] == other[1]
            contradictory += one[1] > other[1]
    return ambiguous, contradictory, different


@given(scales)
def test_counts_agree_with_comparing_every_pair(scale: Scale) -> None:
    counts = (ambiguities(scale), contradictions(scale), differences(scale))
    assert counts == slow_counts(list(scale.tones), scale.divisions)
    assert coherence_failures(scale) == counts[0] + counts[1]


@given(scales)
def test_listed_pairs_are_what_was_counted(scale: Scale) -> None:
    places = {tone: index for index, tone in enumerate(scale.tones)}

    def span_and_size(pair: tuple[int, int]) -> tuple[int, int]:
        low, high = pair
        return (places[high] - places[low]) % len(places), (high - low) % scale.divisions

    ambiguous, contradictory, different = ambiguous_pairs(scale), contradictory_pairs(scale), differing_pairs(scale)
    assert len(set(ambiguous)) == len(ambiguous) == ambiguities(scale)
    assert len(set(contradictory)) == len(contradictory) == contradictions(scale)
    assert len({frozenset(pair) for pair in different}) == len(different) == differences(scale)
    for one, other in ambiguous:
        assert span_and_size(one)[0] < span_and_size(other)[0]
        assert span_and_size(one)[1] == span_and_size(other)[1]
    for one, other in contradictory:
        assert span_and_size(one)[0] < span_and_size(other)[0]
        assert span_and_size(one)[1] > span_and_size(other)[1]
    for one, other in different:
        assert span_and_size(one)[0] == span_and_size(other)[0]
        assert span_and_size(one)[1] != span_and_size(other)[1]


# Carey 2002 and 2007: definitions from memory, values recomputed by comparing all pairs; no printed table was found.
@pytest.mark.parametrize(
    ("scale", "ambiguous", "contradictory", "different"),
    [
        (MAJOR, 1, 0, 56),
        (PENTATONIC, 0, 0, 20),
        (HARMONIC_MINOR, 18, 0, 82),
        (MELODIC_MINOR, 10, 0, 72),
        # By hand: steps 2 1 4 1 4, pairs of steps 3 5 5 5 6; two steps of 4 exceed the 3, and so it is with their
        # complements; the 6 equals its own complement; 8 + 7 pairs of a span differ, and as many of theirs.
        (HIRAJOSHI, 1, 4, 30),
    ],
)
def test_counts_of_common_scales(scale: Scale, ambiguous: int, contradictory: int, different: int) -> None:
    assert (ambiguities(scale), contradictions(scale), differences(scale)) == (ambiguous, contradictory, different)


def test_quotients_of_the_diatonic() -> None:
    """Formulas of Carey 2002 from memory, on one ambiguity and 56 differences."""
    assert coherence_quotient(MAJOR) == Fraction(139, 140)
    assert sameness_quotient(MAJOR) == Fraction(5, 9)


def test_small_scales_cannot_fail() -> None:
    for scale in (Scale(0), Scale.of(0), Scale.of(0, 7)):
        assert coherence_quotient(scale) == 1
    assert sameness_quotient(Scale.of(0, 7)) == 0
    assert sameness_quotient(Scale.of(0, 6)) == 1
    assert sameness_quotient(Scale.of(0)) == 1


@pytest.mark.parametrize("tones", [3, 4])
def test_maxima_by_exhaustive_search(tones: int) -> None:
    """The formulas of Carey 2002 are reached and not exceeded by any scale of up to 16 divisions."""
    found = [
        slow_counts([0, *rest], divisions)
        for divisions in range(tones, 17)
        for rest in combinations(range(1, divisions), tones - 1)
    ]
    assert max(ambiguous + contradictory for ambiguous, contradictory, _ in found) == most_failures(tones)
    assert max(different for _, _, different in found) == most_differences(tones)


@pytest.mark.parametrize("tones", [5, 6, 7, 8])
def test_maxima_are_attained_by_known_scales(tones: int) -> None:
    """Steps 1, 1, 2, 4, ... fail as often as can be; steps that are powers of three differ as often as can be."""
    failing = [0, *(2**k for k in range(tones - 1))]
    ambiguous, contradictory, _ = slow_counts(failing, 2 ** (tones - 1))
    assert ambiguous + contradictory == most_failures(tones)
    differing = [(3**k - 1) // 2 for k in range(tones)]
    assert slow_counts(differing, (3**tones - 1) // 2)[2] == most_differences(tones)


@pytest.mark.exhaustive
def test_well_formed_scales_have_a_fixed_number_of_differences() -> None:
    """Carey 2002: N(N^2 - 1)/6 in every non-degenerate well-formed scale."""
    checked = 0
    for mask in range(1, 4096, 2):
        scale = Scale(mask)
        if well_formedness(scale) == "non-degenerate":
            number = scale.cardinality
            assert differences(scale) == number * (number * number - 1) // 6
            checked += 1
    assert checked > 50
