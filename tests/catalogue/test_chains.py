from __future__ import annotations

import random
from itertools import pairwise

import pytest

from gamutwright.catalogue.chains import Chain, between
from gamutwright.catalogue.names import Names, ScaleName
from gamutwright.errors import DomainError, InputError
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
State = tuple[frozenset[int], int]


def changes(state: State, divisions: int) -> list[State]:
    """Every set got by moving one tone by one step into an empty place, with the root followed."""
    tones, root = state
    moves = ((tone, (tone + step) % divisions) for tone in tones for step in (1, -1))
    return [(tones - {tone} | {place}, place if tone == root else root) for tone, place in moves if place not in tones]


def walked(start: Scale, end: Scale) -> list[list[State]]:
    """All shortest chains by a plain breadth-first search."""
    goal = frozenset(end.pitch_classes)
    level: dict[State, list[list[State]]] = {}
    first = (frozenset(start.pitch_classes), start.root)
    level[first] = [[first]]
    while True:
        arrived = [way for state, ways in level.items() if state[0] == goal for way in ways]
        if arrived:
            return arrived
        following: dict[State, list[list[State]]] = {}
        for state, ways in level.items():
            for moved in dict.fromkeys(changes(state, start.divisions)):
                following.setdefault(moved, []).extend([*way, moved] for way in ways)
        level = following


def as_states(chain: Chain, end: Scale) -> list[State]:
    return [(frozenset(scale.pitch_classes), scale.root) for scale in chain.scales[:-1]] + [
        (frozenset(end.pitch_classes), -1)
    ]


def named(way: list[State]) -> int:
    masks = [sum(1 << (tone - root) % 12 for tone in tones) for tones, root in way[1:-1]]
    return sum(bool(names_of(Scale(mask))) for mask in masks)


@pytest.mark.usefixtures("catalogue_cache")
@pytest.mark.parametrize("seed", range(12))
def test_chains_are_those_of_a_breadth_first_search(seed: int):
    choose = random.Random(seed)  # noqa: S311 - a repeatable choice
    size = choose.randrange(2, 8)
    start = Scale.of(*choose.sample(range(12), size))
    tones = set(start.pitch_classes)
    root = start.root
    for _ in range(choose.randrange(1, 6)):
        tones, root = choose.choice(changes((frozenset(tones), root), 12))
    end = Scale.of(*sorted(tones), root=root)
    ways = walked(start, end)
    chains = between(start, end, limit=10_000)
    assert len(chains) == len(ways)
    assert sorted(map(str, (sorted(map(state_key, as_states(chain, end)[:-1])) for chain in chains))) == sorted(
        map(str, (sorted(map(state_key, way[:-1])) for way in ways))
    )
    counts = [chain.named for chain in chains]
    assert counts == sorted(counts, reverse=True)
    assert counts == sorted(map(named, ways), reverse=True)
    assert between(start, end, limit=2) == chains[:2]


def state_key(state: State) -> tuple[list[int], int]:
    return sorted(state[0]), state[1]


@pytest.mark.usefixtures("catalogue_cache")
def test_each_change_moves_one_tone_by_one_step():
    for chain in between(MAJOR, Scale.of(6, 8, 10, 11, 1, 3, 5), limit=5):
        assert chain.scales[0] == MAJOR
        assert len(chain.moves) == len(chain.scales) - 1
        for (before, after), (moved, by) in zip(pairwise(chain.scales), chain.moves, strict=True):
            assert abs(by) == 1
            assert set(after.pitch_classes) == set(before.pitch_classes) - {moved} | {(moved + by) % 12}


@pytest.mark.usefixtures("catalogue_cache")
@pytest.mark.parametrize("fifths", range(1, 7))
def test_keys_are_as_far_apart_as_their_signatures(fifths: int):
    # Common practice, no source: a key a fifth away changes one sign, and six fifths are the farthest.
    end = MAJOR.transposed(7 * fifths)
    assert len(between(MAJOR, end, limit=1)[0].moves) == fifths
    assert len(between(end, MAJOR, limit=1)[0].moves) == fifths


@pytest.mark.usefixtures("catalogue_cache")
def test_the_way_through_named_scales_comes_first():
    # From C ionian to C phrygian each order of the four flats is a chain; by the order of flats all are modes of major.
    first = between(MAJOR, Scale.of(0, 1, 3, 5, 7, 8, 10))[0]
    assert first.named == 3
    only = Names((ScaleName("by the quay", Scale.of(0, 1, 4, 5, 7, 9, 11), "evening course", "the teacher"),))
    assert Scale.of(0, 1, 4, 5, 7, 9, 11) in between(MAJOR, Scale.of(0, 1, 3, 5, 7, 8, 10), names=only)[0].scales


@pytest.mark.usefixtures("catalogue_cache")
def test_modes_of_one_set_need_no_change():
    (chain,) = between(MAJOR, Scale.of(9, 11, 0, 2, 4, 5, 7))
    assert chain.moves == ()


@pytest.mark.usefixtures("catalogue_cache")
def test_other_divisions_have_chains_too():
    start, end = Scale.of(0, 5, 11, divisions=19), Scale.of(0, 6, 10, divisions=19)
    assert [len(chain.moves) for chain in between(start, end)] == [2, 2]


@pytest.mark.usefixtures("catalogue_cache")
def test_what_has_no_chain_is_explained():
    with pytest.raises(InputError, match="never adds or removes"):
        between(MAJOR, Scale.of(0, 4, 7))
    with pytest.raises(InputError, match="12 and 19 divisions"):
        between(MAJOR, Scale.of(*range(7), divisions=19))
    with pytest.raises(InputError, match="without its root"):
        between(MAJOR, Scale(0b11111110))
    with pytest.raises(DomainError, match="too many chains"):
        between(Scale.of(*range(12), divisions=48), Scale.of(*range(24, 36), divisions=48))
    with pytest.raises(DomainError, match="too many chains"):
        between(Scale.of(*range(0, 48, 4), divisions=48), Scale.of(*range(2, 48, 4), divisions=48))
