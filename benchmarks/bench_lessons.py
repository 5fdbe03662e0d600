"""Drafting and checking lessons: how many a second, and how long a teacher waits for the check of one script."""

from __future__ import annotations

import statistics
from collections.abc import Iterator

from measure import Row, median_seconds, seconds, timed

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.lesson.claims import check
from gamutwright.lesson.draft import draft
from gamutwright.lesson.parse import parse
from gamutwright.lesson.plan import Wish
from gamutwright.theory.scale import Scale

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
