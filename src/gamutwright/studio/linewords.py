"""The words of one line, shown and changed by themselves, through the same saves as the whole script.

A change names the words that it was made from; where the line has others by now, nothing is written, while changes of
other lines do not stand in the way. The id of a line is hidden while its words are changed, and kept.

Conventions: a line is shown as markup on one row, without its id.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from gamutwright.errors import FileError, GamutwrightError, InputError, told
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.claims import check
from gamutwright.lessons.format import replace_words
from gamutwright.lessons.parse import parse
from gamutwright.lessons.script import Line, Script
from gamutwright.studio.documents import ChangedMeanwhileError, Document, Documents

__all__ = ["absent", "find", "rewrite_line", "save_with", "shown_source", "unproved_words"]

TRIES: Final = 20
_BLANKS: Final = re.compile(r"\s+")


def absent(what: str, rule: str) -> FileError:
    """Word that something is not there.

    Parameters
    ----------
    what, rule : str
        What was asked for, and what is wrong with it.

    Returns
    -------
    FileError
        Answered with 404.
    """
    error = FileError(what, rule, told("Load the page again."))
    error.__cause__ = FileNotFoundError()
    return error


def find(script: Script, line_id: str) -> tuple[int, Line]:
    """Find a spoken line by its id.

    Parameters
    ----------
    script : Script
        The script.
    line_id : str
        As somebody names it.

    Returns
    -------
    tuple of (int, Line)
        Its number among the spoken lines, and the line.

    Raises
    ------
    FileError
        If the script has no such line.
    """
    for number, line in enumerate((line for line in script.lines if line.text), start=1):
        if line.id == line_id:
            return number, line
    raise absent(f"line {line_id[:64]!r}", "the script has no such line, or not any more")


def unproved_words(script: Script) -> dict[str, list[str]]:
    """List the words whose statements are not proved.

    Parameters
    ----------
    script : Script
        The script.

    Returns
    -------
    dict of str to list of str
        By line; empty as well for a script that cannot be checked.
    """
    try:
        faults = check(script, default_registry()).faults
    except GamutwrightError:
        return {}
    found: dict[str, list[str]] = {}
    for claim in faults:
        for line in script.lines:
            if line.span[0] <= claim.span[0] < line.span[1]:
                found.setdefault(line.id, []).append(claim.words)
    return found


def shown_source(script: Script, line: Line) -> str:
    r"""Give the markup of a line as it is shown.

    Parameters
    ----------
    script : Script
        The script.
    line : Line
        A line of it.

    Returns
    -------
    str
        Without its id, unless that shares its braces with something else.

    Examples
    --------
    >>> script = parse("---\nscale: C major\n---\nIt has [seven]{fact=cardinality} {#k3f}\ntones.")
    >>> shown_source(script, script.lines[0])
    'It has [seven]{fact=cardinality} tones.'
    """
    source = script.source[slice(*line.span)]
    return _BLANKS.sub(" ", _id_mark(line).sub("", source, count=1)).strip()


def _id_mark(line: Line) -> re.Pattern[str]:
    return re.compile(r"[ \t]*\{#" + re.escape(line.id) + r"\}")


def save_with(documents: Documents, slug: str, change: Callable[[Script], str]) -> Document:
    """Save what a function makes of a script as it is, and again where somebody else was quicker.

    Parameters
    ----------
    documents : Documents
        The scripts of the course.
    slug : str
        The lesson.
    change : callable
        Script to new source.

    Returns
    -------
    Document
        What is there now.

    Raises
    ------
    FileError
        If it cannot be written.
    ScriptError
        If the script cannot be read.
    """
    for _ in range(TRIES):
        now = documents.read(slug)
        text = change(parse(now.text, slug))
        try:
            return documents.save(slug, text, now.version)
        except ChangedMeanwhileError:
            continue
    raise FileError(slug, told("its script is being changed all the time"), told("Try it again in a moment."))


def rewrite_line(documents: Documents, slug: str, line_id: str, words: tuple[str, str], *, keeps_id: bool) -> str:
    """Write other words for a line, where it still has those that were changed.

    Parameters
    ----------
    documents : Documents
        The scripts of the course.
    slug : str
        The lesson.
    line_id : str
        The line.
    words : tuple of (str, str)
        Its markup, as it was shown and as it is to be.
    keeps_id : bool
        Whether its id is written down even where it was not yet.

    Returns
    -------
    str
        The line's id; another one where none is written down.

    Raises
    ------
    ChangedMeanwhileError
        If the line has other words already; nothing is written.
    FileError
        If the script has no such line.
    InputError
        If nothing would be spoken, or the words are not those of a line.
    """
    before, after = words[0], _BLANKS.sub(" ", words[1]).strip()
    if not after:
        raise InputError(
            told("no words"),
            told("a line that is spoken has some"),
            told("Write them, or take the line out under Write."),
        )
    place = 0

    def change(script: Script) -> str:
        nonlocal place
        _, line = find(script, line_id)
        if shown_source(script, line) != before:
            raise ChangedMeanwhileError(
                told("line {line_id}", line_id=line_id),
                told("its words were changed elsewhere"),
                told("Look at the new words, and change those."),
            )
        place = line.span[0]
        is_hidden = not line.has_own_id or _id_mark(line).search(script.source, *line.span) is not None
        id_ = f" {{#{line_id}}}" if is_hidden and (keeps_id or line.has_own_id) else ""
        return _as_a_line(script, replace_words(script, [(*line.span, after + id_)]))

    lines = parse(save_with(documents, slug, change).text, slug).lines
    if any(line.id == line_id for line in lines):
        return line_id
    return next(line.id for line in lines if line.span[1] > place)


def _as_a_line(script: Script, changed: str) -> str:
    """Give a changed script back, where the words stayed in their paragraph and every other line kept its id."""
    now = parse(changed, script.name)
    kept = {line.id for line in now.lines}
    is_lost = any(line.has_own_id and line.id not in kept for line in script.lines)
    is_same_shape = [chapter.title for chapter in now.chapters] == [chapter.title for chapter in script.chapters]
    if (
        is_lost
        or not is_same_shape
        or len(now.passages) != len(script.passages)
        or sum(bool(line.text) for line in now.lines) < sum(bool(line.text) for line in script.lines)
    ):
        raise InputError(
            told("these words"),
            told("they would not stay a line of their paragraph"),
            told("Write a sentence, and nothing but it."),
        )
    return changed
