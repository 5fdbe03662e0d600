"""Every text of the program that other languages have words for, read from the sources.

Usage: `python tools/texts.py` writes them into the English folder, as the pattern that other languages follow:
`errors.toml` has what `told` tells, and why facts say nothing of a scale; `studio.toml` has what the studio's screens,
its modules and its answers say.
"""

from __future__ import annotations

import ast
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path

from gamutwright.facts.registry import default_registry
from gamutwright.facts.vocabulary import Group
from gamutwright.series.building import INPUTS, Condition
from gamutwright.series.course_checks import Rule
from gamutwright.series.stagewords import STAGE_WORDS
from gamutwright.studio.making import KNOWN
from gamutwright.studio.searching import EXAMPLES, KINDS

PACKAGE = Path(__file__).parents[1] / "src" / "gamutwright"
STUDIO = PACKAGE / "studio"
HEADS = {
    "errors": "What is said of mistakes: each English text, and what this language says. Written by tools/texts.py.",
    "studio": "What the studio says: each English text, and what this language says. Written by tools/texts.py.",
}
_SLOT = re.compile(r"\{\w+\}")
_SAID_IN_PAGES = re.compile(r"""\bsay\((?:"([^"]*)"|'([^']*)')""")
_ESCAPE = re.compile(r"\\(.)")


def called(tree: ast.AST, name: str) -> Iterator[str]:
    """List the first arguments of the calls of a function, where there is more in them than slots and signs."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name and node.args:
            first = node.args[0]
            if isinstance(first, ast.Constant) and re.search(r"[^\W\d_]", _SLOT.sub("", str(first.value))):
                yield str(first.value)


def error_texts() -> list[str]:
    """List the texts of errors and findings, sorted."""
    found: set[str] = set()
    for path in PACKAGE.rglob("*.py"):
        found.update(called(ast.parse(path.read_text(encoding="utf-8")), "told"))
    found.update(INPUTS, (rule.value for rule in Rule))
    for fact in default_registry().facts.values():
        found.update(filter(None, (fact.domain.rule, fact.none_when)))
    return sorted(found)


def studio_texts() -> list[str]:
    """List the texts of the studio, sorted: those of its pages, its modules, its answers, and of what it tells of."""
    found = {group.value for group in Group} | {condition.value for condition in Condition} | {*KINDS.values()}
    found |= {*STAGE_WORDS.values(), *(words for _, words in KNOWN), *(words for words, _ in EXAMPLES)}
    for path in STUDIO.glob("*.py"):
        found.update(called(ast.parse(path.read_text(encoding="utf-8")), "say"))
    for path in (STUDIO / "kit").glob("*.jinja"):
        found.update(a or b for a, b in _SAID_IN_PAGES.findall(path.read_text(encoding="utf-8")))
    for path in (STUDIO / "kit").glob("*.js"):
        found.update(said_in_module(path.read_text(encoding="utf-8")))
    return sorted(found)


def said_in_module(source: str) -> Iterator[str]:
    """List the texts of `txt("…")` and of templates with `txt` in front, those inside their slots too."""
    for found in re.finditer(r"\btxt(?=`|\(\")", source):
        if source[found.end()] == "`":
            yield _template(source, found.end())
        else:
            end = re.compile(r'"((?:[^"\\]|\\.)*)"').match(source, found.end() + 1)
            assert end, source[found.start() : found.end() + 40]  # noqa: S101 - the module would not load
            yield _ESCAPE.sub(r"\1", end[1])


def _template(source: str, start: int) -> str:
    """Read a template from its first sign on, with numbers for its slots."""
    text, slots, place = "", 0, start + 1
    while source[place] != "`":
        if source[place] == "\\":
            text += source[place + 1]
            place += 2
        elif source.startswith("${", place):
            text += f"{{{slots}}}"
            slots += 1
            place = _after_slot(source, place + 2)
        else:
            text += source[place]
            place += 1
    return text


def _after_slot(source: str, place: int) -> int:
    """Find the end of a slot, over strings, templates and braces inside it."""
    depth = 1
    while depth:
        sign = source[place]
        if sign in "\"'":
            place = source.index(sign, place + 1)
        elif sign == "`":
            place += 1
            while source[place] != "`":
                place = _after_slot(source, place + 2) if source.startswith("${", place) else place + 1
        else:
            depth += (sign == "{") - (sign == "}")
        place += 1
    return place


def written(texts: list[str], head: str) -> str:
    """Write texts as a table of themselves."""
    lines = [f"{json.dumps(text, ensure_ascii=False)} = {json.dumps(text, ensure_ascii=False)}" for text in texts]
    return "\n".join([f"# {head}", "", *lines, ""])


def files() -> dict[Path, str]:
    """Give the English files with their texts."""
    folder = PACKAGE / "languages" / "en"
    return {
        folder / "errors.toml": written(error_texts(), HEADS["errors"]),
        folder / "studio.toml": written(studio_texts(), HEADS["studio"]),
    }


def main() -> int:
    """Write the files."""
    for path, text in files().items():
        path.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
