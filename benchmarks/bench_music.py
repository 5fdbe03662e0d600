"""All pieces of one scale, without rendering."""

from __future__ import annotations

import random
import statistics
from collections.abc import Iterator

from measure import Row, seconds, timed

from gamutwright.errors import DomainError
from gamutwright.music.pieces import PIECES, piece_of
from gamutwright.music.sounding import piece_sound
from gamutwright.music.tune import plain_tune
from gamutwright.theory.scale import Scale

SCALES = 60
TARGET = 0.15


def every_piece(scale: Scale) -> None:
    """Make all pieces of a scale, its tunes searched anew."""
    plain_tune.cache_clear()
    for name in PIECES:
        try:
            piece_sound(piece_of(name, scale))
        except DomainError:
            assert name == "tune-changed"


def rows() -> Iterator[Row]:
    masks = [mask for mask in range(1, 4096, 2) if mask.bit_count() >= 3]
    scales = [Scale(mask) for mask in random.Random(1).sample(masks, SCALES)]  # noqa: S311 - repeatable, no secret
    every_piece(Scale.of(0, 2, 4, 5, 7, 9, 11))
    took = sorted(seconds(lambda scale=scale: every_piece(scale)) for scale in scales)
    yield timed(f"all {len(PIECES)} pieces, median of {SCALES} random rooted scales", statistics.median(took), TARGET)
    yield timed("the slowest of them", took[-1], TARGET)
