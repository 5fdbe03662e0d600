"""A question of a quiz, before it becomes a page, a sheet of paper or a file for a course system.

Conventions: texts are in the language of the lesson, plain, without markup; choices stand in the order in which they
are shown; exactly one of them is right.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.errors import DomainError

__all__ = ["Choice", "Question"]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the answers to choose from.

    Parameters
    ----------
    text : str
        The answer.
    is_right : bool
        Whether it is the right one.
    why : str
        Why it is right or wrong, in a sentence; a wrong one says of what it would be the answer.
    """

    text: str
    is_right: bool
    why: str


@dataclass(frozen=True, slots=True)
class Question:
    """A question with answers to choose from.

    Parameters
    ----------
    id : str
        Small letters, figures and hyphens; the same question has the same id in every form of the quiz.
    prompt : str
        What is asked.
    choices : tuple of Choice
        At least two; one is right.
    fact_id : str
        The fact it asks for.
    sound : str
        Key of the sound to listen to, among those of the quiz; "" for none.

    Raises
    ------
    DomainError
        If not exactly one choice is right, or two read the same.
    """

    id: str
    prompt: str
    choices: tuple[Choice, ...]
    fact_id: str
    sound: str = ""

    def __post_init__(self) -> None:
        texts = {choice.text for choice in self.choices}
        if len(self.choices) < 2 or len(texts) != len(self.choices) or sum(c.is_right for c in self.choices) != 1:
            raise DomainError(
                f"question '{self.id}'",
                "it has at least two different choices, and one is right",
                "This is a mistake in the program that wrote it; please report it.",
            )

    @property
    def right(self) -> Choice:
        """The right answer."""
        return next(choice for choice in self.choices if choice.is_right)
