"""Paths and cycles through triads against published counts and a slow definition."""

from __future__ import annotations

from itertools import pairwise, permutations

import pytest

from gamutwright.theory.harmony import Chord
from gamutwright.theory.scale import Scale
from gamutwright.theory.triadgraph import (
    hamiltonian_cycle_count,
    hamiltonian_cycles,
    hamiltonian_path_count,
    hamiltonian_path_tones,
    hamiltonian_paths,
)
from gamutwright.theory.triadmoves import path_moves

CHROMATIC = Scale((1 << 12) - 1)
ALL_TRIADS = [Chord(root, suffix) for root in range(12) for suffix in ("", "m")]


def joined(one: Chord, other: Chord) -> bool:
    """The definition of a move: the modes differ and two tones are shared."""
    return one.suffix != other.suffix and len({*one.tones} & {*other.tones}) == 2


def present(scale: Scale) -> list[Chord]:
    return [triad for triad in ALL_TRIADS if {*triad.tones} <= {*scale.tones}]


@pytest.mark.exhaustive
def test_paths_and_cycles_by_permutations_on_all_sets_of_few_triads() -> None:
    """Every set with at most six triads: all orders of them, tried one by one."""
    tried = 0
    for mask in range(1, 4096, 2):
        scale = Scale(mask)
        triads = present(scale)
        if len(triads) > 6:
            continue
        paths = {order for order in permutations(triads) if all(joined(one, other) for one, other in pairwise(order))}
        undirected = {min(path, path[::-1]) for path in paths if path}
        assert {min(path, path[::-1]) for path in hamiltonian_paths(scale)} == undirected
        assert hamiltonian_path_count(scale) == len(undirected)
        directed_cycles = [path for path in paths if len(path) > 2 and joined(path[-1], path[0])]
        assert hamiltonian_cycle_count(scale) * 2 * max(len(triads), 1) == len(directed_cycles)
        tried += len(triads) > 2
    assert tried > 200


def test_all_paths_of_the_chromatic_scale_by_a_plain_search() -> None:
    """From C major without pruning; the 24 transpositions and inversions carry it to every triad (Cohn 1997)."""
    beside = {one: [other for other in ALL_TRIADS if joined(one, other)] for one in ALL_TRIADS}
    ends: list[Chord] = []

    def walk(here: Chord, left: frozenset[Chord]) -> None:
        if not left:
            ends.append(here)
        for there in beside[here]:
            if there in left:
                walk(there, left - {there})

    start = ALL_TRIADS[0]
    walk(start, frozenset(ALL_TRIADS[1:]))
    assert hamiltonian_path_count(CHROMATIC) == 24 * len(ends) // 2
    # Albini and Antonini 2009: 62 cycles of the 24 triads, 124 with direction.
    assert sum(joined(start, end) for end in ends) == 124
    assert hamiltonian_cycle_count(CHROMATIC) == 62


def test_lists_agree_with_counts_and_walk_along_moves() -> None:
    for scale in (CHROMATIC, Scale((1 << 11) - 1), Scale.of(0, 1, 3, 4, 6, 7, 9, 10), Scale.of(0, 2, 4, 5, 7, 9, 11)):
        paths = hamiltonian_paths(scale)
        assert len({min(path, path[::-1]) for path in paths}) == len(paths) == hamiltonian_path_count(scale)
        for path in paths[:200]:
            assert sorted(path) == sorted(present(scale))
            assert all(joined(one, other) for one, other in pairwise(path))
        tones = tuple((tuple(chord.tones for chord in path), path_moves(path)) for path in paths)
        assert hamiltonian_path_tones(scale) == tones
        cycles = hamiltonian_cycles(scale)
        assert len({*cycles}) == len(cycles) == hamiltonian_cycle_count(scale)
        for cycle in cycles:
            assert sorted(cycle) == sorted(present(scale))
            assert all(joined(one, other) for one, other in zip(cycle, (*cycle[1:], cycle[0]), strict=True))


def test_hexatonic_and_octatonic_cycles() -> None:
    """Cohn 1996 and 1997, from memory: the triads of these scales form one round of PL or PR."""
    (hexatonic,) = hamiltonian_cycles(Scale.of(0, 3, 4, 7, 8, 11))
    assert path_moves((*hexatonic, hexatonic[0])) == "PLPLPL"
    (octatonic,) = hamiltonian_cycles(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))
    assert set(path_moves((*octatonic, octatonic[0]))) == {"P", "R"}


def test_scales_with_few_triads() -> None:
    assert hamiltonian_path_count(Scale.of(0, 1, 2)) == 0
    assert hamiltonian_path_count(Scale.of(0, 4, 7)) == 1
    assert hamiltonian_path_count(Scale.of(0, 2, 3, 5, 7, 8, 11)) == 0
    assert hamiltonian_cycles(Scale.of(0, 1, 2)) == ()
