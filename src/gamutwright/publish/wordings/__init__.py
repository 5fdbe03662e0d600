"""The words around a film, one file for each language and purpose."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from gamutwright.lesson.wording.wordfile import language_table

__all__ = ["filled", "words_of"]


def words_of(purpose: str, language: str) -> Mapping[str, Any]:
    """Read the words for a purpose.

    Parameters
    ----------
    purpose : str
        Such as `description`.
    language : str
        Language tag.

    Returns
    -------
    mapping
        By key.

    Examples
    --------
    >>> words_of("description", "de")["title"]
    'Titel'
    """
    return language_table(__name__, purpose, language)


def filled(text: str, **slots: str | int) -> str:
    """Fill slots in a text, each once, whatever stands in what fills them.

    Parameters
    ----------
    text : str
        With slots in braces.
    **slots : str or int
        What stands there.

    Returns
    -------
    str
        The text.

    Examples
    --------
    >>> filled("{a} and {b}", a="{b}", b=2)
    '{b} and 2'
    """
    parts = text.split("{")
    made = [parts[0]]
    for part in parts[1:]:
        name, brace, rest = part.partition("}")
        made.append(f"{slots[name]}{rest}" if brace and name in slots else "{" + part)
    return "".join(made)
