"""Make what comes with the package: the catalogue of twelve divisions, and how often every value occurs.

Run by `make docs`; the tests fail where the code that values are computed from has changed since. Comments and
docstrings do not count as code.
"""

from __future__ import annotations

import ast
import hashlib
import io
import json
import os
import tempfile
import tokenize
from pathlib import Path

import gamutwright
from gamutwright.catalogue.build import definition_rows
from gamutwright.catalogue.fact_columns import column_kinds, fact_columns
from gamutwright.catalogue.parquet import write_parquet
from gamutwright.catalogue.shares import LARGEST_AT_ONCE, count_values, is_counted
from gamutwright.catalogue.shipped import COUNTS_FILE, OWN_LIBRARY, SCALES_FILE, SHIPPED_DIVISIONS
from gamutwright.facts.registry import Registry, load_pack, load_registry
from gamutwright.files import CACHE_VARIABLE

PACKAGES = ("catalogue", "facts", "kernels", "theory")
DIGEST_FILE = SCALES_FILE.with_name("digest.txt")


def bare(source: str) -> str:
    """Take comments and docstrings out of a module, and the space at the ends of its lines."""
    lines = source.splitlines(keepends=True)
    for node in ast.walk(ast.parse(source)):
        is_home = isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef))
        if is_home and ast.get_docstring(node, clean=False) is not None:
            first = node.body[0]
            for number in range(first.lineno, (first.end_lineno or first.lineno) + 1):
                lines[number - 1] = "\n"
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type == tokenize.COMMENT and lines[token.start[0] - 1] != "\n":
            lines[token.start[0] - 1] = lines[token.start[0] - 1][: token.start[1]] + "\n"
    return "".join(f"{line.rstrip()}\n" for line in lines if line.strip())


def code_digest() -> str:
    """Digest the code and the tables that values are computed from."""
    total, root = hashlib.sha256(), Path(gamutwright.__file__).parent
    for package in PACKAGES:
        for path in sorted((root / package).rglob("*")):
            if path.suffix in {".py", ".csv"}:
                text = path.read_text(encoding="utf-8")
                total.update(f"{path.relative_to(root).as_posix()}\0".encode())
                total.update((bare(text) if path.suffix == ".py" else text).encode())
    return total.hexdigest()


def own_registry() -> Registry:
    """Take in the built-in facts alone, whatever else is installed."""
    return load_registry([load_pack("builtin", OWN_LIBRARY, "gamutwright", gamutwright.__version__)])


def counts(divisions: int, registry: Registry) -> dict[str, dict[int, dict[str, list[int]]]]:
    """Count every value of a division: by fact and number of tones, the rooted scales and the classes that have it."""
    found: dict[str, dict[int, dict[str, list[int]]]] = {}
    facts = [fact for fact in fact_columns(registry, divisions) if is_counted(fact)]
    for fact, size, value, *alike in count_values(divisions, registry, facts):
        found.setdefault(str(fact), {}).setdefault(int(size), {})[str(value)] = [int(count) for count in alike]
    return found


def main() -> None:
    """Write the files."""
    registry = own_registry()
    SCALES_FILE.parent.mkdir(exist_ok=True)
    write_parquet(SCALES_FILE, column_kinds(registry, SHIPPED_DIVISIONS), definition_rows(SHIPPED_DIVISIONS, registry))
    with tempfile.TemporaryDirectory() as cache:
        os.environ[CACHE_VARIABLE] = cache
        lines = [
            json.dumps(counts(divisions, registry), ensure_ascii=False, separators=(",", ":"))
            for divisions in range(2, LARGEST_AT_ONCE + 1)
        ]
    COUNTS_FILE.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    DIGEST_FILE.write_text(f"{code_digest()}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
