"""Scales that meet a condition, as a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from gamutwright.catalogue.query import BITS, NAMES, Catalogue
from gamutwright.catalogue.rows import Record, Rows
from gamutwright.door.scale_view import ScaleView
from gamutwright.errors import MissingPartError
from gamutwright.theory.scale import Scale

if TYPE_CHECKING:
    import polars as pl
    import pyarrow as pa

__all__ = ["FoundScales", "find"]

SHOWN_ROWS = 20


@dataclass(frozen=True, slots=True, repr=False)
class FoundScales:
    """A table of scales.

    Parameters
    ----------
    rows : Rows
        The rows.
    divisions : int
        Equal divisions of the octave.
    """

    rows: Rows
    divisions: int

    @property
    def columns(self) -> tuple[str, ...]:
        """Names of the columns."""
        return self.rows.columns

    @property
    def scales(self) -> tuple[ScaleView, ...]:
        """The scales, on C."""
        return tuple(ScaleView(Scale.from_bits(bits)) for bits in self.rows.column(BITS))

    def __len__(self) -> int:
        """Count the scales."""
        return len(self.rows)

    def __iter__(self) -> Iterator[Record]:
        """Give each row as a dict."""
        return iter(self.rows)

    def to_arrow(self) -> pa.Table:
        """Give the table to Arrow.

        Returns
        -------
        pyarrow.Table
            The same rows.

        Raises
        ------
        MissingPartError
            If pyarrow is not installed.
        """
        return _library("pyarrow").table({name: self.rows.column(name) for name in self.columns})

    def to_pandas(self) -> Any:  # noqa: ANN401 - pandas states no types
        """Give the table to pandas.

        Returns
        -------
        pandas.DataFrame
            The same rows.

        Raises
        ------
        MissingPartError
            If pandas is not installed.
        """
        return _library("pandas").DataFrame(list(self.rows), columns=list(self.columns))

    def to_polars(self) -> pl.DataFrame:
        """Give the table to Polars.

        Returns
        -------
        polars.DataFrame
            The same rows.

        Raises
        ------
        MissingPartError
            If Polars is not installed.
        """
        frame: pl.DataFrame = _library("polars").DataFrame({name: self.rows.column(name) for name in self.columns})
        return frame

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<{len(self)} scales of {self.divisions} divisions: {', '.join(self.columns)}>"

    def _repr_html_(self) -> str:
        head = "".join(f"<th>{escape(name)}</th>" for name in self.columns)
        rows = "".join(
            "<tr>" + "".join(f"<td>{escape(_cell(value))}</td>" for value in row.values()) + "</tr>"
            for row, _ in zip(self.rows, range(SHOWN_ROWS), strict=False)
        )
        rest = len(self) - SHOWN_ROWS
        return f"<table><tr>{head}</tr>{rows}</table>" + (f"<p>and {rest} more</p>" if rest > 0 else "")


def _cell(value: object) -> str:
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else "" if value is None else str(value)


def _library(name: str) -> Any:  # noqa: ANN401 - an optional library
    import importlib  # noqa: PLC0415 - only tables of other libraries need it

    try:
        return importlib.import_module(name)
    except ModuleNotFoundError as error:
        raise MissingPartError(
            f"a table of {name}", "it is not installed", "Install it with: pip install 'gamutwright[frames]'"
        ) from error


def find(
    condition: str = "",
    *,
    divisions: int = 12,
    sort: Sequence[str] = (),
    limit: int | None = None,
    columns: Sequence[str] | None = None,
) -> FoundScales:
    """Find scales by their facts.

    Parameters
    ----------
    condition : str
        A condition over fact ids, such as `tritones = 2 AND is_balanced`; all scales without it.
    divisions : int in [2, 36]
        Equal divisions of the octave.
    sort : sequence of str
        Columns to sort by, with a minus sign in front for the largest first.
    limit : int, optional
        The most rows.
    columns : sequence of str, optional
        The columns wanted; without it bits, names and what the condition and the sort speak of.

    Returns
    -------
    FoundScales
        A row for each scale.

    Raises
    ------
    InputError
        If the condition is not understood.
    CatalogueError
        If the catalogue cannot be built or read.

    Examples
    --------
    >>> import gamutwright as gw
    >>> found = gw.find("cardinality = 7 AND is_maximally_even", sort=["bits"])
    >>> len(found), found.scales[0]
    (7, <Scale: C lydian, C D E F♯ G A B>)
    """
    with Catalogue(divisions) as catalogue:
        asked = [*(catalogue.read(condition).columns if condition.strip() else ()), *(key.lstrip("-") for key in sort)]
        wanted = columns if columns is not None else dict.fromkeys([BITS, NAMES, *asked])
        return FoundScales(catalogue.find(condition, sort=sort, limit=limit, columns=list(wanted)), divisions)
