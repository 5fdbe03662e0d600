"""The small words that decide what a claim says: not, more, fewer, as many, here and there.

Conventions: patterns are regular expressions without capturing groups, tried without regard to capitals and only at
word borders. A language without a table has no checker.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.lesson.wording.languages import names_of

__all__ = ["ClaimWords", "claim_words", "find_negations", "pointing_count", "without_negations"]


@dataclass(frozen=True, slots=True)
class ClaimWords:
    """The small words of a language.

    Parameters
    ----------
    negation : str
        Pattern of words that turn a statement round.
    more, fewer, same : str
        Patterns of comparisons: larger, smaller, equal.
    times : tuple of (str, int, int)
        Patterns of "twice as many" and their numerator and denominator.
    joins : str
        Pattern of what joins the items of a list.
    """

    negation: str
    more: str
    fewer: str
    same: str
    times: tuple[tuple[str, int, int], ...]
    joins: str


_TABLES = {
    "en": ClaimWords(
        negation=r"(?:not|never|cannot|neither|nor|hardly|without|lacks?|fails? to|\w+n['’]t)",
        more=r"(?:more|larger|greater|higher|bigger|longer|richer|further|above)",
        fewer=r"(?:fewer|less|smaller|lower|shorter|poorer|below)",
        same=(
            r"(?:as many|just as many|equally many|the same(?: number)?|as large|as few|as high|equal(?:s|ly)?|no more)"
        ),
        times=((r"twice", 2, 1), (r"three times", 3, 1), (r"half", 1, 2), (r"double", 2, 1)),
        joins=r"(?:,? and |,? or |, |; )",
    ),
    "de": ClaimWords(
        negation=r"(?:nicht|nie|niemals|weder|kaum|ohne|kein(?:e[rsmn]?)?)",
        more=r"(?:mehr|größer\w*|höher\w*|länger\w*|reicher\w*)",
        fewer=r"(?:weniger|kleiner\w*|niedriger\w*|kürzer\w*|ärmer\w*)",
        same=r"(?:ebenso viele?|genauso viele?|gleich(?: viele?| groß| hoch)?|so viele? wie|dieselbe\w*|nicht mehr)",
        times=((r"doppelt", 2, 1), (r"dreimal", 3, 1), (r"halb", 1, 2)),
        joins=r"(?:,? und |,? oder |, |; )",
    ),
}


@lru_cache(maxsize=8)
def claim_words(language: str) -> ClaimWords:
    """Give the small words of a language.

    Parameters
    ----------
    language : str
        Language tag.

    Returns
    -------
    ClaimWords
        Its table.

    Raises
    ------
    DomainError
        If there is none.

    Examples
    --------
    >>> claim_words("de").joins
    '(?:,? und |,? oder |, |; )'
    """
    if language[:2] not in _TABLES:
        raise DomainError(
            f"language '{language}'", f"claims are checked in {', '.join(_TABLES)}", "Choose one of these languages."
        )
    return _TABLES[language[:2]]


@lru_cache(maxsize=8)
def _negation(language: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){claim_words(language).negation}(?!\w)", re.IGNORECASE)


def find_negations(text: str, language: str) -> tuple[tuple[int, int], ...]:
    """Find the words that turn a statement round.

    Parameters
    ----------
    text : str
        The text.
    language : str
        Language tag.

    Returns
    -------
    tuple of (int, int)
        Start and end of each.

    Examples
    --------
    >>> find_negations("It is not balanced", "en")
    ((6, 9),)
    """
    return tuple(match.span() for match in _negation(language).finditer(text))


def without_negations(text: str, language: str) -> str:
    """Drop the words that turn a statement round, and what is left of their blanks.

    Parameters
    ----------
    text : str
        The text.
    language : str
        Language tag.

    Returns
    -------
    str
        Lower case, single blanks.

    Examples
    --------
    >>> without_negations("Is not Balanced", "en")
    'is balanced'
    """
    return " ".join(_negation(language).sub(" ", text.lower()).split())


def pointing_count(text: str, language: str) -> int | None:
    """Count pointing words, where a text consists of nothing else.

    Parameters
    ----------
    text : str
        Words such as "here and here".
    language : str
        Language tag.

    Returns
    -------
    int or None
        How many; None where anything else is said.

    Examples
    --------
    >>> pointing_count("here, here and there", "en"), pointing_count("on C", "en")
    (3, None)
    """
    here = "|".join(re.escape(word) for word in names_of(language).here)
    words = re.split(claim_words(language).joins, text.strip().lower())
    return len(words) if all(re.fullmatch(rf"(?:{here})", word) for word in words) else None
