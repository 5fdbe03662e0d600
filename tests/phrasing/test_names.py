"""Names of notes, chords, intervals and degrees in two languages.

German note names are those of common practice (no source), among them the 35 names with up to two accidentals; sizes
of intervals and kinds of chords are compared with music21.
"""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import harmony, interval

from deadlines import before_long
from gamutwright.phrasing.interval_words import find_intervals, spoken_interval
from gamutwright.phrasing.numbers import find_quantities, list_in_words
from gamutwright.phrasing.spoken_names import (
    find_chords,
    find_degrees,
    find_notes,
    find_numerals,
    find_ratios,
    find_steps,
    spoken_chord,
    spoken_degree,
    spoken_note,
    spoken_numeral,
    spoken_ratio,
)
from gamutwright.theory.harmony import SEVENTHS, TRIADS
from thinning import thinned

LANGUAGES = ("en", "de")
NAMES = [letter + sign for letter in "CDEFGAB" for sign in ("", "b", "bb", "#", "##")]
CHORDS = [name + suffix for name in NAMES for suffix in (*TRIADS, *SEVENTHS)]
GERMAN = {
    "C": "C Ces Ceses Cis Cisis", "D": "D Des Deses Dis Disis", "E": "E Es Eses Eis Eisis",
    "F": "F Fes Feses Fis Fisis",
    "G": "G Ges Geses Gis Gisis", "A": "A As Ases Ais Aisis", "B": "H B Heses His Hisis",
}  # fmt: skip


def test_german_note_names_are_those_of_practice():
    said = {
        letter: " ".join(spoken_note(letter + sign, "de") for sign in ("", "b", "bb", "#", "##"))
        for letter in "CDEFGAB"
    }
    assert said == GERMAN


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", NAMES)
def test_notes_are_read_back(name: str, language: str):
    spoken = spoken_note(name, language)
    for text, bound in ((spoken, True), (f"x {spoken}, y", False), (f"x {spoken}.", False)):
        assert [found.name for found in find_notes(text, language, is_bound=bound)] == [name], text


@pytest.mark.parametrize("language", LANGUAGES)
def test_lists_of_notes_are_read_back_in_order(language: str):
    text = list_in_words([spoken_note(name, language) for name in NAMES], language)
    assert [found.name for found in find_notes(text, language, is_bound=True)] == NAMES


@pytest.mark.parametrize("language", LANGUAGES)
def test_chords_are_read_back_alone_and_in_a_list(language: str):
    for name in CHORDS:
        assert [c.name for c in find_chords(spoken_chord(name, language), language, is_bound=True)] == [name]
    text = list_in_words([spoken_chord(name, language) for name in CHORDS], language)
    assert [c.name for c in find_chords(text, language, is_bound=True)] == CHORDS


def test_chord_symbols_mean_what_music21_reads():
    for suffix, tones in {**TRIADS, **SEVENTHS}.items():
        symbol = harmony.ChordSymbol("C" + {"m7b5": "ø7", "mM7": "mM7", "+M7": "+M7", "dim7": "o7"}.get(suffix, suffix))
        assert tuple(sorted(pitch.pitchClass for pitch in symbol.pitches)) == tuple(sorted(tones))


@pytest.mark.parametrize("language", LANGUAGES)
def test_intervals_are_read_back(language: str):
    for semitones in range(13):
        (found,) = find_intervals(spoken_interval(semitones, language), language)
        assert found.semitones == semitones


def test_english_interval_names_have_the_sizes_music21_gives():
    letters = {"minor": "m", "major": "M", "perfect": "P", "augmented": "A", "diminished": "d"}
    sizes = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "octave": 8}
    for quality, letter in letters.items():
        for word, size in sizes.items():
            if (quality in {"minor", "major"}) == (size in {4, 5, 8}) or (letter == "d" and size == 2):
                continue
            (found,) = find_intervals(f"the {quality} {word}", "en")
            if quality == "perfect" and size not in {4, 5, 8}:
                assert found.semitones is None or found.number == size
                continue
            assert found.semitones == interval.Interval(f"{letter}{size}").semitones, (quality, word)


@pytest.mark.parametrize("language", LANGUAGES)
def test_degrees_numerals_and_ratios_are_read_back(language: str):
    degrees = [sign + str(number) for sign in ("", "b", "bb", "#", "##") for number in range(1, 8)]
    text = list_in_words([spoken_degree(name, language) for name in degrees], language)
    assert [found.name for found in find_degrees(text, language)] == degrees
    numerals = [
        "I",
        "ii",
        "iii°",
        "IV+",
        "V7",
        "vi7",
        "viiø7",
        "viii°7",
        "IXM7",
        "xM7",
        "XI+M7",
        "XII[5 6]",
        "II[4 3 5]",
    ]
    text = list_in_words([spoken_numeral(name, language) for name in numerals], language)
    assert [found.name for found in find_numerals(text, language)] == numerals
    ratios = ["1/1", "9/8", "45/32", "3/2"]
    text = list_in_words([spoken_ratio(name, language) for name in ratios], language)
    assert [found.name for found in find_ratios(text, language)] == ratios


# Common practice of the two languages, no source.
@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("A scale may begin anywhere. A tone follows.", "en", []),
        ("A to E flat. A is the root, and then A again.", "en", ["A", "Eb", "A", "A"]),
        ("A minor third. A minor triad. A major scale.", "en", []),
        ("From C# to Bb and E♭, F𝄪, C double sharp, B double-flat", "en", ["C#", "Bb", "Eb", "F##", "C##", "Bbb"]),
        ("E-flat, B-side, C. P. E. Bach wrote it", "en", ["Eb"]),
        ("a note, Beethoven, Ebb and flow, DNA", "en", []),
        ("A C major triad and B minor", "en", ["C", "B"]),
        ("Es klingt hell. Des Tones Kern. As, Es und H.", "de", ["Ab", "Eb", "B"]),
        ("Von Es nach B und von H nach Fis", "de", ["Eb", "Bb", "B", "F#"]),
        ("Die A-Seite, E-Gitarre, d. h. ein C", "de", ["C"]),
        ("C-Dur und H vermindert, B♭ und F#", "de", ["C", "B", "Bb", "F#"]),
        ("es war des Nachts", "de", []),
    ],
)
def test_notes_in_running_text(text: str, language: str, expected: list):
    assert [found.name for found in find_notes(text, language)] == expected


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("The C major scale and the key of G, A minor pentatonic", "en", []),
        ("A minor triad on E flat", "en", ["Ebm"]),
        ("it holds C major, D minor and a diminished chord on B", "en", ["C", "Dm", "Bdim"]),
        ("Dm, F♯m7♭5, Cmaj7, B°, Gaug", "en", ["Dm", "F#m7b5", "Cmaj7", "Bdim", "Gaug"]),
        ("G seventh, E half-diminished, C sharp minor seventh", "en", ["G7", "Em7b5", "C#m7"]),
        ("die C-Dur-Tonleiter und a-Moll-Pentatonik", "de", []),
        ("C-Dur, d-Moll, es-Moll, B-Dur und H vermindert", "de", ["C", "Dm", "Ebm", "Bb", "Bdim"]),
        ("C übermäßig, G-Dur mit kleiner Septime, h-Moll mit kleiner Septime", "de", ["Caug", "G7", "Bm7"]),
    ],
)
def test_chords_in_running_text(text: str, language: str, expected: list):
    assert [found.name for found in find_chords(text, language)] == expected


def test_a_bare_note_is_a_major_triad_in_a_claim():
    assert [c.name for c in find_chords("C, D minor and G", "en", is_bound=True)] == ["C", "Dm", "G"]
    assert [c.name for c in find_chords("A, B diminished", "en", is_bound=True)] == ["A", "Bdim"]


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("a minor third, two semitones, a whole tone, the tritone", "en", [3, 1, 2, 6]),
        ("thirds in fourths, a fifth above, the third mode", "en", [None, 5, 7]),
        ("two thirds of the whole-tone scale", "en", []),
        ("half a step, a half step, three whole steps", "en", [1, 2]),
        ("B minor seventh, a seventh chord", "en", []),
        ("eine kleine Terz, reine Quinten, zwei Ganztonschritte, der Tritonus", "de", [3, 7, 2, 6]),
        ("d-Moll mit kleiner Septime, eine kleine Septime", "de", [10]),
        ("die Ganztonleiter", "de", []),
    ],
)
def test_intervals_in_running_text(text: str, language: str, expected: list):
    assert [found.semitones for found in find_intervals(text, language)] == expected


def test_tones_called_by_number():
    assert [m.name for m in find_steps("steps 3, 6 and 8 of 19; step 0 to step 11", "en")] == ["3", "6", "8", "0", "11"]
    assert [m.name for m in find_steps("von Schritt 3 nach Schritt 17", "de")] == ["3", "17"]


@given(st.text(max_size=200), st.sampled_from(LANGUAGES), st.booleans())
def test_any_text_gives_spans_that_quote_it(text: str, language: str, is_bound: bool):
    for find in (find_notes, find_chords, find_intervals):
        assert all(m.text == text[m.start : m.end] for m in find(text, language, is_bound=is_bound))


@pytest.mark.parametrize(
    ("piece", "language"),
    thinned(
        itertools.product(
            ["A ", "C D ", "one hundred and ", "twenty ", "hundertein", "1,", "1.", "a-", "A. "], LANGUAGES
        ),
        0.25,
    ),
)
def test_long_texts_are_read_in_linear_time(piece: str, language: str):
    # A search that grows with the square of the text would take hours.
    with before_long():
        for find in (find_notes, find_chords, find_intervals, find_quantities):
            find(piece * (60_000 // len(piece)), language)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_word_with_an_accent_is_no_note(language: str):
    assert find_notes("Béla Émile Ağa Dvořák Größe", language) == ()
