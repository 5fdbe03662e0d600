"""Write the pages that are generated from the code: the facts reference, the help of the command line, how to extend.

Run by `make docs`; the tests fail where a page is not what this writes.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import typer
from typer.testing import CliRunner

from gamutwright.cli.app import app
from gamutwright.facts.reference import pages
from gamutwright.facts.registry import default_registry

DOCS = Path(__file__).parent


def command_page() -> str:
    """Write the help of every command, as the terminal shows it at 80 columns."""
    lines = ["# Commands", "", "What `gamutwright COMMAND --help` prints, written by `make docs`.", ""]
    for words in commands(app):
        shown = CliRunner().invoke(app, [*words, "--help"], terminal_width=80, prog_name="gamutwright")
        lines += [f"## {' '.join(words)}", "", "```text", shown.output.strip(), "```", ""]
    return "\n".join(lines)


def commands(of: typer.Typer) -> Iterator[list[str]]:
    """List every command as it is typed, those of groups after the group."""
    for command in of.registered_commands:
        yield [command.name or getattr(command.callback, "__name__", "")]
    for group in of.registered_groups:
        assert group.typer_instance is not None  # noqa: S101 - every group of ours has its commands
        name = str(group.typer_instance.info.name)
        yield [name]
        yield from ([name, *words] for words in commands(group.typer_instance))


TOLD = """# How to add a figure, a phrase, a voice, a question, an output format

The parts of a lesson are tables that anybody may extend in a branch of their own or for a house of their own. Each
example below is a file in `examples/extending` that runs as it stands; this page is written from them, with what they
print, by `make docs`, and a test runs them. A fact has [a walk of its own](../CONTRIBUTING.md), and so has
[a language](languages.md). What they import is private: it may change with any release, which the tests then say.

Whatever is added needs what the others have: a test that names its authority, words in every language, an alternative
text that says what is seen, and a line in `changelog.d`.
"""
EXTENDING = ("figure", "phrase", "voice", "question", "output")


def extending_page() -> str:
    """Write how to extend the workshop, from examples that are run for it."""
    parts = [TOLD]
    for name in EXTENDING:
        path = DOCS.parent / "examples" / "extending" / f"{name}.py"
        text = path.read_text(encoding="utf-8")
        title, prose = str(ast.get_docstring(ast.parse(text))).split("\n", 1)
        code = text.split('"""\n', 1)[1].lstrip()
        ran = subprocess.run([sys.executable, path], capture_output=True, text=True, check=True)  # noqa: S603 - ours
        parts.append(
            f"## {title}\n\n{prose.strip()}\n\n```python\n{code}```\n\nIt prints\n\n```text\n{ran.stdout}```\n"
        )
    return "\n".join(parts)


def generated() -> dict[Path, str]:
    """Give every generated page with the file it belongs in."""
    facts = {DOCS / "facts" / name: text for name, text in pages(default_registry()).items()}
    return {DOCS / "commands.md": command_page(), DOCS / "extending.md": extending_page(), **facts}


def main() -> None:
    """Write the pages and remove those of facts that are gone."""
    wanted = generated()
    (DOCS / "facts").mkdir(exist_ok=True)
    for stale in set((DOCS / "facts").glob("*.md")) - wanted.keys():
        stale.unlink()
    for path, text in wanted.items():
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
