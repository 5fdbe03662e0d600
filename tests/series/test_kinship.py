"""How scales are related, against slow definitions, music21, and textbook examples."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from music21 import chord

from gamutwright.series.kinship import KinIndex, Kinship, kinship, transposition_class
from gamutwright.theory.scale import Scale

TWELVE = st.builds(Scale, st.integers(1, 4095), st.just(12), st.integers(0, 11))
ROOTED = st.builds(Scale, st.integers(0, 2047).map(lambda half: 2 * half + 1), st.just(12), st.integers(0, 11))


@st.composite
def pairs(draw: st.DrawFn) -> tuple[Scale, Scale]:
    """Two scales of one division that are often related: moved, turned over, from another tone, one tone moved."""
    n = draw(st.integers(3, 19))
    scale = Scale(draw(st.integers(1, (1 << n) - 1)), n, draw(st.integers(0, n - 1)))
    match draw(st.sampled_from(["free", "transposed", "mode", "inverted", "moved"])):
        case "free":
            other = Scale(draw(st.integers(1, (1 << n) - 1)), n)
        case "transposed":
            other = scale
        case "mode":
            other = scale.mode(draw(st.integers(1, scale.cardinality)))
        case "inverted":
            other = scale.inverted()
        case _:
            tone, step = draw(st.sampled_from(scale.tones)), draw(st.sampled_from((-1, 1)))
            tones = set(scale.tones) - {tone} | {(tone + step) % n}
            other = Scale(sum(1 << t for t in tones), n, scale.root)
    return scale, other.transposed(draw(st.sampled_from([0, 0, 1, 5])))


def _pcs(scale: Scale) -> frozenset[int]:
    return frozenset(scale.pitch_classes)


def _smallest_voice_leading(start: frozenset[int], end: frozenset[int], n: int) -> int:
    """Tymoczko 2011, from memory: the least sum of distances over all bijections."""
    first = sorted(start)
    return min(
        sum(min((a - b) % n, (b - a) % n) for a, b in zip(first, order, strict=True)) for order in permutations(end)
    )


def _slow(scale: Scale, other: Scale) -> Kinship | None:
    """The kinds by their definitions on sets of pitch classes (Forte 1973, Rahn 1980, from memory)."""
    n, ours, theirs = scale.divisions, _pcs(scale), _pcs(other)
    above = frozenset((x - scale.root) % n for x in ours)
    theirs_above = frozenset((x - other.root) % n for x in theirs)
    if above == theirs_above:
        return Kinship.SAME if scale.root == other.root else Kinship.TRANSPOSITION
    if ours == theirs:
        return Kinship.MODE
    if any(frozenset((x + k) % n for x in theirs) == ours for k in range(n)):
        return Kinship.CLASS_MODE
    if any(frozenset((k - x) % n for x in theirs) == ours for k in range(n)):
        return Kinship.INVERSION
    if len(ours) == len(theirs):
        if _smallest_voice_leading(theirs_above, above, n) == 1:
            return Kinship.ONE_STEP
        if _smallest_voice_leading(theirs, ours, n) == 1:
            return Kinship.ONE_STEP_SETS
    return None


class TestKinship:
    @settings(max_examples=250, deadline=None)
    @given(pairs().filter(lambda pair: pair[0].cardinality <= 6))
    def test_agrees_with_the_slow_definitions(self, pair: tuple[Scale, Scale]) -> None:
        scale, other = pair
        found = kinship(scale, other)
        assert (found.kind if found else None) == _slow(scale, other)

    @given(pairs())
    def test_what_is_said_of_the_way_there_is_true(self, pair: tuple[Scale, Scale]) -> None:
        scale, other = pair
        found, n = kinship(scale, other), scale.divisions
        if found is None:
            return
        ours, theirs = _pcs(scale), _pcs(other)
        if found.kind is Kinship.INVERSION:
            assert frozenset((found.steps - x) % n for x in theirs) == ours
        elif found.steps is not None:
            assert frozenset((x + found.steps) % n for x in theirs) == ours
        else:
            tone, place = found.moved
            start, end = (theirs, ours) if found.kind is Kinship.ONE_STEP_SETS else map(set, (other.tones, scale.tones))
            assert start - {tone} | {place} == end
            assert tone not in end

    @given(pairs())
    def test_is_mutual(self, pair: tuple[Scale, Scale]) -> None:
        there, back = kinship(*pair), kinship(*reversed(pair))
        assert (there and there.kind) == (back and back.kind)

    @settings(deadline=None)
    @given(TWELVE, TWELVE, st.booleans())
    def test_set_classes_agree_with_music21(self, scale: Scale, other: Scale, is_inverted: bool) -> None:
        """music21 labels a set class under transposition `forteClassTn`, under inversion too `forteClassTnI`."""
        if is_inverted:
            other = scale.inverted().transposed(other.root)
        one, two = (chord.Chord(sorted(s.pitch_classes)) for s in (scale, other))
        found = kinship(scale, other)
        kind = found.kind if found else None
        alike = {Kinship.SAME, Kinship.TRANSPOSITION, Kinship.MODE, Kinship.CLASS_MODE}
        assert (kind in alike) == (one.forteClassTn == two.forteClassTn)
        assert (kind in alike | {Kinship.INVERSION}) == (one.forteClassTnI == two.forteClassTnI)

    @pytest.mark.parametrize(
        ("one", "two", "kind"),
        [
            # Church modes as any rudiments text gives them, from memory.
            ((2, 4, 5, 7, 9, 11, 0), (4, 5, 7, 9, 11, 0, 2), Kinship.MODE),  # D dorian, E phrygian
            ((0, 2, 4, 5, 7, 9, 11), (7, 9, 11, 0, 2, 4, 6), Kinship.TRANSPOSITION),  # C major, G major
            ((0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 8, 10), Kinship.CLASS_MODE),  # C major, C minor
            # Harmonic major is the inversion of harmonic minor: common theory, from memory.
            ((0, 2, 3, 5, 7, 8, 11), (0, 2, 4, 5, 7, 8, 11), Kinship.INVERSION),
            # Dorian and ascending melodic minor differ in the seventh: any rudiments text, from memory.
            ((2, 4, 5, 7, 9, 11, 0), (2, 4, 5, 7, 9, 11, 1), Kinship.ONE_STEP),
            # Major and minor triad are inversions; C major to E minor moves one tone by a semitone, but is nearer so.
            ((0, 4, 7), (4, 7, 11), Kinship.INVERSION),
            # C harmonic minor raises one tone of its relative major, E flat: any rudiments text, from memory.
            ((0, 2, 3, 5, 7, 8, 11), (3, 5, 7, 8, 10, 0, 2), Kinship.ONE_STEP_SETS),
            # The major triad to the augmented one: Cohn 1996, from memory.
            ((0, 4, 7), (0, 4, 8), Kinship.ONE_STEP),
            ((0, 4, 7), (0, 3, 6, 9), None),
        ],
    )
    def test_textbook_pairs(self, one: tuple[int, ...], two: tuple[int, ...], kind: Kinship | None) -> None:
        found = kinship(Scale.of(*one), Scale.of(*two))
        assert (found.kind if found else None) == kind

    def test_divisions_do_not_mix(self) -> None:
        assert kinship(Scale.of(0, 4, 7), Scale.of(0, 4, 7, divisions=13)) is None


@pytest.mark.exhaustive
def test_twelve_notes_have_351_transposition_classes() -> None:
    """352 with the empty set: OEIS A000031, and A035495 by number of tones."""
    sizes = [len({transposition_class(Scale(m)) for m in range(4096) if m.bit_count() == k}) for k in range(13)]
    assert sizes == [1, 1, 6, 19, 43, 66, 80, 66, 43, 19, 6, 1, 1]


@settings(max_examples=60)
@given(st.lists(st.one_of(ROOTED, TWELVE), min_size=1, max_size=25), ROOTED)
def test_the_index_finds_what_comparing_all_finds(others: list[Scale], scale: Scale) -> None:
    family = [scale.mode(1), scale.transposed(5), scale.inverted(), scale.mode(scale.cardinality)]
    index = KinIndex()
    for key, other in enumerate([*others, *family]):
        index.add(key, other)
    found = list(index.near(scale))
    related = {key: kinship(scale, other) for key, other in enumerate([*others, *family])}
    assert dict(found) == {key: relation.kind for key, relation in related.items() if relation}
    order = list(Kinship)
    assert found == sorted(found, key=lambda entry: (order.index(entry[1]), -entry[0]))
