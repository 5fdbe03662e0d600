"""Files of words: one for each language and purpose, as TOML.

Conventions: a file is called `<stem>-<language>.toml`; of a language tag the part before the hyphen decides.
"""

from __future__ import annotations

import re
import tomllib
from functools import lru_cache
from importlib import resources
from typing import Any

from gamutwright.errors import DomainError

__all__ = ["base_language", "language_table"]


def base_language(language: str) -> str:
    """Give the language of a tag without its region.

    Parameters
    ----------
    language : str
        Language tag.

    Returns
    -------
    str
        Small letters.

    Examples
    --------
    >>> base_language("de-AT")
    'de'
    """
    return language.partition("-")[0].casefold()


@lru_cache(maxsize=64)
def language_table(package: str, stem: str, language: str) -> dict[str, Any]:
    """Read the words of a language for a purpose.

    Parameters
    ----------
    package : str
        Dotted name of the package in which the files lie.
    stem : str
        What the files are called before the language.
    language : str
        Language tag.

    Returns
    -------
    dict
        The table.

    Raises
    ------
    DomainError
        If there is none of this language.

    Examples
    --------
    >>> language_table("gamutwright.lesson.wording", "cards", "de-AT")["cards"]["next"]
    'Nächste Lektion'
    """
    base = base_language(language)
    file = resources.files(package).joinpath(f"{stem}-{base}.toml")
    if not re.fullmatch("[a-z]{2,3}", base) or not file.is_file():
        raise DomainError(f"language '{language}'", f"there are no words for it ({stem})", "Choose en or de.")
    return tomllib.loads(file.read_text(encoding="utf-8"))
