r"""Writing a script back: byte for byte where nothing changed, and only the change where something did.

The idea: the source is never printed anew from the records. A script keeps its source, and every change is an edit at a
place in it, so that line ends, blanks and the teacher's own ways of writing stay as they are.

**Conventions.** Edits are (start, end, new text) in offsets of the source, and new text is source too: words that may
hold `[`, `{`, `*` and the like go through `escape_words` first. Inserted lines end as the script's first line does.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from gamutwright.errors import DomainError
from gamutwright.lessons.front import KEYS
from gamutwright.lessons.parse import parse
from gamutwright.lessons.places import line_starts
from gamutwright.lessons.script import Front, Script

__all__ = ["escape_words", "replace_words", "stamp", "to_source"]

Edit = tuple[int, int, str]

_TO_LINE_END = re.compile(r"[^\r\n]*")
_MARKUP = re.compile(r"[\\\[\]{}*_`<&!]")
_BLOCK_OPENERS = re.compile(r"(?m)^([ \t]*)(?:([#>+=~-])|([0-9]{1,9})(?=[.)]))")


def to_source(script: Script) -> str:
    r"""Write a script.

    Parameters
    ----------
    script : Script
        As it was read; its front matter may have been replaced.

    Returns
    -------
    str
        The source, byte for byte, byte-order mark and line ends included. Where a value of the front matter differs
        from the one written, that value alone is changed; a key that was not written gets a line of its own.

    Raises
    ------
    DomainError
        For a value that cannot stand on one line.

    Examples
    --------
    >>> from dataclasses import replace
    >>> script = parse("---\r\nscale: C major\r\n---\r\nListen.\r\n")
    >>> to_source(script) == script.source
    True
    >>> to_source(replace(script, front=replace(script.front, level="research")))
    '---\r\nscale: C major\r\nlevel: research\r\n---\r\nListen.\r\n'
    """
    if not script.front.places:
        return script.source
    written = parse(script.source, script.name).front
    old, new = _values(written), _values(script.front)
    places = dict(written.places)
    edits: list[Edit] = []
    added = []
    for key, value in new.items():
        if old.get(key) == value:
            continue
        if not value.strip() or "\n" in value or "\r" in value:
            raise DomainError(f"{key}: {value!r}", "a value of the front matter stands on one line", "Write one line.")
        if key in places:
            start, end = _written_place(script.source, places[key])
            edits.append((start, end, " " * (script.source[start - 1] == ":") + _quoted(value)))
        else:
            added.append(f"{key}: {_quoted(value)}")
    if added:
        place = _end_of_front(script.source)
        line_end = _line_end(script.source)
        edits.append((place, place, "".join(line + line_end for line in added)))
    return replace_words(script, edits)


def _values(front: Front) -> dict[str, str]:
    minutes = f"{front.minutes:g}"
    return dict(zip(KEYS, (front.scale, front.level, minutes, front.language), strict=True)) | dict(front.others)


def _quoted(value: str) -> str:
    """Put quotation marks around a value that could not be read back without them."""
    return f'"{value}"' if value != value.strip() or value[0] in "\"'" else value


def _written_place(source: str, place: int) -> tuple[int, int]:
    """Give start and end of the value that begins at `place`, with the quotation marks around it."""
    line = _TO_LINE_END.match(source, place)
    end = place + len(line[0].rstrip()) if line else place
    quote = source[place - 1]
    is_quoted = quote in "\"'" and end > place and source[end - 1] == quote
    return (place - 1 if is_quoted else place), end


def _end_of_front(source: str) -> int:
    """Give the place of the line of dashes, or of the stops that YAML allows, that closes the front matter."""
    starts = line_starts(source)
    for begin, end in zip(starts[1:], (*starts[2:], len(source)), strict=True):
        line = source[begin:end].rstrip()
        if line == "..." or (len(line) >= 3 and not line.strip("-")):
            return begin
    return starts[0]


def _line_end(source: str) -> str:
    match = re.search(r"\r\n?|\n", source)
    return match[0] if match else "\n"


def stamp(script: Script) -> str:
    r"""Write a lasting id behind every line that has none.

    Parameters
    ----------
    script : Script
        The script.

    Returns
    -------
    str
        The source with ` {#id}` after each such line, and nothing else changed. The ids are those the lines were known
        by before, so that takes stay with their lines.

    Examples
    --------
    >>> script = parse("---\nscale: C major\n---\nListen. Now sing. {#k3f}")
    >>> stamp(script).splitlines()[-1] == f"Listen. {{#{script.lines[0].id}}} Now sing. {{#k3f}}"
    True
    """
    return replace_words(
        script, [(line.span[1], line.span[1], f" {{#{line.id}}}") for line in script.lines if not line.has_own_id]
    )


def replace_words(script: Script, edits: Iterable[Edit]) -> str:
    r"""Make edits at places of the source.

    Parameters
    ----------
    script : Script
        The script.
    edits : iterable of (int, int, str)
        Start, end and the new source between them, in any order. Insertions at one place keep theirs.

    Returns
    -------
    str
        The edited source.

    Raises
    ------
    DomainError
        For places outside the source, and for edits that overlap.

    Examples
    --------
    >>> script = parse("---\nscale: C major\n---\nIt has [three]{fact=semitone_steps}.")
    >>> mark = script.lines[0].marks[0]
    >>> replace_words(script, [(*mark.span, "two")]).splitlines()[-1]
    'It has [two]{fact=semitone_steps}.'
    """
    parts, position = [], 0
    for start, end, words in sorted(edits, key=lambda edit: edit[:2]):
        if not position <= start <= end <= len(script.source):
            raise DomainError(
                f"the edit at {start} to {end}",
                f"edits lie inside the {len(script.source)} characters of the source and do not overlap",
                "Give places of one and the same source.",
            )
        parts += [script.source[position:start], words]
        position = end
    return "".join([*parts, script.source[position:]])


def escape_words(words: str) -> str:
    r"""Write words so that none of their characters is taken for markup.

    Parameters
    ----------
    words : str
        What is to be spoken.

    Returns
    -------
    str
        Source that reads as these words, in the middle of a paragraph or at its beginning.

    Examples
    --------
    >>> print(escape_words("[0, 2, 4] is {C, D, E}"))
    \[0, 2, 4\] is \{C, D, E\}
    >>> print(escape_words("3. Stufe"))
    3\. Stufe
    """
    escaped = _MARKUP.sub(lambda match: "\\" + match[0], words)
    return _BLOCK_OPENERS.sub(lambda match: match[1] + (f"\\{match[2]}" if match[2] else f"{match[3]}\\"), escaped)
