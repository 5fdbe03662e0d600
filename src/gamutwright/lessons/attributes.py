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
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce

from gamutwright.diagrams.sketch import COMPARING
from gamutwright.errors import told
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
    "fact": Attribute(_NAME, told("the id of a fact"), needs_words=True),
    "each": Attribute(_NAME, told("the id of a fact"), needs_words=True),
    "rare": Attribute(_NAME, told("the id of a fact"), needs_words=True),
    "define": Attribute(_NAME, told("the id of a fact"), needs_words=True),
    "mode-of": Attribute(_ANY, told("a scale"), needs_words=True),
    "explain": Attribute(_NAME, told("the id of a fact"), needs_words=True),
    "at": Attribute(r"[1-9][0-9]{0,3}", told("a number from 1"), needs_words=True, beside=frozenset({"fact", "each"})),
    "of": Attribute(_ANY, told("a scale"), needs_words=True, beside=_BINDING),
    "than": Attribute(_ANY, told("a scale"), needs_words=True, beside=frozenset({"fact"})),
    "by": Attribute(r"class|scale", told("class or scale"), needs_words=True, beside=frozenset({"rare"})),
    "show": Attribute(_NAME, told("the name of a diagram")),
    "mark": Attribute(_NAME, told("the id of a fact")),
    "play": Attribute(_NAME, told("the name of a phrase")),
    "with": Attribute(_ANY, told("a scale"), beside=frozenset({"show", "play"})),
    "tempo": Attribute(r"[0-9]{1,3}(?:\.[0-9]{1,2})?", told("beats a minute, from 20 to 300"), beside=_PLAY),
    "metre": Attribute(r"[0-9]{1,2}/[0-9]{1,2}", told("a metre such as 3/4"), beside=_PLAY),
    "bars": Attribute(r"[1-9][0-9]{0,2}", told("a number from 1"), beside=_PLAY),
    "version": Attribute(r"[1-9][0-9]{0,5}", told("a number from 1"), beside=_PLAY),
    "timbre": Attribute(_NAME, told("plucked, struck or sustained"), beside=_PLAY),
    "pause": Attribute(r"[0-9]{1,2}(?:\.[0-9]{1,3})?", told("seconds, from 0 to 60")),
    "opinion": Attribute("", told("a bare word"), needs_words=True),
    "quote": Attribute("", told("a bare word"), needs_words=True),
    "source": Attribute(_ANY, told("a source in quotation marks"), needs_words=True, beside=frozenset({"quote"})),
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
                problems.add(
                    (start, match.end()), "'{}'", told("holds no attribute"), told("Write one, or \\{ for a brace.")
                )
            return Braces(tuple(items), line_id, match.end())
        position = match.end()
        if match["id"]:
            if line_id is not None:
                problems.add(
                    (match.start("id") - 1, position),
                    f"'#{match['id']}'",
                    told("is a second id"),
                    told("Keep one of them."),
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
        problems.add(
            (start, start + 1), "'{'", told("is never closed in this paragraph"), told("Close it with }, or write \\{.")
        )
        return
    end = position
    while end < min(stop, position + 40) and not source[end].isspace() and source[end] != "}":
        end += 1
    end = max(end, position + 1)
    piece = source[position:end]
    if any(mark in piece for mark in "“”„‘’«»"):
        rule, next_step = told("has typographic quotation marks"), told('Attributes take straight ones: of="D dorian".')
    elif '"' in piece or "'" in piece:
        rule, next_step = (
            told("has a quotation mark that is not closed, or no blank after it"),
            told('Write name="value".'),
        )
    elif "{" in piece:
        rule, next_step = told("opens a brace inside braces"), told("Close the first one with }.")
    else:
        rule, next_step = (
            told("is no attribute"),
            told('Write name=value, name="value" or #id, apart by blanks; \\{ is a brace.'),
        )
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


def _any_of(choices: Sequence[str]) -> str:
    first, *others = choices
    return reduce(lambda said, one: told("{these} or {that}", these=said, that=one), others, first)


def _trouble(name: str, value: str, names: set[str], seen: set[str], *, has_words: bool) -> tuple[str, str, str] | None:
    attribute = ATTRIBUTES.get(name)
    if attribute is None:
        near = difflib.get_close_matches(name[:30], ATTRIBUTES, n=1, cutoff=0.5)
        known = (
            told("Did you mean {near}?", near=near[0])
            if near
            else told("There are {list} and #id.", list=", ".join(ATTRIBUTES))
        )
        return shortened(name), told("is no attribute"), known
    if name in seen:
        return f"'{name}'", told("is written twice here"), told("Keep one of them.")
    if not re.fullmatch(attribute.pattern, value) or (name == "pause" and Fraction(value) > 60):
        if not attribute.pattern:
            return f"'{name}'", told("takes no value"), told("Write {{name}}.", name=name)
        return (
            f"'{name}={shortened(value)[1:-1]}'",
            told("{name} takes {form}", name=name, form=attribute.form),
            told("Write {name}= and then it.", name=name),
        )
    if attribute.needs_words and not has_words:
        return f"'{name}'", told("stands on no words"), told("Mark the words meant: [words]{{name} ...}.", name=name)
    if attribute.beside and not attribute.beside & names:
        partners = _any_of(sorted(attribute.beside))
        return (
            f"'{name}'",
            told("stands only beside {partners}", partners=partners),
            told("Add {partners}, or take {name} out.", partners=partners, name=name),
        )
    if name in _RELEASES and names.intersection(BINDINGS):
        return (
            f"'{name}'",
            told("releases words that are also bound"),
            told("Decide: bound words are checked, released ones are not."),
        )
    if name == "quote" and "source" not in names:
        return "'quote'", told("has no source"), told('Write quote source="who says so".')
    return None


def _cannot_compare(name: str, value: str, shown: str, names: set[str]) -> tuple[str, str, str] | None:
    """Refuse a second scale that neither the picture nor a sound would take up."""
    if name != "with" or "play" in names or shown in COMPARING:
        return None
    diagrams = _any_of([f"show={diagram}" for diagram in sorted(COMPARING)])
    return (
        f"'with={shortened(value)[1:-1]}'",
        told("{shown} shows one scale", shown=shown),
        told("Write {diagrams}, or take with out.", diagrams=diagrams),
    )
