"""`gamutwright verify`: a finished film compared with its ledger, read from the file alone."""

from __future__ import annotations

import json
from itertools import groupby
from pathlib import Path

from rich.console import Console
from rich.text import Text

from gamutwright.cli.progress import stage_bars
from gamutwright.codec import to_plain
from gamutwright.render.readback.film_report import Check, Report, Verdict, clock
from gamutwright.render.readback.verifying import verify

__all__ = ["run"]

SIGNS = {
    Verdict.HELD: ("ok", "green"),
    Verdict.BROKEN: ("BROKEN", "bold red"),
    Verdict.NOTHING: ("-", "dim"),
}


def run(film: Path, *, ledger: Path | None, as_json: bool) -> int:
    """Verify a film and print what was found.

    Parameters
    ----------
    film : Path
        The film.
    ledger : Path or None
        Its ledger; `ledger.json` beside the film without it.
    as_json : bool
        Print JSON instead of text.

    Returns
    -------
    int
        1 where a check is broken, else 0.
    """
    with stage_bars() as tell:
        report = verify(film, ledger or film.with_name("ledger.json"), tell)
    if as_json:
        print(json.dumps(_to_plain(report), ensure_ascii=False, indent=1))
    else:
        _print_report(Console(highlight=False, soft_wrap=True), report)
    return int(bool(report.broken))


def _to_plain(report: Report) -> object:
    found = to_plain(report)
    return {"format": "gamutwright.verification/1", "is_whole": not report.broken, **found} if found else {}  # type: ignore[dict-item] # a dictionary


def _print_report(console: Console, report: Report) -> None:
    for group, checks in groupby(report.checks, key=lambda check: check.group):
        console.print(Text(group.value, style="bold"))
        for check in checks:
            _print_check(console, check)
    length = report.ticks / 48_000
    broken, held = len(report.broken), sum(check.verdict is Verdict.HELD for check in report.checks)
    console.print()
    console.print(
        Text(f"{report.film}: ").append(
            f"{broken} broken, {held} held" if broken else f"all {held} checks held",
            style="bold red" if broken else "bold green",
        )
    )
    console.print(
        f"'{report.title}', {int(length) // 60} min {int(length) % 60:02d} s, read in {report.seconds:.1f} s, "
        f"{length / report.seconds:.0f} times as fast as it plays",
        style="dim",
    )


def _print_check(console: Console, check: Check) -> None:
    sign, style = SIGNS[check.verdict]
    head = Text("  ").append(f"{sign:6}", style=style).append(f" {check.name}: ")
    if check.verdict is not Verdict.BROKEN:
        console.print(head.append(f"{check.expected}: {check.found}" if check.found else check.expected))
        return
    if check.tick is not None:
        head.append(f"at {clock(check.tick)} ")
    console.print(head.append(f"expected: {check.expected}; found: {check.found}"))
    console.print(Text(f"         next: {check.next_step}", style="italic"))
