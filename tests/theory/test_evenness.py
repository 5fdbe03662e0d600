"""Maximal evenness against both published definitions, published counts and a slow definition."""

from __future__ import annotations

from itertools import combinations
from math import cos, dist, gcd, pi, sin

import pytest

from gamutwright.errors import DomainError
from gamutwright.theory.evenness import (
    chord_length_sum,
    is_maximally_even,
    is_second_order_maximally_even,
    maximally_even_hosts,
    maximally_even_set,
)
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)


def by_formula(divisions: int, tones: int) -> set[tuple[int, ...]]:
    """Clough and Douthett 1991: floor((n k + m) / d), written out again."""
    return {tuple(sorted(int((divisions * k + m) / tones) % divisions for k in range(tones))) for m in range(divisions)}


@pytest.mark.exhaustive
@pytest.mark.parametrize("divisions", [5, 7, 8, 12])
def test_both_definitions_agree_on_every_subset(divisions: int) -> None:
    formula = {tones: by_formula(divisions, tones) for tones in range(1, divisions + 1)}
    for mask in range(1, 1 << divisions):
        scale = Scale(mask, divisions)
        assert is_maximally_even(scale) == (scale.tones in formula[scale.cardinality])


def test_j_of_twelve_seven_five_is_c_major() -> None:
    """Clough and Douthett 1991, from memory."""
    assert maximally_even_set(12, 7, 5) == MAJOR.tones


def test_numbers_of_maximally_even_sets_of_twelve() -> None:
    """Recomputed from the spectra, d from 1 to 12; they are n / gcd(n, d)."""
    counts = [
        sum(is_maximally_even(Scale.of(*tones)) for tones in combinations(range(12), size) if tones)
        for size in range(1, 13)
    ]
    assert counts == [12, 6, 4, 3, 12, 2, 12, 3, 4, 6, 12, 1]
    assert counts == [12 // gcd(12, size) for size in range(1, 13)]


def test_a_set_needs_a_possible_number_of_tones() -> None:
    with pytest.raises(DomainError):
        maximally_even_set(12, 0)
    with pytest.raises(DomainError):
        maximally_even_set(12, 13)


# Wikipedia, "Maximal evenness": diatonic triads and sevenths are of the second order, the triads not of the first.
@pytest.mark.parametrize("tones", [(0, 4, 7), (0, 3, 7), (0, 3, 6), (0, 4, 7, 11), (0, 4, 7, 10), (0, 3, 7, 10)])
def test_diatonic_chords_are_second_order(tones: tuple[int, ...]) -> None:
    scale = Scale.of(*tones)
    assert is_second_order_maximally_even(scale)
    assert not is_maximally_even(scale)
    diatonic = {tuple(sorted((tone + k) % 12 for tone in MAJOR.tones)) for k in range(12)}
    assert diatonic & set(maximally_even_hosts(scale))


@pytest.mark.exhaustive
def test_second_order_by_composing_the_formula() -> None:
    """Every set that the formula picks out of a set that the formula gives, and no other."""
    composed = {
        tuple(sorted(host[index] for index in inner))
        for size in range(1, 13)
        for host in by_formula(12, size)
        for tones in range(1, size + 1)
        for inner in by_formula(size, tones)
    }
    for mask in range(1, 4096):
        scale = Scale(mask)
        assert is_second_order_maximally_even(scale) == (scale.tones in composed)
    assert len(composed) < 4095


@pytest.mark.exhaustive
def test_maximally_even_sets_have_the_largest_sum_of_chord_lengths() -> None:
    """Block and Douthett 1994, from memory; lengths are measured between points on a circle."""
    points = [(cos(2 * pi * k / 12), sin(2 * pi * k / 12)) for k in range(12)]
    for size in range(2, 12):
        sums = {}
        for tones in combinations(range(12), size):
            scale = Scale.of(*tones)
            measured = sum(dist(points[low], points[high]) for low, high in combinations(tones, 2))
            assert chord_length_sum(scale) == pytest.approx(measured, abs=1e-9)
            sums[scale] = measured
        largest = max(sums.values())
        assert {scale for scale, total in sums.items() if total > largest - 1e-9} == {
            scale for scale in sums if is_maximally_even(scale)
        }
