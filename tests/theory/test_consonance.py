"""Consonance of whole scales against printed values and the interval-class vector."""

from __future__ import annotations

from fractions import Fraction

import pytest
from music21 import chord as music21_chord

from gamutwright.errors import DomainError
from gamutwright.theory.consonance import (
    HURON_WEIGHTS,
    huron_consonance,
    scale_hutchinson_knopoff_roughness,
    scale_sethares_roughness,
)
from gamutwright.theory.scale import Scale


def test_huron_is_the_vector_of_music21_weighed() -> None:
    """Weights of Huron 1994 as in the open program incon, against the vector music21 gives."""
    printed = [Fraction(text) for text in ("-1.428", "-0.582", "0.594", "0.386", "1.240", "-0.453")]
    assert list(HURON_WEIGHTS) == printed
    for mask in range(1, 4096, 41):
        scale = Scale(mask)
        vector = music21_chord.Chord(list(scale.tones)).intervalVector
        assert huron_consonance(scale) == sum(w * v for w, v in zip(printed, vector, strict=True))


def test_roughness_of_intervals_ranks_as_in_the_curves() -> None:
    """Fifth, fourth, tritone and semitone, each rougher than the one before (Sethares 1993, figures, from memory)."""
    for roughness in (scale_sethares_roughness, scale_hutchinson_knopoff_roughness):
        rising = [roughness(Scale.of(0, interval)) for interval in (7, 5, 6, 1)]
        assert rising == sorted(rising)


def test_roughness_falls_with_height() -> None:
    """The critical band narrows against the interval as tones rise: the same triad is smoother on B than on C."""
    triad = Scale.of(0, 4, 7)
    for roughness in (scale_sethares_roughness, scale_hutchinson_knopoff_roughness):
        assert roughness(triad.transposed(11)) < roughness(triad)


def test_other_divisions_have_no_huron_index() -> None:
    with pytest.raises(DomainError, match="twelve divisions"):
        huron_consonance(Scale.of(0, 11, divisions=19))
