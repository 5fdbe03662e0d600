"""`gamutwright check`: every statement of a script proved or refuted, printed as a compiler prints its findings."""

from __future__ import annotations

import difflib
import json
from pathlib import Path

import typer
from rich.console import Console
from rich.text import Text

from gamutwright.errors import ScriptError
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.files import write_text
from gamutwright.lessons.claims import Report, Verdict, check
from gamutwright.lessons.format import replace_words
from gamutwright.lessons.ledger import ledger
from gamutwright.lessons.mending import mend_of
from gamutwright.lessons.parse import load
from gamutwright.lessons.timing import script_pace
from gamutwright.phrasing.terminal import plain_words, source_in_short

__all__ = ["run"]

MOST_SHOWN = 300
"""Faults of a script that are printed; --json has them all."""
COLOURS = {
    Verdict.CONTRADICTED: "bold red",
    Verdict.UNBOUND: "bold yellow",
    Verdict.INAPPLICABLE: "bold magenta",
    Verdict.CONFIRMED: "green",
    Verdict.RELEASED: "dim",
}


def run(paths: list[Path], *, as_json: bool, ledger_file: Path | None, fix: bool, yes: bool, pace: bool) -> int:
    """Check scripts and print what was found.

    Parameters
    ----------
    paths : list of Path
        The scripts.
    as_json : bool
        Print the ledgers instead of text.
    ledger_file : Path or None
        Where the ledger of a single script is written.
    fix : bool
        Offer to mend what can be mended.
    yes : bool
        Mend without asking.
    pace : bool
        Print pace and plainness too.

    Returns
    -------
    int
        1 where anything is contradicted, unbound or inapplicable, or a script cannot be read; else 0.
    """
    registry = default_registry()
    console = Console(highlight=False, soft_wrap=True)
    ledgers, failed = [], False
    for path in paths:
        try:
            report = check(load(path), registry)
        except ScriptError as error:
            _print_problems(console, path, error)
            failed = True
            continue
        if fix:
            report = _mend(console, path, report, registry, is_sure=yes)
        if as_json or ledger_file:
            ledgers.append(ledger(report, registry))
        failed = failed or bool(report.faults)
        if not as_json:
            _print_report(console, path, report)
            if pace:
                _print_pace(console, report)
    if as_json:
        print(json.dumps(ledgers[0] if len(ledgers) == 1 else ledgers, ensure_ascii=False, indent=1))
    if ledger_file and ledgers:
        write_text(ledger_file, json.dumps(ledgers[0], ensure_ascii=False, indent=1) + "\n")
    return int(failed)


def _print_problems(console: Console, path: Path, error: ScriptError) -> None:
    for problem in error.problems:
        console.print(Text(f"{path}:{problem.line}:{problem.column}: ").append("unreadable", style="bold red"))
        console.print(Text(f"  {problem.message}"))
        if problem.excerpt:
            console.print(Text(problem.excerpt, style="dim"))
    if not error.problems:
        console.print(Text(f"{path}: {error}"))


def _print_report(console: Console, path: Path, report: Report) -> None:
    for claim in report.faults[:MOST_SHOWN]:
        line, column = report.script.locate(claim.span[0])
        head = Text(f"{path}:{line}:{column}: ").append(claim.verdict.value, style=COLOURS[claim.verdict])
        console.print(head.append(f": {claim.reason}"))
        console.print(Text(report.script.excerpt(*claim.span)))
        if claim.computed is not None:
            sources = f"  [{source_in_short(claim.sources[0])}]" if claim.sources else ""
            console.print(Text(f"  computed: {plain_words(claim.computed)}{sources}", style="dim"))
        console.print(Text(f"  mend: {claim.mend}"))
        console.print()
    if len(report.faults) > MOST_SHOWN:
        console.print(f"... and {len(report.faults) - MOST_SHOWN:,} more; see all with --json.\n")
    counts = [f"{report.count(verdict)} {verdict.value}" for verdict in Verdict if report.count(verdict)]
    console.print(Text(f"{path}: {', '.join(counts) or 'no claims'}", style="bold"))


def _print_pace(console: Console, report: Report) -> None:
    found = script_pace(report.script, report.scale, report.registry)
    for chapter in (*found.chapters, found.whole):
        console.print(Text(f"\n{chapter.title or 'the whole script'}", style="bold"))
        for measure in chapter.measures:
            value = f"{measure.value:.1f} {measure.unit}".strip()
            console.print(Text(f"  {measure.verdict.value:8} {measure.name}: {value} ({measure.source})"))
            if measure.message:
                console.print(Text(f"           {measure.message}", style="italic"))


def _mend(console: Console, path: Path, report: Report, registry: Registry, *, is_sure: bool) -> Report:
    """Offer words for every contradicted claim whose sentence they fit, and write what was accepted."""
    edits: list[tuple[int, int, str]] = []
    mended = 0
    for claim in report.faults:
        mend = mend_of(report, claim, registry)
        if mend is None:
            continue
        _print_difference(console, report.script.source, replace_words(report.script, mend.edits))
        if is_sure or typer.confirm("Mend it so?", default=True):
            edits += mend.edits
            mended += 1
    if not edits:
        return report
    write_text(path, replace_words(report.script, edits))
    console.print(f"{path}: {mended} mended", style="bold")
    return check(load(path), registry)


def _print_difference(console: Console, old: str, new: str) -> None:
    for line in difflib.unified_diff(old.splitlines(), new.splitlines(), lineterm="", n=0):
        if line.startswith(("-", "+")) and not line.startswith(("---", "+++")):
            console.print(Text(line, style="red" if line[0] == "-" else "green"))
