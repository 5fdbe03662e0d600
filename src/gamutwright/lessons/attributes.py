"""The attributes of a script: their names, what they may stand on, and their values.

The idea: attributes are a closed list, so that a misspelt one is found where it stands and not where it is missed.
Whether a fact of that name exists, or a scale can be read, is the checker's question; this module reads the form.

**Conventions.** Items stand between braces, apart by blanks: `#id`, a bare name, `name=value` or `name="value"`. A
quoted value may hold anything; a backslash keeps the next character, a line end inside counts as a blank. Offsets are
those of the source. All patterns are possessive, so that no text takes more than linear time.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from fractions import Fraction

from gamutwright.diagrams.sketch import COMPARING
from gamutwright.lessons.places import Problems, shortened

__all__ = ["ATTRIBUTES", "BINDINGS", "Attribute", "Braces", "check_attributes", "read_braces"]


@dataclass(frozen=True, slots=True)
class Attribute:
    """What an attribute may be.

    Parameters
    ----------
    pattern : str
        Regular expression of its value; "" for a bare word.
    form : str
        The value in words.
    needs_words : bool
        Whether it must stand on words.
    beside : frozenset of str
        It stands only beside one of these; empty where it stands alone.
    """

    pattern: str
    form: str
    needs_words: bool = False
    beside: frozenset[str] = frozenset()


_NAME = r"[A-Za-z][\w.:-]*+"
_ANY = r"(?s:.*\S.*)"
_BINDING = frozenset({"fact", "each", "rare"})
_PLAY = frozenset({"play"})

ATTRIBUTES = {
    "fact": Attribute(_NAME, "the id of a fact", needs_words=True),
    "each": Attribute(_NAME, "the id of a fact", needs_words=True),
    "rare": Attribute(_NAME, "the id of a fact", needs_words=True),
    "define": Attribute(_NAME, "the id of a fact", needs_words=True),
    "mode-of": Attribute(_ANY, "a scale", needs_words=True),
    "at": Attribute(r"[1-9][0-9]{0,3}", "a number from 1", needs_words=True, beside=frozenset({"fact", "each"})),
    "of": Attribute(_ANY, "a scale", needs_words=True, beside=_BINDING),
    "than": Attribute(_ANY, "a scale", needs_words=True, beside=frozenset({"fact"})),
    "by": Attribute(r"class|scale", "class or scale", needs_words=True, beside=frozenset({"rare"})),
    "show": Attribute(_NAME, "the name of a diagram"),
    "mark": Attribute(_NAME, "the id of a fact"),
    "play": Attribute(_NAME, "the name of a phrase"),
    "with": Attribute(_ANY, "a scale", beside=frozenset({"show", "play"})),
    "tempo": Attribute(r"[0-9]{1,3}(?:\.[0-9]{1,2})?", "beats a minute, from 20 to 300", beside=_PLAY),
    "metre": Attribute(r"[0-9]{1,2}/[0-9]{1,2}", "a metre such as 3/4", beside=_PLAY),
    "bars": Attribute(r"[1-9][0-9]{0,2}", "a number from 1", beside=_PLAY),
    "version": Attribute(r"[1-9][0-9]{0,5}", "a number from 1", beside=_PLAY),
    "timbre": Attribute(_NAME, "plucked, struck or sustained", beside=_PLAY),
    "pause": Attribute(r"[0-9]{1,2}(?:\.[0-9]{1,3})?", "seconds, from 0 to 60"),
    "opinion": Attribute("", "a bare word", needs_words=True),
    "quote": Attribute("", "a bare word", needs_words=True),
    "source": Attribute(_ANY, "a source in quotation marks", needs_words=True, beside=frozenset({"quote"})),
}
_RELEASES = ("opinion", "quote")
BINDINGS = ("fact", "each", "rare", "mode-of", "define")
"""The attributes that make words a claim."""

_ITEM = re.compile(
    r"""\s*+(?:
        (?P<close>\})
      | \#(?P<id>[A-Za-z0-9][\w-]{0,63}+)(?=[\s}]|\Z)
      | (?P<key>[A-Za-z][\w-]*+)
        (?: = (?: "(?P<double>(?:[^"\\]|\\.)*+)" | '(?P<single>(?:[^'\\]|\\.)*+)' | (?P<bare>[^\s{}"'“”„‘’«»]++) ) )?
        (?=[\s}]|\Z)
    )""",
    re.VERBOSE | re.DOTALL,
)
_KEPT = re.compile(r"\\(.)", re.DOTALL)
_BLANKS = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Braces:
    """Attributes as written.

    Parameters
    ----------
    items : tuple of (str, str, int, int)
        Name, value, start and end of each.
    line_id : str or None
        The lasting id, where one is written.
    end : int
        Offset after the closing brace.
    """

    items: tuple[tuple[str, str, int, int], ...]
    line_id: str | None
    end: int


def read_braces(source: str, start: int, stop: int, problems: Problems) -> Braces | None:
    """Read attributes.

    Parameters
    ----------
    source : str
        The script.
    start : int
        Offset of the opening brace.
    stop : int
        Where the paragraph ends.
    problems : Problems
        Takes what is wrong.

    Returns
    -------
    Braces or None
        None where the braces cannot be read; the problem is noted then.

    Examples
    --------
    >>> text = '{fact=cardinality of="D dorian" #k3f}'
    >>> braces = read_braces(text, 0, len(text), Problems(text, "script.md"))
    >>> [item[:2] for item in braces.items], braces.line_id, braces.end
    ([('fact', 'cardinality'), ('of', 'D dorian')], 'k3f', 37)
    """
    items: list[tuple[str, str, int, int]] = []
    line_id: str | None = None
    position = start + 1
    while match := _ITEM.match(source, position, stop):
        if match["close"]:
            if not items and line_id is None:
                problems.add((start, match.end()), "'{}'", "holds no attribute", "Write one, or \\{ for a brace.")
            return Braces(tuple(items), line_id, match.end())
        position = match.end()
        if match["id"]:
            if line_id is not None:
                problems.add(
                    (match.start("id") - 1, position), f"'#{match['id']}'", "is a second id", "Keep one of them."
                )
            line_id = match["id"]
            continue
        quoted = match["double"] if match["double"] is not None else match["single"]
        value = match["bare"] or "" if quoted is None else _BLANKS.sub(" ", _KEPT.sub(r"\1", quoted))
        items.append((match["key"], value, match.start("key"), position))
    _explain(source, start, position, stop, problems)
    return None


def _explain(source: str, start: int, position: int, stop: int, problems: Problems) -> None:
    """Say why the attributes from `position` on cannot be read."""
    while position < stop and source[position].isspace():
        position += 1
    if position >= stop:
        problems.add((start, start + 1), "'{'", "is never closed in this paragraph", "Close it with }, or write \\{.")
        return
    end = position
    while end < min(stop, position + 40) and not source[end].isspace() and source[end] != "}":
        end += 1
    end = max(end, position + 1)
    piece = source[position:end]
    if any(mark in piece for mark in "“”„‘’«»"):
        rule, next_step = "has typographic quotation marks", 'Attributes take straight ones: of="D dorian".'
    elif '"' in piece or "'" in piece:
        rule, next_step = "has a quotation mark that is not closed, or no blank after it", 'Write name="value".'
    elif "{" in piece:
        rule, next_step = "opens a brace inside braces", "Close the first one with }."
    else:
        rule, next_step = "is no attribute", 'Write name=value, name="value" or #id, apart by blanks; \\{ is a brace.'
    problems.add((position, end), shortened(piece), rule, next_step)


def check_attributes(braces: Braces, *, has_words: bool, problems: Problems) -> tuple[tuple[str, str], ...]:
    """Hold attributes against the list of what there is.

    Parameters
    ----------
    braces : Braces
        As read.
    has_words : bool
        Whether they stand on words.
    problems : Problems
        Takes what is wrong.

    Returns
    -------
    tuple of (str, str)
        Names and values, in the order written.
    """
    names = {name for name, *_ in braces.items}
    shown = next((value for name, value, *_ in braces.items if name == "show"), "")
    seen: set[str] = set()
    for name, value, start, end in braces.items:
        trouble = _trouble(name, value, names, seen, has_words=has_words) or _cannot_compare(name, value, shown, names)
        if trouble is not None:
            problems.add((start, end), *trouble)
        seen.add(name)
    return tuple((name, value) for name, value, _, _ in braces.items)


def _trouble(name: str, value: str, names: set[str], seen: set[str], *, has_words: bool) -> tuple[str, str, str] | None:
    attribute = ATTRIBUTES.get(name)
    if attribute is None:
        near = difflib.get_close_matches(name[:30], ATTRIBUTES, n=1, cutoff=0.5)
        known = f"Did you mean {near[0]}?" if near else f"There are {', '.join(ATTRIBUTES)} and #id."
        return shortened(name), "is no attribute", known
    if name in seen:
        return f"'{name}'", "is written twice here", "Keep one of them."
    if not re.fullmatch(attribute.pattern, value) or (name == "pause" and Fraction(value) > 60):
        if not attribute.pattern:
            return f"'{name}'", "takes no value", f"Write {{{name}}}."
        return f"'{name}={shortened(value)[1:-1]}'", f"{name} takes {attribute.form}", f"Write {name}= and then it."
    if attribute.needs_words and not has_words:
        return f"'{name}'", "stands on no words", f"Mark the words meant: [words]{{{name} ...}}."
    if attribute.beside and not attribute.beside & names:
        partners = " or ".join(sorted(attribute.beside))
        return f"'{name}'", f"stands only beside {partners}", f"Add {partners}, or take {name} out."
    if name in _RELEASES and names.intersection(BINDINGS):
        return (
            f"'{name}'",
            "releases words that are also bound",
            "Decide: bound words are checked, released ones are not.",
        )
    if name == "quote" and "source" not in names:
        return "'quote'", "has no source", 'Write quote source="who says so".'
    return None


def _cannot_compare(name: str, value: str, shown: str, names: set[str]) -> tuple[str, str, str] | None:
    """Refuse a second scale that neither the picture nor a sound would take up."""
    if name != "with" or "play" in names or shown in COMPARING:
        return None
    diagrams = " or ".join(f"show={diagram}" for diagram in sorted(COMPARING))
    return f"'with={shortened(value)[1:-1]}'", f"{shown} shows one scale", f"Write {diagrams}, or take with out."
