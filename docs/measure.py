"""Measure the house: size, shape, circles, documentation, and what the floors promise.

`python docs/measure.py` prints a table; `make docs` writes it into docs/architecture.md. Only the syntax of the files
is read, so that it runs on any checkout: `python docs/measure.py FOLDER` measures another package.
"""

from __future__ import annotations

import ast
import statistics
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "src" / "gamutwright"
PAGE = ROOT / "docs" / "architecture.md"
BEGIN, END = "<!-- measured -->", "<!-- end of measured -->"
LARGE = 400
_Functions = ast.FunctionDef | ast.AsyncFunctionDef


def parsed(package: Path) -> dict[str, tuple[Path, str, ast.Module]]:
    """Read every module: dotted name to path, text and tree."""
    found = {}
    for path in sorted(package.rglob("*.py")):
        parts = path.relative_to(package.parent).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        text = path.read_text(encoding="utf-8")
        found[name] = path, text, ast.parse(text)
    return found


def imports(tree: ast.AST, names: set[str]) -> Iterator[str]:
    """List the own modules that a tree imports."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module and not node.level:
            inside = [f"{node.module}.{alias.name}" for alias in node.names]
            yield from (name if name in names else node.module for name in inside if {name, node.module} & names)
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names if alias.name in names)


def is_for_types(node: ast.stmt) -> bool:
    """Whether a statement is only for type checkers."""
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)


def imported_at_load(modules: dict[str, tuple[Path, str, ast.Module]]) -> dict[str, set[str]]:
    """Tell which own modules each module imports while it is loaded."""
    names = set(modules)
    return {
        name: {found for node in tree.body if not is_for_types(node) for found in _loaded(node, names)} - {name}
        for name, (_, _, tree) in modules.items()
    }


def circles(graph: dict[str, set[str]]) -> int:
    """Count the modules that reach themselves."""

    def reached(start: str) -> bool:
        seen: set[str] = set()
        left = list(graph[start])
        while left:
            here = left.pop()
            if here == start:
                return True
            if here not in seen:
                seen.add(here)
                left += graph.get(here, ())
        return False

    return sum(map(reached, graph))


def length(node: _Functions) -> int:
    """Count the lines of a function without its docstring."""
    first = node.body[0]
    is_documented = isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant)
    doc = (first.end_lineno or 0) - first.lineno + 1 if is_documented else 0
    return (node.end_lineno or 0) - node.lineno + 1 - doc


def share(part: int, whole: int) -> str:
    """Print a share in whole percent."""
    return f"{round(100 * part / max(1, whole))} %"


def measured(package: Path) -> list[tuple[str, str]]:
    """Measure a package: what, and how much."""
    modules = parsed(package)
    names, sizes = set(modules), {name: text.count("\n") for name, (_, text, _) in modules.items()}
    total = sum(sizes.values())
    at_load = imported_at_load(modules)
    hidden = sum(
        len(set(imports(node, names)))
        for _, _, tree in modules.values() for node in ast.walk(tree) if isinstance(node, _Functions)
    )  # fmt: skip
    functions = [
        (name, node) for name, (_, _, tree) in modules.items() for node in ast.walk(tree)
        if isinstance(node, _Functions)
    ]  # fmt: skip
    public = [node for _, node in functions if not node.name.startswith("_")]
    docs = [ast.get_docstring(node) or "" for node in public]
    longest_name, longest = max(functions, key=lambda item: length(item[1]))
    largest = max(sizes, key=lambda name: sizes[name])
    stems = [path.name for path, _, _ in modules.values() if path.name != "__init__.py"]
    siblings = max(
        (sum(one.suffix == ".py" for one in folder.iterdir()), folder.name)
        for folder in {path.parent for path, _, _ in modules.values()} if folder.name != "library"
    )  # fmt: skip
    return [
        ("files, lines", f"{len(modules)}, {total:,}"),
        ("median file", f"{statistics.median(sizes.values()):.0f} lines"),
        (f"code in files of more than {LARGE} lines", share(sum(n for n in sizes.values() if n > LARGE), total)),
        ("largest file", f"{largest.partition('.')[2]}, {sizes[largest]} lines"),
        ("longest function, without docstring", f"{longest_name.partition('.')[2]}.{longest.name}, {length(longest)}"),
        ("modules in circles of imports at load", str(circles(at_load))),
        ("own imports inside functions", str(hidden)),
        ("public functions with docstring", share(sum(map(bool, docs)), len(docs))),
        ("... with Parameters, where they have some", _with("Parameters", public, docs)),
        ("... with an example that runs", share(sum(">>>" in doc for doc in docs), len(docs))),
        ("functions with return type", share(sum(node.returns is not None for _, node in functions), len(functions))),
        ("names of files that occur more than once", str(len({one for one in stems if stems.count(one) > 1}))),
        ("most modules in one folder, the facts apart", f"{siblings[0]} in {siblings[1]}"),
    ]  # fmt: skip


def _loaded(node: ast.stmt, names: set[str]) -> set[str]:
    if isinstance(node, _Functions):
        return set()
    if isinstance(node, ast.ClassDef):
        return {found for inner in node.body for found in _loaded(inner, names)}
    return set(imports(node, names))


def _with(heading: str, public: list[_Functions], docs: list[str]) -> str:
    asked = [
        heading in doc for node, doc in zip(public, docs, strict=True)
        if [arg for arg in (*node.args.args, *node.args.kwonlyargs) if arg.arg not in {"self", "cls"}]
    ]  # fmt: skip
    return share(sum(asked), len(asked))


def table(package: Path) -> str:
    """Print the measures as Markdown."""
    rows = [f"| {what} | {much} |" for what, much in measured(package)]
    return "\n".join(["| measure | here |", "|---|---|", *rows])


def main() -> None:
    """Print the table, or write it into the page."""
    if sys.argv[1:] == ["--write"]:
        before, _, rest = PAGE.read_text(encoding="utf-8").partition(BEGIN)
        after = rest.partition(END)[2]
        PAGE.write_text(f"{before}{BEGIN}\n{table(PACKAGE)}\n{END}{after}", encoding="utf-8")
        return
    print(table(Path(sys.argv[1]) if sys.argv[1:] else PACKAGE))  # noqa: T201 - it is asked for


if __name__ == "__main__":
    main()
