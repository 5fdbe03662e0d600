"""What README shows of the demo lesson is what is made from it."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def shown() -> ModuleType:
    spec = importlib.util.spec_from_file_location("docs_lesson", ROOT / "docs" / "lesson.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def difference(made: Image.Image, kept: Path) -> float:
    with Image.open(kept) as picture:
        one, other = (np.asarray(image.convert("L")).astype(np.int16) for image in (made, picture))
    assert one.shape == other.shape
    return float(np.abs(one - other).mean())


@pytest.mark.long
def test_readme_shows_what_is_made(shown: ModuleType, tmp_path: Path, browser: Browser):
    made = shown.package(tmp_path)
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert shown.BEGIN + shown.tree(made) + shown.END in readme, "run: make docs"
    assert difference(shown.still(made), shown.PICTURES / "still.png") < 2, "run: make docs"
    # The browser's own controls and smoothing differ a little from version to version.
    assert difference(shown.page_picture(made, browser), shown.PICTURES / "page.png") < 6, "run: make docs"
    text = (made.folder / "index.html").read_text(encoding="utf-8")
    assert all(telling.title in text for telling in made.lesson.tellings)
    assert (made.folder / "index.html").stat().st_size < 400_000
