"""The words around a film, one file for each language and purpose."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources
from typing import Any

__all__ = ["filled", "words_of"]


@lru_cache(maxsize=32)
def words_of(purpose: str, language: str) -> Mapping[str, Any]:
    """Read the words for a purpose.

    Parameters
    ----------
    purpose : str
        Such as `description`.
    language : str
        Language tag; English where there is no file.

    Returns
    -------
    mapping
        By key.

    Examples
    --------
    >>> words_of("description", "de")["title"]
    'Titel'
    """
    place = resources.files(__package__)
    file = place / f"{purpose}-{language}.toml"
    return tomllib.loads((file if file.is_file() else place / f"{purpose}-en.toml").read_text(encoding="utf-8"))


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
