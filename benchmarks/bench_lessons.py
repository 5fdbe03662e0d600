"""Drafting and checking lessons: how many a second, and how long a teacher waits for the check of one script."""

from __future__ import annotations

import re
import statistics
from collections.abc import Iterator
from pathlib import Path

from lesson_figures import figures
from measure import Row, median_seconds, quick, seconds, timed

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.profile import profile
from gamutwright.lessons.claims import check
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.phrasing.engine import wording_for
from gamutwright.theory.scale import Scale

COURSE = Path(__file__).parents[1] / "examples" / "harbour" / "lessons" / "acoustic" / "script.md"
SCALES = [Scale(mask, 12, mask % 12) for mask in range(0b101010110101, 4096, 14)]


def rows() -> Iterator[Row]:
    yield timed("count all shares of 12 divisions, once in a process", seconds(lambda: shares_of(12)))
    for language in ("en", "de"):
        wish = Wish(level=Level.FURTHER, minutes=6)
        draft(SCALES[0], wish, language, shares=shares_of(12))
        drafts = [
            seconds(lambda s=scale, w=wish, to=language: draft(s, w, to, shares=shares_of(12))) for scale in SCALES
        ]
        yield Row(f"six-minute drafts a second ({language})", f"{1 / statistics.mean(drafts):.1f}")
        sources = [draft(scale, wish, language, shares=shares_of(12)).source for scale in SCALES]
        first = [seconds(lambda text=text: check(parse(text))) for text in sources]
        yield Row(
            f"checks a second, each script seen for the first time ({language})", f"{1 / statistics.mean(first):.1f}"
        )
        slowest = sources[first.index(max(first))]
        again = median_seconds(lambda text=slowest: check(parse(text)), runs=15, warmup=2)
        yield timed(f"check of the slowest six-minute script, warm ({language})", again, 0.15)
    yield from readings()
    yield from statements()
    for language in ("en", "de"):
        for name, value in figures(language).items():
            yield Row(f"{name} ({language})", f"{value:.2f}")


def readings() -> Iterator[Row]:
    """Read a script of six minutes, and one of a megabyte."""
    source = re.sub(r" ?\{#\w+\}", "", COURSE.read_text(encoding="utf-8"))
    end = source.index("\n---\n", 4) + 5
    front, body = source[:end], source[end:]
    yield timed(
        "a script of 900 words, read",
        median_seconds(lambda: parse(front + body * (900 // len(body.split()) + 1)), 5),
        0.02,
    )
    yield timed("a megabyte of script, read", seconds(lambda: parse(front + body * (1_000_000 // len(body)))), 2)


def statements() -> Iterator[Row]:
    """Word every fact of a scale."""
    wording, scale = wording_for("en"), Scale.of(0, 2, 4, 5, 7, 9, 11)
    findings = [finding for finding in profile(scale).findings if finding.value is not None]
    took = median_seconds(lambda: [wording.statement(found.fact, found, scale, 0) for found in findings], 5)
    yield quick("statements worded", len(findings) / took, "a second", 1000)
