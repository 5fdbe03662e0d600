"""Timing helpers shared by the benchmarks.

Where the speed of the machine decides, a target is not a time but a ratio: so many times what a fixed piece of work of
the standard library takes, measured just after the figure itself. The targets are written as seconds of a machine on
which that work takes `YARDSTICK_S`, and stretched or shrunk by `pace()`; the table shows both numbers.
"""

from __future__ import annotations

import gc
import json
import os
import re
import statistics
import subprocess
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Row:
    """One line of the printed table."""

    what: str
    figure: str
    target: str = ""
    is_missed: bool = False
    against: str = ""
    ratio: str = ""


def seconds(work: Callable[[], object]) -> float:
    """Time one run."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def median_seconds(work: Callable[[], object], runs: int, warmup: int = 1) -> float:
    """Time several runs after a warm-up and take the median."""
    for _ in range(warmup):
        work()
    return statistics.median(seconds(work) for _ in range(runs))


YARDSTICK_S = 0.040
"""What `yardstick` takes at pace 1."""


def yardstick() -> None:
    """Do a fixed piece of work as programs of this kind do it: dictionaries, sorting, patterns, numbers as text."""
    table = {str(number): [number * 7 % 101, number / 7] for number in range(18_000)}
    text = json.dumps(table)
    found = re.findall(r"\[(\d+), ([\d.]+)\]", text)
    order = sorted(found, key=lambda pair: (int(pair[0]), float(pair[1])))
    assert sum(int(whole) for whole, _ in order) == sum(first for first, _ in table.values())


def pace() -> float:
    """Tell how much longer this machine takes, just now, than the one for which the targets are written."""
    # A heap that a benchmark filled would otherwise be searched for rubbish while the yardstick runs.
    gc.collect()
    gc.disable()
    try:
        return median_seconds(yardstick, runs=5) / YARDSTICK_S
    finally:
        gc.enable()


def timed(what: str, took: float, target: float | None = None) -> Row:
    """Make a row of a time in seconds and the time allowed for it at this machine's pace."""
    figure = f"{took * 1000:.1f} ms" if took < 1 else f"{took:.2f} s"
    if target is None:
        return Row(what, figure)
    now = pace()
    allowed = f"≤ {target * 1000:g} ms" if target < 1 else f"≤ {target:g} s"
    return Row(what, figure, f"{allowed} x {now:.2f}", is_missed=took > target * now)


def quick(what: str, multiple: float, unit: str, target: float | None = None) -> Row:
    """Make a row of a speed, such as multiples of real time, and the least that is allowed at this machine's pace."""
    if target is None:
        return Row(what, f"{multiple:.0f} {unit}")
    now = pace()
    return Row(what, f"{multiple:.1f} {unit}", f"≥ {target:g} {unit} / {now:.2f}", is_missed=multiple < target / now)


@dataclass
class Run:
    """What a run of a command took."""

    seconds: float
    peak_gib: float
    told: str


def watched(words: list[str], folder: Path, environment: Mapping[str, str]) -> Run:
    """Run a command as a user does, and watch the memory of all its processes."""
    begun, peak = time.monotonic(), 0
    process = subprocess.Popen(  # noqa: S603 - our own command
        words, cwd=folder, env={**os.environ, **environment}, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
        text=True, start_new_session=True,
    )  # fmt: skip
    over = threading.Event()

    def watch() -> None:
        nonlocal peak
        while not over.wait(0.05):
            peak = max(peak, resident_bytes(process.pid))

    watcher = threading.Thread(target=watch)
    watcher.start()
    told, _ = process.communicate()
    took = time.monotonic() - begun
    over.set()
    watcher.join()
    assert process.returncode == 0, told
    return Run(took, peak / 2**30, told)


def resident_bytes(session: int) -> int:
    """Add up the memory of all processes of a session."""
    pages = 0
    for place in Path("/proc").glob("[0-9]*"):
        try:
            fields = (place / "stat").read_text().rpartition(")")[2].split()
            if int(fields[3]) == session:
                pages += int((place / "statm").read_text().split()[1])
        except OSError:
            continue
    return pages * os.sysconf("SC_PAGESIZE")
