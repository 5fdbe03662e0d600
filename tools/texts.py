"""Every text of the program that other languages have words for, read from the sources.

Usage: `python tools/texts.py` writes them into the English folder, as the pattern that other languages follow:
`errors.toml` has what `told` tells, and why facts say nothing of a scale; `studio.toml` has what the studio's screens
and scripts say.
"""

from __future__ import annotations

import ast
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path

from gamutwright.facts.registry import default_registry

PACKAGE = Path(__file__).parents[1] / "src" / "gamutwright"
_SLOT = re.compile(r"\{\w+\}")


def told_texts(tree: ast.AST) -> Iterator[str]:
    """List the texts of calls of `told` with more in them than slots and signs."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "told" and node.args:
            first = node.args[0]
            if isinstance(first, ast.Constant) and re.search(r"[^\W\d_]", _SLOT.sub("", str(first.value))):
                yield str(first.value)


def error_texts() -> list[str]:
    """List the texts of errors and findings, sorted."""
    found: set[str] = set()
    for path in PACKAGE.rglob("*.py"):
        found.update(told_texts(ast.parse(path.read_text(encoding="utf-8"))))
    for fact in default_registry().facts.values():
        found.update(filter(None, (fact.domain.rule, fact.none_when)))
    return sorted(found)


def written(texts: list[str], head: str) -> str:
    """Write texts as a table of themselves."""
    lines = [f"{json.dumps(text, ensure_ascii=False)} = {json.dumps(text, ensure_ascii=False)}" for text in texts]
    return "\n".join([f"# {head}", "", *lines, ""])


HEADS = {
    "errors": "What is said of mistakes: each English text, and what this language says. Written by tools/texts.py.",
}


def files() -> dict[Path, str]:
    """Give the English files with their texts."""
    folder = PACKAGE / "languages" / "en"
    return {folder / "errors.toml": written(error_texts(), HEADS["errors"])}


def main() -> int:
    """Write the files."""
    for path, text in files().items():
        path.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
