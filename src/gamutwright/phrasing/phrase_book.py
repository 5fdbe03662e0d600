"""The voice of a language: values in words, connecting phrases, and the words a fact may use.

Conventions: a variant is a whole number, taken modulo the number of shapes there are.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from gamutwright.facts.model import Dtype, Fact, Value, Witness
from gamutwright.languages import base_tag, language_of
from gamutwright.phrasing.claim_marks import as_sentences
from gamutwright.phrasing.messages import load_messages
from gamutwright.phrasing.spoken_numbers import count_to_words, list_in_words
from gamutwright.phrasing.values import places_in_words, value_as_words
from gamutwright.theory.scale import Scale

__all__ = ["Voice"]

_STANDING_APART = re.compile(
    r"(?ms)^ +\.(?:define|define-other|yes|no|terms|word-[\w-]+) = .*?(?=^ +\.[\w-]+ = |^[a-z]|\Z)"
)
"""Attributes of a message that are no sentences around a claim."""


class Voice:
    """What a language can say without stating a fact about a scale.

    Parameters
    ----------
    language : str
        Language tag, such as `en` or `de-AT`; the part before the hyphen decides.
    own : str
        Text of a further wording file, such as a course's.

    Raises
    ------
    DomainError
        If the language is not known, or the further file does not parse.

    Examples
    --------
    >>> Voice("en").phrase("rare", share="few")
    'Among all scales of this size, this holds for only few.'
    """

    def __init__(self, language: str, own: str = "") -> None:
        self.language = base_tag(language)
        self._numerals = language_of(self.language).numerals
        self._messages = load_messages(self.language, own)

    def variants(self, fact: Fact) -> int:
        """Count the shapes in which a fact can be stated.

        Parameters
        ----------
        fact : Fact
            The fact.

        Returns
        -------
        int
            0 where the fact's pack has no words for it.
        """
        return len(self._messages.shapes(fact.message))

    def title(self, fact: Fact) -> str:
        """Give the title of a fact.

        Parameters
        ----------
        fact : Fact
            The fact.

        Returns
        -------
        str
            Its title in this language, else its own.
        """
        has_own = "title" in self._messages.attributes(fact.message)
        return self._messages.format(fact.message, "title", {}) if has_own else fact.title

    def speaks_of(self, fact: Fact) -> bool:
        """Whether there are words for a fact in this language.

        Parameters
        ----------
        fact : Fact
            The fact.

        Returns
        -------
        bool
            False where its pack has none; then nothing is said of it.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> Voice("de").speaks_of(default_registry().fact("tritones"))
        True
        """
        return bool(self._messages.shapes(fact.message))

    def has(self, fact: Fact, attribute: str) -> bool:
        """Whether the wording file holds an attribute for a fact.

        Parameters
        ----------
        fact : Fact
            The fact.
        attribute : str
            Such as `define`, `ask`, `noun`.

        Returns
        -------
        bool
            True where it is there.
        """
        return attribute in self._messages.attributes(fact.message)

    def is_own(self, fact: Fact, attribute: str) -> bool:
        """Whether a further wording file has this attribute for a fact."""
        return (fact.message, attribute) in self._messages.own

    def terms(self, fact: Fact) -> tuple[str, ...]:
        """Give the terms that stand for a fact in this language.

        Parameters
        ----------
        fact : Fact
            The fact.

        Returns
        -------
        tuple of str
            The wording file's own, else the fact's, which are English.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> "semitone" in Voice("en").terms(default_registry().fact("semitone_steps"))
        True
        """
        if self.has(fact, "terms"):
            return tuple(term.strip() for term in self._messages.format(fact.message, "terms", {}).split(","))
        return fact.terms if language_of(self.language).is_source else ()

    def vocabulary(self, fact: Fact) -> str:
        """Give the sentences the wording file has for a fact, as they are written there.

        Parameters
        ----------
        fact : Fact
            The fact.

        Returns
        -------
        str
            Its statements, questions and answers, and those of comparison and rarity; no definitions or predicates.
        """
        general = ("compare-more", "compare-fewer", "compare-same", "compare-alike", "compare-unlike", "rare", "common")
        keys = (fact.message, *general)
        return _STANDING_APART.sub(" ", "\n".join(self._messages.written(key) for key in keys))

    def words_of(self, fact: Fact) -> dict[str, str]:
        """Give the words for the values of a fact that has a fixed few: texts, or yes and no.

        Parameters
        ----------
        fact : Fact
            The fact.

        Returns
        -------
        dict of str to str
            Value (`yes` and `no` for a bool) to its words; empty for other facts.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> Voice("de").words_of(default_registry().fact("hemitonic_word"))["anhemitonic"]
        'anhemitonisch'
        """
        message, attributes = fact.message, self._messages.attributes(fact.message)
        if fact.dtype is Dtype.BOOL:
            return {name: self._messages.format(message, name, {}) for name in ("yes", "no") if name in attributes}
        words = sorted(name for name in attributes if name.startswith("word-"))
        if not words:
            return {}
        spoken = {name.removeprefix("word-"): self._messages.format(message, name, {}) for name in words}
        # Attribute names have no blanks; values may.
        return {_value_of(name, fact): text for name, text in spoken.items()}

    def value_in_words(self, fact: Fact, value: Value, scale: Scale) -> str:
        """Say a value.

        Parameters
        ----------
        fact : Fact
            The fact.
        value : Value
            Its value.
        scale : Scale
            The scale.

        Returns
        -------
        str
            Words that the readers find again; for yes or no a predicate ("is balanced", "is not balanced").

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> fact = default_registry().fact("spelling")
        >>> Voice("de").value_in_words(fact, ("C", "Eb", "B"), Scale.of(0, 3, 11))
        'C, Es und H'
        """
        del scale
        if isinstance(value, bool):
            return self.words_of(fact).get("yes" if value else "no", "")
        if isinstance(value, str):
            fixed = self.words_of(fact).get(value)
            if fixed:
                return fixed
        if value == ():
            return self._numerals.no_word
        if isinstance(value, tuple) and (words := self.words_of(fact)):
            return self.list_in_words([words.get(str(entry), str(entry)) for entry in value])
        return value_as_words(fact, value, self.language)

    def places_in_words(self, witnesses: tuple[Witness, ...], scale: Scale, *, is_pointing: bool = False) -> str:
        """Name or point at the places that make a fact true.

        Parameters
        ----------
        witnesses : tuple of Witness
            The places.
        scale : Scale
            The scale.
        is_pointing : bool
            Whether to point even where the places have names.

        Returns
        -------
        str
            All places in order; "" where there are none or too many.
        """
        return places_in_words(scale, witnesses, self.language, is_pointing=is_pointing)

    def list_in_words(self, items: list[str] | tuple[str, ...]) -> str:
        """Join items as speech does.

        Parameters
        ----------
        items : sequence of str
            The items.

        Returns
        -------
        str
            Such as `C, D and E`.
        """
        return list_in_words(items, self.language)

    def _phrase(self, key: str, variant: int, slots: dict[str, Any]) -> str:
        shapes = self._messages.shapes(key)
        return self._messages.format(key, shapes[variant % len(shapes)] if shapes else "a", slots)

    def phrase_variants(self, key: str) -> int:
        """Count the shapes of a connecting phrase.

        Parameters
        ----------
        key : str
            Its key.

        Returns
        -------
        int
            0 where there is no such phrase.
        """
        return len(self._messages.shapes(key))

    def phrase(self, key: str, variant: int = 0, **slots: str | int) -> str:
        """Say a connecting phrase.

        Parameters
        ----------
        key : str
            Its key.
        variant : int
            Which shape.
        **slots : str or int
            Values of its variables; words that state something must come bound.

        Returns
        -------
        str
            One or more sentences.

        Raises
        ------
        DomainError
            If there is no such phrase, or a variable is missing.

        Examples
        --------
        >>> Voice("en").phrase("rare", share="few")
        'Among all scales of this size, this holds for only few.'
        """
        return as_sentences(self._phrase(key, variant, dict(slots)))

    def tellings(self, key: str, slots: Mapping[str, str], measures: Mapping[str, int | str]) -> tuple[str, ...]:
        """Say a sentence in every way for which there is something to say.

        Parameters
        ----------
        key : str
            Its key.
        slots : mapping of str to str
            Markup that fills its spoken variables.
        measures : mapping of str to int or str
            What chooses between its variants; 0 for what is not there.

        Returns
        -------
        tuple of str
            A text for each shape whose spoken variables are all there.

        Examples
        --------
        >>> Voice("en").tellings("walk-hear", {"name": "D dorian"}, {})
        ('Listen to D dorian rise and fall.', 'Here is D dorian, up and down.')
        >>> Voice("en").tellings("walk-hear", {}, {})
        ()
        """
        told = []
        for shape in self._messages.shapes(key):
            spoken, deciding = self._messages.slots(key, shape)
            if all(name in slots for name in spoken):
                filled = {
                    **{name: measures.get(name, 0) for name in deciding},
                    **{name: slots[name] for name in spoken},
                }
                told.append(as_sentences(self._messages.format(key, shape, filled)))
        return tuple(told)

    def name(self, key: str) -> str:
        """Give a name that stands inside sentences, such as that of a familiar scale.

        Parameters
        ----------
        key : str
            Its key.

        Returns
        -------
        str
            The name as it stands inside a sentence.

        Examples
        --------
        >>> Voice("en").name("familiar-ionian")
        'the major scale'
        """
        return self._phrase(key, 0, {})

    def count_in_words(self, number: int) -> str:
        """Say a whole number.

        Parameters
        ----------
        number : int in [0, 999999]
            The number.

        Returns
        -------
        str
            Its words.
        """
        return count_to_words(number, self.language)


def _value_of(name: str, fact: Fact) -> str:
    """Find the value an attribute `word-<name>` stands for: hyphens may be blanks there."""
    values = {example.value for example in fact.worked if isinstance(example.value, str)}
    for value in values:
        if value.replace(" ", "-") == name:
            return value
    return name
