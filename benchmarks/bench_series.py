"""Courses as the command line keeps them: 2,048 lessons drafted and checked, sixty built here and on a Dask cluster.

The lessons that are built are short (two lines each), so that what is measured is as much the handing out as the work.
The packages of the cluster are compared, file by file, with those made here.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from distributed import Client
from measure import Row, Run, timed, watched

from gamutwright.catalogue.query import Catalogue
from gamutwright.files import CACHE_VARIABLE
from gamutwright.inputs.forms import to_text
from gamutwright.theory.scale import Scale

LESSONS = 60
SHORT = """---
scale: {scale}
level: foundation
minutes: 1
language: en
title: Harbour lesson {number}
lesson: {number}
---
# Steps

Listen to it as to a {word} by the quay, and climb it. {{play=scale show=clock}} {{#hear}}
[We count the tones of a scale from the root up to the last tone below the octave]{{define=cardinality}}. {{#count}}
It has [{count}]{{fact=cardinality show=clock}} tones. {{#tones}}
"""
WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]


HOW = ("quiet", "merry", "distant", "rusty", "patient", "foggy", "golden", "sleepy", "salty", "gentle")
WHO = ("foghorn", "ferry", "gull", "bell", "boat", "lantern", "fiddler")


def series(folder: Path, *words: str) -> Run:
    environment = {CACHE_VARIABLE: str(folder.parent / "cache"), "COLUMNS": "200"}
    command, *rest = words
    return watched([sys.executable, "-m", "gamutwright", "series", command, str(folder), *rest], folder, environment)


def rows() -> Iterator[Row]:
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        os.environ[CACHE_VARIABLE] = str(place / "cache")
        Catalogue(12).close()
        yield from all_scales(place / "all")
        yield from built(place)


def all_scales(folder: Path) -> Iterator[Row]:
    """Draft and check every rooted scale of twelve notes as one course."""
    folder.mkdir()
    (folder / "series.toml").write_text(
        'title = "Every scale"\nminutes = 3\nlevel = ["foundation", "further", "research"]\n'
        '[scales]\nquery = "cardinality >= 1"\nmost = 2048\n',
        encoding="utf-8",
    )
    drafted = series(folder, "plan", "--draft", "--json")
    count = len(json.loads(drafted.told)["drafted"])
    assert count == 2048
    checked = series(folder, "check", "--no-films", "--json")
    assert json.loads(checked.told)["is_whole"]
    for what, run in (("planned and drafted", drafted), ("checked, each by itself and against the others", checked)):
        yield Row(
            f"{count:,} lessons {what}, one course, two levels of memory",
            f"{run.seconds:.0f} s, {count / run.seconds * 60:,.0f} lessons a minute, {run.peak_gib:.2f} GiB",
        )
    yield timed("the same check again", series(folder, "check", "--no-films", "--json").seconds, 5)


def written(folder: Path) -> Path:
    """Write a course of short lessons on the commonest sizes, each about a scale of its own."""
    masks = [mask for mask in range(1, 4096, 2) if mask.bit_count() in {5, 6, 7, 8}][::13][:LESSONS]
    folder.mkdir(parents=True)
    (folder / "series.toml").write_text('title = "Short lessons"\n[film]\nsize = "720p"\n', encoding="utf-8")
    for number, mask in enumerate(masks, 1):
        scale = Scale(mask)
        script = folder / "lessons" / f"lesson-{number:02d}" / "script.md"
        script.parent.mkdir(parents=True)
        # Every lesson says something that no other says, as real ones do.
        word = f"{HOW[number % len(HOW)]} {WHO[number // len(HOW) % len(WHO)]}"
        text = SHORT.format(word=word, scale=to_text(scale, "notes"), number=number, count=WORDS[scale.cardinality])
        script.write_text(text, encoding="utf-8")
    return folder


def digests(folder: Path) -> dict[str, str]:
    """Digest every file of every package; the list of files carries the day, and names them by digest itself."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted((folder / "out").glob("lesson-*/**/*"))
        if path.is_file() and path.name != "ro-crate-metadata.json"
    }


def built(place: Path) -> Iterator[Row]:
    """Build sixty lessons here with one and with two processes, then through Dask with one and with two workers."""
    expected: dict[str, str] = {}
    took: dict[str, float] = {}
    for workers in (1, 2):
        folder = written(place / f"here-{workers}")
        run = series(folder, "build", "--workers", str(workers))
        expected = expected or digests(folder)
        assert digests(folder) == expected
        took[f"here {workers}"] = run.seconds
        yield Row(
            f"{LESSONS} short lessons built here, {workers} process{'es' if workers > 1 else ''}",
            f"{run.seconds:.1f} s, {LESSONS / run.seconds * 60:.0f} lessons a minute, {run.peak_gib:.2f} GiB",
            against="one process" if workers > 1 else "",
            ratio=f"{took['here 1'] / run.seconds:.2f} x" if workers > 1 else "",
        )
    yield timed(
        f"nothing changed, {LESSONS} lessons", min(series(place / "here-2", "build").seconds for _ in range(3)), 2
    )
    yield one_line(place / "here-2")
    for workers in (1, 2):
        folder = written(place / f"there-{workers}")
        with cluster(place / f"dask-{workers}", workers) as address:
            run = series(folder, "build", "--cluster", address)
        assert digests(folder) == expected, "the cluster made other packages"
        here = took[f"here {workers}"]
        yield Row(
            f"the same through Dask, {workers} worker{'s' if workers > 1 else ''}, same digests",
            f"{run.seconds:.1f} s, {LESSONS / run.seconds * 60:.0f} lessons a minute",
            "≤ 1.1 x the local pool" if workers > 1 else "",
            is_missed=workers > 1 and run.seconds > 1.1 * here,
            against=f"here {here:.1f} s",
            ratio=f"{run.seconds / here:.2f} x",
        )


def one_line(folder: Path) -> Row:
    """Edit a line of one lesson, and build the course."""
    script = folder / "lessons" / "lesson-30" / "script.md"
    script.write_text(script.read_text("utf-8").replace("and climb it", "and walk it"), encoding="utf-8")
    run = series(folder, "build", "--json")
    new = [lesson["slug"] for lesson in json.loads(run.told)["lessons"] if lesson["is_new"]]
    assert new == ["lesson-30"]
    return timed(f"one line edited: one of {LESSONS} lessons built", run.seconds)


@contextlib.contextmanager
def cluster(place: Path, workers: int) -> Iterator[str]:
    """Start a scheduler and workers of one thread each, as docs/cluster.md says, and stop them at the end.

    A cluster is there before a course is built on it, so its start is not part of what is measured. Linux shares a busy
    machine between sessions, so the workers have one of their own, as the build has here.
    """
    place.mkdir()
    told = place / "scheduler.json"
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "cwd": place, "start_new_session": True}
    scheduler = [sys.executable, "-m", "distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", "0",
                 "--no-dashboard", "--scheduler-file", str(told)]  # fmt: skip
    worker = [sys.executable, "-m", "distributed.cli.dask_worker", "--scheduler-file", str(told), "--nthreads", "1",
              "--nworkers", str(workers), "--no-dashboard", "--local-directory", str(place)]  # fmt: skip
    processes = [subprocess.Popen(scheduler, **quiet)]  # noqa: S603 - as the manual says
    try:
        while not told.exists():
            time.sleep(0.05)
        processes.append(subprocess.Popen(worker, **quiet))  # noqa: S603 - as above
        address = json.loads(told.read_text())["address"]
        with Client(address, set_as_default=False) as client:
            client.wait_for_workers(workers, timeout=60)
        yield address
    finally:
        for process in reversed(processes):
            process.terminate()
        for process in processes:
            process.wait()
        shutil.rmtree(place, ignore_errors=True)
