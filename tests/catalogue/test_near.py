from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import combinations, product

import numpy as np
import pytest

from gamutwright.catalogue import near
from gamutwright.catalogue.near import Distance, containing, like, within
from gamutwright.catalogue.query import Catalogue
from gamutwright.catalogue.rows import Rows
from gamutwright.errors import DomainError, InputError
from gamutwright.theory.distance import sim
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.voiceleading import one_step_neighbours, voice_leading_size
from thinning import thinned

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
SAMPLES = (MAJOR, Scale.of(0, 1, 5, 6, 10), Scale.of(0, 4, 8), Scale.of(2, 3, 4, 5, 7, 8, 11, 0, 1), Scale.of(0))


def distances(rows: Rows) -> list[tuple[int, int]]:
    return list(zip(rows.column("distance"), words(rows), strict=True))


def words(rows: Rows) -> list[int]:
    return [Scale.from_bits(bits).mask for bits in rows.column("bits")]


def by_voices(scale: Scale, mask: int) -> int:
    return int(voice_leading_size(scale.tones, Scale(mask, scale.divisions).tones, scale.divisions))


def expected(scale: Scale, masks: Iterable[int], measure: Callable[[int], int], limit: int) -> list[tuple[int, int]]:
    """Measure every scale and sort, the plainest way there is."""
    rows = [(measure(mask), abs(mask.bit_count() - scale.cardinality), mask) for mask in masks if mask != scale.mask]
    return [(size, mask) for size, _, mask in sorted(rows)[:limit]]


@pytest.mark.parametrize(("scale", "limit"), thinned(product(SAMPLES, [1, 17, 300]), 0.5), ids=str)
def test_the_nearest_by_voice_leading_are_those_of_the_definition(twelve: Catalogue, scale: Scale, limit: int):
    table = like(twelve, scale, condition="cardinality <= 5", columns=["bits"], limit=limit)
    masks = [mask for mask in range(1, 4096, 2) if mask.bit_count() <= 5]
    assert distances(table) == expected(scale, masks, lambda mask: by_voices(scale, mask), limit)


def test_the_compiled_sizes_give_the_same_nearest(twelve: Catalogue, monkeypatch: pytest.MonkeyPatch):
    slow = distances(like(twelve, MAJOR, columns=["bits"], limit=120))
    monkeypatch.setattr(near, "WORTH_COMPILING", 1)
    assert distances(like(twelve, MAJOR, columns=["bits"], limit=120)) == slow


def test_larger_divisions_are_measured_alike(nineteen: Catalogue):
    scale = Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)
    table = like(nineteen, scale, condition="cardinality = 4", columns=["bits"], limit=40)
    masks = [1 | sum(1 << tone for tone in rest) for rest in combinations(range(1, 19), 3)]
    assert distances(table) == expected(scale, masks, lambda mask: by_voices(scale, mask), 40)


def test_every_measured_bound_lies_below_the_distance():
    masks = np.arange(1, 4096, 2, dtype=np.uint64)
    for scale in SAMPLES:
        sizes = np.array([by_voices(scale, int(mask)) for mask in masks])
        assert (near._ways_to(masks, scale) <= sizes).all()
        assert (near._ways_from(masks, scale) <= sizes).all()


def test_parallel_and_relative_triads(twelve: Catalogue):
    # Cohn, "Neo-Riemannian Operations", Journal of Music Theory 41 (1997), from memory: P moves one voice by a
    # semitone, R one voice by a whole tone. With C as the root of the set, C minor and A minor share C with C major.
    table = like(twelve, Scale.of(0, 4, 7), condition="forte_label = '3-11'", columns=["bits"], limit=20)
    sizes = dict(zip(table.column("bits"), table.column("distance"), strict=True))
    assert sizes["100100010000"] == 1
    assert sizes["100010000100"] == 2


@pytest.mark.parametrize("scale", SAMPLES, ids=str)
def test_common_tones_count_those_that_are_not(twelve: Catalogue, scale: Scale):
    table = like(twelve, scale, Distance.COMMON_TONES, columns=["bits"], limit=200)
    tones = set(scale.tones)

    def apart(mask: int) -> int:
        return len(tones ^ set(Scale(mask).tones))

    assert distances(table) == expected(scale, range(1, 4096, 2), apart, 200)


def test_interval_content_is_the_sim_of_morris(twelve: Catalogue):
    scale = Scale.of(0, 1, 5, 6, 10)
    table = like(twelve, scale, Distance.INTERVAL_CONTENT, columns=["bits"], limit=300)
    masks = [mask for mask in range(1, 4096, 2) if mask.bit_count() > 1]
    assert distances(table) == expected(scale, masks, lambda mask: sim(scale, Scale(mask)), 300)


def test_one_step_moves_are_counted_by_walking(twelve: Catalogue):
    scale = Scale.of(0, 2, 3, 7)
    steps = {frozenset(scale.pitch_classes): 0}
    level = [scale]
    while level:
        following = []
        for here in level:
            for move in one_step_neighbours(here):
                tones = frozenset(move.scale.pitch_classes)
                if tones not in steps:
                    steps[tones] = steps[frozenset(here.pitch_classes)] + 1
                    following.append(move.scale)
        level = following
    assert len(steps) == 495  # all sets of four of twelve can be reached
    table = like(twelve, scale, Distance.ONE_STEP_MOVES, columns=["bits"], limit=1000)
    masks = [mask for mask in range(1, 4096, 2) if mask.bit_count() == 4]
    assert distances(table) == expected(scale, masks, lambda mask: steps[frozenset(Scale(mask).tones)], 1000)


def masks_of(rows: Rows) -> set[int]:
    return set(words(rows))


@pytest.mark.parametrize("any_root", [False, True])
def test_containing_and_within(twelve: Catalogue, any_root: bool):
    seventh = Scale.of(0, 4, 7, 10)
    turns = range(12) if any_root else [0]
    sets = [rotated_mask(seventh.mask, turn, 12) for turn in turns]
    around = masks_of(twelve.find(columns=["bits"], terms=containing(seventh, any_root=any_root)))
    assert around == {mask for mask in range(1, 4096, 2) if any(mask & part == part for part in sets)}
    sets = [rotated_mask(MAJOR.mask, turn, 12) for turn in turns]
    inside = masks_of(twelve.find(columns=["bits"], terms=within(MAJOR, any_root=any_root)))
    assert inside == {mask for mask in range(1, 4096, 2) if any(mask & part == mask for part in sets)}


def test_the_root_of_what_is_given_is_the_root_of_what_is_found(twelve: Catalogue):
    # D F A as tones above D is a minor triad above the root, wherever it lies.
    assert containing(Scale.of(2, 5, 9)) == containing(Scale.of(0, 3, 7))
    # The one scale within a set of one tone is that tone.
    assert masks_of(twelve.find(columns=["bits"], terms=within(Scale.of(5)))) == {1}


def test_terms_and_conditions_narrow_the_nearest(twelve: Catalogue):
    table = like(
        twelve,
        MAJOR,
        condition="is_balanced",
        columns=["bits", "cardinality"],
        terms=containing(Scale.of(0, 6)),
        limit=5,
    )
    assert table.columns == ("distance", "bits", "cardinality")
    assert all(bits[6] == "1" for bits in table.column("bits"))


def test_what_cannot_be_asked_is_explained(twelve: Catalogue):
    with pytest.raises(DomainError, match="voice leading, common tones"):
        like(twelve, MAJOR, "colour")
    with pytest.raises(InputError, match="this catalogue has 12"):
        like(twelve, Scale.of(0, 3, divisions=19))
    with pytest.raises(InputError, match="without its root"):
        like(twelve, Scale(0b10))
    with pytest.raises(InputError, match="limit 0"):
        like(twelve, MAJOR, limit=0)
