"""Ratios against the tables of Euler and Barlow and the logarithms of equal divisions."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.ratios import (
    JUST_RATIOS,
    euler_gradus,
    harmonicity,
    indigestibility,
    just_error_cents,
    nearest_just_ratio,
    ratio_cents,
)

numbers = st.integers(1, 5000)


def slow_factors(number: int) -> list[int]:
    factors = []
    divisor = 2
    while number > 1:
        while number % divisor == 0:
            factors.append(divisor)
            number //= divisor
        divisor += 1
    return factors


@given(numbers)
def test_gradus_and_indigestibility_by_slow_factors(number: int) -> None:
    """Euler 1739, from memory: one more than the sum of p - 1. Barlow 1987: twice the sum of (p - 1) squared over p."""
    factors = slow_factors(number)
    assert euler_gradus(1, number) == 1 + sum(p - 1 for p in factors)
    assert indigestibility(number) == 2 * sum(Fraction((p - 1) ** 2, p) for p in factors)


@given(numbers, numbers, numbers)
def test_gradus_is_that_of_the_least_common_multiple(one: int, two: int, factor: int) -> None:
    assert euler_gradus(one * factor, two * factor) == euler_gradus(one, two)
    reduced = Fraction(one, two)
    assert euler_gradus(one, two) == euler_gradus(1, reduced.numerator * reduced.denominator)


def test_gradus_of_chords() -> None:
    """Euler 1739, from memory: the major and the minor triad have the ninth degree."""
    assert euler_gradus(4, 5, 6) == euler_gradus(10, 12, 15) == 9
    assert euler_gradus(7) == euler_gradus(3, 3) == 1


def test_indigestibility_of_primes() -> None:
    """Barlow 1987, as in the tests of the open library hmt."""
    ours = [indigestibility(number) for number in (1, 2, 3, 5, 7, 11, 13)]
    assert ours == [Fraction(text) for text in ("0", "1", "8/3", "32/5", "72/7", "200/11", "288/13")]


@pytest.mark.parametrize(
    ("ratio", "value"),
    [
        ("2/1", 1.0),
        ("3/2", 0.272727),
        ("4/3", -0.214286),
        ("5/4", 0.119048),
        ("6/5", -0.099338),
        ("9/8", 0.12),
        ("8/5", -0.106383),
    ],
)
def test_harmonicity_has_a_sign(ratio: str, value: float) -> None:
    """Barlow 1987, table 2: the fourth as read, the others from memory; fourths and minor thirds are negative."""
    assert float(harmonicity(Fraction(ratio))) == pytest.approx(value, abs=5e-7)


@given(numbers, numbers)
def test_turning_an_interval_round_turns_the_sign(one: int, two: int) -> None:
    ratio = Fraction(one, two)
    if indigestibility(ratio.numerator) != indigestibility(ratio.denominator):
        assert harmonicity(1 / ratio) == -harmonicity(ratio)


def test_the_list_is_closed_under_complement() -> None:
    assert list(JUST_RATIOS) == sorted(JUST_RATIOS)
    assert {2 / ratio for ratio in JUST_RATIOS} == {*JUST_RATIOS}


@given(st.integers(1, 72).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_nearest_ratio_by_trying_all(tone: tuple[int, int]) -> None:
    steps, divisions = tone
    cents = 1200 * steps / divisions
    errors = {ratio: abs(cents - 1200 * math.log2(ratio)) for ratio in JUST_RATIOS}
    ours = nearest_just_ratio(steps, divisions)
    assert errors[ours] == pytest.approx(min(errors.values()), abs=1e-9)
    # Of two equally near the lower: nothing below ours is as near.
    assert all(errors[ratio] > errors[ours] + 1e-9 for ratio in JUST_RATIOS if ratio < ours)
    assert just_error_cents(steps, divisions) == pytest.approx(cents - ratio_cents(ours))


@pytest.mark.parametrize(
    ("divisions", "steps", "ratio", "error"),
    [
        (12, 7, "3/2", -1.955),
        (12, 4, "5/4", 13.686),
        (12, 3, "6/5", -15.641),
        (19, 11, "3/2", -7.218),
        (19, 6, "5/4", -7.366),
        (19, 5, "6/5", 0.148),
        (31, 18, "3/2", -5.181),
        (31, 10, "5/4", 0.783),
        (31, 8, "6/5", -5.964),
        (31, 25, "7/4", -1.084),
        (53, 31, "3/2", -0.068),
        (53, 17, "5/4", -1.408),
        (53, 14, "6/5", 1.340),
    ],
)
def test_errors_of_equal_divisions(divisions: int, steps: int, ratio: str, error: float) -> None:
    """Barbour 1951, from memory; recomputed from logarithms."""
    assert nearest_just_ratio(steps, divisions) == Fraction(ratio)
    assert just_error_cents(steps, divisions) == pytest.approx(error, abs=5e-4)


def test_refusals() -> None:
    with pytest.raises(DomainError, match="infinite"):
        harmonicity(Fraction(1))
    with pytest.raises(DomainError, match="positive"):
        euler_gradus(0, 3)
    with pytest.raises(DomainError, match="positive"):
        indigestibility(0)
    with pytest.raises(DomainError, match="12 steps"):
        nearest_just_ratio(13, 12)
