"""The words around a film, one file for each language and purpose."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from gamutwright.lesson.wording.wordfile import language_table

__all__ = ["words_of"]


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
