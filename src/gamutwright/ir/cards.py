"""Cards of words: lists that are read from the screen, cut into pages that fit every shape of frame.

A card is planned where the film is planned and drawn where frames are drawn; what both must agree on stands here: how
rows break, how many of them a card holds, and how long it takes to read them.

Figures. 160 to 180 words a minute: BBC Subtitle Guidelines 1.2.3 (June 2024), section 4.1; at least 1.2 seconds:
section 4.5 (0.3 seconds a word and 1.2 for four); more time for unfamiliar words: section 4.3. 17 characters a second:
Netflix Timed Text Style Guide, General Requirements, for children. Read here: 1.2 seconds, and as long again as the
slower of 160 words a minute and 17 characters a second asks for.

**Conventions.** Lengths are units of a 1920x1080 frame, or 1080x1920; times are ticks, 48,000 a second.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import is_drawable, shortened, text_width
from gamutwright.ir.sound import TICKS_PER_SECOND

__all__ = [
    "CARD_SIZE",
    "LEAST_READING_TICKS",
    "LONGEST_ENTRY_ROWS",
    "ROW_PITCH",
    "Entry",
    "Placed",
    "legible",
    "paged",
    "placed_entries",
    "reading_ticks",
    "wrapped_words",
]

CARD_SIZE = 42.0
ROW_PITCH = 56.0
ENTRY_GAP = 16.0
COLUMN_GAP = 64.0
LONGEST_ENTRY_ROWS = 3
ROOMS = {"wide": (1728.0, 640.0), "tall": (920.0, 1130.0)}
"""Width and height that the entries of a card have in each shape of frame."""
LEAST_READING_TICKS = 6 * TICKS_PER_SECOND // 5
"""The least time for words on the screen."""
WORDS_A_MINUTE = 160
CHARACTERS_A_SECOND = 17
VALUE_SHARE = 0.42
"""Where the second column of a wide card begins."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a card.

    Parameters
    ----------
    text : str
        What it is.
    value : str
        What is said of it; "" for a bare entry.
    """

    text: str
    value: str = ""


@dataclass(frozen=True, slots=True)
class Placed:
    """A row of a card in its place.

    Parameters
    ----------
    x, y : float
        Left end, and middle of the capitals, from the corner of the card's room.
    text : str
        The words.
    is_value : bool
        Whether it is part of a value.
    """

    x: float
    y: float
    text: str
    is_value: bool


def legible(text: str) -> str:
    r"""Make any text fit to be drawn in one run: no control signs, no marks of direction, no glyph that is missing.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    str
        Words with single blanks. Pictographs are dropped, letters with marks that no typeface has lose the marks, and
        other letters that none has become a dot each.

    Examples
    --------
    >>> legible("Ana\u202e  Novák\x07 🎵"), legible("To\u0323\u0301m"), legible("中文")
    ('Ana Novák', 'Tọm', '··')
    """
    made: list[str] = []
    for letter in unicodedata.normalize("NFC", text):
        kind = unicodedata.category(letter)
        if letter.isspace() or kind == "Cc":
            made.append(" ")
        elif is_drawable(letter):
            made.append(letter)
        elif kind[0] in "LN":
            base = "".join(part for part in unicodedata.normalize("NFKD", letter) if is_drawable(part))
            made.append(base or "·")
    return " ".join("".join(made).split())


def reading_ticks(text: str) -> int:
    """Say how long it takes to read a text that is not spoken.

    Parameters
    ----------
    text : str
        The text.

    Returns
    -------
    int
        Ticks.

    Examples
    --------
    >>> reading_ticks("one two three four") / 48_000
    2.7
    """
    by_words = len(text.split()) * 60 * TICKS_PER_SECOND // WORDS_A_MINUTE
    by_letters = len(text) * TICKS_PER_SECOND // CHARACTERS_A_SECOND
    return LEAST_READING_TICKS + max(by_words, by_letters)


def wrapped_words(text: str, width: float, size: float, face: Face = Face.SANS) -> list[str]:
    """Break a text into rows of a width.

    Parameters
    ----------
    text : str
        The words; line ends in it are kept.
    width : float
        Width of the rows, in units.
    size : float
        Type size.
    face : Face
        Typeface.

    Returns
    -------
    list of str
        The rows; a word that is too long stands alone.

    Examples
    --------
    >>> wrapped_words("Two semitone steps", 300, 48)
    ['Two semitone', 'steps']
    """
    rows: list[str] = []
    for line in text.split("\n"):
        row = ""
        for word in line.split():
            longer = f"{row} {word}".strip()
            if row and text_width(longer, size, face) > width:
                rows.append(row)
                row = word
            else:
                row = longer
        rows.append(row)
    return rows


def _rows(text: str, width: float) -> list[str]:
    """Break an entry into at most so many rows; what does not fit ends in an ellipsis."""
    if not text:
        return []
    rows = wrapped_words(legible(text), width, CARD_SIZE)
    if len(rows) > LONGEST_ENTRY_ROWS:
        rows = [*rows[: LONGEST_ENTRY_ROWS - 1], " ".join(rows[LONGEST_ENTRY_ROWS - 1 :])]
    return [shortened(row, width, CARD_SIZE) for row in rows]


def placed_entries(entries: Iterable[Entry], shape: str, columns: int = 1) -> tuple[tuple[Placed, ...], float]:
    """Set the entries of a card.

    Parameters
    ----------
    entries : iterable of Entry
        The entries.
    shape : str
        "wide" or "tall".
    columns : int
        In how many columns bare entries stand on a wide card.

    Returns
    -------
    tuple of (tuple of Placed, float)
        Rows from the corner of the card's room, and the height they take; it may exceed the room.
    """
    width, height = ROOMS[shape]
    columns = columns if shape == "wide" else 1
    column = (width - COLUMN_GAP * (columns - 1)) / columns
    rows: list[Placed] = []
    x, y, lowest, at_column = 0.0, 0.0, 0.0, 0
    for entry in entries:
        if entry.value and shape == "wide":
            parts = [
                (0.0, _rows(entry.text, width * VALUE_SHARE - COLUMN_GAP), False),
                (width * VALUE_SHARE, _rows(entry.value, width * (1 - VALUE_SHARE)), True),
            ]
            tall = max(len(part[1]) for part in parts)
            placed = [
                (across, row, words, is_value) for across, some, is_value in parts for row, words in enumerate(some)
            ]
        else:
            texts = [(words, False) for words in _rows(entry.text, column)]
            texts += [(words, True) for words in _rows(entry.value, column)]
            tall = len(texts)
            placed = [(0.0, row, words, is_value) for row, (words, is_value) in enumerate(texts)]
        if y and y + tall * ROW_PITCH > height and at_column + 1 < columns:
            at_column += 1
            x, y = x + column + COLUMN_GAP, 0.0
        rows += [Placed(x + across, y + ROW_PITCH * (row + 0.5), words, value) for across, row, words, value in placed]
        y += tall * ROW_PITCH
        lowest = max(lowest, y)
        y += ENTRY_GAP
    return tuple(rows), lowest


def paged(entries: Iterable[Entry], columns: int = 1) -> tuple[tuple[Entry, ...], ...]:
    """Cut a list into pages that fit both shapes of frame.

    Parameters
    ----------
    entries : iterable of Entry
        The entries; empty ones are left out.
    columns : int
        As for `placed_entries`.

    Returns
    -------
    tuple of tuple of Entry
        The pages, as even as can be; an entry is never cut.

    Examples
    --------
    >>> [len(page) for page in paged(Entry(f"name {k}") for k in range(20))]
    [7, 7, 6]
    """
    kept = [entry for entry in entries if legible(entry.text) or legible(entry.value)]
    if not kept:
        return ()
    for count in range(1, len(kept) + 1):
        cuts = [(k * len(kept) + count - 1) // count for k in range(count + 1)]
        pages = [tuple(kept[start:stop]) for start, stop in pairwise(cuts)]
        if all(_fits(page, columns) for page in pages):
            return tuple(pages)
    return tuple((entry,) for entry in kept)


def _fits(page: tuple[Entry, ...], columns: int) -> bool:
    return all(placed_entries(page, shape, columns)[1] <= room[1] for shape, room in ROOMS.items())
