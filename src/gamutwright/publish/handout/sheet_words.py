"""The words that stand on every sheet, one table for each language.

Conventions: those of `phrasing.slots`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from gamutwright.errors import DomainError
from gamutwright.languages import base_tag, language_of
from gamutwright.phrasing.slots import filled

__all__ = ["SheetWords", "sheet_words"]


@dataclass(frozen=True, slots=True)
class SheetWords:
    """Words of one language.

    Parameters
    ----------
    language : str
        Its tag.
    phrases : mapping of str to str
        Phrases by key, with slots in braces.
    """

    language: str
    phrases: Mapping[str, str]

    def say(self, key: str, **slots: str | int) -> str:
        """Give a phrase.

        Parameters
        ----------
        key : str
            Which.
        **slots : str or int
            What stands in its slots.

        Returns
        -------
        str
            The phrase.

        Raises
        ------
        DomainError
            If there is no such phrase, or a slot stays empty.

        Examples
        --------
        >>> sheet_words("de").say("chord-m", note="E♭", small="es")
        'es-Moll'
        """
        if key not in self.phrases:
            raise DomainError(f"'{key}'", "no sheet has these words", f"Choose one of: {', '.join(self.phrases)}.")
        return filled(self.phrases[key], **slots)


@lru_cache(maxsize=8)
def sheet_words(language: str) -> SheetWords:
    """Read the words of a language.

    Parameters
    ----------
    language : str
        Language tag; the part before the hyphen decides.

    Returns
    -------
    SheetWords
        Its words.

    Raises
    ------
    DomainError
        If there is no table of this language.

    Examples
    --------
    >>> sheet_words("en").say("answers")
    'Answers'
    """
    table = language_of(language).table("print")
    return SheetWords(base_tag(language), MappingProxyType(table))
