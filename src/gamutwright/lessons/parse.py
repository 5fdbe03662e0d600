"""Reading a script: CommonMark with front matter and attributes, into the records of `lesson.script`.

The idea: the file is the teacher's, so that it is read as other tools read it, and every word keeps its place: a wrong
number can be underlined, and mended without touching anything else. Blocks come from markdown-it-py (CommonMark
0.31.2) and the front matter plugin of mdit-py-plugins; what stands inside a paragraph is read by `lesson.inline`.

**Conventions.** Chapters are headings of any level, written with `#`; passages are paragraphs; lines are sentences.
Lists, quotations, code, HTML and rules are refused with their place, because it is not plain what of them would be
spoken; so are underlined headings, because a row of dashes under a paragraph would silently turn it into a title.
Definitions of link references are read as words, for the same reason. A point between two sentences belongs to the
first, unless it touches a word of the second. All problems of a script are found in one pass.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.errors import InputError, told
from gamutwright.languages import language_of
from gamutwright.lessons.front import read_front
from gamutwright.lessons.identity import assigned_ids
from gamutwright.lessons.inline import Spoken, read_spoken
from gamutwright.lessons.places import Problems, line_starts, shortened
from gamutwright.lessons.prose import sentence_spans
from gamutwright.lessons.script import Chapter, Front, Line, Mark, Passage, Script

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

__all__ = ["LONGEST_LINE", "MOST_BYTES", "load", "parse"]

MOST_BYTES = 400_000
"""Of a script: seven hours of speech."""
LONGEST_LINE = 5_000
"""Characters of a sentence; nobody speaks one in a breath."""
_HASHES = re.compile(r"[ ]{0,3}#{1,6}(?:[ \t]+|$)")
_BARE_SIGN = re.compile(r"^[ ]{0,3}([*+-]|[0-9]{1,9}[.)])[ \t]*$", re.MULTILINE)
_REFUSED = {
    "bullet_list_open": (
        told("begins a list, and lists are not spoken"),
        told("Write sentences, or a backslash before the sign."),
    ),
    "ordered_list_open": (
        told("begins a numbered list, and lists are not spoken"),
        told("Write sentences, or a backslash before the stop: 3\\."),
    ),
    "blockquote_open": (
        told("begins a quotation block, which is not spoken"),
        told('Write [words]{quote source="..."} in a paragraph, or \\>.'),
    ),
    "fence": (told("begins code, which cannot be spoken"), told("Take it out.")),
    "code_block": (told("is indented like code, which cannot be spoken"), told("Begin the line at the margin.")),
    "html_block": (told("is HTML, which cannot be spoken"), told("Take it out; \\< is the sign itself.")),
    "hr": (
        told("is a rule, which cannot be spoken"),
        told("Take it out, begin a chapter with #, or write {pause=1} for a rest."),
    ),
}


@lru_cache(maxsize=1)
def _reader() -> MarkdownIt:
    from markdown_it import MarkdownIt  # noqa: PLC0415 - only who reads scripts pays for it
    from mdit_py_plugins.front_matter import front_matter_plugin  # noqa: PLC0415 - as above

    reader = MarkdownIt("commonmark", {"maxNesting": 4}).use(front_matter_plugin)
    reader.core.ruler.enableOnly(["normalize", "block"])
    return reader.disable("reference")


@dataclass(slots=True)
class _Draft:
    """A line before it has its id."""

    text: str
    places: tuple[int, ...]
    wide: tuple[tuple[int, int], ...]
    marks: tuple[Mark, ...]
    span: tuple[int, int]
    ids: tuple[tuple[str, tuple[int, int]], ...]


@dataclass(slots=True)
class _Title:
    title: str
    heading: tuple[int, int]
    start: int
    passages: list[list[_Draft]]


def parse(source: str, name: str = "script.md") -> Script:
    r"""Read a script.

    Parameters
    ----------
    source : str
        The text, with its own line ends; a byte-order mark may stand first.
    name : str
        File name, for messages.

    Returns
    -------
    Script
        Everything with its place.

    Raises
    ------
    ScriptError
        With every problem of the script in `problems`, each with line, column and an excerpt.

    Examples
    --------
    >>> front = "---\nscale: C major\n---\n"
    >>> script = parse(front + "# Steps\n[Two]{fact=semitone_steps} are small. Listen. {play=scale}\n")
    >>> [line.text for line in script.lines], script.chapters[0].title
    (['Two are small.', 'Listen.'], 'Steps')
    >>> parse(front + "It has [two]{fat=semitone_steps}.")
    Traceback (most recent call last):
        ...
    gamutwright.errors.ScriptError: script.md:4:14: 'fat': is no attribute. Did you mean fact?
    """
    problems = Problems(source, name)
    text = source.removeprefix("\ufeff")
    tokens = _reader().parse(text)
    front = _front(source, tokens, problems)
    problems.language = language_of(front.language)
    titles = _blocks(source, tokens, front.language, problems)
    drafts = [draft for title in titles for passage in title.passages for draft in passage]
    _check_ids(drafts, problems)
    problems.raise_any()
    return Script(name, source, front, _chapters(titles, drafts, source))


def load(path: str | Path) -> Script:
    """Read a script from a file, with its line ends as they are.

    Parameters
    ----------
    path : str or Path
        The file, in UTF-8.

    Returns
    -------
    Script
        Everything with its place.

    Raises
    ------
    InputError
        Where the file cannot be read, or is far too long for a script.
    ScriptError
        Where it is not UTF-8, or is no script.
    """
    path = Path(path)
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        reason = error.strerror or "cannot be read"
        raise InputError(f"'{path}'", reason[:1].lower() + reason[1:], told("Give the path of a script.")) from error
    if len(data) > MOST_BYTES:
        raise InputError(
            f"'{path}'",
            told("is longer than {most_bytes} bytes", most_bytes=MOST_BYTES),
            told("Part it into several lessons."),
        )
    try:
        source = data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8")
        problems = Problems(before + "\ufffd", path.name)
        value = told("the byte {byte}", byte=f"{data[error.start]:#04x}")
        problems.add((len(before), len(before) + 1), value, told("is not UTF-8"), told("Save the file as UTF-8."))
        problems.raise_any()
    return parse(source, str(path))


def _front(source: str, tokens: list[Token], problems: Problems) -> Front:
    starts = line_starts(source)
    if tokens and tokens[0].type == "front_matter" and tokens[0].map is not None:
        return read_front(source, (1, tokens[0].map[1] - 1), problems)
    begin = starts[0]
    first = source[begin : begin + 80].split("\n", 1)[0].rstrip()
    if first.startswith("---") and not first.strip("-"):
        rule, next_step = told("opens front matter that is never closed"), told("Put a line --- after the last key.")
        problems.add((begin, begin + len(first)), shortened(first), rule, next_step)
        return Front()
    return read_front(source, (0, 0), problems)


def _blocks(source: str, tokens: list[Token], language: str, problems: Problems) -> list[_Title]:
    titles: list[_Title] = []
    starts = (*line_starts(source), len(source))
    for number, token in enumerate(tokens):
        if token.level or token.map is None or token.type == "front_matter":
            continue
        start, stop = starts[token.map[0]], starts[min(token.map[1], len(starts) - 1)]
        if token.type in _REFUSED:
            _refuse(source, start, stop, token.type, problems)
        elif token.type == "heading_open":
            titles.append(_heading(source, start, stop, token.markup, problems))
        elif token.type == "paragraph_open" and tokens[number + 1].type == "inline":
            # A bare list sign is text inside a paragraph until something, such as an id, is written after it.
            for sign in _BARE_SIGN.finditer(source, start, stop):
                problems.add(sign.span(1), sign[1], *_REFUSED["bullet_list_open"])
            drafts = _lines(source, start, stop, language, problems)
            if not titles:
                titles.append(_Title("", (start, start), start, []))
            titles[-1].passages.append(drafts)
    return titles


def _refuse(source: str, start: int, stop: int, kind: str, problems: Problems) -> None:
    line = source[start:stop].lstrip("\r\n").split("\n", 1)[0].rstrip()
    lead = len(line) - len(line.lstrip())
    piece = line.lstrip()
    if kind in {"bullet_list_open", "ordered_list_open", "blockquote_open"}:
        piece = re.match(r"[0-9]*.", piece or ">", re.DOTALL)[0]  # type: ignore[index]
    problems.add((start + lead, start + lead + len(piece)), shortened(piece), *_REFUSED[kind])


def _heading(source: str, start: int, stop: int, markup: str, problems: Problems) -> _Title:
    line = source[start:stop].rstrip()
    hashes = _HASHES.match(line)
    if not markup.startswith("#") or hashes is None:
        rule = told("is underlined with {part}, which turns the words above into a title", part=markup[:1] * 3)
        problems.add(
            (start, start + len(line)), shortened(line), rule, told("Write # and the title, or take the row out.")
        )
        return _Title("", (start, start), start, [])
    end = start + len(line)
    bare = line.rstrip("#")
    if len(bare) < len(line) and bare[-1:] in {" ", "\t"}:
        end = start + len(bare)
    begin = min(start + hashes.end(), end)
    spoken = read_spoken(source, begin, end, problems)
    wholes = [mark.whole for mark in spoken.marks] + [whole for _, _, whole in spoken.ids]
    for whole in wholes[:1]:
        rule, next_step = told("stands in a title, which is not spoken"), told("Move it to a sentence of the chapter.")
        problems.add(whole, shortened(source[slice(*whole)]), rule, next_step)
    if not spoken.text:
        problems.add(
            (start, end), "'#'", told("begins a chapter without a title"), told("Write one, or \\# for the sign.")
        )
        return _Title("", (begin, begin), start, [])
    return _Title(spoken.text, (spoken.starts[0], spoken.ends[-1]), start, [])


def _lines(source: str, start: int, stop: int, language: str, problems: Problems) -> list[_Draft]:
    """Cut a paragraph into lines, and give each its marks and its id."""
    spoken = read_spoken(source, start, start + len(source[start:stop].rstrip()), problems)
    spans = sentence_spans(spoken.text, language) or ((0, 0),)
    beginnings = [begin for begin, _ in spans]
    marks: list[list[Mark]] = [[] for _ in spans]
    ids: list[list[tuple[str, tuple[int, int]]]] = [[] for _ in spans]
    for mark in spoken.marks:
        number = max(bisect_right(beginnings, mark.words[0]) - 1, 0)
        if mark.words[1] > spans[number][1]:
            rule, next_step = (
                told("marks words of more than one sentence"),
                told("Mark the words of each sentence by themselves."),
            )
            problems.add(mark.whole, shortened(source[slice(*mark.span)]), rule, next_step)
        marks[number].append(mark)
    for line_id, position, whole in spoken.ids:
        ids[max(bisect_right(beginnings, position) - 1, 0)].append((line_id, whole))
    for begin, end in spans:
        if end - begin > LONGEST_LINE:
            rule = told(
                "is a sentence of {part} characters, and one has at most {longest_line}",
                part=end - begin,
                longest_line=LONGEST_LINE,
            )
            place = (spoken.starts[begin], spoken.ends[end - 1])
            problems.add(place, shortened(spoken.text[begin:end]), rule, told("End it with a stop, and begin another."))
    drafts = [_draft(spoken, *span, marks[number], ids[number]) for number, span in enumerate(spans)]
    return [draft for draft in drafts if draft is not None]


def _draft(
    spoken: Spoken, begin: int, end: int, marks: list[Mark], ids: list[tuple[str, tuple[int, int]]]
) -> _Draft | None:
    wholes = [mark.whole for mark in marks] + [whole for _, whole in ids]
    if begin < end:
        wholes.append((spoken.starts[begin], spoken.ends[end - 1]))
    if not wholes:
        return None
    span = (min(start for start, _ in wholes), max(stop for _, stop in wholes))
    starts, ends = spoken.starts[begin:end], spoken.ends[begin:end]
    wide = tuple((i, stop) for i, (start, stop) in enumerate(zip(starts, ends, strict=True)) if stop != start + 1)
    moved = tuple(
        Mark(mark.attributes, (mark.words[0] - begin, mark.words[1] - begin), mark.span, mark.whole) for mark in marks
    )
    return _Draft(spoken.text[begin:end], (*starts, ends[-1] if ends else span[0]), wide, moved, span, tuple(ids))


def _check_ids(drafts: list[_Draft], problems: Problems) -> None:
    seen: dict[str, int] = {}
    for number, draft in enumerate(drafts):
        for line_id, whole in draft.ids:
            if seen.setdefault(line_id, number) != number:
                rule = told("is the id of another line already")
                problems.add(whole, f"'#{line_id}'", rule, told("Take this one out; the line then gets its own."))
        for line_id, whole in draft.ids[1:]:
            problems.add(whole, f"'#{line_id}'", told("is a second id of one sentence"), told("Keep one of them."))


def _chapters(titles: list[_Title], drafts: list[_Draft], source: str) -> tuple[Chapter, ...]:
    words = [draft.text or source[slice(*draft.span)] for draft in drafts]
    ids = iter(assigned_ids(words, [draft.ids[0][0] if draft.ids else None for draft in drafts]))
    ends = [*(title.start for title in titles[1:]), len(source)]
    chapters = []
    for title, end in zip(titles, ends, strict=False):
        passages = tuple(
            Passage(
                tuple(
                    Line(next(ids), draft.text, draft.places, draft.marks, draft.span, bool(draft.ids), draft.wide)
                    for draft in passage
                )
            )
            for passage in title.passages
            if passage
        )
        chapters.append(Chapter(title.title, passages, (title.start, end), title.heading))
    return tuple(chapters)
