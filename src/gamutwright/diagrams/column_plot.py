"""Columns of numbers: what interval-class vectors, common tones and Fourier magnitudes share.

Small whole numbers stand as beads on rods, so that one bead can be the place that is pointed at; other numbers are rods
with a head. Every column has its value above and its label below, unless there are too many to set them.

Conventions: the ground line is zero; columns keep their order.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gamutwright.diagrams.layout import SMALLEST, Drawing, line
from gamutwright.ir.figure import Dot, Face, Fill, Role, Stroke, Text
from gamutwright.ir.metrics import text_width

__all__ = ["MOST_BEADS", "Column", "Columns"]

MOST_BEADS = 14
_LEFT, _RIGHT, _TOP, _BOTTOM = 40.0, 960.0, 70.0, 690.0


@dataclass(frozen=True, slots=True)
class Column:
    """One column.

    Parameters
    ----------
    label : str
        What stands under it.
    value : float
        How tall it is.
    """

    label: str
    value: float


class Columns:
    """Columns laid out, before anything is marked in them.

    Parameters
    ----------
    columns : sequence of Column
        What is drawn.
    ceiling : float
        The value that reaches the top.
    """

    def __init__(self, columns: Sequence[Column], ceiling: float) -> None:
        self.columns = tuple(columns)
        self.ceiling = max(ceiling, max((column.value for column in columns), default=0.0), 1e-9)
        self.pitch = min(150.0, (_RIGHT - _LEFT) / max(1, len(columns)))
        self.start = (_LEFT + _RIGHT - self.pitch * len(columns)) / 2
        self.has_beads = all(float(c.value).is_integer() for c in columns) and self.ceiling <= MOST_BEADS

    def x(self, index: int) -> float:
        """Find the middle of a column.

        Parameters
        ----------
        index : int
            Its position, from 0.

        Returns
        -------
        float
            Its x.
        """
        return self.start + self.pitch * (index + 0.5)

    def y(self, value: float) -> float:
        """Find the height of a value.

        Parameters
        ----------
        value : float
            The value.

        Returns
        -------
        float
            Its y.
        """
        return _BOTTOM - (_BOTTOM - _TOP) * value / self.ceiling

    @property
    def bead(self) -> float:
        """Radius of a bead."""
        return min(24.0, self.pitch * 0.36, (_BOTTOM - _TOP) / max(1.0, self.ceiling) * 0.42)

    def bead_at(self, index: int, count: int) -> tuple[float, float]:
        """Find a bead.

        Parameters
        ----------
        index : int
            Position of the column, from 0.
        count : int
            Which bead from the ground, from 0.

        Returns
        -------
        tuple of float
            Its middle.
        """
        step = min((_BOTTOM - _TOP) / max(1.0, self.ceiling), 2.4 * self.bead)
        return self.x(index), _BOTTOM - step * (count + 0.62)

    def top(self, index: int) -> float:
        """Find the upper end of a column.

        Parameters
        ----------
        index : int
            Its position, from 0.

        Returns
        -------
        float
            Its y.
        """
        value = self.columns[index].value
        if not self.has_beads:
            return self.y(value) - 14
        return self.bead_at(index, int(value) - 1)[1] - self.bead if value else _BOTTOM

    def draw(self, drawing: Drawing, role: Role = Role.INK, decimals: int = 2) -> None:
        """Draw rods, beads or heads, values and labels.

        Parameters
        ----------
        drawing : Drawing
            Where.
        role : Role
            What the columns mean.
        decimals : int
            Of values that are no whole numbers.
        """
        drawing.add(
            line([(self.start, _BOTTOM), (self.start + self.pitch * len(self.columns), _BOTTOM)], Stroke(Role.INK, 3))
        )
        labels = [column.label for column in self.columns]
        values = [self._written(column.value, decimals) for column in self.columns]
        step_labels, step_values = self._every(labels), self._every(values)
        for index, column in enumerate(self.columns):
            x, name = self.x(index), f"column {column.label}"
            if self.has_beads:
                if column.value:
                    drawing.add(
                        line([(x, _BOTTOM), (x, self.bead_at(index, int(column.value) - 1)[1])], Stroke(Role.QUIET, 3))
                    )
                for count in range(int(column.value)):
                    drawing.add(Dot(*self.bead_at(index, count), self.bead, Fill(role), None, f"{name} {count}"))
            else:
                drawing.add(line([(x, _BOTTOM), (x, self.y(column.value))], Stroke(role, 8), name))
                drawing.add(Dot(x, self.y(column.value), min(14.0, self.pitch * 0.34), Fill(role)))
            drawing.part(name, x, self.top(index), self.pitch / 2)
            if index % step_labels == 0:
                drawing.add_text(Text(x, _BOTTOM + 36, column.label, 36 if self.pitch > 44 else SMALLEST))
            if step_values == 1 or (column.value and index % step_values == 0):
                text = Text(
                    x, self.top(index) - 28, values[index], 36 if self.pitch > 80 else SMALLEST, face=Face.STRONG
                )
                drawing.add_text(text)

    def _written(self, value: float, decimals: int) -> str:
        if float(value).is_integer():
            return str(int(value))
        return f"{value:.{decimals if self.pitch > 84 else 1}f}"

    def _every(self, texts: Sequence[str]) -> int:
        """Every how many columns a text has room."""
        widest = max((text_width(text, SMALLEST, Face.STRONG) for text in texts), default=0.0) + 6
        return max(1, -(-int(widest) // int(self.pitch)))
