"""All benchmarks in one run: figures, the target each has, and ratios against a named alternative of the same run.

Usage: `make bench`, or `python benchmarks/run.py facts commands` for some of them. Times are medians; where the speed
of the machine decides, a target is a multiple of a fixed piece of work measured beside it (`measure.py`). A target that
is missed is marked and makes the exit code 1, so that a person looks.
"""

from __future__ import annotations

import importlib
import os
import platform
import sys
from pathlib import Path

from rich.console import Console
from rich.table import Table

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

from measure import pace  # noqa: E402 - the folder above is where it stands


def main() -> int:
    """Run the benchmarks named on the command line, all without names."""
    wanted = sys.argv[1:] or sorted(path.stem.removeprefix("bench_") for path in HERE.glob("bench_*.py"))
    console = Console(highlight=False)
    console.print(
        f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.machine()}, pace {pace():.2f}"
    )
    missed = 0
    for name in wanted:
        table = Table(title=name, title_justify="left", title_style="bold")
        for heading in ("what", "figure", "target", "against", "ratio"):
            table.add_column(heading, overflow="fold")
        for row in importlib.import_module(f"bench_{name}").rows():
            missed += row.is_missed
            mark = " MISSED" if row.is_missed else ""
            table.add_row(row.what, row.figure, f"{row.target}{mark}", row.against, row.ratio)
        console.print(table)
    return int(missed > 0)


if __name__ == "__main__":
    sys.exit(main())
