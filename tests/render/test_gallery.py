"""The pictures in the documentation are what the program draws today."""

from __future__ import annotations

import runpy
from pathlib import Path

DOCS = Path(__file__).parents[2] / "docs"


def test_gallery_is_current():
    wanted = runpy.run_path(str(DOCS / "gallery.py"))["gallery"]()
    assert set((DOCS / "figures").glob("*.svg")) == {path for path in wanted if path.suffix == ".svg"}
    for path, text in wanted.items():
        assert path.read_text(encoding="utf-8") == text, f"{path.name}: run `make docs`"
