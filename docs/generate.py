"""Write the pages that are generated from the code: the facts reference and the help of the command line.

Run by `make docs`; the tests fail where a page is not what this writes.
"""

from __future__ import annotations

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


def generated() -> dict[Path, str]:
    """Give every generated page with the file it belongs in."""
    facts = {DOCS / "facts" / name: text for name, text in pages(default_registry()).items()}
    return {DOCS / "commands.md": command_page(), **facts}


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
