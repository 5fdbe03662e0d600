r"""The pieces of a paragraph: words, blanks, escapes, emphasis, and the marks that brackets and braces make.

The idea: one pattern, one pass from left to right, brackets kept on a stack; what cannot be spoken is noted with its
place and passed over, so that one pass finds everything.

**Conventions.** Markup follows CommonMark 0.31.2, chapter 6, with these differences. `[words]{attributes}` and
`{attributes}` are ours; a bracket or a brace that is meant is written `\[`, `\{`. The words of a link are spoken, its
address is not. Code, images, HTML and addresses in angle brackets cannot be spoken and are refused.
"""

from __future__ import annotations

import html
import re
import unicodedata
from dataclasses import dataclass, field

from gamutwright.errors import told
from gamutwright.lessons.attributes import Braces, check_attributes, read_braces
from gamutwright.lessons.emphasis import Run, match_runs, run_at
from gamutwright.lessons.places import Problems, shortened

__all__ = ["Cutter", "Open", "Piece"]

_PIECE = re.compile(
    r"""(?P<text>[^\\\[\]{}*_`<&\s\x00-\x1f\x7f-\x9f\u00ad\u200b\u2060\ufeff\ufffd\ud800-\udfff]++)
      | (?P<blank>\s++)
      | (?P<escape>\\[!-/:-@\[-`{-~])
      | (?P<break>\\(?=[\r\n]))
      | (?P<run>\*++|_++)
      | (?P<entity>&(?:\#[0-9]{1,7}|\#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});)
      | (?P<html><(?=[A-Za-z/!?]))
      | (?P<open>\[) | (?P<close>\]) | (?P<brace>\{) | (?P<stray>\})
      | (?P<code>`++)
      | (?P<joint>[\u00ad\u200b\u2060\ufeff])
      | (?P<damaged>[\x00-\x1f\x7f-\x9f\ufffd\ud800-\udfff]++)
      | (?P<plain>.)""",
    re.VERBOSE | re.DOTALL,
)
_LINK = re.compile(
    r"""\((?:<[^<>\r\n]*+>|[^\s()<>]*+(?:\([^\s()]*+\)[^\s()]*+)*+)(?:[ ]{1,3}(?:"[^"]*+"|'[^']*+'))?\)"""
)


@dataclass(slots=True)
class _Bracket:
    """An opening bracket: its place, the number of its piece, the emphasis inside, and whether `!` stands before it."""

    start: int
    piece: int
    runs: list[Run] = field(default_factory=list)
    is_image: bool = False


@dataclass(slots=True)
class Piece:
    """A piece of the source. `kind`: text, char, blank, run, begin, finish, point; the last three carry a mark."""

    kind: str
    start: int
    end: int
    value: str = ""
    run: Run | None = None
    mark: int = -1


@dataclass(slots=True)
class Open:
    """A mark whose words are not yet counted."""

    attributes: tuple[tuple[str, str], ...]
    span: tuple[int, int]
    whole: tuple[int, int]
    words: tuple[int, int] = (0, 0)


class Cutter:
    """The first pass: cuts the source into pieces and pairs brackets, braces and emphasis."""

    def __init__(self, source: str, start: int, stop: int, problems: Problems) -> None:
        self.source, self.start, self.stop, self.problems = source, start, stop, problems
        self.pieces: list[Piece] = []
        self.marks: list[Open] = []
        self.ids: list[tuple[str, int, tuple[int, int]]] = []  # id, its piece, its place
        self._brackets: list[_Bracket] = []
        self._runs: list[Run] = []
        self._cut()

    def _cut(self) -> None:
        position = self.start
        while position < self.stop:
            match = _PIECE.match(self.source, position, self.stop)
            assert match is not None  # noqa: S101 - the last alternative takes any character
            kind, end = str(match.lastgroup), match.end()
            if kind in {"text", "blank", "plain"}:
                self.pieces.append(Piece("blank" if kind == "blank" else "text", position, end))
            else:
                end = getattr(self, f"_{kind}")(position, end)
            position = end
        for bracket in self._brackets:
            self._refuse(
                bracket.start,
                bracket.start + 1,
                told("is never closed in this paragraph"),
                told("Close it with ], or write \\[."),
            )
        match_runs(self._runs)

    def _refuse(self, start: int, end: int, rule: str, next_step: str) -> None:
        self.problems.add((start, end), shortened(self.source[start:end]), rule, next_step)

    def _escape(self, start: int, end: int) -> int:
        self.pieces.append(Piece("char", start, end, self.source[end - 1]))
        return end

    def _break(self, start: int, end: int) -> int:
        self.pieces.append(Piece("blank", start, end))
        return end

    def _entity(self, start: int, end: int) -> int:
        written = self.source[start:end]
        value = html.unescape(written)
        if value == written:
            self.pieces.append(Piece("text", start, end))
        elif value.isspace():
            self.pieces.append(Piece("blank", start, end))
        elif any(unicodedata.category(character) in {"Cc", "Cs"} or character == "\ufffd" for character in value):
            self._refuse(start, end, told("names no character that can be spoken"), told("Take it out."))
        else:
            self.pieces.append(Piece("char", start, end, value))
        return end

    def _run(self, start: int, end: int) -> int:
        run = run_at(self.source, start, end, (self.start, self.stop))
        (self._brackets[-1].runs if self._brackets else self._runs).append(run)
        self.pieces.append(Piece("run", start, end, run=run))
        return end

    def _html(self, start: int, end: int) -> int:
        close = self.source.find(">", start, min(self.stop, start + 400))
        end = end if close < 0 else close + 1
        self._refuse(
            start,
            end,
            told("is HTML or an address, which cannot be spoken"),
            told("Take it out; \\< is the sign itself."),
        )
        return end

    def _code(self, start: int, end: int) -> int:
        self._refuse(start, end, told("marks code, which cannot be spoken"), told("Take it out, or write \\`."))
        return end

    def _joint(self, _start: int, end: int) -> int:
        return end

    def _damaged(self, start: int, end: int) -> int:
        self._refuse(
            start,
            end,
            told("holds characters that no text should hold"),
            told("Save the file as UTF-8, and take them out."),
        )
        return end

    def _stray(self, start: int, end: int) -> int:
        self._refuse(start, end, told("closes a brace that was not opened"), told("Take it out, or write \\}."))
        return end

    def _open(self, start: int, end: int) -> int:
        is_image = start > self.start and self.source[start - 1] == "!"
        self._brackets.append(_Bracket(start, len(self.pieces), is_image=is_image))
        self.pieces.append(Piece("begin", start, end))
        return end

    def _brace(self, start: int, _end: int) -> int:
        braces = read_braces(self.source, start, self.stop, self.problems)
        if braces is None:
            return self._after_broken(start)
        self._add(braces, (start, start), (start, braces.end), has_words=False)
        return braces.end

    def _close(self, start: int, end: int) -> int:
        if not self._brackets:
            self._refuse(start, end, told("closes a bracket that was not opened"), told("Take it out, or write \\]."))
            return end
        bracket = self._brackets.pop()
        match_runs(bracket.runs)
        following = self.source[end] if end < self.stop else ""
        if following == "{":
            braces = read_braces(self.source, end, self.stop, self.problems)
            if braces is None:
                return self._after_broken(end)
            self._add(
                braces, (bracket.start + 1, start), (bracket.start, braces.end), has_words=True, begin=bracket.piece
            )
            return braces.end
        if following == "(" and (link := _LINK.match(self.source, end, self.stop)):
            if bracket.is_image:
                self._refuse(
                    bracket.start - 1, link.end(), told("is an image, which cannot be spoken"), told("Use {show=...}.")
                )
            return link.end()
        whole = (bracket.start, end)
        self._refuse(
            *whole,
            told("has no attributes behind it"),
            told("Write [words]{attributes}, or \\[ for a bracket that is meant."),
        )
        return end

    def _after_broken(self, brace: int) -> int:
        """Go on behind attributes that cannot be read: after the brace that closes them, if it stands on this line."""
        for offset in range(brace + 1, min(self.stop, brace + 200)):
            if self.source[offset] in "\r\n{":
                break
            if self.source[offset] == "}":
                return offset + 1
        return brace + 1

    def _add(
        self, braces: Braces, span: tuple[int, int], whole: tuple[int, int], *, has_words: bool, begin: int = -1
    ) -> None:
        attributes = check_attributes(braces, has_words=has_words, problems=self.problems)
        number = -1
        if attributes:
            number = len(self.marks)
            self.marks.append(Open(attributes, span, whole))
        if braces.line_id is not None:
            self.ids.append((braces.line_id, len(self.pieces), whole))
        if has_words:
            self.pieces[begin].mark = number
            self.pieces.append(Piece("finish", span[1], whole[1], mark=number))
        else:
            self.pieces.append(Piece("point", *whole, mark=number))
