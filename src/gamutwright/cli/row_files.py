"""Rows of a table in files: CSV and Parquet, written beside their place and then moved there.

Conventions: in CSV a text that a spreadsheet would take for a formula gets an apostrophe in front, which spreadsheets
show as text (OWASP, "CSV Injection", from memory); numbers stay numbers.
"""

from __future__ import annotations

import contextlib
import csv
import os
import shutil
import tempfile
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from gamutwright.files import replace_file

if TYPE_CHECKING:
    from gamutwright.catalogue.rows import Rows

__all__ = ["write_rows"]

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def write_rows(rows: Rows, path: Path, form: str) -> None:
    """Write rows to a file, beside its place first, so that what was there stays until all is written.

    Parameters
    ----------
    rows : Rows
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
            _as_parquet(rows, file)
            return
        with contextlib.closing(_text_file(file)) as text:
            writer = csv.writer(text)
            writer.writerow(rows.columns)
            writer.writerows([_cell(value) for value in row] for row in rows.cells)

    replace_file(path, write)


def _as_parquet(rows: Rows, file: IO[bytes]) -> None:
    from gamutwright.catalogue.parquet import write_parquet

    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder) / "rows.parquet"
        write_parquet(made, rows.kinds, rows.cells)
        with made.open("rb") as source:
            shutil.copyfileobj(source, file)


def _text_file(file: IO[bytes]) -> IO[str]:
    return os.fdopen(os.dup(file.fileno()), "w", encoding="utf-8", newline="")


def _cell(value: Any) -> str:  # noqa: ANN401 - a cell of any column
    if isinstance(value, str) or (isinstance(value, list) and value and isinstance(value[0], str)):
        text = _plain(value)
        return f"'{text}" if text.startswith(FORMULA_STARTS) else text
    return _plain(value)


def _plain(value: Any) -> str:  # noqa: ANN401 - as above
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case []:
            return ""
        case list():
            separator = " " if isinstance(value[0], (int, float)) else "|"
            return separator.join(_plain(item) for item in value)
        case _:
            return str(value)
