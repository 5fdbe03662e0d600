"""Questions for the ear: the right answer follows from what is heard, note by note."""

from __future__ import annotations

import pytest

from gamutwright.inputs.text import read_scale
from gamutwright.ir.playing import Part
from gamutwright.music.ear import EarQuestion, EarTask, ear_questions
from gamutwright.music.piece import Piece, step_of
from gamutwright.theory.scale import Scale

SCALES = ["D dorian", "E phrygian", "F lydian", "G mixolydian", "A harmonic minor", "C major pentatonic", "G acoustic"]


def asked(text: str, task: EarTask) -> EarQuestion:
    return next(one for one in ear_questions(read_scale(text).scale) if one.task is task)


def heard(piece: Piece) -> list[int]:
    """The pitch classes of a tune, in steps above its root."""
    scale = piece.sections[0].scale
    return [step_of(scale, tone.degree) % scale.divisions for tone in piece.of(Part.TUNE)]


@pytest.mark.parametrize("text", SCALES)
def test_which_of_two(text: str):
    scale, question = read_scale(text).scale, asked(text, EarTask.WHICH)
    assert question.relative is not None
    for number, piece in enumerate(question.pieces, 1):
        tones = set(heard(piece))
        assert (tones <= set(scale.tones)) >= (number == question.right)
        assert (tones <= set(question.relative.tones)) >= (number != question.right)
    assert heard(question.pieces[0]) != heard(question.pieces[1])
    for mine, theirs in question.tones:
        assert mine in heard(question.pieces[question.right - 1])
        assert theirs in heard(question.pieces[2 - question.right])


@pytest.mark.parametrize("text", SCALES)
def test_where_they_part(text: str):
    question = asked(text, EarTask.WHERE)
    first, second = question.pieces
    pairs = zip(first.of(Part.TUNE), heard(first), heard(second), strict=True)
    start, mine, theirs = next((tone.start, a, b) for tone, a, b in pairs if a != b)
    assert question.right == start // 48 + 1
    assert question.tones == ((mine, theirs),)
    assert 1 <= question.right <= question.choices == first.bars


@pytest.mark.parametrize("text", SCALES)
@pytest.mark.parametrize("version", range(1, 7))
def test_whether_it_ends_at_home(text: str, version: int):
    question = ear_questions(read_scale(text).scale, version)[-1]
    assert question.task is EarTask.HOME
    assert (heard(question.pieces[0])[-1] == 0) == (question.right == 1)


def test_right_answers_are_not_always_the_same():
    scale = read_scale("D dorian").scale
    for place in (0, 2):
        assert {ear_questions(scale, version)[place].right for version in range(1, 9)} == {1, 2}


def test_what_has_no_relative_or_no_tune_has_fewer_questions():
    assert [one.task for one in ear_questions(Scale.of(0, 1, 6))] == [EarTask.HOME]
    assert ear_questions(Scale.of(0, 7)) == ()
