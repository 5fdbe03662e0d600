"""Places in a script, as people name them: line and column, and the words with carets under them.

The idea: a compiler's messages can be followed because they show the place. Everything that reads a script reports
through these few functions, so that all messages look alike.

**Conventions.** Offsets count code points from 0. Lines and columns count from 1; a line ends with LF, CR LF or CR, as
in CommonMark 0.31.2, section 2.1; a byte-order mark at the beginning has no column.
"""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_right
from functools import lru_cache

from gamutwright.errors import Problem, ScriptError, told
from gamutwright.languages import source_language

__all__ = ["LINE_END", "MOST_PROBLEMS", "Problems", "excerpt", "line_starts", "locate", "shortened"]

MOST_PROBLEMS = 100
LINE_END = re.compile(r"\r\n?|\n")
_BOM = "\ufeff"
_BEFORE, _SHOWN = 60, 100  # characters shown before the place and altogether


@lru_cache(maxsize=8)
def line_starts(source: str) -> tuple[int, ...]:
    r"""Give the offset at which each line begins.

    Parameters
    ----------
    source : str
        The text.

    Returns
    -------
    tuple of int
        One offset for each line; the first is 0, or 1 after a byte-order mark.

    Examples
    --------
    >>> line_starts("a\r\nb\rc\n")
    (0, 3, 5, 7)
    """
    return (int(source.startswith(_BOM)), *(match.end() for match in LINE_END.finditer(source)))


def locate(source: str, offset: int) -> tuple[int, int]:
    r"""Give the line and the column of an offset.

    Parameters
    ----------
    source : str
        The text.
    offset : int
        Offset in code points.

    Returns
    -------
    tuple of int
        Line and column, both from 1.

    Examples
    --------
    >>> locate("one\ntwo", 5)
    (2, 2)
    """
    starts = line_starts(source)
    line = max(bisect_right(starts, offset), 1)
    return line, max(offset - starts[line - 1], 0) + 1


def _width(character: str) -> int:
    if unicodedata.combining(character) or unicodedata.category(character) in {"Cf", "Me", "Mn"}:
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _visible(text: str) -> str:
    """Put control pictures for control characters, which must not reach a terminal, and U+FFFD for lone surrogates."""
    return "".join(
        chr(0x2400 + ord(character))
        if character < " " and character != "\t"
        else "\ufffd"
        if unicodedata.category(character) in {"Cc", "Cs"} and character != "\t"
        else character
        for character in text
    )


def excerpt(source: str, start: int, end: int) -> str:
    r"""Show the line of a place, with carets under the place.

    Parameters
    ----------
    source : str
        The text.
    start, end : int
        The place; a part beyond the end of its first line is not underlined.

    Returns
    -------
    str
        Two lines of text; long lines are cut, with an ellipsis at the cut.

    Examples
    --------
    >>> print(excerpt("It has [two]{fat=semitone_steps}.", 13, 16))
    It has [two]{fat=semitone_steps}.
                 ^^^
    """
    line, column = locate(source, start)
    begin = line_starts(source)[line - 1]
    left = max(0, column - 1 - _BEFORE)
    window = LINE_END.split(source[begin + left : begin + left + _SHOWN + 2], maxsplit=1)[0]
    cut_right = len(window) > _SHOWN
    window = window[:_SHOWN]
    first = column - 1 - left
    last = max(first + 1, min(end - begin - left, len(window)))
    lead = "…" if left else ""
    under = "".join("\t" if character == "\t" else " " * _width(character) for character in lead + window[:first])
    carets = "^" * max(1, sum(map(_width, window[first:last])))
    return f"{lead}{_visible(window)}{'…' if cut_right else ''}\n{under}{carets}"


def shortened(text: str, most: int = 40) -> str:
    """Put a piece of the source into quotation marks, cut where it is long.

    Parameters
    ----------
    text : str
        The piece.
    most : int
        Characters kept.

    Returns
    -------
    str
        One line, safe to print.

    Examples
    --------
    >>> shortened("two")
    "'two'"
    """
    # Twice as much is cut first, so that a megabyte is not folded to show forty characters.
    return "'" + _visible(" ".join(text[: 2 * most].split())[:most]) + ("…" if len(text) > most else "") + "'"


class Problems:
    """What is wrong with one script, collected in one pass.

    Parameters
    ----------
    source : str
        The script's text.
    name : str
        Its name, for the message.

    Attributes
    ----------
    language : Language
        In which they are told; that of the program until the script has said its own.
    """

    def __init__(self, source: str, name: str) -> None:
        self.source = source
        self.name = name
        self.language = source_language()
        self._found: list[tuple[tuple[int, int], tuple[str, str, str]]] = []

    def add(self, span: tuple[int, int], value: str, rule: str, next_step: str) -> None:
        """Note a problem; after `MOST_PROBLEMS` of them the reading stops.

        Parameters
        ----------
        span : tuple of int
            Place in the source.
        value, rule, next_step : str
            As for every error of ours.

        Raises
        ------
        ScriptError
            Where there are so many that a longer list would help nobody.
        """
        self._found.append((span, (value, rule, next_step)))
        if len(self._found) >= MOST_PROBLEMS:
            self.raise_any()

    def raise_any(self) -> None:
        """Raise everything found, in the order of the text; do nothing where nothing was found.

        Raises
        ------
        ScriptError
            With all problems.
        """
        if not self._found:
            return
        ordered = sorted(self._found, key=lambda found: found[0][0])
        problems = tuple(self._problem(span, texts) for span, texts in ordered)
        value, rule, next_step = map(self.language.retold, ordered[0][1])
        more = len(ordered) - 1
        if more:
            left = told("({more} more problems in this script.)", more=more)
            one = told("(1 more problem in this script.)")
            next_step += f" {self.language.retold(one if more == 1 else left)}"
        raise ScriptError(
            f"{self.name}:{problems[0].line}:{problems[0].column}", f"{value}: {rule}", next_step, problems
        )

    def _problem(self, span: tuple[int, int], texts: tuple[str, str, str]) -> Problem:
        value, rule, next_step = map(self.language.retold, texts)
        return Problem(*locate(self.source, span[0]), f"{value}: {rule}. {next_step}", excerpt(self.source, *span))
