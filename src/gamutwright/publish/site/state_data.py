"""Reading a report of a course leniently: what is missing is left out, what is no number is shown as it is.

A report may come from an older or a newer program, and a page about trouble must not be the next trouble.

**Conventions.** Texts are tidied; lengths are minutes in the report and minutes and seconds in print; points in time
are ISO 8601.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping

from gamutwright.codec import Plain
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.languages import language_of
from gamutwright.publish.page.page_words import tidy
from gamutwright.publish.told_lesson import clock_time

__all__ = ["length_of", "moment_of", "number_of", "rows_of", "text_of", "texts_of"]


def text_of(row: Mapping[str, Plain], key: str) -> str:
    """Read a text.

    Parameters
    ----------
    row : mapping
        Where.
    key : str
        Under which name.

    Returns
    -------
    str
        The text, or the number as text; "" for anything else.

    Examples
    --------
    >>> text_of({"line": 12}, "line"), text_of({"line": None}, "line"), text_of({}, "line")
    ('12', '', '')
    """
    return _text(row.get(key))


def texts_of(row: Mapping[str, Plain], key: str) -> list[str]:
    """Read a list of texts.

    Parameters
    ----------
    row : mapping
        Where.
    key : str
        Under which name.

    Returns
    -------
    list of str
        Those that say something.
    """
    found = row.get(key)
    return [text for text in map(_text, found) if text] if isinstance(found, list | tuple) else []


def rows_of(row: Mapping[str, Plain], key: str) -> list[Mapping[str, Plain]]:
    """Read a list of records.

    Parameters
    ----------
    row : mapping
        Where.
    key : str
        Under which name.

    Returns
    -------
    list of mapping
        Those that are records.

    Examples
    --------
    >>> rows_of({"faults": [{"line": 1}, "?"]}, "faults"), rows_of({"faults": 3}, "faults")
    ([{'line': 1}], [])
    """
    found = row.get(key)
    return [part for part in found if isinstance(part, Mapping)] if isinstance(found, Iterable) else []


def number_of(value: Plain, language: str) -> str:
    """Print a number as a language does.

    Parameters
    ----------
    value : Plain
        The number.
    language : str
        `en` or `de`.

    Returns
    -------
    str
        With one decimal at the most; what is no number as text.

    Examples
    --------
    >>> number_of(12, "de"), number_of(12.25, "de"), number_of("twelve", "de")
    ('12', '12,2', 'twelve')
    """
    if not isinstance(value, float) or not math.isfinite(value):
        return _text(value)
    return language_of(language).printed_number(value)


def length_of(minutes: Plain) -> str:
    """Print a length.

    Parameters
    ----------
    minutes : Plain
        Minutes; may be a fraction.

    Returns
    -------
    str
        Minutes and seconds; "" where there is none.

    Examples
    --------
    >>> length_of(5.2), length_of(0), length_of("long")
    ('5:12', '', 'long')
    """
    if isinstance(minutes, bool) or not isinstance(minutes, int | float):
        return _text(minutes)
    if not 0 < minutes < 1e6:
        return ""
    return clock_time(round(minutes * 60) * TICKS_PER_SECOND)


def moment_of(text: str) -> str:
    """Print a point in time so that it can be read.

    Parameters
    ----------
    text : str
        ISO 8601.

    Returns
    -------
    str
        Day, hour and minute, and how far from UTC; the text itself where it is no point in time.

    Examples
    --------
    >>> moment_of("2026-03-04T18:20:11Z"), moment_of("2026-03-04"), moment_of("soon")
    ('2026-03-04 18:20 UTC', '2026-03-04', 'soon')
    """
    try:
        moment = dt.datetime.fromisoformat(text)
    except ValueError:
        return text
    if len(text) <= 10:
        return text
    zone = moment.strftime("%z")
    return f"{moment:%Y-%m-%d %H:%M}" + (" UTC" if zone == "+0000" else f" UTC{zone[:3]}:{zone[3:5]}" if zone else "")


def _text(value: object) -> str:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ""
    return tidy(str(value))
