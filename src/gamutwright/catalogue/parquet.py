"""Rows written as Parquet by DuckDB itself, so that nothing else has to be installed.

Conventions: types of columns are called as DuckDB calls them. Rows pass through a file of JSON lines beside the Parquet
file, so that memory does not grow with their number; numbers come through it unchanged (ECMA-404 sets no limit to
their digits, and Python writes as many as tell a float from its neighbours).
"""

from __future__ import annotations

import errno
import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import duckdb

from gamutwright.catalogue.database import literal, told

__all__ = ["write_parquet"]

LONGEST_LINE = 1 << 24
"""Bytes."""


def write_parquet(path: Path, kinds: Mapping[str, str], cells: Iterable[tuple[Any, ...]]) -> int:
    """Write rows to a Parquet file.

    Parameters
    ----------
    path : Path
        The file; its folder must be there, and is used for a file on the way.
    kinds : mapping of str to str
        The columns, each with its type.
    cells : iterable of tuple
        A tuple for each row, with a cell for each column.

    Returns
    -------
    int
        How many rows there were.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    lines = path.with_name(f"{path.name}.lines")
    try:
        count = 0
        with lines.open("w", encoding="utf-8") as file:
            for row in cells:
                file.write(json.dumps(dict(zip(kinds, row, strict=True)), ensure_ascii=False) + "\n")
                count += 1
        _convert(lines, path, kinds)
    finally:
        lines.unlink(missing_ok=True)
    return count


def _convert(lines: Path, path: Path, kinds: Mapping[str, str]) -> None:
    columns = ", ".join(f"{literal(name)}: {literal(kind)}" for name, kind in kinds.items())
    read = f"read_json({literal(str(lines))}, format = 'newline_delimited', columns = {{{columns}}}"
    source = f"{read}, maximum_object_size = {LONGEST_LINE})"
    with duckdb.connect(":memory:") as connection:
        try:
            connection.execute(f"COPY (FROM {source}) TO {literal(str(path))} (FORMAT parquet, COMPRESSION zstd)")
        except duckdb.IOException as error:
            is_full = "space left" in str(error) or "disk full" in str(error).lower()
            raise OSError(errno.ENOSPC if is_full else errno.EIO, told(error)) from error
