"""Files of words: one for each language and purpose, as TOML, and the slots in them.

Conventions: slots are names in braces; what comes into them is not searched for slots again. A file is called
`<stem>-<language>.toml`; of a language tag the part before the hyphen decides.
"""

from __future__ import annotations

import re
import tomllib
from functools import lru_cache
from importlib import resources
from typing import Any

from gamutwright.errors import DomainError

__all__ = ["base_language", "filled", "language_table"]

_SLOT = re.compile(r"\{([a-z]+)\}")


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


def filled(text: str, **slots: str | int) -> str:
    """Fill the slots of a text, whatever stands in what fills them.

    Parameters
    ----------
    text : str
        With slots in braces.
    **slots : str or int
        What stands there; more than the text has are allowed.

    Returns
    -------
    str
        The text.

    Raises
    ------
    DomainError
        If a slot stays empty.

    Examples
    --------
    >>> filled("{a} and {b}", a="{b}", b=2)
    '{b} and 2'
    """
    missing = sorted(set(_SLOT.findall(text)) - slots.keys())
    if missing:
        raise DomainError(f"'{text}'", f"needs {', '.join(missing)}", "Fill every slot.")
    return _SLOT.sub(lambda slot: str(slots[slot[1]]), text)
