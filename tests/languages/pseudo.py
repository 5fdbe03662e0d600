"""A language that nobody speaks: English with doubled and accented vowels, so that a text which is not its own is seen.

It is made from the English folder as anybody's language would be written: a package with a record and files of words,
offered by an entry point. Numbers and names of notes stay as they are, since readers have to find them again.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from fluent.syntax import FluentParser, FluentSerializer, ast
from fluent.syntax.visitor import Transformer

from gamutwright.languages import language_of
from gamutwright.phrasing.packwords import pack_messages

__all__ = ["TAG", "accented", "examples", "install", "is_accented"]

TAG = "qps"
"""From the range that ISO 639-2 keeps for local use (from memory)."""
WORDS = ("cards", "errors", "page", "print", "site", "score", "quiz", "studio", "description")
AS_THEY_ARE = ("prose", "heard", "lexicon", "sounds")
_ACCENTS = str.maketrans({letter: sign * 2 for letter, sign in zip("aeiouAEIOU", "áéíóúÁÉÍÓÚ", strict=True)})
_KEPT = re.compile(r"‹\w+: |‹[^›:]*›|\{[^}]*\}|<[^>]*>|https?://\S+|\w+\.\w+|%\w")
PAGE = Path(__file__).parents[2] / "docs" / "languages.md"
"""The page that says how to add a language; its record is this one's."""


def accented(text: str) -> str:
    """Double and accent the vowels of a text, but for claims, slots and addresses."""
    parts = re.split(f"({_KEPT.pattern})", text)
    return "".join(part if index % 2 else part.translate(_ACCENTS) for index, part in enumerate(parts))


def is_accented(text: str) -> bool:
    """Whether a text has gone through `accented`."""
    return bool(re.search("[áéíóúÁÉÍÓÚ]{2}", text))


class _Accents(Transformer):
    def visit_TextElement(self, node: ast.TextElement) -> ast.TextElement:  # noqa: N802 - the parser's name
        node.value = accented(node.value)
        return node


def _fluent(source: str, *, with_titles: dict[str, str] | None = None) -> str:
    resource = FluentParser(with_spans=False).parse(source)
    _Accents().visit(resource)
    for message in resource.body:
        title = (with_titles or {}).get(message.id.name) if isinstance(message, ast.Message) else None
        if title:
            pattern = ast.Pattern([ast.TextElement(accented(title))])
            message.attributes.insert(0, ast.Attribute(ast.Identifier("title"), pattern))
    return FluentSerializer().serialize(resource)


def _toml(value: Any, name: str = "") -> str:  # noqa: ANN401 - a table of any depth
    """Write a table with its texts accented."""
    lines = [f"[{name}]"] if name else []
    tables = []
    for key, entry in value.items():
        if isinstance(entry, dict):
            tables.append(_toml(entry, f"{name}.{_key(key)}" if name else _key(key)))
        elif isinstance(entry, list):
            lines.append(f"{_key(key)} = [{', '.join(_text(accented(one)) for one in entry)}]")
        else:
            lines.append(f"{_key(key)} = {_text(accented(entry)) if isinstance(entry, str) else str(entry).lower()}")
    return "\n".join([*lines, "", *tables])


def _key(key: str) -> str:
    return _text(key)


def _text(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return f'"{escaped}"'


def examples() -> list[str]:
    """The code of the page: the record of the language, and what examines it."""
    return re.findall(r"```python\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)


def install(site: Path, titles: dict[str, str]) -> None:
    """Write the language as an installed distribution.

    Parameters
    ----------
    site : Path
        A folder on Python's path.
    titles : dict of str to str
        English titles of facts, by the ids of their messages.
    """
    package, english = site / "harbour_tongue", language_of("en")
    package.mkdir(parents=True)
    record, _ = examples()
    (package / "__init__.py").write_text(record, encoding="utf-8")
    for name in WORDS:
        table = tomllib.loads(english.text(f"{name}.toml"))
        if name == "cards":  # English needs no words for the English in pictures
            table["words"] = {word: word for word in language_of("de").table("cards")["words"]}
        (package / f"{name}.toml").write_text(_toml(table), encoding="utf-8")
    for name in AS_THEY_ARE:
        (package / f"{name}.toml").write_text(english.text(f"{name}.toml"), encoding="utf-8")
    for name in ("lesson", "stories", "scales"):
        (package / f"{name}.ftl").write_text(_fluent(english.text(f"{name}.ftl")), encoding="utf-8")
    (facts,) = pack_messages(english)
    (package / "facts-builtin.ftl").write_text(_fluent(facts, with_titles=titles), encoding="utf-8")
    info = site / "harbour_tongue-1.0.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: harbour-tongue\nVersion: 1.0.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[gamutwright.languages]\n{TAG} = harbour_tongue\n", encoding="utf-8")
