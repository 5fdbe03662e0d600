"""Rows written by DuckDB are read back by another library, pyarrow, as they were."""

from __future__ import annotations

import errno
import math
from pathlib import Path

import pyarrow.parquet as pq
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.catalogue.parquet import write_parquet

KINDS = {"flag": "BOOLEAN", "count": "INTEGER", "set": "UBIGINT", "share": "DOUBLE", "word": "VARCHAR"}
KINDS |= {"counts": "INTEGER[]", "rows": "INTEGER[][]", "words": "VARCHAR[]", 'it\'s "odd"': "DOUBLE[]"}


def test_another_library_reads_the_same(tmp_path: Path):
    cells = [
        (True, -3, 2**63 + 1, math.pi, "♯ ♭ 𝄪 'quoted' \"twice\"\n", [1, 2], [[1], [], [2, 3]], ["a|b", ""], [0.1]),
        (None,) * 9,
        (False, 0, 0, 5e-324, "", [], [], [], [-0.0, 1e308]),
    ]
    assert write_parquet(tmp_path / "x.parquet", KINDS, cells) == 3
    read = pq.read_table(tmp_path / "x.parquet")
    assert read.column_names == list(KINDS)
    assert [tuple(row.values()) for row in read.to_pylist()] == cells
    assert [path.name for path in tmp_path.iterdir()] == ["x.parquet"]


@given(st.lists(st.floats(allow_nan=False, allow_infinity=False), max_size=50))
def test_no_digit_of_a_number_is_lost(tmp_path_factory: pytest.TempPathFactory, numbers: list[float]):
    path = tmp_path_factory.mktemp("numbers") / "x.parquet"
    write_parquet(path, {"number": "DOUBLE"}, ((number,) for number in numbers))
    assert pq.read_table(path)["number"].to_pylist() == numbers


def test_no_rows_still_have_their_columns(tmp_path: Path):
    assert write_parquet(tmp_path / "x.parquet", KINDS, []) == 0
    assert pq.read_table(tmp_path / "x.parquet").column_names == list(KINDS)


def test_a_place_that_cannot_be_written_is_an_error_of_the_system(tmp_path: Path):
    with pytest.raises(OSError, match=r"missing"):
        write_parquet(tmp_path / "missing" / "x.parquet", KINDS, [])
    (tmp_path / "x.parquet").mkdir()
    with pytest.raises(OSError, match=rf"^\[Errno {errno.EIO}\]"):
        write_parquet(tmp_path / "x.parquet", KINDS, [])
    assert [path.name for path in tmp_path.iterdir()] == ["x.parquet"]
