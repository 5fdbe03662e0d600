"""Asking a catalogue: conditions over its columns, answered by DuckDB from the Parquet file.

The database is opened in memory and can read that one file and nothing else: no other file, no network, no extension,
and its settings are locked. A condition is checked before it runs (`conditions`) and stopped when it takes too long.

Conventions: besides the stored columns there are computed ones: `bits`, the set written from left to right from the
root; `class_bits`, the same for the mode that stands for all modes and transpositions; `name`, the systematic name, and
`names`, all traditional names, a teacher's own among them. A column name may be written with hyphens where it stands
alone. Rows come in the catalogue's order, the modes of a class one after another, unless a sort is asked for; scales
without a value come last in a sort.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from types import TracebackType
from typing import TYPE_CHECKING, Any, Self, TypeVar

import duckdb

from gamutwright.catalogue.build import ensure
from gamutwright.catalogue.conditions import Condition, parse_condition, place_of, unknown_column
from gamutwright.catalogue.database import (
    BITS,
    CLASS_BITS,
    MEMORY_LIMIT,
    NAME,
    NAMES,
    interrupted,
    open_locked,
    quoted,
    story,
    told,
)
from gamutwright.catalogue.fact_columns import CLASS, MASK, coverage, fact_columns
from gamutwright.catalogue.names import Names, default_names
from gamutwright.catalogue.rows import Rows
from gamutwright.catalogue.shipped import SCALES_FILE
from gamutwright.errors import CatalogueError, InputError
from gamutwright.facts.registry import Registry, default_registry

if TYPE_CHECKING:
    import numpy as np
    import pyarrow as pa
    from numpy.typing import NDArray

    from gamutwright.catalogue.build import Progress

__all__ = ["BITS", "CLASS_BITS", "NAME", "NAMES", "TIME_LIMIT_S", "Catalogue", "Terms"]

TIME_LIMIT_S = 20.0
ROWS_AT_ONCE = 100_000
MOST_CELLS = 40_000_000
"""Cells of an answer: about as much memory as the database itself may use."""

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Terms:
    """What the package itself adds to a question; made of numbers and column names, never of what a user wrote.

    Parameters
    ----------
    where : tuple of str
        Conditions that must hold too.
    distance : str
        An expression shown as the column `distance` and sorted by; "" for none.
    ties : tuple of str
        Expressions that decide between equal distances; the set decides last.
    """

    where: tuple[str, ...] = ()
    distance: str = ""
    ties: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Statement:
    """A statement in two parts: the second has the condition as it was given, from the byte `start` on."""

    head: str
    tail: str = ""
    condition: str = ""
    start: int = 0


class Catalogue:
    """The catalogue of one division, open for questions.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry, optional
        The facts on offer; those installed without it.
    progress : callable, optional
        Told how far the building is, where the catalogue has to be built.
    names : Names, optional
        Traditional names; those held and the teacher's own without it.

    Raises
    ------
    CatalogueError
        If the catalogue cannot be built or opened.
    DomainError
        If there is no catalogue of that division.
    """

    def __init__(
        self,
        divisions: int = 12,
        *,
        registry: Registry | None = None,
        progress: Progress | None = None,
        names: Names | None = None,
    ) -> None:
        self.coverage = coverage(divisions)
        self.divisions = divisions
        self.registry = registry or default_registry()
        self.names = names or default_names()
        self.facts = fact_columns(self.registry, divisions)
        path = ensure(divisions, self.registry, progress)
        self._mend = "Install gamutwright anew." if path == SCALES_FILE else "Delete its folder; it is built anew."
        try:
            self._connection = open_locked(path, divisions, self.names.by_mask(divisions))
            described = self._connection.execute("DESCRIBE scales").fetchall()
        except duckdb.Error as error:
            raise CatalogueError(str(path), f"the catalogue cannot be opened ({told(error)})", self._mend) from error
        found = {str(name): str(kind) for name, kind, *_ in described if name not in {MASK, CLASS}}
        self.stored = tuple(found)
        self.kinds = found | {NAMES: "VARCHAR[]"}

    def __enter__(self) -> Self:
        """Give the catalogue; it is closed at the end of the block."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the catalogue."""
        self.close()

    def close(self) -> None:
        """Close the database; the file stays."""
        self._connection.close()

    def read(self, condition: str) -> Condition:
        """Read and check a condition without running it.

        Parameters
        ----------
        condition : str
            The condition.

        Returns
        -------
        Condition
            The condition and its columns.

        Raises
        ------
        InputError
            If it is not one condition over this catalogue's columns.
        """
        return parse_condition(condition, self._serialized, self.kinds, self._why_missing)

    def find(
        self,
        condition: str = "",
        *,
        sort: Sequence[str] = (),
        limit: int | None = None,
        offset: int = 0,
        columns: Sequence[str] | None = None,
        terms: Terms | None = None,
    ) -> Rows:
        """Find the scales that meet a condition.

        Parameters
        ----------
        condition : str
            A condition over the columns; all scales without it.
        sort : sequence of str
            Columns to sort by, with a minus sign in front for the largest first.
        limit : int >= 0, optional
            The most rows; all without it.
        offset : int >= 0
            How many rows are left out before the first, which is for paging.
        columns : sequence of str, optional
            The columns wanted; all but `names` without it.
        terms : Terms, optional
            What the package itself adds, such as a distance.

        Returns
        -------
        Rows
            A row for each scale.

        Raises
        ------
        InputError
            If the condition or a column is not understood.
        CatalogueError
            If it takes too long or too much memory.
        """
        return self._run(self._statement(condition, sort, limit, offset, columns, terms or Terms()), self._rows)

    def arrow(self, condition: str = "", *, columns: Sequence[str] | None = None) -> pa.Table:
        """Find scales and give them as an Arrow table, which needs pyarrow.

        Parameters
        ----------
        condition : str
            A condition over the columns; all scales without it.
        columns : sequence of str, optional
            The columns wanted; all but `names` without it.

        Returns
        -------
        pyarrow.Table
            A row for each scale.

        Raises
        ------
        InputError
            If the condition or a column is not understood.
        CatalogueError
            If it takes too long or too much memory.
        """
        statement = self._statement(condition, (), None, 0, columns, Terms())
        return self._run(statement, lambda text: self._connection.sql(text).to_arrow_table())

    def sets(self, condition: str = "", terms: Terms | None = None) -> NDArray[np.uint64]:
        """Find the scales that meet a condition and give them as words, bit 0 being the root.

        Parameters
        ----------
        condition : str
            A condition over the columns; all scales without it.
        terms : Terms, optional
            What the package itself adds.

        Returns
        -------
        array (n_scales,) uint64
            For measuring many at once.
        """
        source, where, text, start = self._source_and_where(condition, terms or Terms(), [])
        statement = _Statement(f"SELECT {MASK} FROM {source}", where, text, start)  # noqa: S608 - as in `find`
        found: NDArray[np.uint64] = self._run(statement, lambda text: self._connection.execute(text).fetchnumpy())[MASK]
        return found

    def _statement(
        self,
        condition: str,
        sort: Sequence[str],
        limit: int | None,
        offset: int,
        columns: Sequence[str] | None,
        added: Terms,
    ) -> _Statement:
        wanted = list(self.stored) if columns is None else [self.column(name) for name in columns]
        order = [
            f"{quoted(self.column(key.removeprefix('-')))} {'DESC' if key.startswith('-') else 'ASC'} NULLS LAST"
            for key in sort
        ]
        shown = [quoted(name) for name in wanted]
        if added.distance:
            shown, order = [f"({added.distance}) AS distance", *shown], ["distance", *added.ties, *order]
        if min(offset, limit or 0) < 0:
            raise InputError(f"limit {limit}, {offset} left out", "both are 0 or more rows", "Choose positive numbers.")
        tail = f" ORDER BY {', '.join([*order, MASK])}" if order else ""
        tail += "" if limit is None else f" LIMIT {int(limit)}"
        tail += f" OFFSET {int(offset)}" if offset else ""
        source, where, text, start = self._source_and_where(condition, added, [*wanted, *sort])
        return _Statement(f"SELECT {', '.join(shown)} FROM {source}", where + tail, text, start)  # noqa: S608 - checked names

    def count(self, condition: str = "", terms: Terms | None = None) -> int:
        """Count the scales that meet a condition.

        Parameters
        ----------
        condition : str
            A condition over the columns; all scales without it.
        terms : Terms, optional
            What the package itself adds.

        Returns
        -------
        int
            How many there are.

        Raises
        ------
        InputError
            If the condition is not understood.
        CatalogueError
            If it takes too long.
        """
        source, where, text, start = self._source_and_where(condition, terms or Terms(), [])
        statement = _Statement(f"SELECT count(*) AS scales FROM {source}", where, text, start)  # noqa: S608 - as above
        return int(self._run(statement, self._rows).cells[0][0])

    def ask(self, statement: str) -> Rows:
        """Run a statement of the package's own over the view `scales`; nothing a user wrote may stand in it.

        Parameters
        ----------
        statement : str
            The statement.

        Returns
        -------
        Rows
            Its result.

        Raises
        ------
        CatalogueError
            If it takes too long or too much memory.
        """
        return self._run(_Statement(statement), self._rows)

    def column(self, name: str) -> str:
        """Find a column by its name.

        Parameters
        ----------
        name : str
            The name; capitals do not matter and hyphens count as underscores.

        Returns
        -------
        str
            The column's name.

        Raises
        ------
        InputError
            If there is no such column here; the nearest names are given, or why it is missing.
        """
        plain = name.strip().lower().replace("-", "_")
        if plain in self.kinds:
            return plain
        raise unknown_column(plain, self.kinds, self._why_missing)

    def _serialized(self, statement: str) -> str:
        try:
            return str(self._connection.execute("SELECT json_serialize_sql(?)", [statement]).fetchall()[0][0])
        except duckdb.Error as error:
            raise InputError("this condition", f"it cannot be read ({told(error)})", "Write it more simply.") from error

    def _why_missing(self, name: str) -> str:
        """Say why a fact is no column of this catalogue; "" where the name is not a fact's."""
        if name == NAME:
            return f"systematic names are those of 12 divisions, not of {self.divisions}"
        fact = self.registry.facts.get(name)
        if fact is None:
            return ""
        lowest, highest = fact.domain.divisions
        if not lowest <= self.divisions <= highest:
            span = str(lowest) if lowest == highest else f"{lowest} to {highest}"
            return f"{fact.id} is defined for {span} divisions, not for {self.divisions}"
        return f"{fact.id} is a column in catalogues of up to 12 divisions only; this one has {self.divisions}"

    def _source_and_where(self, condition: str, terms: Terms, columns: Sequence[str]) -> tuple[str, str, str, int]:
        """Write the source and the WHERE clause, with the condition as given and where it starts in the clause."""
        named = {name.lstrip("-").lower() for name in columns}
        clauses = list(terms.where)
        start = 0
        if condition.strip():
            checked = self.read(condition)
            named |= set(checked.columns)
            clauses.insert(0, f"(\n{condition}\n)")
            start = len(" WHERE (\n")
        join = f"scales s LEFT JOIN named n USING ({MASK})"
        source = f"(SELECT s.*, coalesce(n.{NAMES}, []) AS {NAMES} FROM {join})"  # noqa: S608 - constants
        where = f" WHERE {' AND '.join(clauses)}" if clauses else ""
        return source if NAMES in named else "scales", where, condition, start

    def _rows(self, text: str) -> Rows:
        """Take the answer to a statement as plain rows, as far as they fit into memory."""
        answer = self._connection.execute(text)
        kinds = {str(name): str(kind) for name, kind, *_ in answer.description or ()}
        cells: list[tuple[Any, ...]] = []
        while part := answer.fetchmany(ROWS_AT_ONCE):
            cells += part
            if len(cells) * len(kinds) > MOST_CELLS:
                raise _too_large()
        return Rows(kinds, cells)

    def _run(self, statement: _Statement, take: Callable[[str], T]) -> T:
        """Run a statement and take its answer under the time limit, and turn what goes wrong into words."""
        condition = statement.condition
        with interrupted(self._connection, TIME_LIMIT_S) as is_late:
            try:
                return take(statement.head + statement.tail)
            except duckdb.InterruptException as error:
                if not is_late.is_set():
                    raise KeyboardInterrupt from error
                raise CatalogueError(
                    f"'{condition}'" if condition else "this question",
                    f"it took more than {TIME_LIMIT_S:g} seconds",
                    "Ask for less: fewer functions, or a smaller part of the catalogue.",
                ) from error
            except duckdb.OutOfMemoryException as error:
                raise _too_large() from error
            except duckdb.Error as error:
                if not condition:
                    raise CatalogueError(
                        f"the catalogue of {self.divisions} divisions",
                        f"it cannot be asked ({told(error)})",
                        self._mend,
                    ) from error
                raise _mistake(error, condition, len(statement.head.encode()) + statement.start) from error


def _too_large() -> CatalogueError:
    return CatalogueError(
        "the answer",
        f"it needs more than {MEMORY_LIMIT} of memory",
        "Ask for fewer columns, narrow the condition, or set a limit.",
    )


def _mistake(error: duckdb.Error, condition: str, start: int) -> InputError:
    """Say what is wrong with a condition that was read but cannot be answered."""
    position = story(error).get("position")
    where = f"'{condition}'" if position is None else place_of(condition, int(position) - start)
    return InputError(where, f"it cannot be answered ({told(error)})", "Compare numbers with numbers, text with text.")
