"""What the architecture promises of the source, read from its syntax."""

from __future__ import annotations

import ast
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
    # A story speaks of certain facts, as a sentence speaks of certain things; their names stand in this one file.
    told = SOURCE / "lessons" / "stories" / "material.py"
    found = {(path.name, text) for path in paths if path != told for text in strings(path) if text in ids}
    assert found <= OTHER_MEANINGS


def defaults(tree: ast.Module) -> set[int]:
    """The values that parameters and fields have where nothing is said."""
    given = {
        id(value) for node in ast.walk(tree) if isinstance(node, ast.arguments)
        for value in (*node.defaults, *node.kw_defaults)
    }  # fmt: skip
    fields = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.AnnAssign)}
    return given | fields


def named_tags(path: Path, tags: set[str]) -> Iterator[int]:
    """The lines of a file on which a language stands by its tag, where it is not what holds if nothing is said."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    unsaid = defaults(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and node.value in tags and id(node) not in unsaid:
            yield node.lineno


def test_nothing_outside_its_folder_knows_a_language_by_its_tag():
    """`language == "de"` and tables by tag would be found by nobody who adds a language."""
    paths = [path for path in SOURCE.rglob("*.py") if "languages" not in path.parts]
    tags = set(known_languages())
    assert [(path.name, line) for path in paths for line in named_tags(path, tags)] == []


@pytest.mark.parametrize("told", ["x == 'de'", "x in {'en'}", "{'de': 1}[x]", "match x:\n case 'de': pass", "f('en')"])
def test_a_tag_that_hides_is_found(told: str, tmp_path: Path):
    (tmp_path / "one.py").write_text(f"def f(x: str = 'en') -> None: ...\n{told}\n", encoding="utf-8")
    assert set(named_tags(tmp_path / "one.py", {"de", "en"})) <= {2, 3}
    assert list(named_tags(tmp_path / "one.py", {"de", "en"}))
