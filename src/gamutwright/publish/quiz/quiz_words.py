"""The words of a quiz: questions and answers around the values of facts, in the language of a lesson.

**Conventions.** Notes are written as the language writes them, with signs (C♯, Cis); numbers are figures; scales are
called by root and name, which a teacher's own title never replaces. In other divisions than twelve a tone is the number
of its steps above the root.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.facts.model import Dtype, Fact, Value
from gamutwright.facts.roles import Reader
from gamutwright.languages import language_of
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.card_words import CardWords, card_words
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.phrasing.printed import printed_value
from gamutwright.phrasing.slots import filled
from gamutwright.phrasing.spoken_names import spoken_note
from gamutwright.phrasing.values import spoken_scale_name
from gamutwright.publish.quiz.near_scales import Nearness, NearScale
from gamutwright.theory.naming import names_of
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import root_name, tone_name_map

__all__ = ["QuizWords", "quiz_words"]

_IN_SIGNS = frozenset({Reader.DEGREES, Reader.RATIOS, Reader.DIGITS, Reader.NOTES, Reader.NUMERALS})
"""Texts that are read as signs; other texts are read as words."""


@dataclass(frozen=True, slots=True)
class QuizWords:
    """What a quiz says in one language.

    Parameters
    ----------
    wording : Wording
        The sentences of the language.
    cards : CardWords
        Its headings and names of notes.
    texts : mapping of str to mapping of str to str
        Phrases by table and key, with slots in braces.
    """

    wording: Wording
    cards: CardWords
    texts: Mapping[str, Mapping[str, str]]

    def say(self, table: str, key: str, **slots: str | int) -> str:
        """Give a phrase.

        Parameters
        ----------
        table, key : str
            Which.
        **slots : str or int
            What stands in its slots.

        Returns
        -------
        str
            The phrase.

        Examples
        --------
        >>> quiz_words("de").say("answering", "tone", tone="Cis", degree="♯4")
        'Cis ist die Stufe ♯4.'
        """
        text = filled(self.texts[table][key], **slots)
        return text if table == "scales" else text[:1].upper() + text[1:]

    def name(self, scale: Scale) -> str:
        """Call a scale by root and name.

        Parameters
        ----------
        scale : Scale
            The scale.

        Returns
        -------
        str
            Such as "G acoustic"; a general phrase for a scale without a traditional name.
        """
        return spoken_name(scale, self.wording) if names_of(scale) else self.unnamed

    @property
    def unnamed(self) -> str:
        """What a scale is called where its name is unknown."""
        return self.wording.name("scale-unnamed")

    def tone(self, scale: Scale, tone: int) -> str:
        """Name a tone of a scale inside a sentence.

        Parameters
        ----------
        scale : Scale
            The scale.
        tone : int
            Steps above its root, within the octave.

        Returns
        -------
        str
            Its note, or its number of steps.

        Examples
        --------
        >>> quiz_words("de").tone(Scale.of(0, 3, 7), 3), quiz_words("en").tone(Scale.of(0, 5, divisions=19), 5)
        ('Es', 'step 5')
        """
        if scale.divisions != 12:
            return self.say("scales", "tone", number=tone)
        return self.cards.note(to_symbols(tone_name_map(scale)[tone]))

    def tones(self, scale: Scale, which: Iterable[int] | None = None) -> str:
        """List tones of a scale.

        Parameters
        ----------
        scale : Scale
            The scale.
        which : iterable of int, optional
            Steps above its root; all its tones without it.

        Returns
        -------
        str
            Such as "C, E♭, G".
        """
        steps = scale.tones if which is None else which
        return ", ".join(self.tone(scale, step) if scale.divisions == 12 else str(step) for step in steps)

    def near(self, scale: Scale, near: NearScale | None) -> str:
        """Describe a near scale by how it differs.

        Parameters
        ----------
        scale : Scale
            The scale that it is near to.
        near : NearScale or None
            The near scale; None for the scale itself.

        Returns
        -------
        str
            Such as "G acoustic with C instead of C♯, which is G mixolydian".
        """
        if near is None:
            return self.say("scales", "itself", name=self.name(scale))
        familiar = ""
        if near.familiar:
            root = spoken_note(root_name(near.scale), self.wording.language)
            familiar = f"{root} {spoken_scale_name(near.familiar, self.wording.language)}"
        if near.nearness is Nearness.FAMILIAR:
            return self.say("scales", "familiar", familiar=familiar)
        text = self.say(
            "scales", near.nearness.value, name=self.name(scale), old=self._sign(near.old), new=self._sign(near.new)
        )
        return self.say("scales", "also", scale=text, familiar=familiar) if familiar else text

    def _sign(self, name: str) -> str:
        return self.say("scales", "tone", number=name) if name.isdigit() else self.cards.note(name)

    def value(self, fact: Fact, value: Value, scale: Scale) -> str:
        """Write a value as an answer.

        Parameters
        ----------
        fact : Fact
            The fact.
        value : Value
            Its value.
        scale : Scale
            The scale whose value it is.

        Returns
        -------
        str
            Numbers and notes in signs, other texts in words.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> fact = default_registry().fact("hemitonic_word")
        >>> quiz_words("de").value(fact, "anhemitonic", Scale.of(0, 2, 4))
        'anhemitonisch'
        """
        is_words = fact.dtype in {Dtype.TEXT, Dtype.TEXTS} and fact.roles.reader not in _IN_SIGNS and value != ()
        if is_words:
            return self.wording.value_in_words(fact, value, scale)
        return printed_value(fact, value, self.wording.language)


@lru_cache(maxsize=8)
def quiz_words(language: str) -> QuizWords:
    """Read the words of a language.

    Parameters
    ----------
    language : str
        Language tag; the part before the hyphen decides.

    Returns
    -------
    QuizWords
        Its words.

    Raises
    ------
    DomainError
        If there is no table of this language.

    Examples
    --------
    >>> quiz_words("en").say("titles", "wrong")
    'Not quite.'
    """
    wording = wording_for(language)
    return QuizWords(wording, card_words(language), language_of(language).table("quiz"))
