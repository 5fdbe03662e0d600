"""Each rule is kept by a printed cantus firmus and by plain tunes, and broken by what it forbids."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import music21
import pytest

from gamutwright.ir.playing import Metre
from gamutwright.music.piece import step_of
from gamutwright.music.rules import RULES, Melody, broken_rules, is_singable, is_strong, is_sung_leap
from gamutwright.music.tune import METRES, plain_tune
from gamutwright.music.written import pitch_of
from gamutwright.theory.scale import Scale

DORIAN = Scale.of(2, 4, 5, 7, 9, 11, 0)
KEPT_BY_A_CANTUS = [
    "fux_keeps_within_a_tenth",
    "fux_leaps_by_singable_intervals",
    "jeppesen_comes_home_by_step",
    "jeppesen_has_one_climax",
    "jeppesen_moves_mostly_by_step",
    "jeppesen_recovers_its_leaps",
    "jeppesen_repeats_no_tone",
    "common_turns_in_time",
    "common_begins_on_a_tone_of_the_tonic",
]
RULE = {rule.id: rule for rule in RULES}

PLAIN = Melody(
    DORIAN,
    Metre(4, 4),
    4,
    (0, 12, 24, 36, 48, 60, 72, 96, 108, 120, 132, 144, 156, 168),
    (12, 12, 12, 12, 12, 12, 24, 12, 12, 12, 12, 12, 12, 24),
    (0, 1, 2, 3, 4, 6, 5, 0, 1, 2, 3, 2, 1, 0),
    (9,),
)


def sung(*degrees: int) -> Melody:
    """A melody of whole notes, all in its first half."""
    return Melody(DORIAN, Metre(4, 4), 40, tuple(48 * k for k in range(len(degrees))), (48,) * len(degrees), degrees)


@pytest.mark.parametrize("name", KEPT_BY_A_CANTUS)
def test_the_dorian_cantus_firmus_of_fux_keeps_the_rules_drawn_from_such(name: str):
    """D F E D G F A G F E D (Fux, Gradus ad Parnassum, 1725, from memory)."""
    assert RULE[name].holds(sung(0, 2, 1, 0, 3, 2, 4, 3, 2, 1, 0))


def test_a_plain_tune_breaks_none():
    assert broken_rules(PLAIN) == ()


def changed(number: int, degree: int) -> Melody:
    degrees = list(PLAIN.degrees)
    degrees[number] = degree
    return replace(PLAIN, degrees=tuple(degrees))


FORBIDDEN = [
    ("fux_ends_at_home", changed(-1, 2)),
    ("fux_ends_at_home", replace(PLAIN, starts=(*PLAIN.starts[:-1], 180), lengths=(*PLAIN.lengths[:-2], 24, 12))),
    ("fux_ends_at_home", replace(PLAIN, lengths=(*PLAIN.lengths[:-1], 12))),
    ("fux_keeps_within_a_tenth", changed(5, 10)),
    ("fux_leaps_by_singable_intervals", sung(2, 5, 4)),
    ("fux_leaps_by_singable_intervals", sung(0, 6, 5)),
    ("fux_leaps_by_singable_intervals", sung(0, 8, 7)),
    ("jeppesen_comes_home_by_step", changed(-2, 2)),
    ("jeppesen_has_one_climax", changed(7, 6)),
    ("jeppesen_has_one_climax", sung(0, 1, 2)),
    ("jeppesen_moves_mostly_by_step", sung(0, 2, 1, 3, 2)),
    ("jeppesen_recovers_its_leaps", sung(0, 2, 3)),
    ("jeppesen_recovers_its_leaps", sung(4, 2, 1)),
    ("jeppesen_recovers_its_leaps", sung(0, 1, 3)),
    ("jeppesen_repeats_no_tone", changed(1, 0)),
    ("common_turns_in_time", sung(0, 1, 2, 3, 4, 5, 6)),
    ("common_begins_on_a_tone_of_the_tonic", changed(0, 1)),
    ("common_sounds_the_whole_scale", changed(5, 4)),
    ("persichetti_holds_its_colour_on_strong_beats", replace(PLAIN, colour=(10,))),
    ("persichetti_holds_its_colour_on_strong_beats", changed(6, 4)),
    ("caplin_answers_its_first_half", changed(6, 7)),
    ("caplin_answers_its_first_half", replace(PLAIN, lengths=(12,) * 13 + (24,))),
    (
        "caplin_answers_its_first_half",
        replace(
            PLAIN,
            starts=(*PLAIN.starts[:8], 114, *PLAIN.starts[9:]),
            lengths=(*PLAIN.lengths[:7], 18, 6, *PLAIN.lengths[9:]),
        ),
    ),
]


@pytest.mark.parametrize(("name", "melody"), FORBIDDEN)
def test_what_a_rule_forbids_breaks_it(name: str, melody: Melody):
    assert name in {rule.id for rule in broken_rules(melody)}


def test_every_rule_can_be_broken_and_says_what_it_asks():
    assert {name for name, _ in FORBIDDEN} == set(RULE)
    for rule in RULES:
        assert rule.source
        assert rule.words.endswith(".")
        assert rule.id.split("_")[0] in {"fux", "jeppesen", "persichetti", "caplin", "common"}


def test_strong_beats():
    """Kostka and Payne, Tonal Harmony, chapter 2, from memory: first and third of four, first of three, both of six."""
    assert [start for start in range(0, 48, 12) if is_strong(Metre(4, 4), start)] == [0, 24]
    assert [start for start in range(0, 72, 12) if is_strong(Metre(3, 4), start)] == [0, 36]
    assert [start for start in range(0, 36, 6) if is_strong(Metre(6, 8), start)] == [0, 18]


def test_a_leap_of_a_tritone_is_not_sung_in_any_division():
    assert [size for size in range(1, 20) if not is_singable(size, 19)] == [9, 10, 14, 15, 16, 17, 18]
    assert is_singable(19, 19)
    assert not is_singable(20, 19)


def test_a_leap_is_judged_by_its_letters_too():
    """Names of intervals by music21: of scales spelled with seven letters, and of five and six tones spelled from C."""
    for tones in (
        (0, 2, 4, 6, 7, 9, 10),
        (0, 2, 3, 5, 7, 8, 11),
        (0, 1, 4, 5, 7, 9, 10),
        (0, 3, 5, 6, 7, 10),
        (0, 4, 8),
    ):
        scale = Scale.of(*tones)
        named = [pitch_of(scale, step_of(scale, degree)) for degree in range(3 * len(tones))]
        heard = [music21.pitch.Pitch(f"{one.name.replace('b', '-')}{one.octave}") for one in named]
        for low, high in combinations(range(len(tones) * 2), 2):
            interval = music21.interval.Interval(heard[low], heard[high])
            sung = interval.name in {"m2", "M2", "m3", "M3", "P4", "P5", "m6", "P8"}
            assert is_sung_leap(scale, low, high) == is_sung_leap(scale, high, low) == sung, interval.name


def test_a_cluster_that_leaves_no_other_way_leaps_by_size():
    """Of its thirds two are minor, no fourth and no fifth is perfect."""
    cluster = Scale.of(0, 2, 3, 4, 5, 6, 8)
    assert [degree for degree in range(7) if is_sung_leap(cluster, degree, degree + 2)] == [0, 1, 2, 3, 4]
    assert broken_rules(plain_tune(cluster, METRES["3/4"], 4, 2)) == ()


def test_an_augmented_fifth_is_no_minor_sixth_in_other_divisions_either():
    """The major scale of nineteen with a raised fifth: from C to G sharp twelve steps, to A flat thirteen."""
    raised = Scale.of(0, 3, 6, 8, 12, 14, 17, divisions=19)
    assert not is_sung_leap(raised, 0, 4)
    assert is_sung_leap(Scale.of(0, 3, 5, 8, 11, 13, 16, divisions=19), 0, 5)
