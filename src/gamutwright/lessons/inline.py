"""From the pieces of a paragraph to what is spoken, with the place of every character.

The idea: once it is known which brackets are marks and which asterisks are emphasis, a second pass writes down what is
left, and keeps where each character came from.

**Conventions.** Blanks of every kind become one space; soft hyphens and other invisible joints inside words are
dropped; a letter and its combining accent become one character where Unicode has one. A blank before a point that
touches a closing sign is not spoken: `fall {play=scale}.` is "fall."
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field

from gamutwright.errors import told
from gamutwright.lessons.pieces import Cutter, Piece
from gamutwright.lessons.places import Problems, shortened
from gamutwright.lessons.script import Mark

__all__ = ["Spoken", "read_spoken"]

_CLOSING = frozenset(".,;:!?…)]”’»")


@dataclass(slots=True)
class Spoken:
    """What is spoken of a paragraph.

    Parameters
    ----------
    text : str
        The words.
    starts, ends : list of int
        Place in the source of each character of `text`.
    marks : list of Mark
        In the order of their beginnings, outer ones first; words count in `text`.
    ids : list of (str, int, (int, int))
        Lasting ids, where in `text` they stand, and their braces in the source.
    """

    text: str = ""
    starts: list[int] = field(default_factory=list)
    ends: list[int] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    ids: list[tuple[str, int, tuple[int, int]]] = field(default_factory=list)


def read_spoken(source: str, start: int, stop: int, problems: Problems) -> Spoken:
    """Read the words of a paragraph or a heading.

    Parameters
    ----------
    source : str
        The script.
    start, stop : int
        The paragraph.
    problems : Problems
        Takes what is wrong.

    Returns
    -------
    Spoken
        Words, places and marks.

    Examples
    --------
    >>> text = "*Here* are [two]{fact=semitone_steps}. {play=scale}"
    >>> spoken = read_spoken(text, 0, len(text), Problems(text, "script.md"))
    >>> spoken.text, [(mark.attributes[0], mark.words) for mark in spoken.marks]
    ('Here are two.', [(('fact', 'semitone_steps'), (9, 12)), (('play', 'scale'), (13, 13))])
    """
    return _Writer(Cutter(source, start, stop, problems)).write()


class _Writer:
    """The second pass: writes down what is spoken."""

    def __init__(self, cutter: Cutter) -> None:
        self.cutter = cutter
        self.source = cutter.source
        self.text: list[str] = []
        self.starts: list[int] = []
        self.ends: list[int] = []
        self._blank: tuple[int, int] | None = None
        self._needs_composing = not unicodedata.is_normalized("NFC", self.source[cutter.start : cutter.stop])

    def write(self) -> Spoken:
        """Go through the pieces in order."""
        pieces = self.cutter.pieces
        at_piece: dict[int, int] = {}
        ids = {piece for _, piece, _ in self.cutter.ids}
        glued = self._glued(pieces)
        for number, piece in enumerate(pieces):
            if piece.kind == "text":
                self._say(piece.start, piece.end)
            elif piece.kind == "blank":
                self._rest(piece)
            elif piece.kind == "char":
                self._put(piece.value, piece.start, piece.end)
            elif piece.kind == "run" and piece.run is not None:
                self._say(piece.start + piece.run.taken_left, piece.end - piece.run.taken_right)
            elif piece.kind == "begin":
                self._flush()
                if piece.mark >= 0:
                    self.cutter.marks[piece.mark].words = (len(self.starts), 0)
            elif piece.kind == "finish":
                self._finish(piece)
            elif piece.kind == "point":
                self._stand(piece, glued[number])
            if number in ids:
                at_piece[number] = len(self.starts)
        return self._spoken(at_piece)

    def _glued(self, pieces: list[Piece]) -> dict[int, str]:
        """For each point, the character of the word that it touches, "" where a blank or nothing follows."""
        glued: dict[int, str] = {}
        following = ""
        for number in range(len(pieces) - 1, -1, -1):
            piece = pieces[number]
            if piece.kind == "point":
                glued[number] = following
            elif piece.kind == "blank":
                following = ""
            elif piece.kind not in {"begin", "finish"}:
                following = piece.value[:1] or self.source[piece.start]
        return glued

    def _flush(self) -> None:
        if self._blank is not None and self.text and self.text[-1] != " ":
            self.text.append(" ")
            self.starts.append(self._blank[0])
            self.ends.append(self._blank[1])
        self._blank = None

    def _rest(self, piece: Piece) -> None:
        if self._blank is None:
            self._blank = (piece.start, piece.end)
        elif self._blank[1] == piece.start:
            self._blank = (self._blank[0], piece.end)

    def _say(self, start: int, end: int) -> None:
        if start >= end:
            return
        self._flush()
        if self._needs_composing:
            for offset in range(start, end):
                self._compose(self.source[offset], offset)
            return
        self.text.extend(self.source[start:end])
        self.starts.extend(range(start, end))
        self.ends.extend(range(start + 1, end + 1))

    def _compose(self, character: str, offset: int) -> None:
        if self.text and self.ends[-1] == offset:
            composed = unicodedata.normalize("NFC", self.text[-1] + character)
            if len(composed) == 1:
                self.text[-1] = composed
                self.ends[-1] = offset + 1
                return
        alone = unicodedata.normalize("NFC", character)
        self.text.append(alone if len(alone) == 1 else character)
        self.starts.append(offset)
        self.ends.append(offset + 1)

    def _put(self, value: str, start: int, end: int) -> None:
        self._flush()
        for character in value:
            self.text.append(character)
            self.starts.append(start)
            self.ends.append(end)

    def _finish(self, piece: Piece) -> None:
        if piece.mark < 0:
            return
        mark = self.cutter.marks[piece.mark]
        start, end = mark.words[0], len(self.starts)
        start += start < end and self.text[start] == " "
        end -= start < end and self.text[end - 1] == " "
        if start >= end:
            rule, next_step = told("marks no words"), told("Put words between the brackets, or leave the brackets out.")
            self.cutter.problems.add(mark.whole, shortened(self.source[slice(*mark.whole)]), rule, next_step)
        mark.words = (start, end)

    def _stand(self, piece: Piece, touched: str) -> None:
        if touched in _CLOSING:
            self._blank = None
        elif touched:
            self._flush()
        if piece.mark >= 0:
            self.cutter.marks[piece.mark].words = (len(self.starts), len(self.starts))

    def _spoken(self, at_piece: dict[int, int]) -> Spoken:
        while self.text and self.text[-1] == " ":
            del self.text[-1], self.starts[-1], self.ends[-1]
        length = len(self.text)
        marks = [
            Mark(mark.attributes, (min(mark.words[0], length), min(mark.words[1], length)), mark.span, mark.whole)
            for mark in sorted(self.cutter.marks, key=lambda mark: mark.whole[0])
        ]
        ids = [(line_id, min(at_piece[piece], length), place) for line_id, piece, place in self.cutter.ids]
        return Spoken("".join(self.text), self.starts, self.ends, marks, ids)
