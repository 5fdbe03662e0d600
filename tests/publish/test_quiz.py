"""The quiz against definitions written apart here, and against theorems of the published literature."""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from math import log2

import pytest

from gamutwright.errors import DomainError
from gamutwright.facts.profile import find
from gamutwright.facts.registry import default_registry
from gamutwright.phrasing.engine import wording_for
from gamutwright.publish.quiz.near_scales import Nearness, near_scales
from gamutwright.publish.quiz.question import Choice, Question
from gamutwright.publish.quiz.selection import Quiz, printed_quiz, quiz
from gamutwright.publish.told_lesson import Lesson, Telling
from gamutwright.theory.naming import scales_called
from gamutwright.theory.scale import Scale
from publish.lessons import lesson

SCALES = [
    ("G acoustic", 12), ("Db major", 12), ("C octatonic, semitone first", 12), ("C chromatic", 12), ("C", 12),
    ("C G", 12), ("C E G", 12), ("D# E# F## G# A# B# C##", 12), ("C whole tone", 12), ("A minor pentatonic", 12),
    ("0 3 6 9 11 14 17", 19), ("0 2 4", 5),
]  # fmt: skip


Quizzes = list[tuple[str, str, Quiz]]


def every_quiz(count: int = 100) -> Iterator[tuple[str, str, Quiz]]:
    for name, divisions in SCALES:
        for language in ("en", "de"):
            yield name, language, quiz(lesson(name, language, 6.0, divisions), count)


@pytest.fixture(scope="module")
def quizzes() -> Quizzes:
    return list(every_quiz())


def letters_to_pitch_class(name: str, language: str) -> int:
    """Read a printed note. English: letter and signs; German: common practice (H, B, -is, -es), no source."""
    if language == "en":
        signs = name[1:].replace("𝄪", "♯♯").replace("𝄫", "♭♭")
        return ("C D EF G A B".index(name[0]) + signs.count("♯") - signs.count("♭")) % 12
    if name in {"B", "Es", "As", "Heses", "Eses", "Ases"}:
        return {"B": 10, "Es": 3, "As": 8, "Heses": 9, "Eses": 2, "Ases": 7}[name]
    return ("C D EF G A H".index(name[0]) + name.count("is") - name[1:].count("es")) % 12


def semitone_steps(pitch_classes: set[int]) -> int:
    """Count tones whose next key up is a tone too: the definition, written apart."""
    return sum((pitch_class + 1) % 12 in pitch_classes for pitch_class in pitch_classes)


def test_every_question_has_one_right_answer_and_no_two_alike(quizzes: Quizzes):
    for name, language, made in quizzes:
        assert len(made.questions) >= 3, (name, language)
        for question in made.questions:
            assert sum(choice.is_right for choice in question.choices) == 1
            assert 2 <= len(question.choices) <= 4
            assert len({choice.text.casefold() for choice in question.choices}) == len(question.choices)
            assert all(choice.text and choice.why for choice in question.choices)


def test_only_what_was_told_is_asked_for_but_for_listening(quizzes: Quizzes):
    for name, divisions in SCALES:
        made = lesson(name, "en", 6.0, divisions)
        told = {telling.fact.id for telling in made.tellings}
        assert all(question.sound or question.fact_id in told for question in quiz(made, 100).questions)


def test_three_questions_in_ten_are_to_be_listened_to():
    made = quiz(lesson(minutes=6.0), 10)
    assert len(made.questions) == 10
    assert sum(bool(question.sound) for question in made.questions) == 3
    assert set(made.sounds) == {question.sound for question in made.questions if question.sound}


@pytest.mark.parametrize("count", [1, 2, 3, 5, 20])
def test_there_are_no_more_questions_than_asked_for(count: int):
    assert len(quiz(lesson(minutes=6.0), count).questions) <= count


@pytest.mark.parametrize("count", [0, -1, 101])
def test_an_impossible_count_is_refused(count: int):
    with pytest.raises(DomainError, match="1 to 100"):
        quiz(lesson(), count)


def test_counts_of_g_acoustic_are_those_of_the_published_scale():
    """G A B C sharp D E F has its semitones between C sharp and D, E and F (the scale is published so; from memory)."""
    question = next(q for q in quiz(lesson("G acoustic", "en", 6.0), 100).questions if q.id == "semitone-steps")
    assert question.right.text == "2"
    assert "C sharp to D and E to F" in question.right.why


CHANGES = {
    "en": (r"with (\S+) instead of (\S+?)[,.]", r"with (\S+) added", r"without (\S+?)[,.]"),
    "de": (r"mit (\S+) statt (\S+?)[,.]", r"und (\S+) dazu", r"ohne (\S+?)[,.]"),
}


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", ["G acoustic", "Db major", "A minor pentatonic", "C octatonic, semitone first"])
def test_a_wrong_count_is_right_for_the_scale_that_its_explanation_names(name: str, language: str):
    """The change is read from the explanation, the semitone steps of the changed set are counted by definition."""
    made = lesson(name, language, 6.0)
    own = set(made.scale.pitch_classes)
    question = next(q for q in quiz(made, 100).questions if q.id == "semitone-steps")
    assert int(question.right.text) == semitone_steps(own)
    read = 0
    for choice in question.choices:
        moved, added, left = (re.search(pattern, choice.why) for pattern in CHANGES[language])
        if choice.is_right or not (moved or added or left):
            continue
        new = {letters_to_pitch_class(found[1], language) for found in (moved, added) if found}
        old = {letters_to_pitch_class(found, language) for found in (moved and moved[2], left and left[1]) if found}
        assert old <= own
        assert not new & own
        assert semitone_steps(own - old | new) == int(choice.text)
        read += 1
    assert read >= 2


def test_listening_answers_list_what_sounds(quizzes: Quizzes):
    """What sounds, in equal semitones from A4 = 440 Hz, are the tones of the right answer and of no other."""
    heard = 0
    for (name, language, made), divisions in zip(quizzes, [d for _, d in SCALES for _ in "ab"], strict=True):
        if divisions != 12:
            continue
        for question in made.questions:
            if not question.id.startswith("heard"):
                continue
            sounding = {round(12 * log2(note.freq_hz / 440) + 9) % 12 for note in made.sounds[question.sound].notes}
            for choice in question.choices:
                listed = {letters_to_pitch_class(note, language) for note in choice.text.split(", ")}
                assert (listed == sounding) is choice.is_right, (name, language, choice)
                heard += 1
    assert heard > 100


def test_intervals_sound_as_far_apart_as_the_right_answer_says(quizzes: Quizzes):
    heard = 0
    for (_, _, made), divisions in zip(quizzes, [d for _, d in SCALES for _ in "ab"], strict=True):
        for question in made.questions:
            if re.fullmatch(r"interval-\d+", question.id):
                freqs = [note.freq_hz for note in made.sounds[question.sound].notes]
                assert round(divisions * log2(max(freqs) / min(freqs)), 6) == int(question.right.text)
                assert min(freqs) == freqs[0]
                heard += 1
    assert heard > 100


def test_step_patterns_close_at_the_octave(quizzes: Quizzes):
    """Steps of one octave sum to the division; so do those of every wrong answer, which is a scale as well."""
    for (_, _, made), divisions in zip(quizzes, [d for _, d in SCALES for _ in "ab"], strict=True):
        for question in made.questions:
            if question.fact_id == "step_pattern" and not question.sound:
                assert all(sum(map(int, choice.text.split())) == divisions for choice in question.choices)


def test_modes_are_rotations(quizzes: Quizzes):
    """A mode's step pattern is a rotation of the scale's (definition); the choices are different rotations."""
    asked = 0
    for (name, _, made), (_, divisions) in zip(quizzes, [row for row in SCALES for _ in "ab"], strict=True):
        for question in made.questions:
            if question.id == "step-pattern-mode":
                own = lesson(name, "en", 6.0, divisions).scale.step_pattern
                turned = {own[k:] + own[:k] for k in range(len(own))}
                assert {tuple(map(int, choice.text.split())) for choice in question.choices} <= turned
                asked += 1
    assert asked


def telling(name: str, fact_id: str) -> Lesson:
    """A lesson that tells this one fact."""
    made = lesson(name)
    fact = default_registry().facts[fact_id]
    found = find(fact, made.scale)
    assert found.value is not None
    told = Telling(fact, fact.title, found.value, "", "", "It is so.", "", found.witnesses, (), "line", 0)
    return replace(made, tellings=(told,))


@pytest.mark.parametrize(
    "name",
    [
        "G acoustic",
        "C octatonic, semitone first",
        "Ab octatonic, tone first",
        "C E G# B",
        "Eb hexatonic, semitone first",
        "B major",
    ],
)
def test_chords_of_wrong_answers_need_a_tone_that_is_not_there(name: str):
    """Triads by their definition: 4+3, 3+4, 3+3 and 4+4 semitones (rudiments; common practice, no source)."""
    made = telling(name, "triads")
    shapes = {"major": (0, 4, 7), "minor": (0, 3, 7), "diminished": (0, 3, 6), "augmented": (0, 4, 8)}
    for seed in map(str, range(30)):
        (question,) = (q for q in quiz(made, 100, seed).questions if q.fact_id == "triads")
        for choice in question.choices:
            root, kind = choice.text.rsplit(" ", 1)
            signs = root.replace(" double", "").replace(" sharp", "♯").replace(" flat", "♭")
            start = letters_to_pitch_class(signs + signs[1:] * (" double" in root), "en")
            tones = {(start + step) % 12 for step in shapes[kind]}
            assert (tones <= set(made.scale.pitch_classes)) is choice.is_right, (seed, choice)


@pytest.mark.parametrize("name", ["C major pentatonic", "A minor pentatonic", "C E G", "D F A C"])
def test_only_the_right_larger_scale_holds_every_tone(name: str):
    """Tones of named scales as the table of names gives them, apart from the fact that lists larger scales."""
    made = telling(name, "named_supersets")
    checked = 0
    for seed in map(str, range(10)):
        for question in quiz(made, 100, seed).questions:
            if question.fact_id == "named_supersets":
                for choice in question.choices:
                    masks = {record.mask for record in scales_called(choice.text)}
                    holds = {mask & made.scale.mask == made.scale.mask for mask in masks}
                    assert not masks or (choice.is_right in holds), choice
                    checked += bool(masks)
    assert checked


def test_the_right_place_is_spread_evenly(quizzes: Quizzes):
    places: Counter[int] = Counter()
    for _, _, made in quizzes:
        own: Counter[int] = Counter()
        for question in made.questions:
            if len(question.choices) == 4:
                own[next(k for k, choice in enumerate(question.choices) if choice.is_right)] += 1
        assert max(own.values(), default=0) - min((own[k] for k in range(4)), default=0) <= 1
        places += own
    assert max(places.values()) < 1.3 * min(places.values())


def test_the_same_lesson_gives_the_same_quiz_and_another_seed_another():
    made = lesson(minutes=6.0)
    assert quiz(made).questions == quiz(made).questions
    assert quiz(made, seed="a").questions != quiz(made, seed="b").questions


def test_the_order_is_that_of_sha_256_whatever_the_machine():
    """Frozen once: the order comes from SHA-256 alone, so a machine that gives another one is a mistake."""
    made = quiz(lesson(minutes=6.0), 10, "harbour")
    first = next(q for q in made.questions if len(q.choices) == 4)

    def digest(index: int) -> bytes:
        return hashlib.sha256(f"harbour\x1fplaces\x1f4\x1f0\x1f{index!r}".encode()).digest()

    assert first.choices[min(range(4), key=digest)].is_right


def test_wrong_answers_have_the_form_of_the_right_one(quizzes: Quizzes):
    for name, _, made in quizzes:
        for question in made.questions:
            lengths = [len(choice.text) for choice in question.choices]
            assert max(lengths) <= 4 * min(lengths) + 8, (name, question)


def test_the_name_never_gives_the_answer_away(quizzes: Quizzes):
    for _, _, made in quizzes:
        for question in made.questions:
            if question.fact_id == "cardinality_word":
                assert question.right.text not in question.prompt
            assert question.fact_id not in {"systematic_name", "traditional_names"}


def test_everything_printed_is_listed(quizzes: Quizzes):
    for _, _, made in quizzes:
        listed = set(printed_quiz(made))
        for question in made.questions:
            origin = f"quiz:{question.id}"
            texts = {question.prompt, *(c.text for c in question.choices), *(c.why for c in question.choices)}
            assert {(origin, text) for text in texts} <= listed


def test_ids_are_plain(quizzes: Quizzes):
    for _, _, made in quizzes:
        for question in made.questions:
            assert question.id.isascii()
            assert question.id.replace("-", "").isalnum()
            assert question.id == question.id.lower()


def test_a_quiz_refuses_two_questions_of_one_id_and_a_missing_sound():
    choices = (Choice("1", is_right=True, why="a"), Choice("2", is_right=False, why="b"))
    asked = Question("a", "?", choices, "cardinality")
    with pytest.raises(DomainError):
        Quiz((asked, asked))
    with pytest.raises(DomainError):
        Quiz((Question("a", "?", choices, "cardinality", "heard-1"),))


@pytest.mark.parametrize(("name", "divisions"), SCALES)
def test_near_scales_are_one_change_away(name: str, divisions: int):
    """Moved, left out and added mean a symmetric difference of 2, 1 and 1 tones (definition); no scale comes twice."""
    scale = lesson(name, "en", 6.0, divisions).scale
    found = near_scales(scale)
    assert len({(near.scale.mask, near.scale.root) for near in found}) == len(found)
    sizes = {Nearness.MOVED: 2, Nearness.LEFT_OUT: 1, Nearness.ADDED: 1}
    for near in found:
        assert (near.scale.mask, near.scale.root) != (scale.mask, scale.root)
        assert near.scale.is_rooted
        if near.nearness in sizes:
            assert (near.scale.mask ^ scale.mask).bit_count() == sizes[near.nearness]
        if near.nearness is Nearness.MODE:
            assert near.scale.pitch_class_mask == scale.pitch_class_mask


def test_a_fixed_spelling_is_kept_in_near_scales():
    scale = Scale((1 << 0) | (1 << 4) | (1 << 7), 12, 0, ("C", "Fb", "G"))
    assert all("Fb" in near.scale.names for near in near_scales(scale) if near.nearness is Nearness.ADDED)


def test_german_does_not_decline_what_a_scale_is_called(quizzes: Quizzes):
    """After prepositions that take a dative it would be "dieser Tonleiter", "dem Modus" (German grammar)."""
    asked = [one for _, language, made in quizzes if language == "de" for one in made.questions]
    printed = [said for one in asked for said in (one.prompt, *(choice.why for choice in one.choices))]
    assert any("diese Tonleiter" in said for said in printed)
    assert any("den Modus" in said for said in printed)
    wrong = (
        r"\b(?:in|von|zu|bei|mit|aus|an) (?:diese Tonleiter|den Modus)|(?:ist|war|wäre|:) den Modus|^Diese Tonleiter"
    )
    assert not [said for said in printed if re.search(wrong, said)]


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_question_about_a_scale_without_a_name_stands_alone(language: str):
    asked = wording_for(language).question(default_registry().fact("cardinality"), lesson().scale)
    prompts = [one.prompt for one in quiz(lesson("0 3 6 9 11 14 17", language, 6.0, 19), 100).questions]
    assert asked in prompts
    assert f"G {'acoustic' if language == 'en' else 'akustisch'}: {asked}" in [
        one.prompt for one in quiz(lesson("G acoustic", language, 6.0), 100).questions
    ]
