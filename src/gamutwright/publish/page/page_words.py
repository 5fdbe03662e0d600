"""Text of a page that says where it comes from, and the words of a page in each language.

Every text that can hold a number is made by `Printer.text`: it stands in the page inside an element with `data-from`,
and in the list of what the page prints. So the list cannot miss one.

**Conventions.** Origins are short: `fact:<id>`, `line:<id>`, `time:chapter 2`, `quiz:<id>`, `source:<key>`, `scale`,
`lesson`, `tuning:<step>`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from html import escape
from types import MappingProxyType

from gamutwright.languages import base_tag, language_of
from gamutwright.phrasing.slots import filled

__all__ = ["PageWords", "Printer", "Raw", "Traced", "page_words", "tidy"]

_TURNS = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class Raw(str):
    """Markup that a template takes as it is."""

    __slots__ = ()

    def __html__(self) -> str:
        """Give the markup."""
        return str(self)


@dataclass(frozen=True, slots=True)
class Traced:
    """A text with its origin.

    Parameters
    ----------
    origin : str
        Where it comes from.
    text : str
        What is read.
    is_name : bool
        Whether somebody typed it, so that its direction is kept apart from the page's.
    """

    origin: str
    text: str
    is_name: bool = False

    def __str__(self) -> str:
        return self.text

    def __html__(self) -> str:
        """Give an element that carries the origin."""
        kind = "bdi" if self.is_name else "span"
        return f'<{kind} data-from="{escape(self.origin)}">{escape(self.text)}</{kind}>'


@dataclass(slots=True)
class Printer:
    """Keeps a list of every text that may hold a number."""

    printed: dict[tuple[str, str], None] = field(default_factory=dict)

    def note(self, origin: str, text: str) -> str:
        """Put a text on the list, and give it back.

        Parameters
        ----------
        origin, text : str
            Where it comes from, and what is read.

        Returns
        -------
        str
            The text.
        """
        self.printed[origin, text] = None
        return text

    def text(self, origin: str, text: str, *, is_name: bool = False) -> Traced:
        """Put a text on the list, and give it with its origin.

        Parameters
        ----------
        origin, text : str
            Where it comes from, and what is read.
        is_name : bool
            Whether somebody typed it.

        Returns
        -------
        Traced
            The text for a template.

        Examples
        --------
        >>> Printer().text("lesson", "<7>").__html__()
        '<span data-from="lesson">&lt;7&gt;</span>'
        """
        text = tidy(text)
        self.note(origin, text)
        return Traced(origin, text, is_name)


def tidy(text: str) -> str:
    r"""Take out of a text what no page may hold: control signs, lone surrogates, marks that turn what follows.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    str
        The same letters, with single blanks.

    Examples
    --------
    >>> tidy("Hafen\x00schule\u202e  im\nKurs 🎵")
    'Hafen schule im Kurs 🎵'
    """
    kept = [
        " " if unicodedata.category(letter) in {"Cc", "Zl", "Zp"} else letter
        for letter in text
        if unicodedata.category(letter) not in {"Cs", "Cn"} and letter not in _TURNS
    ]
    return " ".join("".join(kept).split())


@dataclass(frozen=True, slots=True)
class PageWords:
    """What a page says in one language.

    Parameters
    ----------
    language : str
        Its tag.
    words : mapping of str to str
        Phrases by key, with slots in braces.
    see : mapping of str to str
        What to look for in each diagram.
    evidence : mapping of str to str
        How far a source was checked, by the value of `Evidence`.
    """

    language: str
    words: Mapping[str, str]
    see: Mapping[str, str]
    evidence: Mapping[str, str]

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

        Examples
        --------
        >>> page_words("de").say("quiz-question", number=2, total=5)
        'Frage 2 von 5'
        """
        return filled(self.words[key], **slots)


@lru_cache(maxsize=8)
def page_words(language: str) -> PageWords:
    """Read the words of a language.

    Parameters
    ----------
    language : str
        Language tag; the part before the hyphen decides.

    Returns
    -------
    PageWords
        Its words.

    Raises
    ------
    DomainError
        If there is no table of this language.

    Examples
    --------
    >>> page_words("en").say("transcript")
    'Transcript'
    """
    base, table = base_tag(language), language_of(language).table("page")
    return PageWords(
        base, MappingProxyType(table["words"]), MappingProxyType(table["see"]), MappingProxyType(table["evidence"])
    )
