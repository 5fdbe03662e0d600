from __future__ import annotations

import sys

import pytest

from gamutwright.catalogue import frame
from gamutwright.errors import DomainError, MissingPartError

CONDITION = "cardinality = 5 AND NOT is_chiral"


@pytest.mark.usefixtures("catalogue_cache")
class TestFrame:
    def test_three_libraries_hold_the_same(self):
        pandas, polars = pytest.importorskip("pandas"), pytest.importorskip("polars")
        wanted = ["bits", "evenness", "interval_class_vector", "propriety"]
        arrow = frame(12, CONDITION, columns=wanted)
        rows = arrow.to_pylist()
        as_polars = frame(12, CONDITION, columns=wanted, as_="polars")
        as_pandas = frame(12, CONDITION, columns=wanted, as_="pandas")
        assert isinstance(as_polars, polars.DataFrame)
        assert isinstance(as_pandas, pandas.DataFrame)
        assert as_polars.to_dicts() == rows
        assert as_pandas["bits"].tolist() == [row["bits"] for row in rows]
        assert [list(entry) for entry in as_pandas["interval_class_vector"]] == arrow.column(2).to_pylist()

    def test_all_scales_come_without_a_condition(self):
        # All sets of twelve that hold the root.
        assert frame().num_rows == 2**11

    @pytest.mark.parametrize("library", ["polars", "pandas"])
    def test_a_missing_library_is_named_with_the_command(self, library: str, monkeypatch: pytest.MonkeyPatch):
        monkeypatch.setitem(sys.modules, library, None)
        with pytest.raises(MissingPartError, match=r"pip install 'gamutwright\[frames\]'"):
            frame(12, as_=library)

    def test_an_unknown_library_is_refused(self):
        with pytest.raises(DomainError, match="arrow, polars, pandas"):
            frame(12, as_="spreadsheet")
