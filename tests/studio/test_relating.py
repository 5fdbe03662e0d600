"""What is one click away: the modes by their names, neighbours by a slow definition, inversion and complement."""

from __future__ import annotations

import itertools

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.studio.relating import MOST_NAMED, comparison_data, relatives
from gamutwright.studio.scalecards import from_bits
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)

SCALES = st.integers(2, 14).flatmap(
    lambda n: st.builds(
        Scale, st.integers(0, 2 ** (n - 1) - 1).map(lambda k: k << 1 | 1), st.just(n), st.integers(0, n - 1)
    )
)


def pitch_classes(told: dict) -> set[int]:
    return {(tone + told["root"]) % told["divisions"] for tone, sign in enumerate(told["bits"]) if sign == "1"}


def test_the_modes_of_the_major_scale_have_their_names_and_steps():
    # Names, order and steps of the church modes: common practice, no source.
    told = [(mode["title"], mode["steps"]) for mode in relatives(MAJOR)["modes"]]
    assert told == [
        ("C major", "2 2 1 2 2 2 1"),
        ("D dorian", "2 1 2 2 2 1 2"),
        ("E phrygian", "1 2 2 2 1 2 2"),
        ("F lydian", "2 2 2 1 2 2 1"),
        ("G mixolydian", "2 2 1 2 2 1 2"),
        ("A natural minor", "2 1 2 2 1 2 2"),
        ("B locrian", "1 2 2 1 2 2 2"),
    ]


def test_modes_that_repeat_are_told_as_such():
    # The octatonic scale has two modes (Messiaen 1944, second mode, from memory).
    modes = relatives(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))["modes"]
    assert [bool(mode["like"]) for mode in modes] == [False, False] + 6 * [True]
    assert {mode["steps"] for mode in modes} == {"1 2 1 2 1 2 1 2", "2 1 2 1 2 1 2 1"}


def test_neighbours_of_the_major_scale():
    titles = {one["move"]: one["title"] for one in relatives(MAJOR)["neighbours"]}
    # Raising the fourth gives lydian, lowering the seventh mixolydian, lowering the third the ascending melodic minor
    # (common practice, no source); the root that moves is followed.
    assert titles["F up to F♯"] == "C lydian"
    assert titles["B down to B♭"] == "C mixolydian"
    assert titles["E down to E♭"] == "C melodic minor"
    assert titles["C up to C♯"].startswith("C sharp")


@given(SCALES)
def test_neighbours_are_all_sets_that_differ_by_one_tone_moved_by_one_step(scale: Scale):
    n, own = scale.divisions, set(scale.pitch_classes)
    slow = {
        frozenset(other)
        for other in ({*own - {tone}, (tone + by) % n} for tone in own for by in (1, -1) if (tone + by) % n not in own)
    }
    assert {frozenset(pitch_classes(one)) for one in relatives(scale)["neighbours"]} == slow


@given(SCALES)
def test_every_relative_can_be_looked_at(scale: Scale):
    found = relatives(scale)
    own, n = set(scale.pitch_classes), scale.divisions
    lists = [found[name] for name in ("modes", "neighbours", "inside", "around", "roots")]
    for one in [*itertools.chain(*lists), found["mirror"], *([found["complement"]] if found["complement"] else [])]:
        assert from_bits(one["bits"], one["root"]).bits == one["bits"]
        assert sum(map(int, one["steps"].split())) == n
    assert {frozenset(pitch_classes(one)) for one in found["modes"]} == {frozenset(own)}
    assert len(found["roots"]) == n
    assert pitch_classes(found["mirror"]) == {(2 * scale.root - tone) % n for tone in own}
    assert (pitch_classes(found["complement"]) if found["complement"] else set()) == set(range(n)) - own


def test_mirror_and_complement_are_those_of_another_library():
    for tones in ((0, 2, 4, 5, 7, 9, 11), (0, 1, 4, 6), (0, 2, 3, 5, 7, 9, 11)):
        found = relatives(Scale.of(*tones))
        chord = music21.chord.Chord([60 + tone for tone in tones])
        inverse = music21.chord.Chord([60 + -tone % 12 for tone in tones])
        assert sorted(pitch_classes(found["mirror"])) == sorted(inverse.pitchClasses)
        assert found["complement"]
        assert sorted(pitch_classes(found["complement"])) == sorted(set(range(12)) - set(chord.pitchClasses))


def test_named_scales_inside_and_around():
    found = relatives(MAJOR)
    # The three major pentatonic scales in a major scale stand on its first, fourth and fifth tones (common practice).
    inside = [one["title"] for one in found["inside"] if "major pentatonic" in one["title"]]
    assert inside == ["C major pentatonic", "F major pentatonic", "G major pentatonic"]
    around = [one["title"] for one in relatives(Scale.of(0, 2, 4, 7, 9))["around"]]
    assert {"C lydian", "C mixolydian"} <= set(around)
    everything = relatives(Scale(0b111111111111))
    assert len(everything["inside"]) == MOST_NAMED
    assert everything["more_inside"] > 100
    assert everything["complement"] is None


def test_two_scales_beside_each_other():
    found = comparison_data(MAJOR, Scale.of(0, 2, 3, 5, 7, 8, 10))
    # The parallel minor lowers third, sixth and seventh (common practice, no source).
    assert (found["common"], found["only_one"], found["only_other"]) == ("C D F G", "E A B", "E♭ A♭ B♭")
    assert found["moves"] == ["E to E♭", "A to A♭", "B to B♭"]
    assert found["relations"] == ["C natural minor is a mode of the same scale, its tones moved up by 3."]
    differing = {fact["id"] for fact in found["differ"]}
    assert "step_pattern" in differing
    assert "Interval-class vector" in found["alike"]
    assert not differing & {"interval_class_vector", "cardinality"}
    assert found["other"]["hz"][0] == pytest.approx(261.626, abs=1e-3)  # middle C where A4 is 440 Hz (ISO 16)


def test_what_is_contained_is_said_by_name():
    found = comparison_data(Scale.of(0, 2, 4, 7, 9), MAJOR)
    assert found["relations"] == ["C major pentatonic is a subset of C major."]


def test_scales_of_different_divisions_are_not_compared():
    with pytest.raises(DomainError, match="division"):
        comparison_data(MAJOR, Scale.of(0, 3, divisions=19))
