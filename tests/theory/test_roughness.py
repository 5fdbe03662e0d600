"""Roughness against values printed with other programs and slow sums written apart."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.theory.roughness import (
    Partial,
    critical_bandwidth_hz,
    hutchinson_knopoff_curve,
    hutchinson_knopoff_roughness,
    inverse_harmonics,
    sethares_between,
    sethares_pair,
    sethares_roughness,
    with_harmonics,
)

sounds = st.lists(st.tuples(st.floats(50, 4000), st.floats(0.01, 1)), min_size=0, max_size=14)


def keys_hz(*keys: int) -> list[float]:
    return [440 * 2 ** ((key - 69) / 12) for key in keys]


def slow_sethares(sound: list[Partial]) -> float:
    """The program dissmeasure in words: all ordered pairs, each counted half, the weaker amplitude."""
    total = 0.0
    for f1, a1 in sound:
        for f2, a2 in sound:
            s = 0.24 / (0.0207 * min(f1, f2) + 18.96)
            x = s * abs(f1 - f2)
            total += min(a1, a2) * (5 * math.exp(-3.51 * x) - 5 * math.exp(-5.75 * x)) / 2
    return total


@given(sounds)
def test_sethares_by_all_pairs(sound: list[Partial]) -> None:
    assert sethares_roughness(sound) == pytest.approx(slow_sethares(sound), abs=1e-12)


@given(sounds, sounds)
def test_roughness_of_two_sounds_is_within_and_between(one: list[Partial], other: list[Partial]) -> None:
    together = sethares_roughness(one + other)
    parts = sethares_roughness(one) + sethares_roughness(other) + sethares_between(one, other)
    assert together == pytest.approx(parts, abs=1e-9)


@pytest.mark.parametrize(
    ("freqs_hz", "amplitudes", "value"),
    [
        ((440, 460, 480), (1, 1, 1), 2.9194),
        ((440, 460, 480), (1, 2, 3), 3.9161),
        ((440, 460, 480), (3, 2, 1), 3.9194),
        ((300, 250, 275, 425), (1.5, 2, 9, 4), 4.8657),
    ],
)
def test_values_of_the_program(freqs_hz: tuple[float, ...], amplitudes: tuple[float, ...], value: float) -> None:
    """Sethares's program dissmeasure relative to (440, 460), as kept in the tests of the open program dycon."""
    unit = sethares_pair((440, 1), (460, 1))
    assert sethares_roughness(zip(freqs_hz, amplitudes, strict=True)) / unit == pytest.approx(value, abs=5e-5)


def test_minima_of_a_seven_partial_sound() -> None:
    """Sethares, Relating Tuning and Timbre, figure 2, as transcribed in the open library hmt."""
    amplitudes = [0.88**place for place in range(7)]
    fixed = with_harmonics([880.0], amplitudes)

    def product_curve(cents: int) -> float:
        # The figure weighs pairs by the product of amplitudes: one call a pair, with unit amplitudes, then weighed.
        moved = with_harmonics([880 * 2 ** (cents / 1200)], amplitudes)
        return sum(a * b * sethares_pair((f, 1), (g, 1)) for f, a in fixed for g, b in moved)

    curve = [product_curve(cents) for cents in range(1201)]
    minima = [cents for cents in range(1, 1200) if curve[cents - 1] >= curve[cents] <= curve[cents + 1]]
    assert minima == [267, 316, 386, 498, 582, 702, 884, 969]


@given(sounds)
def test_hutchinson_knopoff_by_all_pairs(sound: list[Partial]) -> None:
    """The published factor in words, on sounds whose partials do not coincide."""
    sound = [partial for place, partial in enumerate(sound) if partial[0] not in {f for f, _ in sound[:place]}]
    total = 0.0
    for place, (f1, a1) in enumerate(sound):
        for f2, a2 in sound[:place]:
            y = abs(f1 - f2) / (1.72 * ((f1 + f2) / 2) ** 0.65)
            total += a1 * a2 * ((y / 0.25) * math.exp(1 - y / 0.25)) ** 2 if y <= 1.2 else 0
    power = sum(a * a for _, a in sound)
    expected = total / power if power else 0.0
    assert hutchinson_knopoff_roughness(sound) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(("keys", "value"), [((60, 64, 67), 0.1202426), ((60, 63, 67), 0.1300830)])
def test_triads_with_eleven_harmonics(keys: tuple[int, ...], value: float) -> None:
    """Hutchinson and Knopoff by the open programs dycon and incon, which print these values."""
    sound = with_harmonics(keys_hz(*keys), inverse_harmonics(11))
    assert hutchinson_knopoff_roughness(sound) == pytest.approx(value, abs=5e-8)


def test_coincident_partials_are_merged() -> None:
    """Two equal tones have the roughness of one: power adds and the sum is divided by it."""
    tone = with_harmonics([220.0], inverse_harmonics(11))
    assert hutchinson_knopoff_roughness(tone + tone) == pytest.approx(hutchinson_knopoff_roughness(tone))
    assert hutchinson_knopoff_roughness([]) == 0.0


def test_curve_and_bandwidth() -> None:
    """As kept in the tests of dycon."""
    assert hutchinson_knopoff_curve(0) == 0
    assert hutchinson_knopoff_curve(0.25) == 1
    assert hutchinson_knopoff_curve(1.5, cutoff=None) == pytest.approx(0.0016, abs=5e-5)
    assert critical_bandwidth_hz(400, 440) == pytest.approx(87.225, abs=5e-4)
