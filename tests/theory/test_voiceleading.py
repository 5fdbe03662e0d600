"""Minimal voice leading against all bijections and surjections, and the sets one step away."""

from __future__ import annotations

import math
from itertools import permutations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale
from gamutwright.theory.voiceleading import Norm, minimal_voice_leading, one_step_neighbours, voice_leading_size

Sets = tuple[int, tuple[int, ...], tuple[int, ...]]


@st.composite
def two_sets(draw: st.DrawFn, most: int, *, equal: bool) -> Sets:
    divisions = draw(st.integers(most, 24))
    tones = st.lists(st.integers(0, divisions - 1), min_size=1, max_size=most, unique=True)
    first = draw(tones)
    second = draw(tones)
    if equal:
        size = min(len(first), len(second))
        first, second = first[:size], second[:size]
    return divisions, tuple(first), tuple(second)


def slow_size(ways: list[int], norm: Norm) -> float:
    match norm:
        case Norm.L1:
            return sum(ways)
        case Norm.L2:
            return math.sqrt(sum(way * way for way in ways))
        case Norm.LINF:
            return max(ways)


def around(start: int, end: int, divisions: int) -> int:
    return min((start - end) % divisions, (end - start) % divisions)


@given(two_sets(6, equal=True), st.sampled_from(Norm))
def test_equal_sets_by_all_bijections(sets: Sets, norm: Norm) -> None:
    """The definition: the least over all d! ways (Tymoczko 2011: crossings never help, from memory)."""
    divisions, first, second = sets
    slow = min(
        slow_size([around(a, b, divisions) for a, b in zip(first, order, strict=True)], norm)
        for order in permutations(second)
    )
    assert voice_leading_size(first, second, divisions, norm) == pytest.approx(slow)


@given(two_sets(5, equal=False), st.sampled_from(Norm))
def test_unequal_sets_by_all_surjections(sets: Sets, norm: Norm) -> None:
    """The definition with doublings: the least over all maps of the larger set onto the smaller."""
    divisions, first, second = sets
    larger, smaller = (first, second) if len(first) >= len(second) else (second, first)
    slow = min(
        slow_size([around(a, b, divisions) for a, b in zip(larger, images, strict=True)], norm)
        for images in product(smaller, repeat=len(larger))
        if len(set(images)) == len(smaller)
    )
    assert voice_leading_size(first, second, divisions, norm) == pytest.approx(slow)


@given(two_sets(7, equal=False), st.sampled_from(Norm))
def test_moves_lead_from_one_set_to_the_other(sets: Sets, norm: Norm) -> None:
    divisions, first, second = sets
    found = minimal_voice_leading(first, second, divisions, norm)
    assert {tone for tone, _ in found.moves} == {*first}
    assert {(tone + way) % divisions for tone, way in found.moves} == {*second}
    assert len(found.moves) == max(len(first), len(second))
    assert found.size == pytest.approx(slow_size([abs(way) for _, way in found.moves], norm))
    assert voice_leading_size(second, first, divisions, norm) == pytest.approx(found.size)


@pytest.mark.parametrize(
    ("end", "size"),
    [((0, 3, 7), 1), ((4, 7, 11), 1), ((9, 0, 4), 2), ((5, 9, 0), 3), ((0, 4, 8), 1), ((0, 4, 7), 0)],
)
def test_from_the_c_major_triad(end: tuple[int, ...], size: int) -> None:
    """To C minor, E minor, A minor, F major, C augmented (Tymoczko 2011, from memory)."""
    assert voice_leading_size((0, 4, 7), end) == size


def test_between_keys_a_fifth_apart() -> None:
    """One tone moves by a semitone: F to F sharp from C to G major (common practice)."""
    c_major = (0, 2, 4, 5, 7, 9, 11)
    found = minimal_voice_leading(c_major, (7, 9, 11, 0, 2, 4, 6))
    assert found.size == 1
    assert (5, 1) in found.moves


def test_neighbours_by_a_slow_definition() -> None:
    """Sets of as many tones that share all but one, the two that differ being a step apart."""
    for divisions in (1, 2, 3, 7, 8):
        sets = [Scale(mask, divisions) for mask in range(1 << divisions)]
        for scale in sets:
            slow = set()
            for other in sets:
                gone, come = scale.mask & ~other.mask, other.mask & ~scale.mask
                if gone.bit_count() == come.bit_count() == 1:
                    step = (gone.bit_length() - come.bit_length()) % divisions
                    if step in {1, divisions - 1}:
                        slow.add(other.mask)
            found = one_step_neighbours(scale)
            assert {move.scale.mask for move in found} == slow
            assert len(found) == len(slow)


def test_two_neighbours_of_a_major_scale_are_major() -> None:
    """The circle of fifths: raising the fourth or lowering the seventh (common practice)."""
    major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    modes = {major.mode(degree).mask for degree in range(1, 8)}
    rotations = {
        (move.tone, move.step): {move.scale.mode(degree).mask for degree in range(1, 8)}
        for move in one_step_neighbours(major)
    }
    assert {move for move, masks in rotations.items() if masks & modes} == {(5, 1), (11, -1)}


@pytest.mark.parametrize(("start", "end"), [((), (0,)), ((0, 0), (1, 2)), ((0, 12), (1, 2))])
def test_refusals(start: tuple[int, ...], end: tuple[int, ...]) -> None:
    with pytest.raises(DomainError, match="voice leading"):
        minimal_voice_leading(start, end)
