"""Spectra, Myhill's property and well-formedness against published values, theorems and slow definitions."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import gcd

import pytest

from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import (
    generator_chain,
    generators,
    has_cardinality_equals_variety,
    has_structure_implies_multiplicity,
    interval_sizes,
    is_generated,
    is_myhill,
    is_pairwise_well_formed,
    mean_spectrum_width,
    spectra,
    spectrum_widths,
    well_formedness,
)

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
HARMONIC_MINOR = Scale.of(0, 2, 3, 5, 7, 8, 11)
PENTATONIC = Scale.of(0, 2, 4, 7, 9)
WHOLE_TONE = Scale.of(0, 2, 4, 6, 8, 10)
OCTATONIC = Scale.of(0, 1, 3, 4, 6, 7, 9, 10)
EVERY_SET = [Scale(mask) for mask in range(4096)]


def slow_species(scale: Scale, line: tuple[int, ...]) -> dict[tuple[int, ...], int]:
    """Clough and Myerson 1985: how often each pattern of sizes occurs as a line moves along the scale."""
    tones = scale.tones
    count: dict[tuple[int, ...], int] = {}
    for start in range(len(tones)):
        low = tones[start]
        sizes = tuple((tones[(start + degree) % len(tones)] - low) % scale.divisions for degree in line)
        count[sizes] = count.get(sizes, 0) + 1
    return count


def lines(tones: int) -> list[tuple[int, ...]]:
    """Every set of degrees that starts at 0."""
    return [(0, *rest) for size in range(tones) for rest in combinations(range(1, tones), size)]


def slow_cardinality_equals_variety(scale: Scale) -> bool:
    return all(len(slow_species(scale, line)) == len(line) for line in lines(scale.cardinality))


def slow_structure_implies_multiplicity(scale: Scale) -> bool:
    tones = scale.cardinality

    def gaps(line: tuple[int, ...], unit: int) -> list[int]:
        places = sorted(degree * pow(unit, -1, tones) % tones for degree in line)
        return sorted(
            (after - before) % tones or tones for before, after in zip(places, places[1:] + places[:1], strict=True)
        )

    return any(
        all(sorted(slow_species(scale, line).values()) == gaps(line, unit) for line in lines(tones))
        for unit in range(1, tones)
        if gcd(unit, tones) == 1
    )


def slow_chains(scale: Scale) -> dict[int, list[list[int]]]:
    """Every interval that generates the scale, with the chains, by trying every interval on every tone."""
    found: dict[int, list[list[int]]] = {}
    for step in range(1, scale.divisions):
        for start in scale.tones:
            chain = [(start + step * k) % scale.divisions for k in range(scale.cardinality)]
            if sorted(chain) == list(scale.tones):
                found.setdefault(step, []).append(chain)
    return found


# Wikipedia, "Rothenberg propriety" and "Generic and specific intervals", tables of the diatonic and pentatonic scales.
@pytest.mark.parametrize(
    ("scale", "expected"),
    [
        (MAJOR, ((1, 2), (3, 4), (5, 6), (6, 7), (8, 9), (10, 11))),
        (PENTATONIC, ((2, 3), (4, 5), (7, 8), (9, 10))),
        (Scale.of(0), ()),
        (Scale(0), ()),
    ],
)
def test_spectra_are_the_published_ones(scale: Scale, expected: tuple[tuple[int, ...], ...]) -> None:
    assert spectra(scale) == expected


def test_interval_sizes_are_the_differences_of_the_tones() -> None:
    for scale in (MAJOR, OCTATONIC, Scale.of(3, 4, 9, root=0), Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)):
        tones = scale.tones
        for span, row in enumerate(interval_sizes(scale), start=1):
            assert row == tuple(
                (tones[(i + span) % len(tones)] - tone) % scale.divisions for i, tone in enumerate(tones)
            )


# Clough and Douthett 1991 average the widths so; the values are recomputed, no printed ones were found.
@pytest.mark.parametrize(
    ("scale", "expected"),
    [(MAJOR, Fraction(6, 7)), (PENTATONIC, Fraction(4, 5)), (HARMONIC_MINOR, Fraction(10, 7)), (WHOLE_TONE, 0)],
)
def test_mean_spectrum_width(scale: Scale, expected: Fraction) -> None:
    assert mean_spectrum_width(scale) == expected
    assert sum(spectrum_widths(scale)) == expected * scale.cardinality


# Clough and Myerson 1985; Wikipedia, "Maximal evenness": the whole-tone scale lacks Myhill's property.
def test_myhill_of_the_published_examples() -> None:
    assert is_myhill(MAJOR)
    assert is_myhill(PENTATONIC)
    assert not is_myhill(WHOLE_TONE)
    assert not is_myhill(OCTATONIC)
    assert not is_myhill(Scale.of(0))


@pytest.mark.exhaustive
def test_myhill_and_non_degenerate_well_formed_are_the_same() -> None:
    """The theorem of Carey and Clampitt 1989, proved again by Harasim and others 2020."""
    for scale in EVERY_SET:
        assert is_myhill(scale) == (well_formedness(scale) == "non-degenerate")


@pytest.mark.parametrize("divisions", [5, 7, 11, 13])
def test_the_theorem_holds_in_other_divisions(divisions: int) -> None:
    for mask in range(1 << divisions):
        scale = Scale(mask, divisions)
        assert is_myhill(scale) == (well_formedness(scale) == "non-degenerate")


@pytest.mark.exhaustive
def test_cardinality_equals_variety_by_every_line() -> None:
    """Clough and Myerson 1985: two-tone lines decide. Here all lines are tried, one set of each set of modes."""
    for scale in EVERY_SET:
        if scale.is_rooted and 2 <= scale.cardinality < 9:
            assert has_cardinality_equals_variety(scale) == slow_cardinality_equals_variety(scale)


@pytest.mark.exhaustive
def test_structure_implies_multiplicity_by_every_line() -> None:
    for scale in EVERY_SET:
        if scale.is_rooted and 2 <= scale.cardinality < 8:
            assert has_structure_implies_multiplicity(scale) == slow_structure_implies_multiplicity(scale)


def test_diatonic_triads_come_in_three_species_as_their_structure_says() -> None:
    """Clough and Myerson 1985, the standing example: major 3, minor 3, diminished 1; gaps 3, 3, 1 in the fifths."""
    assert slow_species(MAJOR, (0, 2, 4)) == {(0, 4, 7): 3, (0, 3, 7): 3, (0, 3, 6): 1}
    assert has_cardinality_equals_variety(MAJOR)
    assert has_structure_implies_multiplicity(MAJOR)
    assert not has_structure_implies_multiplicity(WHOLE_TONE)


@pytest.mark.exhaustive
def test_generators_by_trying_every_chain() -> None:
    for scale in EVERY_SET:
        if scale.cardinality < 2:
            assert generators(scale) == ()
            continue
        chains = slow_chains(scale)
        assert generators(scale) == tuple(chains)
        assert is_generated(scale) == bool(chains)
        for step, of_step in chains.items():
            assert list(generator_chain(scale, step)) in of_step


def test_the_diatonic_chain_of_fifths() -> None:
    """Common practice, no source: F C G D A E B."""
    assert generator_chain(MAJOR, 7) == (5, 0, 7, 2, 9, 4, 11)
    assert generators(HARMONIC_MINOR) == ()


# Carey and Clampitt 1989, from memory; the octatonic is not generated and so not well-formed.
@pytest.mark.parametrize(
    ("scale", "expected"),
    [
        (MAJOR, "non-degenerate"),
        (PENTATONIC, "non-degenerate"),
        (WHOLE_TONE, "degenerate"),
        (Scale.of(0, 4, 8), "degenerate"),
        (OCTATONIC, "not well-formed"),
        (HARMONIC_MINOR, "not well-formed"),
        (Scale.of(0, 2, 4, 5, 7, 9), "not well-formed"),
        (Scale.of(0, 7), "non-degenerate"),
        (Scale.of(0), ""),
        (Scale(0), ""),
    ],
)
def test_well_formedness(scale: Scale, expected: str) -> None:
    assert well_formedness(scale) == expected


def test_pairwise_well_formed_scales() -> None:
    """Clampitt 1997, from memory: the pattern a b a c a b a qualifies, and the number of tones is always odd."""
    assert is_pairwise_well_formed(Scale.of(0, 1, 3, 4, 8, 9, 11))
    assert not is_pairwise_well_formed(MAJOR)
    assert not is_pairwise_well_formed(HARMONIC_MINOR)
    found = [scale for scale in EVERY_SET if is_pairwise_well_formed(scale)]
    assert found
    assert all(scale.cardinality % 2 for scale in found)


def slow_pairwise(scale: Scale) -> bool:
    """Write new step sizes, two of them made equal, as a scale of its own division, and ask whether it is Myhill."""
    steps = scale.step_pattern
    letters = sorted(set(steps))
    if len(letters) != 3:
        return False
    for alone in letters:
        for small, large in ((1, 2), (2, 1)):
            sizes = [large if step == alone else small for step in steps]
            tones = [sum(sizes[:k]) for k in range(len(sizes))]
            if not is_myhill(Scale.of(*tones, divisions=sum(sizes))):
                return False
    return True


@pytest.mark.exhaustive
def test_pairwise_well_formed_by_building_the_three_scales() -> None:
    for scale in EVERY_SET:
        assert is_pairwise_well_formed(scale) == slow_pairwise(scale)
