"""Tonic, colour chords, vamps and chord symbols against Persichetti, Nettles and Graf, and music21."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import chord as music21_chord
from music21 import key as music21_key
from music21 import roman as music21_roman

from gamutwright.errors import DomainError
from gamutwright.theory.harmony import chord_name
from gamutwright.theory.harmonyroles import (
    HarmonyKind,
    Vamp,
    cadence,
    chord_symbols,
    colour_chords,
    major_and_minor_chords,
    stacked_chord,
    tonic,
    vamp,
)
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map, tone_names

DORIAN = Scale.of(2, 4, 5, 7, 9, 11, 0)
PHRYGIAN = Scale.of(4, 5, 7, 9, 11, 0, 2)
LYDIAN = Scale.of(5, 7, 9, 11, 0, 2, 4)
MIXOLYDIAN = Scale.of(7, 9, 11, 0, 2, 4, 5)
PHRYGIAN_DOMINANT = Scale.of(4, 5, 8, 9, 11, 0, 2)
ALTERED = Scale.of(0, 1, 3, 4, 6, 8, 10)
WHOLE_TONE = Scale.of(0, 2, 4, 6, 8, 10)

rooted = st.integers(min_value=0, max_value=2047).map(lambda upper: Scale(2 * upper + 1))
divided = st.integers(min_value=13, max_value=31).flatmap(
    lambda divisions: st.integers(min_value=0, max_value=(1 << (divisions - 1)) - 1).map(
        lambda upper: Scale(2 * upper + 1, divisions)
    )
)


def _names(scale: Scale) -> list[str]:
    return [chord_name(chord, tone_name_map(scale)) for chord in colour_chords(scale)]


@pytest.mark.parametrize(
    ("scale", "numerals"),
    [
        (DORIAN, ["IV", "ii"]),
        (PHRYGIAN, ["bII", "bvii"]),
        (LYDIAN, ["II", "vii"]),
        (MIXOLYDIAN, ["v", "bVII"]),
        (PHRYGIAN_DOMINANT, ["bII", "bvii"]),
    ],
)
def test_primary_triads_of_the_modes(scale: Scale, numerals: list[str]) -> None:
    """Persichetti, Twentieth-Century Harmony (1961), chapter 2, from a summary; numerals by music21 in major."""
    key = music21_key.Key(tone_names(scale)[0].replace("b", "-"))
    found = []
    for chord in colour_chords(scale):
        notes = [tone_name_map(scale)[tone].replace("b", "-") for tone in chord.tones]
        figure = music21_roman.romanNumeralFromChord(music21_chord.Chord(notes, octave=4).closedPosition(), key)
        found.append(figure.romanNumeral)
    assert found == numerals


def test_colour_chords_in_the_spelling_of_the_scale() -> None:
    assert _names(PHRYGIAN) == ["F", "Dm"]
    assert _names(DORIAN) == ["G", "Em"]
    assert _names(Scale.of(9, 11, 0, 2, 4, 5, 8)) == ["E"]
    assert _names(Scale.of(0, 2, 4, 7, 9)) == []
    assert colour_chords(Scale(0b100)) == ()


def test_more_colour_tones_come_first() -> None:
    """Against natural minor locrian has the flat second and fifth: the triad on the flat fifth holds both."""
    assert _names(Scale.of(11, 0, 2, 4, 5, 7, 9))[0] == "F"


@given(rooted)
def test_colour_chords_are_major_or_minor_by_music21_and_hold_a_colour_tone(scale: Scale) -> None:
    for chord in colour_chords(scale):
        read = music21_chord.Chord([60 + chord.root + (tone - chord.root) % 12 for tone in chord.tones])
        assert read.isMajorTriad() or read.isMinorTriad()
        assert chord.root != 0
        assert set(chord.tones) <= set(scale.tones)


def test_seven_tones_are_spelled_in_thirds() -> None:
    """F G# C would be a minor triad to the ear, but no reader of E F G# A B C D writes one."""
    assert [chord.root for chord in major_and_minor_chords(PHRYGIAN_DOMINANT)] == [0, 1, 5, 10]
    octatonic = Scale.of(0, 1, 3, 4, 6, 7, 9, 10)
    assert len(major_and_minor_chords(octatonic)) == 8
    assert major_and_minor_chords(Scale.of(0, 6, 11, divisions=19)) == ()


def test_the_tonic_is_the_best_the_root_has() -> None:
    kinds = {
        DORIAN: HarmonyKind.TRIAD,
        Scale.of(11, 0, 2, 4, 5, 7, 9): HarmonyKind.SEVENTH,
        Scale.of(0, 1, 7): HarmonyKind.FIFTH,
        Scale.of(0, 1, 2): HarmonyKind.ROOT,
        Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19): HarmonyKind.STACKED,
    }
    for scale, kind in kinds.items():
        home = tonic(scale)
        assert home
        assert home.kind is kind
    assert tonic(Scale(0b100)) is None
    both = tonic(Scale.of(0, 3, 4, 7))
    assert both
    assert both.chord
    assert both.chord.suffix == ""


def _vamp(scale: Scale) -> Vamp:
    two = vamp(scale)
    assert two is not None
    return two


def test_vamp_and_cadence() -> None:
    """Dorian i-IV and mixolydian I-v as Persichetti's primary triads have them."""
    two = _vamp(DORIAN)
    assert (two.home.name(DORIAN), two.away.name(DORIAN), two.has_colour) == ("Dm", "G", True)
    assert [chord.name(DORIAN) for chord in cadence(DORIAN) or ()] == ["G", "Dm"]
    assert not _vamp(Scale.of(0, 2, 4, 7, 9)).has_colour
    assert vamp(Scale.of(0, 7)) is None
    assert cadence(Scale.of(0, 7)) is None


@given(st.one_of(rooted, divided))
def test_every_scale_of_three_tones_or_more_has_a_vamp_of_its_own_tones(scale: Scale) -> None:
    two = vamp(scale)
    assert (two is None) == (scale.cardinality < 3)
    if two:
        assert two.home.tones[0] == 0
        assert set(two.home.tones) | set(two.away.tones) <= set(scale.tones)
        assert two.away.root != 0


def test_other_divisions_stack_every_other_tone() -> None:
    """Nineteen divisions: the diatonic fifth of 11 steps and major third of 6; the least rough of the six others."""
    diatonic = Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)
    two = _vamp(diatonic)
    assert two.home.tones == (0, 6, 11)
    assert two.away.name(diatonic) in {f"chord on degree {degree}" for degree in (4, 5)}
    with pytest.raises(DomainError, match="stacked on a degree"):
        stacked_chord(Scale.of(0, 7), 1)


@pytest.mark.parametrize(
    ("scale", "suffix", "available", "avoided"),
    [
        (Scale.of(0, 2, 4, 5, 7, 9, 11), "maj7", "9 13", "11"),
        (DORIAN, "m7", "9 11 13", ""),
        (PHRYGIAN, "m7", "11", "b9 b13"),
        (LYDIAN, "maj7", "9 #11 13", ""),
        (MIXOLYDIAN, "7", "9 13", "11"),
        (Scale.of(9, 11, 0, 2, 4, 5, 7), "m7", "9 11", "b13"),
        (Scale.of(11, 0, 2, 4, 5, 7, 9), "m7b5", "11 b13", "b9"),
        (Scale.of(0, 2, 4, 6, 7, 9, 10), "7", "9 #11 13", ""),
        (PHRYGIAN_DOMINANT, "7", "b9 b13", "11"),
    ],
)
def test_tensions_and_tones_to_avoid(scale: Scale, suffix: str, available: str, avoided: str) -> None:
    """Nettles and Graf, The Chord Scale Theory and Jazz Harmony (1997), the chord scales; from memory."""
    first = chord_symbols(scale)[0]
    assert first.chord.suffix == suffix
    assert " ".join(tension.name for tension in first.available) == available
    assert " ".join(tension.name for tension in first.avoided) == avoided


def test_chord_symbols_without_a_usual_seventh() -> None:
    """The altered and whole-tone scales over altered dominants, the pentatonic over a sixth chord: jazz teaching."""
    assert [symbol.chord.suffix for symbol in chord_symbols(ALTERED)] == ["7#5", "7b5", "m7b5"]
    assert [symbol.chord.suffix for symbol in chord_symbols(WHOLE_TONE)] == ["7#5", "7b5"]
    assert [symbol.chord.suffix for symbol in chord_symbols(Scale.of(0, 2, 4, 7, 9))] == ["6"]
    assert [symbol.chord.suffix for symbol in chord_symbols(Scale.of(0, 4, 7))] == [""]
    assert chord_symbols(Scale.of(0, 1, 7)) == ()
    assert chord_symbols(Scale.of(0, 6, 11, divisions=19)) == ()


@given(rooted)
def test_chord_and_tensions_are_tones_of_the_scale_and_apart(scale: Scale) -> None:
    for symbol in chord_symbols(scale):
        available = {tension.tone for tension in symbol.available}
        avoided = {tension.tone for tension in symbol.avoided}
        assert not available & avoided
        assert not (available | avoided) & set(symbol.chord.tones)
        assert available | avoided | set(symbol.chord.tones) <= set(scale.tones)
