"""Propriety, stability and efficiency against published values and slow definitions."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, permutations
from math import factorial

import pytest

from gamutwright.errors import DomainError
from gamutwright.theory.pcset import prime_form
from gamutwright.theory.propriety import (
    MOST_TONES_FOR_EFFICIENCY,
    efficiency,
    is_balzano_coherent,
    propriety,
    stability,
    unambiguous_pairs,
)
from gamutwright.theory.scale import Scale, rotated_mask

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
HARMONIC_MINOR = Scale.of(0, 2, 3, 5, 7, 8, 11)
MELODIC_MINOR = Scale.of(0, 2, 3, 5, 7, 9, 11)
PENTATONIC = Scale.of(0, 2, 4, 7, 9)
WHOLE_TONE = Scale.of(0, 2, 4, 6, 8, 10)


def slow_propriety(scale: Scale) -> str:
    """Rothenberg 1978: compare every two intervals of different span."""
    tones, count = scale.tones, scale.cardinality
    sizes = [
        (span, (tones[(i + span) % count] - tones[i]) % scale.divisions)
        for i in range(count)
        for span in range(1, count)
    ]
    pairs = [(a, b) for span, a in sizes for other, b in sizes if span < other]
    if any(a > b for a, b in pairs):
        return "improper"
    return "proper" if any(a == b for a, b in pairs) else "strictly proper"


def slow_stability(scale: Scale) -> Fraction:
    """Pairs of tones whose upward and downward distances each belong to one span only."""
    tones, count = scale.tones, scale.cardinality

    def spans(size: int) -> set[int]:
        return {(j - i) % count for i, a in enumerate(tones) for j, b in enumerate(tones) if (b - a) % 12 == size}

    pairs = list(combinations(tones, 2))
    clear = [pair for pair in pairs if len(spans(pair[1] - pair[0])) == 1]
    return Fraction(len(clear), len(pairs))


def slow_efficiency(scale: Scale) -> Fraction:
    """Rothenberg 1978: play the tones in every order and stop as soon as one transposition alone fits."""
    family = {rotated_mask(scale.mask, k, scale.divisions) for k in range(scale.divisions)}
    heard_in_all = 0
    for order in permutations(scale.tones):
        heard = 0
        number = 0
        while sum(heard & member == heard for member in family) > 1:
            heard |= 1 << order[number]
            number += 1
        heard_in_all += number
    return Fraction(heard_in_all, factorial(scale.cardinality) * scale.cardinality)


@pytest.mark.exhaustive
def test_propriety_by_comparing_every_two_intervals() -> None:
    for mask in range(1, 4096, 2):
        assert propriety(Scale(mask)) == slow_propriety(Scale(mask))


@pytest.mark.exhaustive
def test_proper_heptatonic_classes() -> None:
    """Exactly 7-32, 7-33, 7-34 and 7-35; recomputed. The prime forms are those of Forte 1973, Appendix 1."""
    found = {
        prime_form(scale)
        for scale in map(Scale, range(4096))
        if scale.cardinality == 7 and propriety(scale) != "improper"
    }
    assert found == {
        (0, 1, 3, 4, 6, 8, 9),
        (0, 1, 2, 4, 6, 8, 10),
        (0, 1, 3, 4, 6, 8, 10),
        (0, 1, 3, 5, 6, 8, 10),
    }


def test_proper_pentatonic_classes_include_the_one_a_published_list_omits() -> None:
    """Not five, as in a list quoted after Meredith 2011: 5-22 is proper, by hand, with spans 1-4, 4-6, 6-8, 8-11."""
    found = {
        prime_form(scale)
        for scale in map(Scale, range(4096))
        if scale.cardinality == 5 and propriety(scale) == "proper"
    }
    assert (0, 1, 4, 7, 8) in found
    assert len(found) == 6


@pytest.mark.parametrize("divisions", range(3, 32))
def test_a_whole_division_is_strictly_proper(divisions: int) -> None:
    """Wikipedia, "Rothenberg propriety": any equal division."""
    assert propriety(Scale((1 << divisions) - 1, divisions)) == "strictly proper"


def test_balzano_coherence_of_all_pentatonic_and_heptatonic_classes() -> None:
    """Balzano 1980 after a Dartmouth course page: of 66 classes each under transposition 4 and 1 are coherent."""
    for tones, coherent in ((5, 4), (7, 1)):
        classes = {
            min(rotated_mask(mask, k, 12) for k in range(12)) for mask in range(4096) if mask.bit_count() == tones
        }
        assert len(classes) == 66
        found = [mask for mask in classes if is_balzano_coherent(Scale(mask))]
        assert len(found) == coherent
    assert is_balzano_coherent(MAJOR)


def test_stability_of_the_diatonic() -> None:
    """Rothenberg 1978, as quoted in Wikipedia, "Rothenberg propriety": only F-B is ambiguous, one pair in 21."""
    assert stability(MAJOR) == Fraction(20, 21)
    assert set(combinations(MAJOR.tones, 2)) - set(unambiguous_pairs(MAJOR)) == {(5, 11)}


@pytest.mark.exhaustive
def test_stability_by_the_slow_definition() -> None:
    for mask in range(1, 4096, 2):
        scale = Scale(mask)
        if scale.cardinality < 2 or propriety(scale) == "improper":
            assert stability(scale) is None
        else:
            assert stability(scale) == slow_stability(scale)


def test_stability_of_other_scales() -> None:
    """Recomputed by the slow definition; no printed value was found."""
    assert stability(HARMONIC_MINOR) == Fraction(10, 21)
    assert stability(PENTATONIC) == 1


# Rothenberg 1978: about .77 for the diatonic, from memory; the exact fractions are recomputed.
@pytest.mark.parametrize(
    ("scale", "expected"),
    [
        (MAJOR, Fraction(113, 147)),
        (PENTATONIC, Fraction(4, 5)),
        (MELODIC_MINOR, Fraction(463, 735)),
        (HARMONIC_MINOR, Fraction(92, 147)),
        (WHOLE_TONE, Fraction(1, 6)),
        (Scale.of(*range(12)), Fraction(0)),
    ],
)
def test_efficiency_of_common_scales(scale: Scale, expected: Fraction) -> None:
    assert efficiency(scale) == expected


def test_efficiency_by_every_order_of_the_tones() -> None:
    for mask in range(1, 4096, 2):
        scale = Scale(mask)
        if scale.cardinality <= 5 and mask % 3 == 0:
            assert efficiency(scale) == slow_efficiency(scale)
    for scale in (
        MAJOR,
        HARMONIC_MINOR,
        Scale.of(0, 1, 3, 4, 6, 9),
        WHOLE_TONE,
        Scale.of(0, 1, 5, 9, 10, divisions=19),
    ):
        assert efficiency(scale) == slow_efficiency(scale)


def test_efficiency_refuses_what_it_cannot_compute() -> None:
    with pytest.raises(DomainError, match="Choose a scale with fewer tones"):
        efficiency(Scale((1 << MOST_TONES_FOR_EFFICIENCY + 1) - 1, 31))
    with pytest.raises(DomainError):
        efficiency(Scale(0))
