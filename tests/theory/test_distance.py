"""Indices of similarity against printed values and slow definitions.

The printed values of Morris, Castren, Buchler and Kuusi were read in the hmt library's transcriptions of them.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import acos, sqrt
from statistics import pstdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.distance import (
    MOST_TONES_FOR_SUBSETS,
    asim,
    cos_theta,
    forte_relations,
    icv_sim,
    percent_rel2,
    rel_tn,
    rel_tni,
    sim,
    subset_class_counts,
)
from gamutwright.theory.pcset import interval_class_vector
from gamutwright.theory.scale import Scale

masks = st.integers(0, 4095)
A, B = Scale.of(0, 2, 3, 5, 7), Scale.of(0, 2, 3, 4, 5, 8)
G, J = Scale.of(0, 1, 2, 3, 5, 6, 8, 10), Scale.of(0, 2, 3, 4, 5, 6, 8)
ONE, TWO, THREE = Scale.of(0, 1, 2, 3, 4), Scale.of(0, 2, 3, 6, 7), Scale.of(0, 2, 4, 6, 8)


# Morris 1980.
@pytest.mark.parametrize(
    ("one", "other", "difference", "share"),
    [
        ((0, 1, 3, 6), (0, 2, 4, 7), 6, Fraction(6, 12)),
        ((0, 1, 2, 4, 5, 8), (0, 1, 3, 7), 9, Fraction(9, 21)),
        ((0, 1, 2, 3, 4), (0, 1, 4, 5, 7), 8, Fraction(2, 5)),
        ((0, 1, 2, 3, 4), (0, 2, 4, 6, 8), 12, Fraction(3, 5)),
    ],
)
def test_sim_and_asim(one: tuple[int, ...], other: tuple[int, ...], difference: int, share: Fraction) -> None:
    assert sim(Scale.of(*one), Scale.of(*other)) == difference
    assert asim(Scale.of(*one), Scale.of(*other)) == share


# Castren 1994.
@pytest.mark.parametrize(
    ("one", "other", "value"),
    [
        ((0, 1, 2, 3, 4), (0, 1, 4, 5, 7), 40),
        ((0, 1, 2, 3, 4), (0, 2, 4, 6, 8), 60),
        ((0, 1, 4, 5, 7), (0, 2, 4, 6, 8), 60),
    ],
)
def test_percent_rel2(one: tuple[int, ...], other: tuple[int, ...], value: int) -> None:
    assert percent_rel2(Scale.of(*one), Scale.of(*other)) == value


# Buchler 1998, figure 3.38, printed to three places.
@pytest.mark.parametrize(
    ("one", "other", "value"),
    [(A, B, 0.593), (A, G, 0.648), (A, J, 0.509), (B, G, 0.712), (B, J, 0.892), (G, J, 0.707)],
)
def test_rel_over_classes_with_inversion(one: Scale, other: Scale, value: float) -> None:
    assert rel_tni(one, other) == pytest.approx(value, abs=5e-4)
    assert rel_tni(other, one) == pytest.approx(value, abs=5e-4)


# Kuusi 2001, section 7.5.2, printed to three places and truncated, not rounded.
@pytest.mark.parametrize(("one", "other", "value"), [(ONE, TWO, 0.429), (ONE, THREE, 0.253), (TWO, THREE, 0.324)])
def test_rel_over_classes_under_transposition(one: Scale, other: Scale, value: float) -> None:
    computed = rel_tn(one, other)
    assert computed is not None
    assert int(computed * 1000) / 1000 == value


def slow_rel_tn(one: Scale, other: Scale) -> float:
    """Lewin 1980 by operators: for each shape, how many transpositions carry it into each set."""
    shapes = {
        tuple(sorted((tone - part[0]) % 12 for tone in part))
        for scale in (one, other)
        for size in range(2, min(one.cardinality, other.cardinality) + 1)
        for part in combinations(scale.tones, size)
    }
    classes = {min(tuple(sorted((t - low) % 12 for t in shape)) for low in shape) for shape in shapes}

    def carried(shape: tuple[int, ...], scale: Scale) -> int:
        return sum(all((tone + k) % 12 in scale.tones for tone in shape) for k in range(12))

    in_one = {shape: carried(shape, one) for shape in classes}
    in_other = {shape: carried(shape, other) for shape in classes}
    both = sum(sqrt(in_one[shape] * in_other[shape]) for shape in classes)
    return both / sqrt(sum(in_one.values()) * sum(in_other.values()))


@pytest.mark.parametrize("pair", list(combinations([A, B, J, ONE, TWO, THREE, Scale.of(0, 3, 6, 9)], 2)))
def test_rel_by_counting_operators(pair: tuple[Scale, Scale]) -> None:
    assert rel_tn(*pair) == pytest.approx(slow_rel_tn(*pair), abs=1e-12)


def test_trichord_classes_of_a_chromatic_pentachord() -> None:
    """Castren 1994: 3 of 3-1, 4 of 3-2, 2 of 3-3 and 1 of 3-6."""
    counts = subset_class_counts(ONE, 3, inversions=True)
    named = {(0, 1, 2): 3, (0, 1, 3): 4, (0, 1, 4): 2, (0, 2, 4): 1}
    assert {Scale(mask).tones: often for mask, often in counts.items()} == named


def test_castren_vector_sums_to_the_number_of_subsets() -> None:
    assert sum(subset_class_counts(G, 4, inversions=False).values()) == 70


# Isaacson 1990 and Scott and Isaacson 1998 from memory: no printed values were found, so the standard library decides.
@given(masks, masks)
def test_icv_sim_is_a_standard_deviation(one: int, other: int) -> None:
    pair = Scale(one), Scale(other)
    vectors = zip(*map(interval_class_vector, pair), strict=True)
    assert icv_sim(*pair) == pytest.approx(pstdev([w - v for v, w in vectors]), abs=1e-12)


def test_the_angle_between_augmented_and_major_triad() -> None:
    """By hand: vectors 000300 and 001110 meet at the angle of a cube's diagonal with its edge, 54.7356 degrees."""
    cosine = cos_theta(Scale.of(0, 4, 8), Scale.of(0, 4, 7))
    assert cosine is not None
    assert acos(cosine) * 180 / 3.141592653589793 == pytest.approx(54.7356, abs=1e-4)


@given(masks, st.integers(0, 11))
def test_equal_content_is_as_alike_as_can_be(mask: int, steps: int) -> None:
    scale = Scale(mask)
    moved = Scale.of(*((steps - tone) % 12 for tone in scale.tones), root=0)
    assert sim(scale, moved) == 0
    assert icv_sim(scale, moved) == 0
    if scale.cardinality > 1:
        assert asim(scale, moved) == percent_rel2(scale, moved) == 0
        assert cos_theta(scale, moved) == pytest.approx(1)
        assert rel_tni(scale, moved) == pytest.approx(1)


def test_sets_without_intervals_have_no_index() -> None:
    one = Scale.of(0)
    assert asim(one, one) is None
    assert percent_rel2(one, A) is None
    assert cos_theta(one, A) is None
    assert rel_tni(one, A) is None
    assert rel_tn(one, A) is None
    assert icv_sim(Scale(1, 1), Scale(1, 1)) is None


@given(masks)
def test_multiplying_by_five_gives_r1(mask: int) -> None:
    """Sending x to 5x exchanges interval classes 1 and 5 and keeps the others (Morris 1987, from memory)."""
    scale = Scale(mask)
    image = Scale.of(*(5 * tone % 12 for tone in scale.tones), root=0)
    vector = interval_class_vector(scale)
    assert ("R1" in forte_relations(scale, image)) == (vector[0] != vector[4])


@given(masks, masks)
def test_forte_relations_by_their_definitions(first: int, second: int) -> None:
    one, other = Scale(first), Scale(second)
    if one.cardinality != other.cardinality:
        with pytest.raises(DomainError):
            forte_relations(one, other)
        return
    v, w = interval_class_vector(one), interval_class_vector(other)
    equal = [a == b for a, b in zip(v, w, strict=True)]
    found = forte_relations(one, other)
    assert ("R0" in found) == (not any(equal))
    rest = [k for k in range(6) if not equal[k]]
    assert ({"R1", "R2"} & set(found) != set()) == (sum(equal) == 4)
    assert ("R1" in found) == (sum(equal) == 4 and [v[k] for k in rest] == [w[k] for k in reversed(rest)])


def test_rp_asks_for_a_shared_class_of_subsets() -> None:
    """By hand: {0 1 2 3} and {0 1 2 4} share {0 1 2}; {0 3 6 9} holds diminished triads only."""
    assert "Rp" in forte_relations(Scale.of(0, 1, 2, 3), Scale.of(0, 1, 2, 4))
    assert "Rp" not in forte_relations(Scale.of(0, 3, 6, 9), Scale.of(0, 1, 2, 3))


def test_what_cannot_be_compared_is_refused() -> None:
    with pytest.raises(DomainError, match="only sets of one division"):
        sim(A, Scale.of(0, 2, divisions=19))
    with pytest.raises(DomainError, match="subsets are listed"):
        subset_class_counts(Scale((1 << MOST_TONES_FOR_SUBSETS + 1) - 1, 31), 2, inversions=True)
