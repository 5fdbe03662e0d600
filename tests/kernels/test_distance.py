"""The compiled voice-leading sizes against the definition in `theory`, and against an assignment by trial."""

from __future__ import annotations

import random
from itertools import product

import numpy as np
import pytest

from gamutwright.kernels.distance_matrix import voice_leading_sizes
from gamutwright.theory.scale import Scale
from gamutwright.theory.voiceleading import voice_leading_size


def by_trial(one: tuple[int, ...], other: tuple[int, ...], divisions: int) -> int:
    """Try every way of sending each tone of the larger set to one of the smaller that reaches all of them."""
    larger, smaller = (one, other) if len(one) >= len(other) else (other, one)

    def way(a: int, b: int) -> int:
        return min((a - b) % divisions, (b - a) % divisions)

    return min(
        sum(map(way, larger, targets))
        for targets in product(smaller, repeat=len(larger))
        if set(targets) == set(smaller)
    )


@pytest.mark.parametrize("divisions", [5, 7, 9])
def test_all_pairs_of_a_small_division_agree_with_trial(divisions: int):
    sample = random.Random(divisions).sample(range(1, 1 << divisions), 20)  # noqa: S311 - a repeatable choice
    masks = [mask for mask in sample if mask.bit_count() < 6]
    for other in masks:
        expected = [by_trial(Scale(mask, divisions).tones, Scale(other, divisions).tones, divisions) for mask in masks]
        assert voice_leading_sizes(np.array(masks, np.uint64), other, divisions).tolist() == expected


@pytest.mark.parametrize("divisions", [12, 19, 24, 36])
def test_large_divisions_agree_with_the_definition(divisions: int):
    choose = random.Random(divisions)  # noqa: S311 - a repeatable choice
    masks = [choose.randrange(1, 1 << divisions) & choose.randrange(1, 1 << divisions) | 1 for _ in range(60)]
    other = masks[0]
    tones = Scale(other, divisions).tones
    expected = [voice_leading_size(Scale(mask, divisions).tones, tones, divisions) for mask in masks]
    assert voice_leading_sizes(np.array(masks, np.uint64), other, divisions).tolist() == expected
