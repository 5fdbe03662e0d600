"""A lesson's script: the one file a teacher writes, as a record with every word's place in it.

Conventions: offsets count code points of the source from 0 and are half-open; lines and columns shown to people count
from 1. A *line* is one sentence, a *passage* a paragraph, a *chapter* what stands under a heading.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Chapter", "Front", "Line", "Mark", "Passage", "Script"]


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


@dataclass(frozen=True, slots=True)
class Line:
    """One spoken sentence.

    Parameters
    ----------
    id : str
        Lasting id: the one written in the script, or one made from the words.
    text : str
        What is spoken, without markup.
    places : tuple of int
        For each character of `text` and its end, the offset in the source.
    marks : tuple of Mark
        In the order of their beginnings; they may nest.
    span : tuple of int
        Start and end in the source.
    has_own_id : bool
        Whether the id is written in the script.
    """

    id: str
    text: str
    places: tuple[int, ...]
    marks: tuple[Mark, ...]
    span: tuple[int, int]
    has_own_id: bool = False


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph."""

    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Chapter:
    """A heading and what stands under it; a script may begin with a chapter without a title."""

    title: str
    passages: tuple[Passage, ...]
    span: tuple[int, int]


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
    def lines(self) -> tuple[Line, ...]:
        """Every line in order."""
        return tuple(line for chapter in self.chapters for passage in chapter.passages for line in passage.lines)
