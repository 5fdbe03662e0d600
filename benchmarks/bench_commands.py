"""Commands as whole processes, started anew each time."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from measure import Row, median_seconds, timed

COMMAND = str(Path(sys.executable).with_name("gamutwright"))
CASES = (
    ("gamutwright --help", ["--help"], 0.25),
    ("gamutwright describe D dorian", ["describe", "D", "dorian"], 0.8),
    ("gamutwright describe D dorian --json", ["describe", "D", "dorian", "--json"], 0.8),
    ("gamutwright facts", ["facts"], 0.8),
)


def rows() -> Iterator[Row]:
    empty = median_seconds(lambda: subprocess.run([sys.executable, "-c", "pass"], check=True), runs=7)
    yield Row("an empty Python process", f"{empty * 1000:.1f} ms")
    for what, words, target in CASES:
        took = median_seconds(
            lambda words=words: subprocess.run([COMMAND, *words], check=True, stdout=subprocess.DEVNULL),  # noqa: S603
            runs=9,
        )
        yield timed(what, took, target)
