"""Words on the cards of a film and inside its pictures: headings, titles of facts, names of notes.

What is spoken comes from the Fluent files; what is only read, in two or three words, stands in a small table of each
language. Titles of facts are the facts' own where a table has none, as those of packs do.

Conventions: notes and chords come in as they are spelled with signs (E♭, E♭m) and go out as the language writes
them (Es, Esm).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from gamutwright.errors import DomainError
from gamutwright.facts.model import Fact
from gamutwright.languages import base_tag, language_of
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.slots import filled
from gamutwright.phrasing.spoken_names import spoken_note
from gamutwright.theory.harmony import CHORDS
from gamutwright.theory.notenames import to_symbols

__all__ = ["CardWords", "card_words"]

_LETTERS, _SIGNS = "CDEFGAB", ("", "b", "#", "bb", "##")


@dataclass(frozen=True, slots=True)
class CardWords:
    """What is read in one language.

    Parameters
    ----------
    language : str
        Its tag.
    cards : mapping of str to str
        Headings and short phrases by key, with slots in braces.
    inside : tuple of (str, str)
        Words and names of notes inside pictures, and what stands for them.
    """

    language: str
    cards: Mapping[str, str]
    inside: tuple[tuple[str, str], ...]

    def say(self, key: str, **slots: str | int) -> str:
        """Give a heading or a short phrase.

        Parameters
        ----------
        key : str
            Which.
        **slots : str or int
            What stands in its slots.

        Returns
        -------
        str
            The words.

        Raises
        ------
        DomainError
            If there is no such phrase.

        Examples
        --------
        >>> card_words("de").say("lesson", number="7")
        'Lektion 7'
        """
        if key not in self.cards:
            raise DomainError(f"'{key}'", "no card has these words", f"Choose one of: {', '.join(self.cards)}.")
        return filled(self.cards[key], **slots)

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

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> card_words("de").title(default_registry().fact("tritones"))
        'Tritoni'
        """
        return wording_for(self.language).title(fact)

    def note(self, name: str) -> str:
        """Write a note as the language does.

        Parameters
        ----------
        name : str
            The note with signs.

        Returns
        -------
        str
            Its name; what is no note comes back as it is.

        Examples
        --------
        >>> card_words("de").note("E♭"), card_words("en").note("E♭")
        ('Es', 'E♭')
        """
        return dict(self.inside).get(name, name)


@lru_cache(maxsize=8)
def card_words(language: str) -> CardWords:
    """Read the words of a language.

    Parameters
    ----------
    language : str
        Language tag; the part before the hyphen decides.

    Returns
    -------
    CardWords
        Its words.

    Raises
    ------
    DomainError
        If there is no table of this language.

    Examples
    --------
    >>> card_words("en").say("next")
    'Next lesson'
    """
    base, table = base_tag(language), language_of(language).table("cards")
    notes = {}
    if not language_of(base).is_source:
        names = [letter + sign for letter in _LETTERS for sign in _SIGNS]
        roots = {to_symbols(name): spoken_note(name, base) for name in names}
        notes = {root + to_symbols(suffix): roots[root] + to_symbols(suffix) for suffix in CHORDS for root in roots}
    inside = {**table["words"], **notes}
    return CardWords(base, MappingProxyType(table["cards"]), tuple(inside.items()))
