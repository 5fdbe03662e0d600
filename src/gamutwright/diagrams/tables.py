"""Small rings in rows and columns.

Conventions: cells are filled row by row; a cell's caption stands under its ring.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.diagrams.layout import CAPTION
from gamutwright.diagrams.ring import Ring

__all__ = ["MOST_CELLS", "Cell", "cells"]

MOST_CELLS = 24


@dataclass(frozen=True, slots=True)
class Cell:
    """One place of a table.

    Parameters
    ----------
    ring : Ring
        The ring that fits there.
    caption_y : float
        Where the middle of the first line of its caption stands.
    width : float
        How wide caption and ring may be.
    """

    ring: Ring
    caption_y: float
    width: float


def cells(
    count: int,
    divisions: int,
    box: tuple[float, float, float, float] = (0, 0, 1000, 800),
    prefix: str = "",
    widest: float = 0.0,
    lines: int = 1,
) -> list[Cell]:
    """Divide a box into cells for rings with captions, as large as they can be.

    Parameters
    ----------
    count : int > 0
        How many; at most `MOST_CELLS` are made.
    divisions : int
        Steps of each ring.
    box : tuple of float
        Left, top, right, bottom.
    prefix : str
        What the names of the rings begin with.
    widest : float
        Width of the widest caption, which weighs in the choice of columns.
    lines : int
        Lines of a caption.

    Returns
    -------
    list of Cell
        Row by row, each row centred.

    Examples
    --------
    >>> [cell.ring.x for cell in cells(2, 12)]
    [250.0, 750.0]
    """
    count = min(count, MOST_CELLS)
    left, top, right, bottom = box
    caption = CAPTION * lines + 8

    def side(columns: int) -> float:
        rows = -(-count // columns)
        wide = (right - left) / columns
        return min(wide, (bottom - top) / rows - caption) * (1.0 if wide >= widest else 0.45)

    columns = max(range(1, count + 1), key=lambda number: (side(number), -number))
    rows = -(-count // columns)
    height = (bottom - top) / rows
    room = min((right - left) / columns, height - caption, 330.0)
    made = []
    for index in range(count):
        row, column = divmod(index, columns)
        in_row = min(columns, count - row * columns)
        pitch = (right - left) / columns
        x = (left + right) / 2 + (column - (in_row - 1) / 2) * pitch
        y = top + row * height + (height - caption) / 2
        radius = room / 2 * 0.74
        ring = Ring(x, y, radius, radius * 0.2, divisions, f"{prefix}{index + 1} ")
        made.append(Cell(ring, y + radius * 1.14 + CAPTION * 0.69, pitch - 8))
    return made
