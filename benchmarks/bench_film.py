"""A film from a drafted script, every stage, cold: as multiples of how long it plays, beside the encoder alone."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from measure import Row

from gamutwright.catalogue.shares import shares_of
from gamutwright.inputs.text import read_scale
from gamutwright.lesson.draft import draft
from gamutwright.lesson.parse import parse
from gamutwright.lesson.plan import Wish
from gamutwright.stages import make_film

MINUTES = 8


def rows() -> Iterator[Row]:
    script = parse(draft(read_scale("G acoustic").scale, Wish(minutes=MINUTES), "en", shares=shares_of(12)).source)
    begun: dict[str, float] = {}
    ended: dict[str, float] = {}

    def tell(stage: str, done: int, total: int) -> None:
        begun.setdefault(stage, time.monotonic())
        if done == total:
            ended[stage] = time.monotonic()

    with tempfile.TemporaryDirectory() as folder:
        start = time.monotonic()
        made = make_film(script, Path(folder), progress=tell)
        heard_s = made.timeline.ticks / 48_000
        multiple = heard_s / made.seconds
        yield Row(
            f"film of {heard_s / 60:.1f} minutes, 1080p, sound, captions, chapters",
            f"{multiple:.1f} x real time",
            "≥ 20 x",
            is_missed=multiple < 20,
        )
        yield Row("of which speaking", f"{ended['voice'] - start:.1f} s")
        yield Row("of which sounds, timeline, mixing", f"{begun['film'] - ended['voice']:.1f} s")
        picture_s = ended["film"] - begun["film"]
        yield Row("of which drawing and encoding", f"{picture_s:.1f} s, {heard_s / picture_s:.1f} x real time")
        yield Row("of which joining and the rest", f"{made.seconds - (ended['film'] - start):.1f} s")
        yield Row("file", f"{made.files[0].stat().st_size / 1e6 / (heard_s / 60):.1f} MB a minute")
