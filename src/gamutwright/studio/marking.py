"""A script checked while it is typed: marks with their places, what is wrong, and the words that would mend it.

Conventions: browsers count UTF-16 code units where Python counts code points, so places are converted here, at the
edge; a sign such as 𝄪 counts two. The marks of an answer belong to the text that was sent, whose digest comes back
with them.
"""

from __future__ import annotations

import hashlib
import math
import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from gamutwright.errors import GamutwrightError, ScriptError
from gamutwright.facts.registry import Registry
from gamutwright.lessons.claims import Claim, Report, Verdict, check
from gamutwright.lessons.mending import mend_of
from gamutwright.lessons.outline import outline
from gamutwright.lessons.pace import ChapterPace, Pace
from gamutwright.lessons.parse import parse
from gamutwright.lessons.places import line_starts
from gamutwright.lessons.script import Line, Script
from gamutwright.lessons.timing import script_pace

__all__ = ["ChapterFigures", "Chip", "Figure", "Heading", "Mark", "Marked", "MarkedLine", "Offsets", "mark_script"]

CUES: Final = ("show", "play", "mark", "each", "pause")
MOST_MENDED: Final = 100
"""Faults for which words are tried in their sentences, which takes a check of the paragraph each."""
"""Attributes that make something happen at their words."""
_MARKUP: Final = re.compile(r"\[|\]?\{[^{}]*\}|\]")


@dataclass(frozen=True, slots=True)
class Mark:
    """Words of a script and what is to be said of them.

    Parameters
    ----------
    start, end : int
        Their place, in UTF-16 code units.
    kind : str
        fault, proved, released or problem.
    fact : str
        The fact they are bound to; "" for none.
    words, message, next_step : str
        The words, what is wrong, and what to do.
    mend : str
        Words to write instead; "" where only a person can tell.
    """

    start: int
    end: int
    kind: str
    fact: str = ""
    words: str = ""
    message: str = ""
    next_step: str = ""
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Chip:
    """What happens at words of a line, or between two of them.

    Parameters
    ----------
    kind : str
        show, play, mark, each or pause.
    value : str
        What is shown, played or lit; the seconds of a pause.
    words : str
        The words it happens at; "" between words.
    start, end : int
        Its place with brackets and braces, in UTF-16 code units.
    """

    kind: str
    value: str
    words: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Heading:
    """The title of a chapter, with its place in UTF-16 code units."""

    title: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of a chapter, or of the whole, beside what it is held against.

    Parameters
    ----------
    name, unit : str
        What is measured.
    value, against : float
        What was found, and what it is held against.
    verdict : str
        fine, warning or failure.
    source, advice : str
        Whose figure it is, and what to do; "" where it stands well.
    """

    name: str
    unit: str
    value: float
    against: float
    verdict: str
    source: str
    advice: str


@dataclass(frozen=True, slots=True)
class ChapterFigures:
    """How long and how plain a chapter is; the whole has no title."""

    title: str
    minutes: float
    words: int
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class MarkedLine:
    """A spoken line, or a silent one with cues alone.

    Parameters
    ----------
    id : str
        Its id.
    start, end : int
        Its place, in UTF-16 code units.
    text : str
        What is spoken.
    chips : tuple of Chip
        Its cues.
    passage : int
        Which passage of the script it belongs to.
    """

    id: str
    start: int
    end: int
    text: str
    chips: tuple[Chip, ...] = ()
    passage: int = 0


@dataclass(frozen=True, slots=True)
class Marked:
    """A script, checked.

    Parameters
    ----------
    version : str
        Digest of the text that was checked.
    title, scale : str
        What it is called, and the scale as written.
    marks : tuple of Mark
        In the order of the text.
    lines : tuple of MarkedLine
        Its spoken lines; those of a text that cannot be read have no id.
    faults : int
        How many marks are faults or problems.
    minutes : float
        Its length, spoken at the teaching rate, with pauses and sounds.
    headings : tuple of Heading
        Its chapters that have a title.
    pace : tuple of ChapterFigures
        The whole, then each chapter.
    """

    version: str
    title: str = ""
    scale: str = ""
    marks: tuple[Mark, ...] = ()
    lines: tuple[MarkedLine, ...] = ()
    faults: int = 0
    minutes: float = 0.0
    headings: tuple[Heading, ...] = ()
    pace: tuple[ChapterFigures, ...] = ()


class Offsets:
    """Turns places in code points into places in UTF-16 code units.

    Parameters
    ----------
    text : str
        The text.

    Examples
    --------
    >>> Offsets("F𝄪 G").of(3)
    4
    """

    def __init__(self, text: str) -> None:
        self._wide = [place for place, sign in enumerate(text) if ord(sign) > 0xFFFF]

    def of(self, place: int) -> int:
        """Convert a place.

        Parameters
        ----------
        place : int
            In code points.

        Returns
        -------
        int
            In UTF-16 code units.
        """
        return place + bisect_right(self._wide, place - 1)


def mark_script(text: str, registry: Registry) -> Marked:
    r"""Check a script as it stands.

    Parameters
    ----------
    text : str
        The script.
    registry : Registry
        The facts on offer.

    Returns
    -------
    Marked
        Its marks; a script that cannot be read has the problems as marks, and its rows as lines.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> found = mark_script("---\nscale: C D E\n---\nIt has [four]{fact=cardinality} tones.\n", default_registry())
    >>> [(mark.words, mark.mend) for mark in found.marks]
    [('four', 'three')]
    """
    version = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    offsets = Offsets(text)
    try:
        script = parse(text)
    except ScriptError as error:
        lines, headings = _outlined(text, offsets)
        return Marked(
            version, marks=_problems(text, error, offsets), lines=lines, faults=len(error.problems), headings=headings
        )
    try:
        report = check(script, registry)
    except GamutwrightError as error:
        first = Mark(0, 0, "problem", message=f"{error.value}: {error.rule}", next_step=error.next_step)
        lines, headings = tuple(_lines(script, offsets)), tuple(_headings(script, offsets))
        return Marked(version, marks=(first,), lines=lines, faults=1, headings=headings)
    return _marked(version, report, offsets, script_pace(script, report.scale, registry), registry)


def _place(mark: Mark) -> tuple[int, int]:
    return mark.start, mark.end


def _mends(report: Report, registry: Registry) -> dict[Claim, str]:
    """Give the words that mend claims by themselves; a script with many faults has them for the first."""
    found = ((claim, mend_of(report, claim, registry)) for claim in report.faults[:MOST_MENDED])
    return {claim: mend.words for claim, mend in found if mend is not None and len(mend.edits) == 1}


def _marked(version: str, report: Report, offsets: Offsets, pace: Pace, registry: Registry) -> Marked:
    script = report.script
    mends = _mends(report, registry)
    marks = sorted((_mark(claim, offsets, mends.get(claim, "")) for claim in report.claims), key=_place)
    return Marked(
        version,
        dict(script.front.others).get("title", ""),
        script.front.scale,
        tuple(marks),
        tuple(_lines(script, offsets)),
        len(report.faults),
        round(pace.whole.minutes, 2),
        tuple(_headings(script, offsets)),
        tuple(_figures(one) for one in (pace.whole, *pace.chapters)),
    )


def _outlined(text: str, offsets: Offsets) -> tuple[tuple[MarkedLine, ...], tuple[Heading, ...]]:
    """Give the lines and titles of a text that cannot be read, so that nobody loses sight of what is to be mended."""
    found = outline(text)
    lines = (
        MarkedLine("", offsets.of(start), offsets.of(end), _MARKUP.sub("", text[start:end]), (), passage)
        for start, end, passage in found.lines
    )
    headings = (Heading(text[start:end], offsets.of(start), offsets.of(end)) for start, end in found.headings)
    return tuple(lines), tuple(headings)


def _headings(script: Script, offsets: Offsets) -> Iterator[Heading]:
    return (Heading(one.title, *map(offsets.of, one.heading)) for one in script.chapters if one.title)


def _lines(script: Script, offsets: Offsets) -> Iterator[MarkedLine]:
    for passage, told in enumerate(script.passages):
        for line in told.lines:
            chips = tuple(_chips(line, offsets))
            yield MarkedLine(line.id, offsets.of(line.span[0]), offsets.of(line.span[1]), line.text, chips, passage)


def _chips(line: Line, offsets: Offsets) -> Iterator[Chip]:
    for mark in line.marks:
        words = line.text[slice(*mark.words)]
        for kind, value in mark.attributes:
            if kind in CUES:
                yield Chip(kind, value, words, offsets.of(mark.whole[0]), offsets.of(mark.whole[1]))


def _figures(pace: ChapterPace) -> ChapterFigures:
    figures = tuple(
        Figure(one.name, one.unit, round(one.value, 1), one.figure, one.verdict.value, one.source, one.message)
        for one in pace.measures
        if math.isfinite(one.value)
    )
    return ChapterFigures(pace.title, round(pace.minutes, 2), pace.words, figures)


def _mark(claim: Claim, offsets: Offsets, mend: str) -> Mark:
    kinds = {Verdict.CONFIRMED: "proved", Verdict.RELEASED: "released"}
    kind = kinds.get(claim.verdict, "fault")
    start, end = (offsets.of(place) for place in claim.span)
    return Mark(start, end, kind, claim.fact_id, claim.words, claim.reason, claim.mend, mend)


def _problems(text: str, error: ScriptError, offsets: Offsets) -> tuple[Mark, ...]:
    starts = line_starts(text)
    return tuple(_problem(text, starts, offsets, found.line, found.column, found.message) for found in error.problems)


def _problem(text: str, starts: Sequence[int], offsets: Offsets, line: int, column: int, message: str) -> Mark:
    begin = min(len(text), starts[min(line, len(starts)) - 1] + column - 1)
    end = text.find("\n", begin)
    return Mark(offsets.of(begin), offsets.of(len(text) if end < 0 else end), "problem", message=message)
