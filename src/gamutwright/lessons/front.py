"""The front matter: lines of `key: value` between two lines of dashes.

The idea: four keys, read strictly. A general YAML reader would take `scale: 0 2 4 5 7 9 11` for text but `scale: 1:2:3`
for a number in base sixty, `language: no` for false and everything after ` #` for a comment, although a sharp is
written so; and it would not tell where a value stands.

**Conventions.** One key on each line, a value to the end of the line, in quotation marks where it begins or ends with a
blank. A line that begins with `#` is a comment. Every other key than the four is kept as written; some of them stand on
the cards of a film (`CARD_KEYS`).
"""

from __future__ import annotations

import difflib
import re

from gamutwright.errors import told
from gamutwright.facts.vocabulary import Level
from gamutwright.languages import known_languages, source_language
from gamutwright.lessons.places import Problems, line_starts, shortened
from gamutwright.lessons.script import Front

__all__ = ["CARD_KEYS", "KEYS", "MOST_MINUTES", "read_front"]

KEYS = ("scale", "level", "minutes", "language")
CARD_KEYS = ("title", "course", "lesson", "next", "speaker", "supporters")
"""Free text: what the lesson and the course are called, the lesson's number, the next one, who speaks the recordings, a
file of names to thank."""
MOST_MINUTES = 180
MOST_DIVISIONS = 72
_KEY = re.compile(r"([A-Za-z][\w-]*+)[ \t]*+:(?:[ \t]++|(?=[\r\n])|\Z)")
_MINUTES = re.compile(r"([0-9]{1,3})(?:[.,]([0-9]{1,3}))?")


def read_front(source: str, lines: tuple[int, int], problems: Problems) -> Front:
    r"""Read the lines between the dashes.

    Parameters
    ----------
    source : str
        The script.
    lines : tuple of int
        First line and line after the last, from 0.
    problems : Problems
        Takes what is wrong.

    Returns
    -------
    Front
        What is written, the defaults for what is not.

    Examples
    --------
    >>> text = "scale: D E F# G A B C#\nminutes: 4.5"
    >>> front = read_front(text, (0, 2), Problems(text, "script.md"))
    >>> front.scale, front.minutes, front.language
    ('D E F# G A B C#', 4.5, 'en')
    """
    values: dict[str, str] = {}
    places: dict[str, int] = {}
    starts = (*line_starts(source), len(source))
    for number in range(*lines):
        begin = starts[number]
        line = source[begin : starts[number + 1]].rstrip()
        if not line or line.startswith("#"):
            continue
        match = _KEY.match(line)
        if match is None:
            rule, next_step = (
                told("is no line of front matter"),
                told("Write key: value, from the beginning of the line."),
            )
            problems.add((begin, begin + len(line)), shortened(line), rule, next_step)
            continue
        key = match[1]
        if key in values:
            problems.add(
                (begin, begin + len(key)), f"'{key}'", told("is written twice"), told("Keep one of the two lines.")
            )
            continue
        known = (*KEYS, *CARD_KEYS, "divisions", "story")
        near = [] if key in known else difflib.get_close_matches(key[:20], known, n=1, cutoff=0.8)
        if near:
            problems.add(
                (begin, begin + len(key)), shortened(key), told("is no key"), told("Did you mean {near}?", near=near[0])
            )
            continue
        values[key], places[key] = _unquoted(line[match.end() :], begin + match.end())
    scale = values.get("scale", "")
    if not scale:
        place = places.get("scale", starts[0])
        rule, next_step = told("says no scale"), told("Write a line such as scale: D dorian between two lines of ---.")
        problems.add((place, place), told("the front matter"), rule, next_step)
    level = _one_of("level", values, places, tuple(Level), "further", problems)
    language = _one_of("language", values, places, known_languages(), source_language().tag, problems)
    _check_divisions(values, places, problems)
    others = tuple((key, value) for key, value in values.items() if key not in KEYS)
    return Front(scale, language, level, _minutes(values, places, problems), others, tuple(places.items()))


def _unquoted(value: str, place: int) -> tuple[str, int]:
    if len(value) >= 2 and value[0] == value[-1] and value[0] in "\"'":
        return value[1:-1], place + 1
    return value, place


def _one_of(
    key: str, values: dict[str, str], places: dict[str, int], known: tuple[str, ...], default: str, problems: Problems
) -> str:
    written = values.get(key)
    if written is None:
        return default
    if written.casefold() in known:
        return written.casefold()
    near = difflib.get_close_matches(written[:20].casefold(), known, n=1, cutoff=0.5)
    ask = told("Did you mean {near}? ", near=near[0]) if near else ""
    place = places[key]
    choice = told("{ask}There are {list}.", ask=ask, list=", ".join(known))
    problems.add((place, place + len(written)), shortened(written), told("is no {key} we know", key=key), choice)
    return default


def _check_divisions(values: dict[str, str], places: dict[str, int], problems: Problems) -> None:
    written = values.get("divisions")
    if written is None or (re.fullmatch(r"[0-9]{1,2}", written) and 2 <= int(written) <= MOST_DIVISIONS):
        return
    place = places["divisions"]
    rule = told("equal divisions of the octave are a number from 2 to {most_divisions}", most_divisions=MOST_DIVISIONS)
    problems.add((place, place + len(written)), shortened(written), rule, told("Write a line such as divisions: 12."))


def _minutes(values: dict[str, str], places: dict[str, int], problems: Problems) -> float:
    written = values.get("minutes")
    if written is None:
        return Front().minutes
    match = _MINUTES.fullmatch(written)
    minutes = float(f"{match[1]}.{match[2] or 0}") if match else 0.0
    if not 0 < minutes <= MOST_MINUTES:
        place = places["minutes"]
        rule = told("minutes are a number above 0 and up to {most_minutes}", most_minutes=MOST_MINUTES)
        problems.add((place, place + len(written)), shortened(written), rule, told("Write a line such as minutes: 6."))
        return Front().minutes
    return minutes
