"""Catalogues: building, reading back, growth with the division, queries, and the same columns through music21.

Compiled kernels are kept by numba; a first run on a machine adds its compilation, which is timed apart.
"""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from measure import Row, median_seconds, seconds, timed
from music21 import chord

from gamutwright.catalogue.build import definition_rows, ensure
from gamutwright.catalogue.query import Catalogue
from gamutwright.facts.registry import default_registry
from gamutwright.files import CACHE_VARIABLE

QUERIES = (
    "cardinality = 7 AND is_maximally_even",
    "propriety = 'proper' AND contradictions = 0 AND coherence_quotient > 0.9",
    "interval_class_vector[1] = 2 AND reflection_axes >= 1 AND evenness > 0.95",
)
COLUMNS_OF_MUSIC21 = ("forteClassTnI", "primeForm", "normalOrder", "intervalVector", "hasZRelation")


def rows() -> Iterator[Row]:
    # Not in memory: a catalogue of 31 divisions takes gigabytes.
    place = Path(tempfile.mkdtemp(prefix="catalogues-", dir=os.environ.get("BENCH_FOLDER")))
    os.environ[CACHE_VARIABLE] = str(place)
    try:
        yield timed("compile the kernels and build 5 divisions", seconds(lambda: ensure(13)))
        yield from twelve()
        yield from large()
        yield from growth()
    finally:
        shutil.rmtree(place, ignore_errors=True)


def twelve() -> Iterator[Row]:
    cold = seconds(lambda: list(definition_rows(12, default_registry())))
    yield timed("12: all 2,048 rooted scales, every fact, computed", cold, 15)
    read = "from gamutwright.catalogue.query import Catalogue; assert len(Catalogue(12).find()) == 2048"
    yield timed("12: all of it as it comes, in this process", median_seconds(lambda: Catalogue(12).find(), 5), 0.3)
    anew = median_seconds(lambda: subprocess.run([sys.executable, "-c", read], check=True), 3)  # noqa: S603 - our own
    yield timed("12: the same in a new process", anew)
    catalogue = Catalogue(12)
    worst = max(median_seconds(lambda q=q: catalogue.find(q, limit=20), runs=7) for q in QUERIES)
    yield timed("12: slowest of three queries", worst, 0.05)

    def theirs() -> list[object]:
        sets = [chord.Chord([k for k in range(12) if mask >> k & 1]) for mask in range(1, 4096, 2)]
        return [[getattr(one, name) for name in COLUMNS_OF_MUSIC21] for one in sets]

    took = seconds(theirs)
    yield Row(
        "12: music21's five columns against our ninety",
        f"{cold:.2f} s",
        against=f"music21: {took:.2f} s",
        ratio=f"{took / cold:.1f} x faster",
    )


def large() -> Iterator[Row]:
    yield timed("24: 8,388,608 rooted scales, all kernel columns", seconds(lambda: ensure(24)), 20)
    catalogue = Catalogue(24)
    worst = max(median_seconds(lambda q=q: catalogue.find(q, limit=20), runs=3) for q in QUERIES)
    yield timed("24: slowest of three queries", worst, 1)
    yield timed("31: 69,273,667 classes, all kernel columns", seconds(lambda: ensure(31)), 120)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20
    yield Row("peak memory up to here", f"{memory:.2f} GiB", "≤ 2 GiB", is_missed=memory > 2)


def growth() -> Iterator[Row]:
    for divisions in (11, 14, 16, 18, 20, 22, 24, 25, 26, 27, 28):
        code = (
            "import time; from gamutwright.catalogue.build import ensure; ensure(13); start = time.perf_counter();"
            f"file = ensure({divisions}); took = time.perf_counter() - start;"
            "print(took, file.stat().st_size)"
        )
        with tempfile.TemporaryDirectory() as place:
            done = subprocess.run(  # noqa: S603 - our own code
                [sys.executable, "-c", code],
                env={**os.environ, CACHE_VARIABLE: place},
                capture_output=True,
                text=True,
                check=True,
            )
        took, size = (float(word) for word in done.stdout.split())
        yield Row(f"growth: {divisions} divisions", f"{took:.2f} s, {size / 1e6:.1f} MB")
