"""The moves P, L and R against the facts of neo-Riemannian theory."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations

import pytest

from gamutwright.errors import DomainError
from gamutwright.theory.harmony import TRIADS, Chord
from gamutwright.theory.scale import Scale
from gamutwright.theory.triadmoves import (
    MOVES,
    leading_tone_exchange,
    major_and_minor_triads,
    moved_triad,
    parallel,
    path_moves,
    relative,
    triad_links,
)
from gamutwright.theory.voiceleading import voice_leading_size

ALL_TRIADS = [Chord(root, suffix) for root in range(12) for suffix in ("", "m")]


@pytest.mark.parametrize("move", [parallel, leading_tone_exchange, relative])
def test_each_move_undoes_itself(move: Callable[[Chord], Chord]) -> None:
    """Cohn 1997, from memory: P, L and R are involutions that change the mode."""
    for triad in ALL_TRIADS:
        assert move(move(triad)) == triad
        assert move(triad).suffix != triad.suffix


def test_each_move_holds_two_tones() -> None:
    """Douthett and Steinbach 1998: P and L move one voice by a semitone, R by a whole tone."""
    for triad in ALL_TRIADS:
        for move, distance in (("P", 1), ("L", 1), ("R", 2)):
            other = moved_triad(triad, move)
            assert len({*triad.tones} & {*other.tones}) == 2
            assert voice_leading_size(triad.tones, other.tones) == distance


def test_examples() -> None:
    """C major to C minor, E minor, A minor; D major to F sharp minor under L."""
    c_major = Chord(0, "")
    assert parallel(c_major) == Chord(0, "m")
    assert leading_tone_exchange(c_major) == Chord(4, "m")
    assert relative(c_major) == Chord(9, "m")
    assert leading_tone_exchange(Chord(2, "")) == Chord(6, "m")


@pytest.mark.parametrize(("moves", "length"), [("PL", 6), ("PR", 8), ("LR", 24)])
def test_orbits(moves: str, length: int) -> None:
    """Cohn 1996 and 1997, from memory: hexatonic, octatonic and the round of all thirds, from every triad."""
    for start in ALL_TRIADS:
        visited = [start]
        while len(visited) < 2 or visited[-1] != start or len(visited) % 2 == 0:
            visited.append(moved_triad(visited[-1], moves[(len(visited) - 1) % 2]))
        assert len(visited) - 1 == len({*visited}) == length


def test_four_hexatonic_and_three_octatonic_systems() -> None:
    """Cohn 1996 and 1997, from memory."""

    def systems(moves: str) -> set[frozenset[Chord]]:
        found = set()
        for start in ALL_TRIADS:
            members = {start}
            while (grown := members | {moved_triad(triad, move) for triad in members for move in moves}) != members:
                members = grown
            found.add(frozenset(members))
        return found

    assert len(systems("PL")) == 4
    assert len(systems("PR")) == 3
    assert len(systems("LR")) == 1


@pytest.mark.exhaustive
def test_links_by_a_slow_definition_on_all_sets() -> None:
    """A link is a pair of triads of the scale, one major and one minor, with two tones in common."""
    for mask in range(4096):
        scale = Scale(mask)
        present = [triad for triad in ALL_TRIADS if {*triad.tones} <= {*scale.tones}]
        assert list(major_and_minor_triads(scale)) == present
        slow = {
            frozenset(pair)
            for pair in combinations(present, 2)
            if pair[0].suffix != pair[1].suffix and len({*pair[0].tones} & {*pair[1].tones}) == 2
        }
        links = triad_links(scale)
        assert {frozenset((link.major, link.minor)) for link in links} == slow
        assert len(links) == len(slow)
        assert all(moved_triad(link.major, link.move) == link.minor for link in links)


def test_moves_along_a_path() -> None:
    path = [Chord(0, "")]
    for move in "PLRLRPLP":
        path.append(moved_triad(path[-1], move))
    assert path_moves(tuple(path)) == "PLRLRPLP"


def test_other_chords_are_refused() -> None:
    assert [*MOVES] == ["P", "L", "R"]
    assert {*TRIADS} - {"", "m"} == {"dim", "aug"}
    with pytest.raises(DomainError, match="major and minor"):
        parallel(Chord(11, "dim"))
