"""The small words that decide what a claim says: not, more, fewer, as many, here and there.

Conventions: patterns are regular expressions without capturing groups, tried without regard to capitals and only at
word borders. A language without a table has no checker.
"""

from __future__ import annotations

import re
from functools import lru_cache

from gamutwright.languages import language_of

__all__ = ["find_negations", "pointing_count", "without_negations"]


@lru_cache(maxsize=8)
def _negation(language: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){language_of(language).claims.negation}(?!\w)", re.IGNORECASE)


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
    here = "|".join(re.escape(word) for word in language_of(language).names.here)
    words = re.split(language_of(language).claims.joins, text.strip().lower())
    return len(words) if all(re.fullmatch(rf"(?:{here})", word) for word in words) else None
