"""The quiz of a lesson: questions about what the lesson told, and questions to listen to, all computed.

A wrong answer is never made up: it is the value of the same fact in a scale near to the lesson's own (a tone moved,
left out or added, a mode, a familiar scale on the root), so its explanation can say for which scale it would be right,
and it is certainly wrong for this one. Where there are such, wrong answers have the form and the length of the right
one.

**Conventions.** Four choices where near scales give so many, at least two. Their order comes from SHA-256 of the seed,
the question and the choice, so it is the same everywhere; the place of the right one goes through all places before it
comes back to one. Facts come in the order in which the film tells them, questions to listen to last.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import islice

from gamutwright.errors import DomainError
from gamutwright.ir.sound import Sound
from gamutwright.publish.quiz.asking import Asked, Asking, written_questions
from gamutwright.publish.quiz.ear_questions import listening_questions, music_questions
from gamutwright.publish.quiz.question import Choice, Question
from gamutwright.publish.told_lesson import Lesson

__all__ = ["MOST_QUESTIONS", "Quiz", "ear_training", "printed_quiz", "quiz"]

MOST_QUESTIONS = 100
_HEARD_SHARE = 0.3
_FEWEST = 3


@dataclass(frozen=True, slots=True)
class Quiz:
    """Questions, and the sounds that belong to them.

    Parameters
    ----------
    questions : tuple of Question
        In their order.
    sounds : mapping of str to Sound
        What is listened to, by the keys that the questions name.

    Raises
    ------
    DomainError
        If two questions have one id, or a sound is missing.
    """

    questions: tuple[Question, ...]
    sounds: Mapping[str, Sound] = field(default_factory=dict)

    def __post_init__(self) -> None:
        ids = {question.id for question in self.questions}
        if len(ids) != len(self.questions) or any(q.sound and q.sound not in self.sounds for q in self.questions):
            raise DomainError(
                f"a quiz of {len(self.questions)} questions",
                "each has an id of its own, and the sounds they name are there",
                "This is a mistake in the program that wrote it; please report it.",
            )


def quiz(lesson: Lesson, count: int = 10, seed: str = "") -> Quiz:
    """Write the quiz of a lesson.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    count : int in [1, 100]
        How many questions at most; a short lesson gives fewer.
    seed : str
        Another seed gives other choices in another order; the lesson's slug without it.

    Returns
    -------
    Quiz
        About three questions in ten are to be listened to.

    Raises
    ------
    DomainError
        If the count lies outside its range.
    """
    if not 1 <= count <= MOST_QUESTIONS:
        raise DomainError(f"{count} questions", f"a quiz has 1 to {MOST_QUESTIONS}", "Choose another count.")
    asking = Asking.of(lesson, seed or lesson.slug)
    written = tuple(written_questions(asking))
    wanted = round(count * _HEARD_SHARE)
    heard = tuple(islice(listening_questions(asking), max(wanted, min(_FEWEST, count) - len(written))))
    chosen = (*written[: count - len(heard)], *heard)
    questions = tuple(_placed(chosen, asking))
    return Quiz(questions, {asked.id: asked.sound for asked in chosen if asked.sound is not None})


def ear_training(lesson: Lesson, rounds: int = 3) -> Quiz:
    """Make questions about tunes, to train the ear with.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    rounds : int > 0
        How many tunes of each kind of question.

    Returns
    -------
    Quiz
        The kinds in turn; empty where the scale has no tunes.
    """
    asking = Asking.of(lesson, f"ear {lesson.slug}")
    chosen = tuple(asked for version in range(1, rounds + 1) for asked in music_questions(asking, version))
    return Quiz(tuple(_placed(chosen, asking)), {asked.id: asked.sound for asked in chosen if asked.sound is not None})


def _placed(chosen: tuple[Asked, ...], asking: Asking) -> Iterator[Question]:
    """Put choices in order; among questions of as many choices the right one visits each place before it returns."""
    seen: dict[int, int] = {}
    for asked in chosen:
        size = len(asked.wrong) + 1
        turn, at = divmod(seen.get(size, 0), size)
        seen[size] = seen.get(size, 0) + 1
        place = asking.order(range(size), int, "places", str(size), str(turn))[at]
        choices = [
            Choice(text, is_right=False, why=why) for text, why in asking.order(asked.wrong, tuple, "choices", asked.id)
        ]
        text, why = asked.right
        choices.insert(place, Choice(text, is_right=True, why=why))
        yield Question(asked.id, asked.prompt, tuple(choices), asked.fact_id, asked.id if asked.sound else "")


def printed_quiz(made: Quiz) -> tuple[tuple[str, str], ...]:
    """List everything a quiz prints that may hold a number.

    Parameters
    ----------
    made : Quiz
        The quiz.

    Returns
    -------
    tuple of (str, str)
        Origin, `quiz:` and the id of the question, and text: question, choices, explanations.

    Examples
    --------
    >>> asked = Question("a", "2?", (Choice("2", True, "Yes."), Choice("3", False, "No.")), "cardinality")
    >>> printed_quiz(Quiz((asked,)))[:2]
    (('quiz:a', '2?'), ('quiz:a', '2'))
    """
    return tuple(
        (f"quiz:{question.id}", text)
        for question in made.questions
        for text in (question.prompt, *(part for choice in question.choices for part in (choice.text, choice.why)))
    )
