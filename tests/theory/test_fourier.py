"""Fourier coefficients against their definition in complex numbers, theorems and published values."""

from __future__ import annotations

import cmath
import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.theory.fourier import (
    balance,
    centre_of_gravity,
    cyclotomic_polynomial,
    evenness,
    fourier_coefficients,
    fourier_magnitudes,
    is_balanced,
    is_fourier_zero,
)
from gamutwright.theory.scale import Scale

ALL_SETS = [Scale(mask) for mask in range(4096)]
DIATONIC = Scale.of(0, 2, 4, 5, 7, 9, 11)


def scales() -> st.SearchStrategy[Scale]:
    return st.integers(1, 72).flatmap(lambda n: st.integers(1, (1 << n) - 1).map(lambda mask: Scale(mask, n)))


def slow_coefficient(scale: Scale, k: int) -> complex:
    """The definition (Lewin 1959, Quinn 2006, from memory), one exponential a tone."""
    return sum((cmath.exp(-2j * math.pi * k * tone / scale.divisions) for tone in scale.tones), 0j)


@given(scales())
def test_coefficients_follow_the_definition_in_any_division(scale: Scale) -> None:
    for k, ours in enumerate(fourier_coefficients(scale)):
        assert ours == pytest.approx(slow_coefficient(scale, k), abs=1e-9)


@given(scales())
def test_parseval(scale: Scale) -> None:
    """The squares of all sizes sum to n d (Parseval's theorem)."""
    total = sum(abs(f) ** 2 for f in fourier_coefficients(scale))
    assert total == pytest.approx(scale.divisions * scale.cardinality)


@pytest.mark.exhaustive
def test_parseval_complement_transposition_and_inversion_on_all_sets() -> None:
    """Lewin 1959, Amiot 2016 (from memory): sizes are shared by complement, transposes and inversions; sum is 12 d."""
    for scale in ALL_SETS:
        coefficients = fourier_coefficients(scale)
        sizes = fourier_magnitudes(scale)
        assert coefficients[0] == scale.cardinality
        assert sum(abs(f) ** 2 for f in coefficients) == pytest.approx(12 * scale.cardinality, abs=1e-9)
        assert fourier_magnitudes(scale.complement()) == pytest.approx(sizes, abs=1e-9)
        assert fourier_magnitudes(scale.inverted()) == pytest.approx(sizes, abs=1e-9)
        if scale.cardinality > 1:
            assert fourier_magnitudes(scale.mode(2)) == pytest.approx(sizes, abs=1e-9)


@pytest.mark.exhaustive
def test_exact_zeros_are_the_numerical_ones_on_all_sets() -> None:
    """In twelve divisions a coefficient that is not zero is far from it, so floats can be the judge."""
    for scale in ALL_SETS:
        for k in range(12):
            assert is_fourier_zero(scale, k) is (abs(slow_coefficient(scale, k)) < 1e-9), (scale, k)


def test_magnitudes_of_chords_and_scales() -> None:
    """Quinn 2006 and Amiot 2016, from memory."""
    root3 = math.sqrt(3)
    assert fourier_magnitudes(DIATONIC)[4] == pytest.approx(2 + root3)
    assert fourier_magnitudes(DIATONIC.complement())[4] == pytest.approx(2 + root3)
    assert fourier_magnitudes(Scale.of(0, 3, 4, 7, 8, 11))[2] == pytest.approx(3 * math.sqrt(2))
    assert fourier_magnitudes(Scale.of(0, 4, 8)) == pytest.approx((0, 0, 3, 0, 0, 3))
    assert fourier_magnitudes(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))[3] == pytest.approx(4)
    assert fourier_magnitudes(Scale(0)) == (0.0,) * 6


def test_cyclotomic_polynomials() -> None:
    """Coefficients from any algebra text; the first with a coefficient beyond 1 is that of order 105."""
    assert cyclotomic_polynomial(1) == (-1, 1)
    assert cyclotomic_polynomial(5) == (1, 1, 1, 1, 1)
    assert cyclotomic_polynomial(6) == (1, -1, 1)
    assert cyclotomic_polynomial(8) == (1, 0, 0, 0, 1)
    assert min(cyclotomic_polynomial(105)) == -2
    for order in range(1, 73):
        totient = sum(math.gcd(order, k) == 1 for k in range(1, order + 1))
        assert len(cyclotomic_polynomial(order)) == totient + 1


def test_balanced_sets_of_five_and_seven_tones() -> None:
    """One class of each size, by adding unit vectors over all subsets; complements of each other."""
    for size in (5, 7):
        slow = {
            tones
            for tones in combinations(range(12), size)
            if abs(sum(cmath.exp(2j * math.pi * tone / 12) for tone in tones)) < 1e-9
        }
        assert slow == {scale.tones for scale in ALL_SETS if scale.cardinality == size and is_balanced(scale)}
        assert len(slow) == 12
    assert is_balanced(Scale.of(0, 1, 4, 7, 8))


@pytest.mark.parametrize("prime", [5, 7, 11, 13])
def test_a_prime_division_has_no_balanced_set_but_the_full_one(prime: int) -> None:
    """The roots of unity of prime order have no vanishing proper sum (Milne and others 2015, from memory)."""
    balanced = [mask for mask in range(1, 1 << prime) if is_balanced(Scale(mask, prime))]
    assert balanced == [(1 << prime) - 1]


@given(scales())
def test_a_union_of_regular_polygons_is_balanced(scale: Scale) -> None:
    """Disjoint regular polygons balance, so their union does."""
    for part in (2, 3, 5):
        if scale.divisions % part == 0:
            step = scale.divisions // part
            mask = 0
            for tone in scale.tones:
                for turn in range(part):
                    mask |= 1 << (tone + turn * step) % scale.divisions
            union = Scale(mask, scale.divisions)
            assert is_balanced(union)
            assert balance(union) == 1.0
            assert centre_of_gravity(union) == (0.0, 0.0)


@given(scales())
def test_balance_is_the_distance_of_the_centre_of_gravity(scale: Scale) -> None:
    x, y = centre_of_gravity(scale)
    assert x == pytest.approx(sum(math.sin(2 * math.pi * t / scale.divisions) for t in scale.tones) / scale.cardinality)
    assert y == pytest.approx(sum(math.cos(2 * math.pi * t / scale.divisions) for t in scale.tones) / scale.cardinality)
    assert balance(scale) == pytest.approx(1 - math.hypot(x, y))


@given(scales())
def test_evenness_is_one_for_equal_steps_alone(scale: Scale) -> None:
    """Amiot 2007, from memory: by the triangle inequality the mean of unit vectors has length 1 only if all agree."""
    assert 0 <= evenness(scale) <= 1
    assert (evenness(scale) == 1.0) is (len(set(scale.step_pattern)) == 1)


@pytest.mark.exhaustive
def test_maximally_even_sets_have_the_greatest_evenness() -> None:
    """Amiot 2007, from memory; the maximally even set is floor(12 k / d) (Clough and Douthett 1991)."""
    for cardinality in range(1, 13):
        best = max(evenness(scale) for scale in ALL_SETS if scale.cardinality == cardinality)
        assert evenness(Scale.of(*(12 * k // cardinality for k in range(cardinality)))) == pytest.approx(best)
