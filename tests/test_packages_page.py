"""The page of six packages: its stills are the first pictures of the lessons that it names."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.render.frames import FramePainter, Run
from gamutwright.stages import Choices, stage

DOCS = Path(__file__).parents[1] / "docs"
SPEC = importlib.util.spec_from_file_location("docs_packages", DOCS / "packages.py")
assert SPEC is not None
assert SPEC.loader is not None
PAGES = importlib.util.module_from_spec(SPEC)
sys.modules[SPEC.name] = PAGES
SPEC.loader.exec_module(PAGES)


@pytest.mark.parametrize("shown", PAGES.LESSONS, ids=lambda shown: shown.slug)
def test_a_still_is_the_first_picture_of_its_lesson(shown: object, tmp_path: Path):
    with LocalPool(Store(tmp_path), workers=1) as pool:
        staged = stage(check(parse(PAGES.source(shown))), pool, Choices())
    painted = FramePainter(staged.timeline, 960, 540).paint(Run(1, staged.timeline.shots[0]))
    made = Image.fromarray(painted[..., :3]).resize(PAGES.SIZE, Image.Resampling.LANCZOS)
    with Image.open(PAGES.PICTURES / f"{shown.slug}.png") as kept:
        one, other = (np.asarray(image.convert("L")).astype(np.int16) for image in (made, kept))
    assert np.abs(one - other).mean() < 2, "run: make docs"
    page = (DOCS / "packages.md").read_text(encoding="utf-8")
    length = staged.timeline.ticks // 48_000
    assert f"**{shown.title}**<br>{length // 60}:{length % 60:02d} minutes" in page, "run: make docs"
