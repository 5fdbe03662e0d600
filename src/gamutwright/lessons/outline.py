r"""Where the lines of a text stand that cannot be read as a script, so that whoever mends it keeps them in view.

A script that is read has its sentences told apart by the parser. While something in it stands in the way, each written
row counts as a line: drafts and the studio write a sentence a row, so that hardly anything moves when a bracket is
opened and closed again.

Conventions: places are code points, the end is not included; the front matter is left out; a row that begins with `#`
and a blank is a title; blank rows part passages, which count from 0.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["Outline", "front_of", "outline"]

_FRONT = re.compile(r"\ufeff?---[ \t]*\r?\n(?:.*\n)*?---[ \t]*(?:\r?\n|$)")
_TITLE = re.compile(r"#{1,6}[ \t]+(?P<words>.+)")


@dataclass(frozen=True, slots=True)
class Outline:
    """The places of titles and lines.

    Parameters
    ----------
    headings : tuple of (int, int)
        Start and end of the words of each title.
    lines : tuple of (int, int, int)
        Start and end of each line, and its passage.
    """

    headings: tuple[tuple[int, int], ...]
    lines: tuple[tuple[int, int, int], ...]


def front_of(source: str) -> str:
    r"""Cut the front matter out of a text.

    Parameters
    ----------
    source : str
        Any text.

    Returns
    -------
    str
        All up to the row that closes it, with that row; "" where it is not there or not closed.

    Examples
    --------
    >>> front_of("---\nscale: C D E\n---\nListen.\n"), front_of("---\nscale: C D E\n")
    ('---\nscale: C D E\n---\n', '')
    """
    front = _FRONT.match(source)
    return front[0] if front else ""


def outline(source: str) -> Outline:
    r"""Find titles and lines by rows alone.

    Parameters
    ----------
    source : str
        Any text.

    Returns
    -------
    Outline
        What stands where.

    Examples
    --------
    >>> text = "---\nscale: C D E\n---\n# Steps\n\nIt has [three tones.\nListen.\n\nAgain.\n"
    >>> found = outline(text)
    >>> [text[start:end] for start, end in found.headings], [(text[a:b], place) for a, b, place in found.lines]
    (['Steps'], [('It has [three tones.', 0), ('Listen.', 0), ('Again.', 1)])
    """
    position = len(front_of(source))
    headings: list[tuple[int, int]] = []
    lines: list[tuple[int, int, int]] = []
    passage, is_parted = -1, True
    for row in source[position:].split("\n"):
        words = row.strip()
        start = position + row.find(words)
        position += len(row) + 1
        title = _TITLE.match(words)
        if title is not None:
            headings.append((start + title.start("words"), start + len(words)))
        elif words:
            passage += is_parted
            lines.append((start, start + len(words), passage))
        is_parted = not words or title is not None
    return Outline(tuple(headings), tuple(lines))
