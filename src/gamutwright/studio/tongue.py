"""The language in which the studio speaks: that of its course; before there is one, what the browser asks for.

English stands in the sources, here, in the templates and in the modules of the kit; what other languages say instead
stands in their `studio.toml`, and for errors in their `errors.toml`.

Conventions: a text may have slots with names, or with numbers where it comes from a template or a module. The language
is known for the time of a request, or in a process that does one task.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Mapping
from contextvars import ContextVar
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from gamutwright.errors import GamutwrightError, slots_filled
from gamutwright.languages import Language, base_tag, known_languages, language_of, source_language
from gamutwright.series.course import FILE_NAME

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Receive, Scope, Send

__all__ = ["Tongue", "marked_up", "say", "speak_as", "table_for_pages", "tongue"]

_SPOKEN: ContextVar[str] = ContextVar("spoken", default="")


def tongue() -> Language:
    """Give the language that is spoken now."""
    return language_of(_SPOKEN.get()) if _SPOKEN.get() else source_language()


def say(text: str, **slots: object) -> str:
    """Say something in the language that is spoken now.

    Parameters
    ----------
    text : str
        In English, with names of slots in braces.
    **slots : object
        What goes into them.

    Returns
    -------
    str
        The text; in English where the language has no words for it.

    Examples
    --------
    >>> say("{count} lessons", count=1200)
    '1,200 lessons'
    """
    return slots_filled(_table(tongue()).get(text, text), slots, tongue().numerals.group_mark)


def marked_up(text: str, *parts: object) -> Markup:
    """Say something in a page.

    Parameters
    ----------
    text : str
        In English, with markup, and numbered slots in braces.
    *parts : object
        What goes into them, as it is shown.

    Returns
    -------
    Markup
        HTML.
    """
    slots: dict[str, object] = {str(place): escape(part) for place, part in enumerate(parts)}
    return Markup(slots_filled(_table(tongue()).get(text, text), slots))  # noqa: S704 - the parts are escaped


def table_for_pages() -> str:
    """Give the words that modules of a page need, as JSON; "" in the language of the sources."""
    return "" if tongue().is_source else json.dumps(_table(tongue()), ensure_ascii=False)


def speak_as(course: Path, asked_for: str = "") -> None:
    """Speak the language of a course from now on.

    Parameters
    ----------
    course : Path
        Its folder.
    asked_for : str
        The languages that a browser prefers, for a folder without a course: an `Accept-Language` (RFC 9110, 12.5.4).
    """
    _SPOKEN.set(_of_course(course) or _preferred(asked_for))


@lru_cache(maxsize=8)
def _table(language: Language) -> Mapping[str, str]:
    return {} if language.is_source else language.table("studio")


def _of_course(folder: Path) -> str:
    try:
        tag = str(tomllib.loads((folder / FILE_NAME).read_text(encoding="utf-8")).get("language", ""))
        return language_of(tag).tag if tag else source_language().tag
    except (OSError, ValueError, GamutwrightError):
        return ""


def _preferred(asked_for: str) -> str:
    tags = [base_tag(one.partition(";")[0].strip()) for one in asked_for[:200].split(",")]
    return next((tag for tag in tags if tag in known_languages()), source_language().tag)


class Tongue:
    """Lets everything behind it speak the language of the course.

    Parameters
    ----------
    app : callable
        What answers.
    course : Path
        Folder of the course.
    """

    def __init__(self, app: ASGIApp, course: Path) -> None:
        self._app = app
        self._course = course

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request in its language."""
        if scope["type"] == "http":
            asked_for = next((value for name, value in scope["headers"] if name == b"accept-language"), b"")
            speak_as(self._course, asked_for.decode("latin-1"))
        await self._app(scope, receive, send)
