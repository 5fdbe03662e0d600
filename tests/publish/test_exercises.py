"""Exercises checked against music21, which names intervals, chords and transpositions by rules of its own."""

from __future__ import annotations

import re
from itertools import pairwise

import music21
import pytest

from gamutwright.errors import DomainError
from gamutwright.inputs.text import read_scale
from gamutwright.ir.metrics import is_drawable
from gamutwright.languages import known_languages, language_of
from gamutwright.publish.handout.exercises import Exercise, exercises, moved_scale, moved_to, stacked_triads
from gamutwright.publish.handout.sheet_words import sheet_words
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names

NAMED = ["C major", "G acoustic", "A minor pentatonic", "Eb dorian", "C# harmonic minor", "Gb major", "C chromatic"]
TABLES = [language_of(language).table("print") for language in known_languages()]


def scale(name: str) -> Scale:
    return read_scale(name).scale


def by_id(found: tuple[Exercise, ...]) -> dict[str, Exercise]:
    return {exercise.id: exercise for exercise in found}


def pitch(name: str) -> music21.pitch.Pitch:
    """A note in the way music21 writes it: flats are minus signs."""
    for sign, theirs in (("𝄪", "##"), ("𝄫", "--"), ("♯", "#"), ("♭", "-")):
        name = name.replace(sign, theirs)
    return music21.pitch.Pitch(name[0] + name[1:].replace("b", "-"))


@pytest.mark.parametrize("name", NAMED)
def test_triads_are_what_music21_calls_them(name: str):
    own = {pitch(note).pitchClass for note in tone_names(scale(name))}
    for row in by_id(exercises(scale(name), "en"))["chords"].rows:
        root, quality = row.label.split()
        chord = music21.chord.Chord([pitch(note) for note in row.answers])
        assert chord.isTriad()
        assert chord.quality == quality
        assert chord.root().name == pitch(root).name
        assert {note.pitchClass for note in chord.pitches} <= own


def test_all_triads_of_major_are_found():
    """Three major, three minor and one diminished (Kostka and Payne, Tonal Harmony, chapter 3, from memory)."""
    found = [(root, kind) for root, kind, _ in stacked_triads(scale("D major"))]
    assert found == [("D", ""), ("E", "m"), ("F#", "m"), ("G", ""), ("A", ""), ("B", "m"), ("C#", "dim")]


@pytest.mark.parametrize("name", NAMED)
def test_the_other_root_is_music21s_transposition(name: str):
    before, after = tone_names(scale(name)), moved_to(scale(name))
    interval = music21.interval.Interval(pitch(before[0]), pitch(after[0]))
    assert interval.semitones % 12
    assert [interval.transposePitch(pitch(note)).name for note in before] == [pitch(note).name for note in after]


def test_a_spelling_that_cannot_be_moved_is_spelled_anew():
    """Fbb and B## leave no room on either side of the line of fifths."""
    own = Scale(0b1011, names=("C", "B##", "Fbb"))
    assert [pitch(note).pitchClass for note in moved_to(own)] == [5, 6, 8]


@pytest.mark.parametrize("mask", range(1, 4096, 39))
def test_any_set_is_moved_by_one_interval(mask: int):
    own = Scale(mask, root=mask % 12)
    after = [pitch(note).pitchClass for note in moved_to(own)]
    assert len({(high - low) % 12 for low, high in zip(own.pitch_classes, after, strict=True)}) == 1


@pytest.mark.parametrize("name", NAMED)
def test_steps_and_modes_are_those_of_music21(name: str):
    found = by_id(exercises(scale(name), "en"))
    for tick in found["steps"].ticks:
        low, high = (pitch(note) for note in tick.text.split("–"))
        assert tick.is_right == ((high.pitchClass - low.pitchClass) % 12 == 1)
    tones, steps = found["mode"].rows
    around = [pitch(note).pitchClass for note in (*tones.answers, tones.answers[0])]
    assert [int(step) for step in steps.answers] == [(high - low) % 12 for low, high in pairwise(around)]
    assert {pitch(note).name for note in tones.answers} == {pitch(note).name for note in tone_names(scale(name))}
    assert tones.answers[0] != tone_names(scale(name))[0]


def test_the_acoustic_scale_written_out():
    """G A B C# D E F, by hand on paper."""
    found = by_id(exercises(scale("G acoustic"), "en"))
    assert found["ring"].rows[0].answers == ("2", "2", "2", "1", "2", "1", "2")
    assert found["ring"].rows[0].given == (0, 1, 2, 4, 5, 6)
    assert "12 − 11 = 1" in found["ring"].why
    assert [tick.text for tick in found["steps"].ticks if tick.is_right] == ["C♯–D", "E–F"]
    assert found["mode"].rows[0].answers == ("D", "E", "F", "G", "A", "B", "C♯")
    assert found["root"].rows[0].answers == ("C", "D", "E", "F♯", "G", "A", "B♭")


def test_german_names_of_notes_and_chords():
    """Minor is written small, B is H and B flat is B (common practice, no source)."""
    rows = by_id(exercises(scale("G acoustic"), "de"))["chords"].rows
    assert [row.label for row in rows] == ["G-Dur", "H vermindert", "d-Moll", "F übermäßig"]
    assert rows[3].answers == ("F", "A", "Cis")
    assert by_id(exercises(scale("Eb minor"), "de"))["chords"].rows[0].label == "es-Moll"


def test_thirty_one_divisions_are_counted_in_steps():
    own = Scale.of(0, 5, 10, 13, 18, 23, 28, divisions=31)
    found = by_id(exercises(own, "en"))
    assert list(found) == ["ring", "steps", "chords", "mode", "root"]
    assert [tick.text for tick in found["steps"].ticks if tick.is_right] == ["10–13", "28–0"]
    assert [row.answers for row in found["chords"].rows] == [("0", "10", "18"), ("5", "13", "23")]
    moved = [int(tone) for tone in found["root"].rows[0].answers]
    assert moved == [(tone + 13) % 31 for tone in (0, 5, 10, 13, 18, 23, 28)]
    assert moved_scale(own).mask == own.mask


def test_what_a_scale_has_not_is_not_asked_for():
    assert [exercise.id for exercise in exercises(Scale(1), "en")] == ["staff", "ring", "root"]
    assert [exercise.id for exercise in exercises(Scale.of(0, 1, 2), "en")] == [
        "staff",
        "ring",
        "steps",
        "mode",
        "root",
    ]
    with pytest.raises(DomainError, match="empty"):
        exercises(Scale(0), "en")


@pytest.mark.parametrize("mask", range(1, 4096, 31))
@pytest.mark.parametrize("language", ["en", "de"])
def test_any_set_has_exercises_whose_places_are_as_many_as_its_tones(mask: int, language: str):
    own = Scale(mask, root=mask % 12)
    for exercise in exercises(own, language):
        assert exercise.prompt
        assert exercise.why
        assert "{" not in exercise.prompt + exercise.why
        if exercise.id in {"ring", "mode", "root"}:
            assert {len(row.answers) for row in exercise.rows} == {own.cardinality}
        if exercise.id == "ring":
            assert sum(int(size) for size in exercise.rows[0].answers) == 12


def test_both_languages_say_the_same_things_in_letters_that_can_be_set():
    english, german = TABLES
    assert english.keys() == german.keys()
    for key in english:
        # German has a small form of a root beside the usual one.
        slots = [set(re.findall(r"\{([a-z]+)\}", table[key])) for table in TABLES]
        assert slots[0] == slots[1] or key == "chord-m"
        assert all(is_drawable(letter) for table in TABLES for letter in table[key])


def test_words_are_refused_where_there_are_none():
    with pytest.raises(DomainError, match="worded in de, en"):
        sheet_words("fr")
    with pytest.raises(DomainError, match="worded in de, en"):
        sheet_words("../de")
    with pytest.raises(DomainError, match="Fill every slot"):
        sheet_words("en").say("mode", degree=2)
    assert sheet_words("de-AT").language == "de"
    assert sheet_words("en").say("chord-major", note="{note}", small="") == "{note} major"
