"""Metres and strokes: what they refuse, and how long a beat is."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from gamutwright.errors import DomainError
from gamutwright.ir.playing import Drum, Metre, Stroke


@pytest.mark.parametrize(
    ("metre", "beats", "quarters"),
    [
        (Metre(4, 4), 4, Fraction(1)),
        (Metre(3, 4), 3, Fraction(1)),
        (Metre(6, 8), 2, Fraction(3, 2)),
        (Metre(9, 8), 3, Fraction(3, 2)),
        (Metre(2, 2), 2, Fraction(2)),
        (Metre(3, 8), 3, Fraction(1, 2)),
        (Metre(6, 4), 6, Fraction(1)),
    ],
)
def test_beats_of_metres(metre: Metre, beats: int, quarters: Fraction):
    """Compound metres have dotted beats (Kostka and Payne, Tonal Harmony, chapter 2, from memory)."""
    assert (metre.beats, metre.quarters_per_beat) == (beats, quarters)
    assert metre.beats * metre.quarters_per_beat == Fraction(4 * metre.count, metre.unit)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Metre(0, 4), "4/4"),
        (lambda: Metre(4, 3), "6/8"),
        (lambda: Metre(73, 4), "1 to 72"),
        (lambda: Stroke(-1, Drum.BRUSH), "other numbers"),
        (lambda: Stroke(0, Drum.BRUSH, 0), "velocity"),
        (lambda: Stroke(0, Drum.WOOD_BLOCK, float("nan")), "velocity"),
        (lambda: Stroke(0, Drum.WOOD_BLOCK, 0.5, -1), "items"),
    ],
)
def test_what_cannot_be_is_refused(make: Callable[[], object], words: str):
    with pytest.raises(DomainError, match=words):
        make()
