"""The words of packs: what the facts of a pack say, are called on cards, and sound like in free speech.

A pack keeps its words beside its facts, in its folder `wording`: `<language>.ftl` with a message for each fact, and
`<language>.heard.toml` with the patterns of audits. A language that comes with words for other people's packs has them
in its own folder, as `facts-<pack>.ftl` and `facts-<pack>.heard.toml`; the pack's own come first.

Conventions: a fact without a message in a language is not spoken of in that language.
"""

from __future__ import annotations

import re
import tomllib
from importlib import resources
from importlib.resources.abc import Traversable
from typing import Any

from gamutwright.errors import PackError
from gamutwright.facts.registry import Pack, default_registry
from gamutwright.languages import Language

__all__ = ["heard_records", "pack_messages"]

_ID = re.compile(r"^([a-zA-Z][\w-]*) *=", re.MULTILINE)


def _places(pack: Pack, language: Language, ending: str) -> list[Traversable]:
    """List the files with the words of a pack that are there, the pack's own first."""
    own = resources.files(pack.package).joinpath("wording", f"{language.tag}{ending}") if pack.package else None
    theirs = resources.files(language.package).joinpath(f"facts-{pack.name}{ending}")
    return [place for place in (own, theirs) if place is not None and place.is_file()]


def pack_messages(language: Language) -> tuple[str, ...]:
    """Give the Fluent texts of all packs in a language.

    Parameters
    ----------
    language : Language
        The language.

    Returns
    -------
    tuple of str
        A text for each pack that has words.

    Raises
    ------
    PackError
        If a pack has words for something that is no fact of its own.

    Examples
    --------
    >>> from gamutwright.languages import language_of
    >>> "semitone-steps =" in pack_messages(language_of("en"))[0]
    True
    """
    found = []
    for pack in default_registry().packs:
        for place in _places(pack, language, ".ftl")[:1]:
            text = place.read_text(encoding="utf-8")
            strangers = sorted(set(_ID.findall(text)) - {fact.message for fact in pack.facts})
            if strangers:
                raise PackError(
                    f"pack '{pack.name}', {place.name}: {strangers[0]}",
                    "words of a pack are for its facts, by their ids with hyphens",
                    "Rename the message, or take it out.",
                )
            found.append(text)
    return tuple(found)


def heard_records(language: Language) -> tuple[dict[str, Any], ...]:
    """Give the patterns by which the facts of all packs are heard.

    Parameters
    ----------
    language : Language
        The language.

    Returns
    -------
    tuple of dict
        The records, as `languages/en/heard.toml` explains them.

    Raises
    ------
    PackError
        If a pack listens for something that is no fact of its own.

    Examples
    --------
    >>> from gamutwright.languages import language_of
    >>> {record["fact"] for record in heard_records(language_of("de"))} >= {"tritones"}
    True
    """
    found: list[dict[str, Any]] = []
    for pack in default_registry().packs:
        for place in _places(pack, language, ".heard.toml")[:1]:
            records = tomllib.loads(place.read_text(encoding="utf-8")).get("heard", [])
            strangers = sorted({record["fact"] for record in records} - {fact.id for fact in pack.facts})
            if strangers:
                raise PackError(
                    f"pack '{pack.name}', {place.name}: {strangers[0]}",
                    "a pack listens for its own facts",
                    "Rename the record's fact, or take it out.",
                )
            found += records
    return tuple(found)
