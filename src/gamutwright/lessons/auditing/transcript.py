"""Any text as sentences, each with the place or the time where it stands.

The idea: sentences do not care where a cue or a line ends, so words are joined first and cut into sentences afterwards;
every character remembers the line and cue it came from.

**Conventions.** Plain text and Markdown are read alike: blank lines, headings, items of lists and rows of tables part
sentences; code, comments and front matter are left out. Subtitles without full stops are parted at pauses, and whatever
has none for very long between words. Offsets are
those of the sentence's text, in which every blank is one space.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from gamutwright.lessons.auditing.cues import Cue, Remark, has_time_codes, read_cues, time_code
from gamutwright.lessons.places import LINE_END
from gamutwright.lessons.prose import sentence_spans

__all__ = ["Format", "Sentence", "Transcript", "decode", "read_transcript"]

Format = Literal["text", "srt", "vtt"]

_HEADING = re.compile(r"\s{0,3}#{1,6}\s+(.*)")
_ITEM = re.compile(r"\s*(?:[-*+•]|\d{1,3}[.)])\s+(?=\S)")
_RULE = re.compile(r"\s*(?:[-*_=]\s*){3,}|\s*\|?(?:\s*:?-+:?\s*\|)+\s*:?-*:?\s*")
_MARKS = re.compile(
    r"!?\[([^\[\]]*)\]\([^)\s]{0,500}(?:\s[^)]{0,500})?\)|(?<!\w)[*_]{1,3}(?=\S)|(?<=\S)[*_]{1,3}(?!\w)|`"
)
_LONG, _PAUSE_S, _RUN = 25, 0.6, 30
LONGEST_SENTENCE = 1_000
"""Characters; what is longer is read in parts."""


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence and where it stands.

    Parameters
    ----------
    text : str
        Its words.
    places : tuple of (int, int, float or None)
        Offset in the text, line, and time in seconds of each line or cue that it runs through.
    is_heading : bool
        Whether it heads a part of the text.
    is_first : bool
        Whether it begins a paragraph.
    """

    text: str
    places: tuple[tuple[int, int, float | None], ...]
    is_heading: bool = False
    is_first: bool = False

    def line_at(self, offset: int) -> int:
        """Give the line of the file at an offset of the text."""
        return self._at(offset)[1]

    def time_at(self, offset: int) -> float | None:
        """Give the beginning of the cue at an offset, in seconds; None for a text without times."""
        return self._at(offset)[2]

    def place_at(self, offset: int) -> str:
        """Say where an offset is: a time code, or a line."""
        seconds = self.time_at(offset)
        return f"line {self.line_at(offset)}" if seconds is None else time_code(seconds)

    def _at(self, offset: int) -> tuple[int, int, float | None]:
        return self.places[max(0, bisect_right(self.places, offset, key=lambda place: place[0]) - 1)]


@dataclass(frozen=True, slots=True)
class Transcript:
    """A text in sentences.

    Parameters
    ----------
    form : str
        text, srt or vtt.
    sentences : tuple of Sentence
        In order.
    remarks : tuple of Remark
        What had to be guessed in reading it.
    """

    form: Format
    sentences: tuple[Sentence, ...]
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True)
class _Piece:
    text: str
    line: int
    start_s: float | None = None
    end_s: float | None = None
    is_heading: bool = False


def decode(content: bytes) -> tuple[str, tuple[Remark, ...]]:
    """Turn bytes into text.

    Parameters
    ----------
    content : bytes
        A file's content.

    Returns
    -------
    tuple of (str, tuple of Remark)
        The text, and a remark where it is not UTF-8.

    Examples
    --------
    >>> decode("Töne".encode())
    ('Töne', ())
    >>> decode("Töne".encode("cp1252"))[0]
    'Töne'
    """
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", errors="replace"), (Remark(0, "read as UTF-16"),)
    try:
        return content.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace"), (Remark(0, "it is no UTF-8; read as Windows-1252"),)


def _front_matter(lines: list[str]) -> int:
    """Count the lines of front matter."""
    if lines[0].strip() != "---":
        return 0
    closing = next((k for k, line in enumerate(lines[1:60], 1) if line.strip() == "---"), 0)
    return (
        closing + 1 if closing and all(re.match(r"\s*$|\s*[\w-]+\s*:|\s+|#", line) for line in lines[1:closing]) else 0
    )


def _without_comments(source: str) -> str:
    """Take comments out of a text, but for the ends of their lines; one that is not closed is none."""
    parts, place = [], 0
    while (begin := source.find("<!--", place)) >= 0 and (end := source.find("-->", begin)) >= 0:
        parts += [source[place:begin], "\n" * source.count("\n", begin, end)]
        place = end + len("-->")
    return "".join([*parts, source[place:]])


def _paragraphs(source: str) -> Iterator[list[_Piece]]:
    lines = LINE_END.split(_without_comments(source.removeprefix("\ufeff")))
    skipped = _front_matter(lines)
    current: list[_Piece] = []
    is_code = False
    for number, line in enumerate(lines[skipped:], skipped + 1):
        if re.match(r"\s*(?:```|~~~)", line):
            is_code = not is_code
            continue
        bare = line.strip()
        heading, item, is_rule = _HEADING.fullmatch(line), _ITEM.match(line), _RULE.fullmatch(bare) is not None
        is_apart = not bare or heading or item or is_rule or bare.startswith("|")
        if is_apart and current:
            yield current
            current = []
        if is_code or is_rule or not bare:
            continue
        text = heading[1].rstrip().rstrip("#") if heading else line[item.end() if item else 0 :].lstrip("> ")
        text = text.strip().strip("|").replace("|", ";")
        piece = _Piece(_tidy(_MARKS.sub(lambda m: m[1] or "", text)), number, is_heading=heading is not None)
        if heading:
            yield [piece]
        else:
            current.append(piece)
    if current:
        yield current


def _tidy(text: str) -> str:
    return " ".join(text.replace("\u00ad", "").replace("’", "'").replace("‘", "'").replace("‑", "-").split())


def _cue_pieces(cues: tuple[Cue, ...]) -> Iterator[list[_Piece]]:
    """Give cues as pieces, parted where a new speaker begins with a dash."""
    current: list[_Piece] = []
    for cue in cues:
        for k, line in enumerate(cue.lines):
            is_new = re.match(r"[-–—]\s*(?=[^\W\d_])", line)
            if is_new and current:
                yield current
                current = []
            text = _tidy(line[is_new.end() :] if is_new else line)
            if text:
                current.append(_Piece(text, cue.line + k, cue.start_s, cue.end_s))
    if current:
        yield current


def _sentences(pieces: list[_Piece], language: str) -> Iterator[Sentence]:
    starts, texts, offset = [], [], 0
    for piece in pieces:
        starts.append(offset)
        texts.append(piece.text)
        offset += len(piece.text) + 1
    whole = " ".join(texts)
    is_first = True
    for begin, end in sentence_spans(whole, language):
        parts = _parted(whole, begin, end, pieces, starts)
        for low, high in (short for part in parts for short in _shortened(whole, *part)):
            first = bisect_right(starts, low) - 1
            inside = range(first, bisect_left(starts, high))
            places = tuple((max(0, starts[k] - low), pieces[k].line, pieces[k].start_s) for k in inside)
            yield Sentence(whole[low:high], places, pieces[first].is_heading, is_first)
            is_first = False


def _shortened(whole: str, begin: int, end: int) -> Iterator[tuple[int, int]]:
    """Part what is longer than anybody speaks in one breath, between words where there are any."""
    while end - begin > LONGEST_SENTENCE:
        blank = whole.rfind(" ", begin + 1, begin + LONGEST_SENTENCE)
        middle = blank if blank > 0 else begin + LONGEST_SENTENCE
        yield begin, middle
        begin = middle + (blank > 0)
    yield begin, end


def _parted(whole: str, begin: int, end: int, pieces: list[_Piece], starts: list[int]) -> Iterator[tuple[int, int]]:
    """Part a run of words without full stops, at pauses between cues, or after so many words."""
    if pieces[0].start_s is None or whole.count(" ", begin, end) < _LONG:
        yield begin, end
        return
    low = begin
    for k in range(bisect_right(starts, begin), len(pieces)):
        if starts[k] >= end:
            break
        pause = (pieces[k].start_s or 0) - (pieces[k - 1].end_s or 0)
        if pause >= _PAUSE_S or whole.count(" ", low, starts[k]) >= _RUN:
            yield low, starts[k] - 1
            low = starts[k]
    yield low, end


def read_transcript(source: str, language: str, form: str = "auto", name: str = "text") -> Transcript:
    r"""Read a text into sentences.

    Parameters
    ----------
    source : str
        Plain text, Markdown, SRT or WebVTT.
    language : str
        Language tag.
    form : str
        text, srt, vtt, or auto to tell by its look.
    name : str
        Name for messages.

    Returns
    -------
    Transcript
        The sentences.

    Raises
    ------
    InputError
        If subtitles are asked for and no time code can be read.

    Examples
    --------
    >>> found = read_transcript("# Steps\nIt has\n*two* semitones. Good.", "en")
    >>> [(sentence.text, sentence.line_at(0)) for sentence in found.sentences]
    [('Steps', 1), ('It has two semitones.', 2), ('Good.', 3)]
    """
    kind: Format = "text"
    if form in {"srt", "vtt"} or (form == "auto" and has_time_codes(source)):
        cues, remarks = read_cues(source, name)
        kind = "vtt" if source.removeprefix("\ufeff").startswith("WEBVTT") else "srt"
        groups = _cue_pieces(cues)
    else:
        groups, remarks = _paragraphs(source), ()
    return Transcript(kind, tuple(s for pieces in groups for s in _sentences(pieces, language)), remarks)
