"""Sentences of a lesson: facts, definitions, questions and connecting phrases, in script markup.

A sentence is a message of the wording file with its slots filled; words that state a value come out bound to the fact
(`[two]{fact=semitone_steps}`), named or pointed-at places as `[E to F]{each=semitone_steps}`. What is not bound is
plain prose without numbers or note names, so that a drafted script checks clean.

Conventions: a variant is a whole number; it is taken modulo the number of shapes there are. Nothing is said of a value
that does not exist.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import Any

from gamutwright.facts.model import Fact, Value, Witness
from gamutwright.facts.profile import Finding
from gamutwright.phrasing.claim_marks import as_sentences, bind_claims, marked
from gamutwright.phrasing.comparing_voice import ComparingVoice
from gamutwright.phrasing.values import entries_in_words, is_too_long, spoken_tone
from gamutwright.theory.scale import Scale

__all__ = ["Wording", "marked", "wording_for"]


class Wording(ComparingVoice):
    """Everything a lesson says in one language.

    Parameters
    ----------
    language : str
        Language tag, such as `en` or `de-AT`; the part before the hyphen decides.

    Raises
    ------
    DomainError
        If the language is not known.

    Examples
    --------
    >>> from gamutwright.facts.profile import profile
    >>> major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    >>> (found,) = profile(major, ["semitone_steps"]).findings
    >>> Wording("en").statement(found.fact, found, major, 0)
    'It has [two]{fact=semitone_steps} semitone steps: [E to F and B to C]{each=semitone_steps}.'
    """

    def _slots(self, fact: Fact, finding: Finding, scale: Scale, *, is_pointing: bool) -> dict[str, Any]:
        value, witnesses = finding.value, finding.witnesses
        assert value is not None  # noqa: S101 - statement() has asked
        places = self.places_in_words(witnesses, scale, is_pointing=is_pointing)
        bound = marked(places, each=fact.id) if places else ""
        slots: dict[str, Any] = {
            "value": f"‹{self.value_in_words(fact, value, scale)}›",
            "is": "yes" if value is True else "no",
            "count": len(value) if isinstance(value, tuple) else value if isinstance(value, int) else 0,
            "word": value.replace(" ", "-") if isinstance(value, str) else "",
            "places": f": {bound}" if bound else "",
            "names": bound,
            "named": "yes" if bound else "no",
            "label": re.sub(r"\W+", "-", witnesses[0].label) if witnesses else "",
            "many": len(witnesses),
            "size": scale.cardinality,
            "divisions": scale.divisions,
        }
        if isinstance(value, tuple) and value:
            slots |= self._entries(fact, value, witnesses, scale)
        return slots

    def _entries(
        self, fact: Fact, value: tuple[Value, ...], witnesses: tuple[Witness, ...], scale: Scale
    ) -> dict[str, str]:
        """Single entries of a list, bound: first, second, last, and the one that stands out with its tone."""
        words = entries_in_words(fact, value, self.language)

        def entry(place: int) -> str:
            place = place % len(words)
            return marked(words[place], fact=fact.id, at=place + 1)

        slots = {"first": entry(0), "second": entry(1), "third": entry(2), "last": entry(-1)}
        index = _standing_out(value, scale)
        slots |= {"entry": entry(index), "tone": ""}
        if len(witnesses) == len(value) and len(witnesses[index].parts[0]) == 1:
            tone = spoken_tone(scale, witnesses[index].parts[0][0], self.language)
            slots["tone"] = marked(tone, each=fact.id, at=index + 1)
        return slots

    def statement(
        self,
        fact: Fact,
        finding: Finding,
        scale: Scale,
        variant: int = 0,
        *,
        show: str | None = None,
        is_pointing: bool = False,
    ) -> str:
        """State a fact in one or more sentences, its value bound.

        Parameters
        ----------
        fact : Fact
            The fact.
        finding : Finding
            Its value and witnesses.
        scale : Scale
            The scale.
        variant : int
            Which shape; taken modulo the number of shapes.
        show : str, optional
            A diagram to show at the first claim.
        is_pointing : bool
            Whether to point at places ("here and here") rather than to name them.

        Returns
        -------
        str
            Script markup; "" where the fact has no value, or its pack no words in this language.

        Examples
        --------
        >>> from gamutwright.facts.profile import profile
        >>> whole_tone = Scale.of(0, 2, 4, 6, 8, 10)
        >>> (found,) = profile(whole_tone, ["semitone_steps"]).findings
        >>> Wording("en").statement(found.fact, found, whole_tone, show="ladder")
        'It has [no]{fact=semitone_steps show=ladder} semitone steps.'
        """
        if finding.value is None or not self.speaks_of(fact):
            return ""
        message = fact.message
        attribute = self._shape(message, fact, finding.value, variant)
        slots = self._slots(fact, finding, scale, is_pointing=is_pointing)
        return bind_claims(self._messages.format(message, attribute, slots), fact.id, show)

    def _shape(self, message: str, fact: Fact, value: Value, variant: int) -> str:
        there = self._messages.attributes(message)
        if value == () and "none" in there:
            return "none"
        if is_too_long(fact, value) and "long" in there:
            longs = sorted(name for name in there if name == "long" or name.startswith("long-"))
            return longs[variant % len(longs)]
        shapes = self._messages.shapes(message)
        return shapes[variant % len(shapes)]

    def definition(self, fact: Fact, divisions: int = 12) -> str:
        """Explain a fact in plain words, for its first use.

        Parameters
        ----------
        fact : Fact
            The fact.
        divisions : int
            Equal divisions of the octave; outside twelve nothing is explained by the keyboard.

        Returns
        -------
        str
            Sentences without claims; the fact's own definition where the wording file has none.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> Wording("en").definition(default_registry().fact("tritones"))
        'A tritone is the interval that cuts the octave into equal halves.'
        """
        is_other = divisions != 12 and self.has(fact, "define-other")
        if self.has(fact, "define"):
            return as_sentences(self._messages.format(fact.message, "define-other" if is_other else "define", {}))
        return fact.definition

    def question(self, fact: Fact, scale: Scale) -> str:
        """Ask for a fact in the recap.

        Parameters
        ----------
        fact : Fact
            The fact.
        scale : Scale
            The scale.

        Returns
        -------
        str
            A question without claims; "" where there is none.
        """
        if not self.has(fact, "ask"):
            return ""
        slots = {"divisions": scale.divisions, "size": scale.cardinality}
        return as_sentences(self._messages.format(fact.message, "ask", slots))

    def answer(self, fact: Fact, finding: Finding, scale: Scale, *, show: str | None = None) -> str:
        """Answer the question of `question`, the value bound.

        Parameters
        ----------
        fact : Fact
            The fact.
        finding : Finding
            Its value and witnesses.
        scale : Scale
            The scale.
        show : str, optional
            A diagram to show at the first claim.

        Returns
        -------
        str
            Script markup; "" where there is no value or no answer, a statement where the value is too long or empty.
        """
        if finding.value is None or not self.has(fact, "answer"):
            return ""
        if finding.value == () or is_too_long(fact, finding.value):
            return self.statement(fact, finding, scale, show=show)
        slots = self._slots(fact, finding, scale, is_pointing=False)
        return bind_claims(self._messages.format(fact.message, "answer", slots), fact.id, show)


def _standing_out(value: tuple[Value, ...], scale: Scale) -> int:
    """Index of the entry worth a word: the one furthest from the equal division, else the largest, not the root."""
    numbers = [float(item) for item in value if isinstance(item, int | float | Fraction) and not isinstance(item, bool)]
    if len(numbers) != len(value) or len(value) < 2:
        return min(2, len(value) - 1)
    equal = [1200 * tone / scale.divisions for tone in scale.tones]
    if len(equal) == len(numbers) and all(abs(a - b) < 60 for a, b in zip(numbers, equal, strict=True)):
        away = [abs(a - b) for a, b in zip(numbers, equal, strict=True)]
    else:
        away = [abs(number) for number in numbers]
    return max(range(1, len(value)), key=lambda index: (round(away[index], 6), -index))


@lru_cache(maxsize=8)
def wording_for(language: str, own: str = "") -> Wording:
    """Give the wording of a language, loaded once.

    Parameters
    ----------
    language : str
        Language tag.
    own : str
        Text of a further wording file, such as a course's.

    Returns
    -------
    Wording
        Its wording.

    Examples
    --------
    >>> wording_for("en").list_in_words(["C", "D", "E"])
    'C, D and E'
    """
    return Wording(language, own)
