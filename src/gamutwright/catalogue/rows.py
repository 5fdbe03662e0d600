"""Rows that a catalogue gives: plain Python values under the names of their columns.

Conventions: bits are written from left to right, the root first; types of columns are called as DuckDB calls them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

__all__ = ["Record", "Rows"]

Record = dict[str, Any]
"""A row: its cells by the names of their columns."""


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of a catalogue, in order.

    Parameters
    ----------
    kinds : mapping of str to str
        The columns, each with its type.
    cells : sequence of tuple
        A tuple for each row, with a cell for each column.

    Examples
    --------
    >>> rows = Rows({"bits": "VARCHAR", "tones": "INTEGER"}, [("10010", 2), ("11000", 2)])
    >>> len(rows), rows.column("bits"), list(rows.chosen(["tones"]))
    (2, ['10010', '11000'], [{'tones': 2}, {'tones': 2}])
    """

    kinds: Mapping[str, str]
    cells: Sequence[tuple[Any, ...]]

    @classmethod
    def of(cls, records: Iterable[Record], kinds: Mapping[str, str]) -> Rows:
        """Make rows of records.

        Parameters
        ----------
        records : iterable of dict
            A cell for each column.
        kinds : mapping of str to str
            The columns, each with its type.

        Returns
        -------
        Rows
            The same.
        """
        return cls(kinds, [tuple(record[name] for name in kinds) for record in records])

    @property
    def columns(self) -> tuple[str, ...]:
        """Names of the columns, in order."""
        return tuple(self.kinds)

    def __len__(self) -> int:
        """Count the rows."""
        return len(self.cells)

    def __iter__(self) -> Iterator[Record]:
        """Give each row as a record."""
        for row in self.cells:
            yield dict(zip(self.kinds, row, strict=True))

    def column(self, name: str) -> list[Any]:
        """Give the cells of one column.

        Parameters
        ----------
        name : str
            The column.

        Returns
        -------
        list
            A cell for each row.
        """
        place = self.columns.index(name)
        return [row[place] for row in self.cells]

    def chosen(self, names: Sequence[str]) -> Rows:
        """Give some of the columns.

        Parameters
        ----------
        names : sequence of str
            Columns, in the order that is wanted.

        Returns
        -------
        Rows
            With no other columns.
        """
        places = [self.columns.index(name) for name in names]
        return Rows({name: self.kinds[name] for name in names}, [tuple(row[n] for n in places) for row in self.cells])
