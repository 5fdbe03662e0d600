"""Films of drafted lessons without voice or file: what the contact sheets of the documentation are made from."""

from __future__ import annotations

import runpy
from functools import cache
from pathlib import Path
from typing import Any

from gamutwright.ir.timeline import Timeline

__all__ = ["DOCS", "film_of", "sheets"]

DOCS = Path(__file__).parents[2] / "docs"


@cache
def sheets() -> dict[str, Any]:
    """Load the writer of the sheets."""
    return runpy.run_path(str(DOCS / "sheets.py"))


@cache
def film_of(name: str) -> Timeline:
    """Lay out the film of a sheet by its name."""
    found = sheets()
    (sheet,) = [sheet for sheet in found["SHEETS"] if sheet.name == name]
    timeline: Timeline = found["film"](sheet)
    return timeline
