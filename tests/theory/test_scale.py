"""The value everything else is a function of."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale, rotated_mask


@st.composite
def scales(draw: st.DrawFn) -> Scale:
    n = draw(st.integers(1, 72))
    return Scale(draw(st.integers(0, (1 << n) - 1)), n, draw(st.integers(0, n - 1)))


@given(scales(), st.integers(-200, 200))
def test_rotation_moves_each_member(scale: Scale, steps: int) -> None:
    moved = {(tone + steps) % scale.divisions for tone in scale.tones}
    assert {t for t in range(scale.divisions) if rotated_mask(scale.mask, steps, scale.divisions) >> t & 1} == moved


@given(scales())
def test_steps_sum_to_the_division(scale: Scale) -> None:
    assert sum(scale.step_pattern) == (scale.divisions if scale.mask else 0)
    assert len(scale.step_pattern) == scale.cardinality == len(scale.tones) == len(scale.pitch_classes)


@given(scales())
def test_complement_and_inversion_are_their_own_inverses(scale: Scale) -> None:
    assert scale.complement().complement() == scale
    assert scale.inverted().inverted() == scale
    assert scale.cardinality + scale.complement().cardinality == scale.divisions


@given(scales())
def test_modes_are_rotations_of_the_steps(scale: Scale) -> None:
    for degree in range(1, scale.cardinality + 1):
        mode = scale.mode(degree)
        assert mode.step_pattern == scale.step_pattern[degree - 1 :] + scale.step_pattern[: degree - 1]
        assert set(mode.pitch_classes) == set(scale.pitch_classes)


def test_church_modes_by_rotation() -> None:
    """Glarean 1547, in any rudiments text (from memory): D to D on the white keys is dorian, E phrygian, and so on."""
    major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    expected = ["2212221", "2122212", "1222122", "2221221", "2212212", "2122122", "1221222"]
    assert ["".join(map(str, major.mode(k).step_pattern)) for k in range(1, 8)] == expected


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Scale(1, 73), "1 to 72"),
        (lambda: Scale(1, 0), "1 to 72"),
        (lambda: Scale(4096), "0 to 11 steps above the root"),
        (lambda: Scale(-1), "0 to 11 steps above the root"),
        (lambda: Scale(1, 12, 12), "root"),
        (lambda: Scale(0b10001, names=("C",)), "names"),
        (lambda: Scale.of(0, 12), "pitch class 12"),
        (lambda: Scale.of(0, 3, 3), "twice"),
        (lambda: Scale.of(0, 3).mode(3), "degrees 1 to 2"),
    ],
)
def test_parameters_outside_their_range_are_refused(make: object, said: str) -> None:
    with pytest.raises(DomainError, match=said):
        make()  # type: ignore[operator]
