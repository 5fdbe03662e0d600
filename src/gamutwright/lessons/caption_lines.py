"""Captions from the script itself: what is spoken, cut where it can be read.

Figures: two rows of at most 42 characters (Netflix Timed Text, TED), better 37 (BBC); at least 1.2 seconds and at most
7 on the screen; two frames between captions (Netflix). See docs/film.md for the sources and how far they were checked.

Conventions: a caption never reaches over a line of the script; it appears with its first word.
"""

from __future__ import annotations

from gamutwright.ir.cards import LEAST_READING_TICKS
from gamutwright.ir.timeline import FRAME_TICKS, Caption, Speech

__all__ = ["LONGEST_ROW", "captions_of", "rows_of"]

LONGEST_ROW = 42
ROWS = 2
GAP_TICKS = 2 * FRAME_TICKS
STOPS = ",;:.!?–—"
STOP_BONUS = 14


def _row_break(text: str) -> int | None:
    """Find the blank at which a text falls into two rows that fit; 0 for one row, None where it does not fit."""
    if len(text) <= LONGEST_ROW:
        return 0
    blanks = [place for place, letter in enumerate(text) if letter == " "]
    fitting = [place for place in blanks if place <= LONGEST_ROW and len(text) - place - 1 <= LONGEST_ROW]
    if not fitting:
        return None
    return min(fitting, key=lambda place: abs(2 * place - len(text)) - (STOP_BONUS if text[place - 1] in STOPS else 0))


def _pieces(text: str) -> list[tuple[int, int]]:
    """Cut a text into as few captions as hold it, as even as can be, better after a stop (dynamic programming)."""
    starts = [0, *(place + 1 for place, letter in enumerate(text) if letter == " ")]
    ends = [*(start - 1 for start in starts[1:]), len(text)]
    best: list[tuple[int, float, int]] = [(0, 0.0, 0)]
    for stop in range(1, len(starts) + 1):
        options = []
        for first in range(stop - 1, -1, -1):
            length = ends[stop - 1] - starts[first]
            if length > ROWS * LONGEST_ROW + 1 and first < stop - 1:
                break
            piece = text[starts[first] : ends[stop - 1]]
            if _row_break(piece) is None and first < stop - 1:
                continue
            bonus = STOP_BONUS**2 if text[ends[stop - 1] - 1] in STOPS else 0
            count, cost, _ = best[first]
            options.append((count + 1, cost + length * length / 10 - bonus, first))
        best.append(min(options))
    cuts, stop = [], len(starts)
    while stop:
        first = best[stop][2]
        cuts.append((starts[first], ends[stop - 1]))
        stop = first
    return cuts[::-1]


def rows_of(text: str) -> str:
    r"""Break a caption into rows.

    Parameters
    ----------
    text : str
        At most two rows' worth of text.

    Returns
    -------
    str
        One or two rows of similar length; a single word that is too long stays as it is.

    Examples
    --------
    >>> rows_of("It has two semitone steps: C sharp to D and E to F.")
    'It has two semitone steps:\nC sharp to D and E to F.'
    """
    place = _row_break(text)
    return f"{text[:place]}\n{text[place + 1 :]}" if place else text


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
    pieces = _pieces(text)
    begins = [start_tick + speech.tick_of(start, len(text)) if start else start_tick for start, _ in pieces]
    ends = [begin - GAP_TICKS for begin in begins[1:]] + [
        min(max(start_tick + speech.ticks, begins[-1] + LEAST_READING_TICKS), latest_tick - GAP_TICKS)
    ]
    return tuple(
        Caption(begin, max(end, begin + FRAME_TICKS), rows_of(text[start:stop]))
        for (start, stop), begin, end in zip(pieces, begins, ends, strict=True)
    )
