"""Captions from the script itself: what is spoken, cut where it can be read.

Figures: two rows of at most 42 characters (Netflix Timed Text, TED), better 37 (BBC); at least 1.2 seconds and at most
7 on the screen; two frames between captions (Netflix). See docs/film.md for the sources and how far they were checked.

Conventions: a caption never reaches over a line of the script; it appears with its first word.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, Caption, Speech

__all__ = ["LONGEST_ROW", "captions_of", "rows_of"]

LONGEST_ROW = 42
ROWS = 2
SHORTEST_TICKS = 6 * TICKS_PER_SECOND // 5
GAP_TICKS = 2 * FRAME_TICKS
BREAKS = ",;:.!?–—"


def _cuts(text: str, most: int) -> Iterator[tuple[int, int]]:
    """Cut a text into pieces of at most so many characters, as even as can be, better after a stop."""
    pieces = math.ceil(len(text) / most)
    start = 0
    while pieces > 1 and len(text) - start > most:
        ideal = start + (len(text) - start) / pieces
        blanks = [place for place in range(start + 1, min(len(text), start + most + 1)) if text[place] == " "]
        if not blanks:
            break
        best = min(blanks, key=lambda place: abs(place - ideal) - (12 if text[place - 1] in BREAKS else 0))
        yield start, best
        start, pieces = best + 1, max(1, math.ceil((len(text) - best - 1) / most))
    yield start, len(text)


def rows_of(text: str) -> str:
    r"""Break a caption into rows.

    Parameters
    ----------
    text : str
        At most two rows' worth of text.

    Returns
    -------
    str
        One or two rows of similar length.

    Examples
    --------
    >>> rows_of("It has two semitone steps: C sharp to D and E to F.")
    'It has two semitone steps:\\nC sharp to D and E to F.'
    """
    if len(text) <= LONGEST_ROW:
        return text
    return "\n".join(text[start:end] for start, end in _cuts(text, LONGEST_ROW))


def captions_of(text: str, speech: Speech, start_tick: int, latest_tick: int) -> tuple[Caption, ...]:
    """Cut a spoken line into captions.

    Parameters
    ----------
    text : str
        What is spoken.
    speech : Speech
        When its words are heard.
    start_tick : int
        When the line begins.
    latest_tick : int
        When the next line begins; the last caption may stay until shortly before.

    Returns
    -------
    tuple of Caption
        In order, none overlapping.
    """
    pieces = list(_cuts(text, ROWS * LONGEST_ROW - 6))
    begins = [start_tick + speech.tick_of(start, len(text)) if start else start_tick for start, _ in pieces]
    ends = [begin - GAP_TICKS for begin in begins[1:]] + [
        min(max(start_tick + speech.ticks, begins[-1] + SHORTEST_TICKS), latest_tick - GAP_TICKS)
    ]
    return tuple(
        Caption(begin, max(end, begin + FRAME_TICKS), rows_of(text[start:stop]))
        for (start, stop), begin, end in zip(pieces, begins, ends, strict=True)
    )
