"""The page of contact sheets is what the program lays out today, and its sheets are small."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from render.films import DOCS, sheets

LARGEST = 250_000
MEND = "run `make docs`"


def test_the_page_is_current_and_has_its_sheets():
    """The page carries a digest of every figure and every laid-out word, so a change of layout is noticed."""
    found = sheets()
    assert (DOCS / "films.md").read_text(encoding="utf-8") == found["page"](), MEND
    names = {sheet.name for sheet in found["SHEETS"]}
    assert {path.stem for path in (DOCS / "films").glob("*.png")} == names, MEND
    assert all(path.stat().st_size <= LARGEST for path in (DOCS / "films").glob("*.png"))


@pytest.mark.parametrize("name", ["german", "telephone"])
def test_a_sheet_shows_what_is_painted_today(name: str):
    """Pixels with tolerance: edges differ a little between processors."""
    found = sheets()
    (sheet,) = [sheet for sheet in found["SHEETS"] if sheet.name == name]
    drawn = found["painted"](sheet)[..., :3].astype(int)
    stored = np.asarray(Image.open(DOCS / "films" / f"{name}.png").convert("RGB")).astype(int)
    assert drawn.shape == stored.shape, MEND
    assert np.abs(drawn - stored).mean() < 1.0, MEND
