"""Every row of the table of published values against our computation.

`data/published-values.csv` names the source of each value beside it; `from_memory=yes` says that the source was not
read again. Rows with `recomputed_ok=no` are known misprints kept on record, and are checked to be misprints.
Modules under `published/` say how a property's rows are computed; a row that none or two of them claim fails.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from published import harmony, names, sets
from published.row import Row

TABLE = Path(__file__).parent / "data" / "published-values.csv"
HANDLERS = [*sets.HANDLERS, *harmony.HANDLERS, *names.HANDLERS]
ROWS = [Row(**line) for line in csv.DictReader(TABLE.read_text(encoding="utf-8").splitlines())]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.id}: {row.property}")
def test_published_value(row: Row) -> None:
    claimed = [check for pattern, check in HANDLERS if pattern.fullmatch(row.property)]
    assert len(claimed) == 1, f"{len(claimed)} handlers claim '{row.property}'"
    claimed[0](row)
