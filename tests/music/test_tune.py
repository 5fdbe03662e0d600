"""Tunes of many scales keep every rule, and scales can be told apart by them."""

from __future__ import annotations

import random
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.music.piece import step_of
from gamutwright.music.rules import Melody, broken_rules
from gamutwright.music.tune import BARS, METRES, plain_tune, played_in, tuneful_colour
from gamutwright.theory.character import Relation, nearest_relative
from gamutwright.theory.scale import Scale

ROOTED = [Scale(mask) for mask in range(1, 4096, 2) if Scale(mask).cardinality >= 3]
SAMPLE = random.Random(1).sample(ROOTED, 60)  # noqa: S311 - repeatable, no secret
MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)


def sung_alike(melody: Melody) -> tuple[tuple[int, int], ...]:
    """Its intervals and its rhythm: what stays when it is sung on another note."""
    steps = [step_of(melody.scale, degree) for degree in melody.degrees]
    return tuple((step - steps[0], length) for step, length in zip(steps, melody.lengths, strict=True))


def share_alike(melodies: list[Melody]) -> float:
    counts = Counter(sung_alike(melody) for melody in melodies)
    return sum(count * (count - 1) for count in counts.values()) / (len(melodies) * (len(melodies) - 1))


@pytest.mark.parametrize("scale", SAMPLE, ids=lambda scale: scale.bits)
def test_the_tune_of_a_scale_breaks_no_rule(scale: Scale):
    melody = plain_tune(scale)
    assert broken_rules(melody) == ()
    assert set(melody.tones) <= set(scale.tones)
    assert melody.colour == tuneful_colour(scale, melody.metre, melody.bars)


@pytest.mark.parametrize("metre", METRES)
@pytest.mark.parametrize("bars", BARS)
@pytest.mark.parametrize("version", [1, 2, 3])
def test_every_metre_and_length(metre: str, bars: int, version: int):
    for scale in (MAJOR, MAJOR.mode(2), Scale.of(0, 3, 5, 6, 7, 10), Scale.of(0, 4, 7), Scale(4095)):
        melody = plain_tune(scale, METRES[metre], bars, version)
        assert broken_rules(melody) == ()
        assert melody.starts[0] == 0


@pytest.mark.long
@pytest.mark.parametrize("version", [1, 2, 3])
@pytest.mark.parametrize(("metre", "bars"), [(metre, bars) for metre in METRES for bars in BARS])
def test_every_scale_has_a_tune(metre: str, bars: int, version: int):
    """All 2,048 sets of twelve notes with their root; those without are of one tone or two."""
    melodies = [plain_tune(scale, METRES[metre], bars, version) for scale in ROOTED]
    assert len(melodies) == 2048 - 12
    assert all(broken_rules(melody) == () for melody in melodies)
    assert share_alike(melodies) <= 0.05


def test_tunes_of_different_scales_are_not_sung_alike():
    assert share_alike([plain_tune(scale) for scale in SAMPLE]) <= 0.05


@pytest.mark.parametrize("divisions", [5, 7, 19, 22, 31])
def test_other_divisions(divisions: int):
    chance = random.Random(divisions)  # noqa: S311 - as above
    for _ in range(8):
        count = chance.randint(3, min(divisions, 12))
        tones = sorted(chance.sample(range(1, divisions), count - 1))
        scale = Scale.of(0, *tones, divisions=divisions)
        for metre in METRES.values():
            assert broken_rules(plain_tune(scale, metre)) == ()


@settings(max_examples=60, deadline=None)
@given(
    st.integers(0, 4095), st.integers(0, 11), st.integers(1, 50), st.sampled_from(list(METRES)), st.sampled_from(BARS)
)
def test_any_set_has_a_tune_or_is_too_small(mask: int, root: int, version: int, metre: str, bars: int):
    scale = Scale(mask, root=root)
    if scale.cardinality < 3:
        with pytest.raises(DomainError, match="three tones"):
            plain_tune(scale, METRES[metre], bars, version)
        return
    melody = plain_tune(scale, METRES[metre], bars, version)
    assert broken_rules(melody) == ()
    # The same on every root, and every time.
    elsewhere = plain_tune(Scale(mask, root=(root + 5) % 12), METRES[metre], bars, version)
    assert (melody.degrees, melody.lengths) == (elsewhere.degrees, elsewhere.lengths)


KEPT_IN_BOTH = {
    "dorian": MAJOR.mode(2),
    "phrygian": MAJOR.mode(3),
    "lydian": MAJOR.mode(4),
    "mixolydian": MAJOR.mode(5),
    "locrian": MAJOR.mode(7),
    "harmonic minor": Scale.of(0, 2, 3, 5, 7, 8, 11),
    "acoustic": Scale.of(0, 2, 4, 6, 7, 9, 10),
}


@pytest.mark.parametrize("name", KEPT_IN_BOTH)
def test_a_tune_keeps_the_rules_in_the_relative_too(name: str):
    """E phrygian has G F C for a fifth lower where E minor would have F sharp and a tritone."""
    scale = KEPT_IN_BOTH[name]
    relative = nearest_relative(scale)
    assert relative is not None
    for version in range(1, 7):
        for metre in METRES.values():
            assert broken_rules(played_in(plain_tune(scale, metre, 4, version), relative.scale)) == ()


@pytest.mark.long
def test_every_scale_with_changed_tones_has_a_tune_that_keeps_the_rules_in_both():
    found = [(scale, nearest_relative(scale)) for scale in ROOTED]
    changed = [(scale, beside.scale) for scale, beside in found if beside and beside.relation is Relation.CHANGED]
    assert len(changed) > 400
    kept = sum(not broken_rules(played_in(plain_tune(scale), beside)) for scale, beside in changed)
    assert kept == len(changed)


def test_the_second_half_begins_near_the_first_and_not_on_its_last_note():
    """A breath is no leap, but the ear bridges it (common practice, no source)."""
    halves = [plain_tune(scale, version=version).halves for scale in SAMPLE for version in (1, 2)]
    breaths = [abs(two[0] - one[-1]) for one, two in halves]
    assert sum(breath == 0 for breath in breaths) <= 0.05 * len(breaths)
    assert sum(breath > 4 for breath in breaths) <= 0.05 * len(breaths)


def test_versions_differ():
    tunes = {plain_tune(MAJOR, version=version).degrees for version in range(1, 9)}
    assert len(tunes) >= 7


@pytest.mark.parametrize(
    ("scale", "colour"),
    [
        (MAJOR.mode(2), (9,)),
        (MAJOR.mode(3), (1,)),
        (MAJOR.mode(4), (6,)),
        (MAJOR.mode(5), (10,)),
    ],
)
def test_the_tone_that_makes_a_mode_is_held_on_a_strong_beat(scale: Scale, colour: tuple[int, ...]):
    """Dorian 6, phrygian flat 2, lydian sharp 4, mixolydian flat 7 (Persichetti 1961, chapter 2, from memory)."""
    melody = plain_tune(scale)
    assert melody.colour == colour
    held = [
        length
        for start, length, tone in zip(melody.starts, melody.lengths, melody.tones, strict=True)
        if tone == colour[0] and start % 24 == 0
    ]
    assert max(held) >= 12


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: plain_tune(Scale.of(0, 7)), "a tune from 2 tones"),
        (lambda: plain_tune(Scale.of(0)), "from a single tone:"),
        (lambda: plain_tune(MAJOR, bars=5), "4 or 8 bars"),
    ],
)
def test_what_has_no_tune_is_told_why(call: object, words: str):
    with pytest.raises(DomainError, match=words):
        call()  # type: ignore[operator]
