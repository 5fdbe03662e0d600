"""The tools that compare revisions find what they are for: a byte that differs, a circle, a floor."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
sys.path[:0] = [str(ROOT / "docs"), str(ROOT / "tools")]

from houseplan import floors_of, picture, plan_of, short_ways  # noqa: E402 - the folders above are where they stand
from revision import unpacked  # noqa: E402 - as above
from same_bytes import compared  # noqa: E402 - as above


@pytest.fixture(name="package")
def _package(tmp_path: Path) -> Path:
    """Three rooms, one above the other; the highest imports from both."""
    package = tmp_path / "house"
    files = {
        "cellar.py": "",
        "hall/__init__.py": "",
        "hall/door.py": "import house.cellar\n",
        "roof.py": "from house import cellar\nfrom house.hall import door\n",
    }
    for name, text in files.items():
        (package / name).parent.mkdir(parents=True, exist_ok=True)
        (package / name).write_text(text, encoding="utf-8")
    (package / "__init__.py").touch()
    return package


def test_rooms_stand_above_what_they_import_from(package: Path):
    plan = plan_of(package, "now")
    assert floors_of(plan.ways) == [["cellar"], ["hall"], ["roof"]]
    assert short_ways(plan.ways) == [("hall", "cellar"), ("roof", "hall")]
    assert (plan.files, plan.knots) == ({"cellar": 1, "hall": 2, "roof": 1}, 0)
    assert 'class="round"' not in picture([plan])


def test_a_circle_is_drawn_red(package: Path):
    (package / "cellar.py").write_text("import house.hall.door\n", encoding="utf-8")
    plan = plan_of(package, "now")
    assert floors_of(plan.ways) == [["cellar", "hall"], ["roof"]]
    assert plan.knots == 2
    assert picture([plan, plan]).count('<path class="round"') == 4


def test_what_differs_is_told_with_its_line(tmp_path: Path):
    for name, text in (("one", "a\nb\n"), ("other", "a\nc\n")):
        (tmp_path / name).mkdir()
        (tmp_path / name / "page.html").write_text(text, encoding="utf-8")
        (tmp_path / name / "same.md").write_text("as it was", encoding="utf-8")
    many, told = compared(tmp_path / "one", tmp_path / "other")
    assert (many, len(told)) == (2, 1)
    assert "page.html" in told[0]
    assert "line 2\n  - b\n  + c" in told[0]
    (tmp_path / "other" / "new.md").touch()
    assert compared(tmp_path / "one", tmp_path / "other")[1][0] == "new.md: only after"


def test_a_revision_that_nobody_knows_is_refused(tmp_path: Path):
    with pytest.raises(SystemExit, match="Name a revision"):
        unpacked("no-such-revision", ("src",), tmp_path)
