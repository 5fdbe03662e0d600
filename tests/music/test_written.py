"""Pitches in letters and lengths in signs."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from music21 import note

from gamutwright.music.piece import QUARTER
from gamutwright.music.pitches import Register
from gamutwright.music.written import LENGTHS, pitch_of, written_lengths
from gamutwright.theory.scale import Scale


@given(st.integers(1, 60).map(lambda threes: 3 * threes))
def test_signs_add_up_to_the_length_and_never_grow(length: int):
    found = list(written_lengths(length))
    assert sum(found) == length
    assert found == sorted(found, reverse=True)


def test_a_sign_is_as_long_as_its_share_with_its_dots():
    """A dot adds half of what it stands behind (common practice, no source)."""
    for length, (share, dots) in LENGTHS.items():
        plain = Fraction(4 * QUARTER, share)
        assert length == plain * (2 - Fraction(1, 2**dots)), (length, share, dots)


@given(st.integers(0, 11), st.integers(-12, 24))
def test_a_pitch_is_as_high_as_music21_reads_its_name(root: int, step: int):
    scale = Scale.of(*((root + tone) % 12 for tone in (0, 2, 4, 5, 7, 9, 11)))
    if step % 12 not in scale.tones:
        return
    pitch = pitch_of(scale, step)
    height = scale.root + Register(scale).lowest + step
    read = note.Note(pitch.name.replace("b", "-") + str(pitch.octave)).pitch.midi
    assert read - 60 == pitch.semitones == height
