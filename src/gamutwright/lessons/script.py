"""A lesson's script: the one file a teacher writes, as a record with every word's place in it.

Conventions: offsets count code points of the source from 0 and are half-open; lines and columns shown to people count
from 1. A *line* is one sentence, a *passage* a paragraph, a *chapter* what stands under a heading.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.errors import Problem
from gamutwright.lessons.places import excerpt, locate

__all__ = ["Chapter", "Front", "Line", "Mark", "Passage", "Problem", "Script"]


@dataclass(frozen=True, slots=True)
class Mark:
    """Attributes on words (`[two]{fact=semitone_steps}`) or at a point between words (`{play=scale}`).

    Parameters
    ----------
    attributes : tuple of (str, str)
        Keys and values in the order written; a bare word such as `opinion` is a key with the value "".
    words : tuple of int
        Start and end of the marked words in the line's spoken text; equal for a point.
    span : tuple of int
        Start and end of the marked words in the source, brackets and braces left out.
    whole : tuple of int
        Start and end of the whole construct in the source.
    """

    attributes: tuple[tuple[str, str], ...]
    words: tuple[int, int]
    span: tuple[int, int]
    whole: tuple[int, int]

    def get(self, key: str) -> str | None:
        """Give the value of an attribute, None where it is absent."""
        return dict(self.attributes).get(key)

    @property
    def explained(self) -> str:
        """The fact that the words explain, as it is defined or in words of one's own; "" where they explain none."""
        return self.get("define") or self.get("explain") or ""

    @property
    def is_point(self) -> bool:
        """Whether the attributes stand between words, and mark none."""
        return self.words[0] == self.words[1]


@dataclass(frozen=True, slots=True)
class Line:
    """One spoken sentence, or a silent line: cues that stand alone in a paragraph, with the text "".

    Parameters
    ----------
    id : str
        Lasting id: the one written in the script, or one made from the words.
    text : str
        What is spoken, without markup.
    places : tuple of int
        For each character of `text`, the offset in the source at which it begins; and, last, where the text ends.
    marks : tuple of Mark
        In the order of their beginnings; they may nest.
    span : tuple of int
        Start and end in the source.
    has_own_id : bool
        Whether the id is written in the script.
    wide : tuple of (int, int)
        Index in `text` and source offset of the end, for the characters written with more than one character of
        source: an escape, a named character, a run of blanks, a letter with a combining accent.
    """

    id: str
    text: str
    places: tuple[int, ...]
    marks: tuple[Mark, ...]
    span: tuple[int, int]
    has_own_id: bool = False
    wide: tuple[tuple[int, int], ...] = ()

    def source_span(self, start: int, end: int) -> tuple[int, int]:
        """Give the place in the source of a piece of the spoken text.

        Parameters
        ----------
        start, end : int
            A half-open piece of `text`; an empty one gives an empty place.

        Returns
        -------
        tuple of int
            Start and end in the source. Markup that stands between the piece's characters is inside.

        Examples
        --------
        >>> line = Line("a", "& so", (4, 9, 10, 11, 12), (), (4, 12), wide=((0, 9),))
        >>> line.source_span(0, 1), line.source_span(2, 4)
        ((4, 9), (10, 12))
        """
        if start >= end:
            return (self.places[start], self.places[start])
        return (self.places[start], dict(self.wide).get(end - 1, self.places[end - 1] + 1))


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph."""

    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Chapter:
    """A heading and what stands under it; a script may begin with a chapter without a title.

    Parameters
    ----------
    title : str
        The heading's words, without markup; "" for a chapter without a heading.
    passages : tuple of Passage
        Its paragraphs.
    span : tuple of int
        Start and end in the source, heading included.
    heading : tuple of int
        Start and end of the title in the source; empty for a chapter without a heading.
    """

    title: str
    passages: tuple[Passage, ...]
    span: tuple[int, int]
    heading: tuple[int, int] = (0, 0)

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every line of the chapter in order."""
        return tuple(line for passage in self.passages for line in passage.lines)


@dataclass(frozen=True, slots=True)
class Front:
    """The front matter.

    Parameters
    ----------
    scale : str
        The scale as written, in any input form.
    language : str
        Language tag, such as `en` or `de`.
    level : str
        foundation, further or research.
    minutes : float
        Length aimed at.
    others : tuple of (str, str)
        Every other key, as written.
    places : tuple of (str, int)
        Offset of each key's value in the source.
    """

    scale: str = ""
    language: str = "en"
    level: str = "further"
    minutes: float = 6.0
    others: tuple[tuple[str, str], ...] = ()
    places: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Script:
    """A whole script.

    Parameters
    ----------
    name : str
        File name, for messages.
    source : str
        The text as it was read.
    front : Front
        Its front matter.
    chapters : tuple of Chapter
        In order.
    """

    name: str
    source: str
    front: Front
    chapters: tuple[Chapter, ...]

    @property
    def passages(self) -> tuple[Passage, ...]:
        """Every passage in order."""
        return tuple(passage for chapter in self.chapters for passage in chapter.passages)

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every line in order."""
        return tuple(line for chapter in self.chapters for line in chapter.lines)

    def locate(self, offset: int) -> tuple[int, int]:
        """Give line and column, both from 1, of an offset in the source.

        Parameters
        ----------
        offset : int
            Offset in code points.

        Returns
        -------
        tuple of int
            Line and column; a byte-order mark has no column.
        """
        return locate(self.source, offset)

    def excerpt(self, start: int, end: int) -> str:
        """Show a place of the source with carets under it.

        Parameters
        ----------
        start, end : int
            Offsets in the source.

        Returns
        -------
        str
            Two lines: the source line, and carets below the place.
        """
        return excerpt(self.source, start, end)
