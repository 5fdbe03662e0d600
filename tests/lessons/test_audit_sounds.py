"""Likely mishearings: what automatic captions make of terms, and ordinary prose that must be left alone."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.lessons.audit import audit
from gamutwright.lessons.auditing.heard_lexicon import lexicon_of
from gamutwright.phrasing.sounds import phonemes, sound_distance

# What words sound alike is everyday knowledge (common practice, no source).
MISHEARD = (
    ("it is the door Ian mode", "dorian"),
    ("the frigid Ian mode comes next", "phrygian"),
    ("listen to the try tone", "tritone"),
    ("they named it a cue stick", "acoustic"),
    ("a hemmy tonic pattern", "hemitonic"),
    ("the ma jore scale", "major"),
    ("a mix a lydian tune", "mixolydian"),
    ("it has my hill property", "Myhill"),
    ("the low crian one", "locrian"),
    ("a penta tonic melody", "pentatonic"),
    ("this hex a cord again", "hexachord"),
    ("it is die atonic", "diatonic"),
    ("that pal in drome", "palindrome"),
    ("the semi tone below", "semitone"),
)
ORDINARY = (
    "We climbed up my hill and tried a tonic in the bar.",
    "The door and the window were open, so we could hear the bells.",
    "Try it on your own, and take your time with the third line.",
    "In version two of the song the frigid water had to go.",
    "A harmonic line is a line that sings, says the man who tunes the bells.",
    "She has many a tone to choose from, and the major of the guard listened.",
    "It is the kind of evening on which everybody stays a little longer.",
    "Add one more chair, please, and try to be there by nine.",
)


@pytest.mark.parametrize(("words", "term"), MISHEARD)
def test_a_misheard_term_is_proposed(words: str, term: str):
    found = audit(f"Well, {words}.", scale="C major").misheard
    assert [item.term for item in found] == [term]
    assert 0 <= found[0].distance < 0.28


@pytest.mark.parametrize("text", ORDINARY)
def test_ordinary_words_are_left_alone(text: str):
    assert audit(text, scale="C major").misheard == ()


def test_the_term_itself_is_no_mishearing():
    text = "The tritone, the tritones, a Dorian mode, hemitonic steps, Messiaen's modes, a pentatonic tune."
    assert audit(text, scale="C major").misheard == ()


def test_german_terms_have_sounds_too():
    found = audit("Dann folgt der lüdische Modus und ein Tri Tonus.", scale="C major", language="de").misheard
    assert "Tritonus" in {item.term for item in found}


@pytest.mark.parametrize("language", ["en", "de"])
def test_held_sounds_are_near_what_the_rules_read(language: str):
    held = lexicon_of(language).sounds
    assert len(held) >= 20
    for term, sounds in held.items():
        assert sound_distance(phonemes(term, language), tuple(sounds.split())) < 0.5, term


PHONEMES = ["p", "t", "k", "b", "d", "g", "m", "n", "s", "z", "f", "v", "iy", "ih", "eh", "ah", "ow", "uw"]
SOUNDS = st.lists(st.sampled_from(PHONEMES), min_size=1, max_size=9)


@given(SOUNDS, SOUNDS)
def test_the_distance_is_a_distance(one: list[str], other: list[str]):
    to, back = sound_distance(tuple(one), tuple(other)), sound_distance(tuple(other), tuple(one))
    assert to * len(other) == pytest.approx(back * len(one))
    assert (to == 0) == (one == other)


@given(st.text(max_size=40), st.sampled_from(["en", "de"]))
def test_any_text_has_sounds(text: str, language: str):
    assert all(sound and sound.isalpha() for sound in phonemes(text, language))
