"""The database behind a catalogue: in memory, reading one Parquet file and nothing else, its settings locked.

Conventions: the view `scales` holds the stored columns and the computed ones, the table `named` the traditional names
by set. Errors come as JSON with the place they were met at.
"""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import duckdb

from gamutwright.catalogue.fact_columns import CLASS, MASK

__all__ = [
    "BITS",
    "CLASS_BITS",
    "MEMORY_LIMIT",
    "NAME",
    "NAMES",
    "interrupted",
    "literal",
    "open_locked",
    "quoted",
    "story",
    "told",
]

BITS, CLASS_BITS, NAME, NAMES = "bits", "class_bits", "name", "names"
MEMORY_LIMIT = "2GiB"
LOCKED_DOWN = {
    "autoinstall_known_extensions": "false",
    "autoload_known_extensions": "false",
    "allow_community_extensions": "false",
    "python_enable_replacements": "false",
    "memory_limit": MEMORY_LIMIT,
    "temp_directory": "",
}


def open_locked(path: Path, divisions: int, named: Mapping[int, Sequence[str]]) -> duckdb.DuckDBPyConnection:
    """Open a database that sees the one file, and lock its settings.

    Parameters
    ----------
    path : Path
        The Parquet file.
    divisions : int
        Equal divisions of the octave.
    named : mapping of int to sequence of str
        Mask above the root to traditional names.

    Returns
    -------
    duckdb.DuckDBPyConnection
        Open until it is closed.

    Raises
    ------
    duckdb.Error
        If the file cannot be read.
    """
    connection = duckdb.connect(":memory:", config=dict(LOCKED_DOWN))
    file = literal(str(path))
    connection.execute(f"SET allowed_paths = [{file}]")
    connection.execute("SET enable_external_access = false")
    written = ((MASK, BITS), (CLASS, CLASS_BITS))
    computed = ", ".join(f"reverse(lpad(bin({key}), {divisions}, '0')) AS {name}" for key, name in written)
    if divisions == 12:
        computed += f", systematic_name AS {NAME}"
    stored = f"* REPLACE ({MASK}::UBIGINT AS {MASK}, {CLASS}::UBIGINT AS {CLASS})"
    parquet = f"read_parquet({file}, hive_partitioning = false)"
    connection.execute(f"CREATE VIEW scales AS SELECT {computed}, {stored} FROM {parquet}")  # noqa: S608 - constants
    connection.execute(f"CREATE TABLE named ({MASK} UBIGINT, {NAMES} VARCHAR[])")
    rows = [f"({mask}, [{', '.join(literal(name) for name in called)}])" for mask, called in named.items()]
    if rows:
        connection.execute(f"INSERT INTO named VALUES {', '.join(rows)}")  # noqa: S608 - quoted above
    connection.execute("SET errors_as_json = true")
    connection.execute("SET lock_configuration = true")
    return connection


@contextmanager
def interrupted(connection: duckdb.DuckDBPyConnection, seconds: float) -> Iterator[threading.Event]:
    """Interrupt what runs in the block when it takes too long.

    Parameters
    ----------
    connection : duckdb.DuckDBPyConnection
        The database.
    seconds : float, seconds
        How long it may take.

    Yields
    ------
    threading.Event
        Set where this is why it was interrupted.
    """
    is_late = threading.Event()

    def stop() -> None:
        is_late.set()
        connection.interrupt()

    timer = threading.Timer(seconds, stop)
    timer.daemon = True
    timer.start()
    try:
        yield is_late
    finally:
        timer.cancel()
        # It holds the connection, which must not be closed by a thread that the end of the process interrupts.
        timer.join()


def quoted(name: str) -> str:
    """Write the name of a column so that it is nothing else.

    Parameters
    ----------
    name : str
        The name.

    Returns
    -------
    str
        The name in double quotation marks.
    """
    doubled = name.replace('"', '""')
    return f'"{doubled}"'


def literal(value: str) -> str:
    """Write a text so that it is nothing else.

    Parameters
    ----------
    value : str
        The text.

    Returns
    -------
    str
        The text in single quotation marks.
    """
    doubled = value.replace("'", "''")
    return f"'{doubled}'"


def story(error: duckdb.Error) -> dict[str, Any]:
    """Take an error of the database apart: what it says and where.

    Parameters
    ----------
    error : duckdb.Error
        The error.

    Returns
    -------
    dict
        `exception_message`, and `position` in bytes where it is known.
    """
    text = str(error)
    try:
        read = json.loads(text[text.index("{") :])
    except ValueError:
        return {"exception_message": text.splitlines()[0]}
    return read if isinstance(read, dict) else {}


def told(error: duckdb.Error) -> str:
    """Give the first line of what an error of the database says.

    Parameters
    ----------
    error : duckdb.Error
        The error.

    Returns
    -------
    str
        A clause without a full stop.
    """
    return str(story(error).get("exception_message", "no reason given")).splitlines()[0].rstrip(".")
