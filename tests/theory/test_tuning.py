"""Tunings against their rules stated another way, and the commas."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import (
    FIVE_LIMIT,
    KIRNBERGER_III,
    PYTHAGOREAN,
    PYTHAGOREAN_COMMA,
    QUARTER_COMMA_MEANTONE,
    SYNTONIC_COMMA,
    TUNINGS,
    VALLOTTI,
    WERCKMEISTER_III,
    Tuning,
    exponents_to_cents,
    tone_cents,
    tone_frequencies,
    tone_semitones,
    tuned_cents,
)

PURE_FIFTH = 1200 * math.log2(3 / 2)
PURE_THIRD = 1200 * math.log2(5 / 4)


def test_commas() -> None:
    """Barbour 1951, from memory: 531441/524288 and 81/80."""
    assert exponents_to_cents(PYTHAGOREAN_COMMA) == pytest.approx(1200 * math.log2(531441 / 524288))
    assert exponents_to_cents(SYNTONIC_COMMA) == pytest.approx(1200 * math.log2(81 / 80))
    assert exponents_to_cents(PYTHAGOREAN_COMMA) == pytest.approx(23.46001, abs=5e-6)


def fifths(tuning: Tuning) -> dict[int, float]:
    """By how much the fifth above each key is narrower than pure, in cents."""
    return {key: PURE_FIFTH - tuning.cents(key + 7, above=key) for key in range(12)}


@pytest.mark.parametrize("tuning", TUNINGS, ids=lambda tuning: tuning.id)
def test_the_circle_of_fifths_closes(tuning: Tuning) -> None:
    """Twelve fifths make seven octaves, so what they are narrow by sums to the Pythagorean comma (theorem)."""
    assert sum(fifths(tuning).values()) == pytest.approx(1200 * math.log2(531441 / 524288))
    assert tuning.cents(0) == 0
    rising = [tuning.cents(key) for key in range(12)]
    assert rising == sorted(rising)


def test_tempered_fifths_stand_where_the_rules_say() -> None:
    """Barbour 1951, from memory: which fifths each tuning tempers; all others are pure."""
    quarter = 1200 * math.log2(531441 / 524288) / 4
    assert {key for key, narrow in fifths(WERCKMEISTER_III).items() if abs(narrow) > 1e-9} == {0, 7, 2, 11}
    assert all(abs(fifths(WERCKMEISTER_III)[key] - quarter) < 1e-9 for key in (0, 7, 2, 11))
    assert {key for key, narrow in fifths(VALLOTTI).items() if abs(narrow) > 1e-9} == {5, 0, 7, 2, 9, 4}
    assert {key for key, narrow in fifths(PYTHAGOREAN).items() if abs(narrow) > 1e-9} == {8}
    assert {key for key, narrow in fifths(KIRNBERGER_III).items() if abs(narrow) > 1e-9} == {0, 7, 2, 9, 6}
    # The schisma, 32805/32768.
    assert fifths(KIRNBERGER_III)[6] == pytest.approx(1200 * math.log2(32805 / 32768))


def test_pure_thirds() -> None:
    """Quarter-comma meantone has eight pure major thirds, Kirnberger III one, on C (Barbour 1951, from memory)."""
    for tuning, roots in ((QUARTER_COMMA_MEANTONE, {3, 10, 5, 0, 7, 2, 9, 4}), (KIRNBERGER_III, {0})):
        pure = {key for key in range(12) if abs(tuning.cents(key + 4, above=key) - PURE_THIRD) < 1e-9}
        assert pure == roots
    assert {key for key in range(12) if abs(FIVE_LIMIT.cents(key + 4, above=key) - PURE_THIRD) < 1e-9} >= {0, 5, 7}


def test_frequencies_of_werckmeister() -> None:
    """With A3 at 220 Hz, as printed by a tuner (R. Rhodes, 2001): E and B are exact, three and four fifths away."""
    assert WERCKMEISTER_III.frequency_hz(4, octave=3) == pytest.approx(165.0)
    assert WERCKMEISTER_III.frequency_hz(11, octave=3) == pytest.approx(247.5)
    assert WERCKMEISTER_III.frequency_hz(9, a4_hz=415.0) == pytest.approx(415.0)


@given(st.integers(0, 4094).map(lambda mask: Scale(mask | 1)), st.integers(0, 11), st.sampled_from(TUNINGS))
def test_scales_take_their_tones_from_the_keys(scale: Scale, root: int, tuning: Tuning) -> None:
    moved = scale.transposed(root)
    ours = tuned_cents(moved, tuning)
    assert ours[0] == 0.0
    for cents, key in zip(ours, moved.pitch_classes, strict=True):
        assert cents == pytest.approx((tuning.cents(key) - tuning.cents(root)) % 1200, abs=1e-9)


def test_equal_divisions() -> None:
    assert tone_cents(Scale.of(0, 5, divisions=72)) == pytest.approx((0, 1000 / 12))
    assert tone_frequencies(Scale.of(9, 0)) == pytest.approx((440.0, 523.2511), abs=5e-5)
    assert tone_semitones(Scale.of(3, 0, divisions=7)) == (60 + Fraction(36, 7), Fraction(72))
    # C is 60 and 261.626 Hz in every division.
    for divisions in (5, 19, 31):
        assert tone_frequencies(Scale(1, divisions)) == pytest.approx((261.6256,), abs=5e-5)


def test_other_divisions_are_refused() -> None:
    with pytest.raises(DomainError, match="twelve keys"):
        tuned_cents(Scale.of(0, 11, divisions=19), PYTHAGOREAN)
