"""Rows of a table in files: CSV and Parquet, written beside their place and then moved there."""

from __future__ import annotations

import contextlib
import csv
import os
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from gamutwright.files import replace_file

if TYPE_CHECKING:
    import pyarrow as pa

__all__ = ["write_rows"]


def write_rows(table: pa.Table, path: Path, form: str) -> None:
    """Write a table to a file, beside its place first, so that what was there stays until all is written.

    Parameters
    ----------
    table : pyarrow.Table
        The rows.
    path : Path
        The file; its folder must be there.
    form : str
        `csv` or `parquet`. In CSV the entries of a list are separated by spaces, texts by `|`.

    Raises
    ------
    FileError
        If it cannot be written.
    """

    def write(file: IO[bytes]) -> None:
        if form == "parquet":
            import pyarrow.parquet as pq

            pq.write_table(table, file)
            return
        with contextlib.closing(_text_file(file)) as text:
            rows = csv.writer(text)
            rows.writerow(table.column_names)
            for batch in table.to_batches():
                rows.writerows([_cell(value) for value in row.values()] for row in batch.to_pylist())

    replace_file(path, write)


def _text_file(file: IO[bytes]) -> IO[str]:
    return os.fdopen(os.dup(file.fileno()), "w", encoding="utf-8", newline="")


def _cell(value: Any) -> str:  # noqa: ANN401 - a cell of any column
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case []:
            return ""
        case list():
            separator = " " if isinstance(value[0], (int, float)) else "|"
            return separator.join(_cell(item) for item in value)
        case _:
            return str(value)
