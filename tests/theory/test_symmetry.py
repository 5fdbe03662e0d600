"""Modes and symmetry against published values, theorems and slow definitions."""

from __future__ import annotations

import pytest

from gamutwright.theory.pcset import prime_form
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import (
    has_limited_transpositions,
    inversion,
    is_chiral,
    is_palindromic,
    mode_count,
    mode_tones,
    reflection_axes,
    rotational_symmetry,
    transposition_count,
)

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
WHOLE_TONE = Scale.of(0, 2, 4, 6, 8, 10)
OCTATONIC = Scale.of(0, 1, 3, 4, 6, 7, 9, 10)
HARMONIC_MINOR = Scale.of(0, 2, 3, 5, 7, 8, 11)
EVERY_SET = [Scale(mask) for mask in range(4096)]


# Messiaen 1944, chapter XVI, from memory: the seven modes and how many transpositions each has.
@pytest.mark.parametrize(
    ("tones", "transpositions"),
    [
        ((0, 2, 4, 6, 8, 10), 2),
        ((0, 1, 3, 4, 6, 7, 9, 10), 3),
        ((0, 2, 3, 4, 6, 7, 8, 10, 11), 4),
        ((0, 1, 2, 5, 6, 7, 8, 11), 6),
        ((0, 1, 5, 6, 7, 11), 6),
        ((0, 2, 4, 5, 6, 8, 10, 11), 6),
        ((0, 1, 2, 3, 5, 6, 7, 8, 9, 11), 6),
    ],
)
def test_transpositions_of_messiaens_modes(tones: tuple[int, ...], transpositions: int) -> None:
    scale = Scale.of(*tones)
    assert transposition_count(scale) == transpositions
    assert has_limited_transpositions(scale)


# Nuno 2020, list of set classes, column of transpositional symmetry.
@pytest.mark.parametrize(
    ("tones", "degree"),
    [
        ((0, 1, 6, 7), 2),
        ((0, 2, 6, 8), 2),
        ((0, 1, 2, 6, 7, 8), 2),
        ((0, 1, 4, 5, 8, 9), 3),
        ((0, 1, 3, 6, 7, 9), 2),
        ((0, 1, 2, 4, 6, 7, 8, 10), 2),
        ((0, 1, 2, 4, 5, 6, 8, 9, 10), 3),
    ],
)
def test_degree_of_transpositional_symmetry(tones: tuple[int, ...], degree: int) -> None:
    assert rotational_symmetry(Scale.of(*tones)) == degree


@pytest.mark.exhaustive
def test_symmetric_classes_are_fifteen_and_fourteen() -> None:
    """Nuno 2020 lists 15 types under transposition, 14 under inversion too, the chromatic set left out."""
    symmetric = [scale for scale in EVERY_SET if has_limited_transpositions(scale) and 0 < scale.cardinality < 12]
    types = {
        frozenset(tuple(sorted((tone + k) % 12 for tone in scale.tones)) for k in range(12)) for scale in symmetric
    }
    assert len(types) == 15
    assert len({prime_form(scale) for scale in symmetric}) == 14


@pytest.mark.exhaustive
def test_modes_are_the_different_step_patterns() -> None:
    for scale in EVERY_SET[1::2]:
        patterns = {scale.mode(degree).step_pattern for degree in range(1, scale.cardinality + 1)}
        assert mode_count(scale) == len(patterns)
        degrees = [scale.tones.index(tone) + 1 for tone in mode_tones(scale)]
        assert {scale.mode(degree).step_pattern for degree in degrees} == patterns


def test_modes_of_common_scales() -> None:
    """Common practice, no source: seven church modes, one whole-tone mode, two octatonic ones."""
    assert [mode_count(scale) for scale in (MAJOR, WHOLE_TONE, OCTATONIC, Scale(0))] == [7, 1, 2, 0]


def test_inversionally_symmetric_trichords() -> None:
    """Castren 1994, after a transcription: of the twelve trichords in Forte's order five are symmetric."""
    trichords = [
        (0, 1, 2), (0, 1, 3), (0, 1, 4), (0, 1, 5), (0, 1, 6), (0, 2, 4),
        (0, 2, 5), (0, 2, 6), (0, 2, 7), (0, 3, 6), (0, 3, 7), (0, 4, 8),
    ]  # fmt: skip
    symmetric = [1, 0, 0, 0, 0, 1, 0, 0, 1, 1, 0, 1]
    assert [int(reflection_axes(Scale.of(*tones)) > 0) for tones in trichords] == symmetric
    assert [int(not is_chiral(Scale.of(*tones))) for tones in trichords] == symmetric


@pytest.mark.exhaustive
def test_chirality_by_turning_and_moving() -> None:
    for scale in EVERY_SET:
        images = {tuple(sorted((k - tone) % 12 for tone in scale.tones)) for k in range(12)}
        assert is_chiral(scale) == (scale.tones not in images)


@pytest.mark.exhaustive
def test_palindromes_read_the_same_backwards() -> None:
    for scale in EVERY_SET[1::2]:
        assert is_palindromic(scale) == (scale.step_pattern == scale.step_pattern[::-1])


def test_inversion_of_major_is_phrygian_and_of_harmonic_minor_harmonic_major() -> None:
    """Common practice, no source: tones turned over by hand."""
    assert inversion(MAJOR) == (0, 1, 3, 5, 7, 8, 10)
    assert inversion(Scale.of(2, 4, 5, 7, 9, 11, 0)) == (2, 4, 5, 7, 9, 11, 0)
    turned = Scale.of(*inversion(HARMONIC_MINOR))
    assert Scale.of(0, 2, 4, 5, 7, 8, 11).step_pattern in {turned.mode(k).step_pattern for k in range(1, 8)}
