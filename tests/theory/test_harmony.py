"""Chords against music21, key tables and a slow search."""

from __future__ import annotations

import pytest
from music21 import chord as music21_chord

from gamutwright.errors import DomainError
from gamutwright.theory.harmony import (
    SEVENTHS,
    TRIADS,
    Chord,
    chord_name,
    chords_present,
    seventh_chords,
    tertian_numerals,
    triads,
)
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map, tone_names

ALL_SETS = [Scale(mask) for mask in range(4096)]
MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
HARMONIC_MINOR = Scale.of(0, 2, 3, 5, 7, 8, 11)


def test_chord_kinds_have_the_names_music21_gives_them() -> None:
    """music21 calls the chords with an augmented and with a minor triad and a major seventh tetrachords."""
    names = {
        suffix: music21_chord.Chord([48 + tone for tone in shape]).commonName
        for suffix, shape in {**TRIADS, **SEVENTHS}.items()
    }
    assert names == {
        "": "major triad",
        "m": "minor triad",
        "dim": "diminished triad",
        "aug": "augmented triad",
        "maj7": "major seventh chord",
        "7": "dominant seventh chord",
        "m7": "minor seventh chord",
        "m7b5": "half-diminished seventh chord",
        "dim7": "diminished seventh chord",
        "mM7": "minor-augmented tetrachord",
        "+M7": "augmented major tetrachord",
    }


@pytest.mark.exhaustive
def test_chords_present_by_a_slow_search_on_all_sets() -> None:
    for scale in ALL_SETS:
        for shapes in (TRIADS, SEVENTHS):
            slow = [
                Chord(root, suffix)
                for root in range(12)
                for suffix, shape in shapes.items()
                if all((root + interval) % 12 in scale.tones for interval in shape)
            ]
            assert list(chords_present(scale, shapes)) == slow


@pytest.mark.exhaustive
def test_symmetric_chords_stand_on_each_of_their_roots() -> None:
    """An augmented triad on three roots, a diminished seventh on four (any rudiments text)."""
    for scale in ALL_SETS:
        assert sum(chord.suffix == "aug" for chord in triads(scale)) % 3 == 0
        assert sum(chord.suffix == "dim7" for chord in seventh_chords(scale)) % 4 == 0


def test_chord_names_in_keys() -> None:
    """Common practice: the triads of E flat major."""
    e_flat = MAJOR.transposed(3)
    names = tone_name_map(e_flat)
    assert [chord_name(chord, names) for chord in triads(e_flat)] == ["Eb", "Fm", "Gm", "Ab", "Bb", "Cm", "Ddim"]


@pytest.mark.parametrize(
    ("tones", "expected"),
    [
        ((0, 2, 4, 5, 7, 9, 11), "I ii iii IV V vi vii°"),
        ((0, 2, 3, 5, 7, 8, 10), "i ii° III iv v VI VII"),
        ((0, 2, 3, 5, 7, 8, 11), "i ii° III+ iv V VI vii°"),
        ((0, 2, 3, 5, 7, 9, 11), "i ii III+ IV V vi° vii°"),
        ((0, 2, 3, 5, 7, 9, 10), "i ii III IV v vi° VII"),
    ],
)
def test_triads_on_the_degrees(tones: tuple[int, ...], expected: str) -> None:
    """Diatonic chords of major, the three minor scales and Dorian; Kostka and Payne, from memory."""
    assert " ".join(tertian_numerals(Scale.of(*tones), 3)) == expected


def test_sevenths_on_the_degrees() -> None:
    """Kostka and Payne, from memory."""
    assert " ".join(tertian_numerals(MAJOR, 4)) == "IM7 ii7 iii7 IVM7 V7 vi7 viiø7"
    assert " ".join(tertian_numerals(HARMONIC_MINOR, 4)) == "iM7 iiø7 III+M7 iv7 V7 VIM7 vii°7"


@pytest.mark.exhaustive
def test_numerals_are_written_as_music21_judges_the_chords() -> None:
    """Every seven-tone scale with a letter for each tone: case and mark follow music21's reading of each triad."""
    read = 0
    for scale in ALL_SETS:
        names = [name.replace("b", "-") for name in tone_names(scale)]
        if scale.cardinality != 7 or not scale.is_rooted or len({name[0] for name in names}) < 7:
            continue
        for degree, numeral in enumerate(tertian_numerals(scale, 3)):
            theirs = music21_chord.Chord([names[(degree + step) % 7] for step in (0, 2, 4)])
            assert (numeral.isupper() and numeral.isalpha()) is theirs.isMajorTriad()
            assert (numeral.islower() and numeral.isalpha()) is theirs.isMinorTriad()
            assert (numeral.islower() and numeral.endswith("°")) is theirs.isDiminishedTriad()
            assert (numeral.isupper() and numeral.endswith("+")) is theirs.isAugmentedTriad()
            read += 1
    assert read > 1000


def test_refusals() -> None:
    with pytest.raises(DomainError, match="twelve divisions"):
        triads(Scale.of(0, 6, 11, divisions=19))
    with pytest.raises(DomainError, match="from 5 tones on"):
        tertian_numerals(Scale.of(0, 4, 7), 3)
