"""What the architecture promises of the source, read from its syntax."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from gamutwright.facts.registry import default_registry
from gamutwright.languages import known_languages

SOURCE = Path(__file__).parents[1] / "src" / "gamutwright"
WITHOUT_FACT_IDS = ("lessons", "publish", "packaging.py", "stages.py", "phrasing", "render")
# A hearing pattern for a list of degrees is of this kind, whichever fact it belongs to; a form of output that has
# chords has them under these keys of its words.
OTHER_MEANINGS = {("heard_lexicon.py", "degrees"), ("matching.py", "degrees"), ("audit_report.py", "pitch_classes"),
                  ("musicxml_score.py", "triads"), ("musicxml_score.py", "sevenths")}  # fmt: skip


def strings(path: Path) -> Iterator[str]:
    """The literal texts of a file, docstrings apart."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef)
    docs = {
        id(node.body[0].value) for node in ast.walk(tree)
        if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)
    }  # fmt: skip
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.value


def test_no_fact_is_named_where_lessons_and_publications_are_made():
    """Facts play roles, so that those of any pack can play them."""
    ids = set(default_registry().facts)
    paths = [path for name in WITHOUT_FACT_IDS for path in sorted((SOURCE / name).rglob("*.py")) or [SOURCE / name]]
    found = {(path.name, text) for path in paths for text in strings(path) if text in ids}
    assert found <= OTHER_MEANINGS


@pytest.mark.parametrize("tag", known_languages())
def test_nothing_outside_its_folder_asks_for_a_language_by_its_tag(tag: str):
    """`language == "de"` and tables by tag would be found by nobody who adds a language."""
    compared = re.compile(rf"""[!=]= ?["']{tag}["']|["']{tag}["'] ?[!=]=|["']{tag}["']: |in \{{?["']{tag}["']""")
    # The few words by which a mend agrees with its sentence still stand beside the mends.
    paths = [path for path in SOURCE.rglob("*.py") if "languages" not in path.parts and path.name != "mending.py"]
    assert [path.name for path in paths if compared.search(path.read_text(encoding="utf-8"))] == []
