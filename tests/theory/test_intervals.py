"""Intervals and common tones against published tables, theorems and slow definitions."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.intervals import (
    common_tones_inversion,
    common_tones_transposition,
    hemitonic_word,
    interval_class,
    is_deep,
    pairs_by_interval_class,
    pairs_of_class,
    rare_intervals,
    semitone_runs,
    tones_without_fifth,
)
from gamutwright.theory.pcset import forte_label, interval_class_vector
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
PENTATONIC = Scale.of(0, 2, 4, 7, 9)
WHOLE_TONE = Scale.of(0, 2, 4, 6, 8, 10)
EVERY_SET = [Scale(mask) for mask in range(4096)]

scales = st.integers(1, 40).flatmap(
    lambda n: st.builds(lambda tones: Scale(sum(1 << t for t in tones), n), st.sets(st.integers(0, n - 1)))
)


@given(scales)
def test_pairs_make_up_the_vector(scale: Scale) -> None:
    pairs = pairs_by_interval_class(scale)
    assert sorted(pair for _, pair in pairs) == sorted(combinations(scale.tones, 2))
    assert [of_class for of_class, _ in pairs] == sorted(of_class for of_class, _ in pairs)
    vector = tuple(len(pairs_of_class(scale, k)) for k in range(1, scale.divisions // 2 + 1))
    assert vector == interval_class_vector(scale)


@given(scales)
def test_common_tones_under_transposition_by_moving_the_tones(scale: Scale) -> None:
    n, here = scale.divisions, set(scale.tones)
    moved = [{(tone + k) % n for tone in here} for k in range(1, n)]
    assert common_tones_transposition(scale) == tuple(len(here & there) for there in moved)


@given(scales)
def test_common_tones_under_inversion_by_counting_sums(scale: Scale) -> None:
    """Rahn 1980: as many as ordered pairs of tones, repetitions included, whose sum is the index."""
    sums = [(x + y) % scale.divisions for x, y in product(scale.tones, repeat=2)]
    assert common_tones_inversion(scale) == tuple(sums.count(k) for k in range(scale.divisions))


def test_index_vector_of_the_major_triad() -> None:
    """By hand: C+C 0, C+E 4 twice, C+G 7 twice, E+E 8, E+G 11 twice, G+G 2."""
    assert common_tones_inversion(Scale.of(0, 4, 7)) == (1, 0, 1, 0, 2, 0, 0, 2, 1, 0, 0, 2)


def test_common_tones_of_the_diatonic() -> None:
    """Johnson 2003, 42, as copied in Wikipedia, "Common tone"; its tritone entry 1 is mended by the rule of Straus."""
    assert common_tones_transposition(MAJOR)[:6] == (2, 5, 4, 3, 6, 2)


@pytest.mark.exhaustive
def test_the_complement_theorem() -> None:
    """Forte 1973, from memory: complements differ by n - 2d in each entry, by half of it in the last."""
    for scale in EVERY_SET:
        more = 12 - 2 * scale.cardinality
        mine, others = interval_class_vector(scale), interval_class_vector(scale.complement())
        assert others == (*(often + more for often in mine[:5]), mine[5] + more // 2)


@pytest.mark.exhaustive
def test_the_hexachord_theorem() -> None:
    """Lewin 1960, from memory: a hexachord and its complement have the same intervals."""
    hexachords = [scale for scale in EVERY_SET if scale.cardinality == 6]
    assert len(hexachords) == 924
    for scale in hexachords:
        assert interval_class_vector(scale) == interval_class_vector(scale.complement())


@pytest.mark.exhaustive
def test_deep_classes_of_twelve() -> None:
    """Gamer 1967 and Browne 1981, from memory: chromatic and diatonic six and seven tones, and no others."""
    assert {forte_label(scale) for scale in EVERY_SET if is_deep(scale)} == {"6-1", "6-32", "7-1", "7-35"}


def test_deep_scales_are_generated_beyond_twelve() -> None:
    """A published set of thirteen tones in 25 divisions, after a transcription of Forte's notation."""
    assert is_deep(Scale.of(0, 2, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, divisions=25))
    assert not is_deep(WHOLE_TONE)


def test_rare_intervals() -> None:
    """Browne 1981, from memory: the tritone is the rare interval of the diatonic set."""
    assert rare_intervals(MAJOR) == (6,)
    assert rare_intervals(Scale.of(0, 3, 6)) == (6,)
    assert rare_intervals(Scale.of(0)) == ()


@given(st.integers(0, 4095))
def test_rare_intervals_by_counting_pairs(mask: int) -> None:
    scale = Scale(mask)
    classes = [interval_class(high - low, 12) for low, high in combinations(scale.tones, 2)]
    often = {of_class: classes.count(of_class) for of_class in classes}
    assert rare_intervals(scale) == tuple(sorted(c for c in often if often[c] == min(often.values())))


# Vocabulary of scales: common practice, no source; hirajoshi is hemitonic in Wikipedia, "Hirajoshi scale".
@pytest.mark.parametrize(
    ("tones", "word", "runs"),
    [
        ((0, 2, 4, 7, 9), "anhemitonic", ()),
        ((0, 2, 3, 7, 8), "hemitonic", ()),
        ((0, 2, 4, 5, 7, 9, 11), "hemitonic", ()),
        ((0, 1, 5, 7, 8, 11), "hemitonic", ((11, 0, 1),)),
        ((0, 3, 5, 6, 7, 10), "hemitonic", ((5, 6, 7),)),
        ((), "anhemitonic", ()),
    ],
)
def test_hemitonic_word(tones: tuple[int, ...], word: str, runs: tuple[tuple[int, int, int], ...]) -> None:
    scale = Scale.of(*tones)
    assert hemitonic_word(scale) == word
    assert semitone_runs(scale) == runs


@pytest.mark.exhaustive
def test_semitone_runs_by_reading_the_steps_round() -> None:
    for scale in EVERY_SET[1:]:
        steps = scale.step_pattern
        twos = sum(one == other == 1 for one, other in zip(steps, (*steps[1:], steps[0]), strict=True))
        assert len(semitone_runs(scale)) == (twos if len(steps) > 1 else 0)


def test_only_the_seventh_degree_of_major_lacks_a_fifth() -> None:
    """Common practice, no source."""
    assert tones_without_fifth(MAJOR) == (11,)
    assert tones_without_fifth(Scale.of(*range(12))) == ()
    assert tones_without_fifth(WHOLE_TONE) == WHOLE_TONE.tones


@pytest.mark.parametrize("notion", [tones_without_fifth, semitone_runs, hemitonic_word])
def test_what_belongs_to_twelve_divisions_refuses_others(notion: object) -> None:
    assert callable(notion)
    with pytest.raises(DomainError, match="twelve divisions"):
        notion(Scale.of(0, 2, 4, divisions=19))
