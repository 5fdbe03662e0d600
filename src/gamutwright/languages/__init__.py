"""The languages of lessons: one folder each, offered by an entry point of the group `gamutwright.languages`.

A folder holds all that is special to a language: a module that ends with `LANGUAGE`, and its files of words. Readers,
writers, pages and films know no language by themselves, so that another one comes in by its folder alone, be it here or
in anybody's distribution.
"""

from __future__ import annotations

import importlib
from functools import lru_cache
from importlib import metadata

from gamutwright.errors import DomainError, PackError
from gamutwright.languages.language import Language

__all__ = ["ENTRY_POINT_GROUP", "Language", "base_tag", "known_languages", "language_of", "source_language"]

ENTRY_POINT_GROUP = "gamutwright.languages"


def base_tag(tag: str) -> str:
    """Read the language of a tag without its region.

    Parameters
    ----------
    tag : str
        Language tag.

    Returns
    -------
    str
        Small letters.

    Examples
    --------
    >>> base_tag("de-AT")
    'de'
    """
    return tag.replace("_", "-").partition("-")[0].casefold()


@lru_cache(maxsize=1)
def _offered() -> dict[str, str]:
    """Tags and the modules that hold their languages."""
    found: dict[str, str] = {}
    for point in sorted(metadata.entry_points(group=ENTRY_POINT_GROUP), key=lambda point: (point.name, point.value)):
        if found.setdefault(point.name, point.value) != point.value:
            raise PackError(
                f"language '{point.name}'",
                f"it is offered twice, by {found[point.name]} and by {point.value}",
                "Remove one of them.",
            )
    return found


def known_languages() -> tuple[str, ...]:
    """List the languages that can be read and spoken.

    Returns
    -------
    tuple of str
        Language tags, sorted.

    Examples
    --------
    >>> {"de", "en"} <= set(known_languages())
    True
    """
    return tuple(_offered())


@lru_cache(maxsize=64)
def language_of(tag: str) -> Language:
    """Give a language.

    Parameters
    ----------
    tag : str
        Language tag, such as `en` or `de-AT`; the part before the hyphen decides.

    Returns
    -------
    Language
        Its record.

    Raises
    ------
    DomainError
        If the language is not known.
    PackError
        If its module offers no record.

    Examples
    --------
    >>> language_of("de-AT").name
    'Deutsch'
    """
    base = base_tag(tag)
    if base not in _offered():
        raise DomainError(
            f"language '{tag}'",
            f"lessons are worded in {', '.join(known_languages())}",
            "Choose one of these, or add a language.",
        )
    module = _offered()[base]
    try:
        found = getattr(importlib.import_module(module), "LANGUAGE", None)
    except ImportError as error:
        raise PackError(f"language '{base}'", f"{module} fails to import ({error})", "Mend or remove it.") from error
    if not isinstance(found, Language) or found.tag != base:
        raise PackError(
            f"language '{base}'", f"{module} offers no record LANGUAGE with this tag", "End the module with one."
        )
    return found


@lru_cache(maxsize=1)
def source_language() -> Language:
    """Give the language in which facts are titled and scales are named in the program itself.

    Returns
    -------
    Language
        The first that says so.

    Examples
    --------
    >>> source_language().tag
    'en'
    """
    return next(language for language in map(language_of, known_languages()) if language.is_source)
