"""Rows about set classes, intervals, symmetry, similarity, spectra, evenness and coherence."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from gamutwright.theory.coherence import differences, most_differences, most_failures
from gamutwright.theory.counting import bracelet_counts, necklace_counts
from gamutwright.theory.distance import asim, percent_rel2, rel_tn, rel_tni, sim, subset_class_counts
from gamutwright.theory.evenness import is_maximally_even, is_second_order_maximally_even, maximally_even_set
from gamutwright.theory.intervals import common_tones_transposition, is_deep
from gamutwright.theory.pcset import (
    class_from_label,
    forte_label,
    interval_class_vector,
    prime_form,
    prime_form_rahn,
    z_partner,
)
from gamutwright.theory.propriety import propriety
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.spectra import is_myhill, spectra, well_formedness
from gamutwright.theory.symmetry import reflection_axes, rotational_symmetry, transposition_count
from published.row import Handler, Row

__all__ = ["HANDLERS"]

EVERY_SET = [Scale(mask) for mask in range(4096)]
TRICHORDS = [class_from_label(f"3-{ordinal}") for ordinal in range(1, 13)]


def same(row: Row, ours: object, printed: object) -> None:
    """Ours equals what is printed, and differs from it in a row on record as a misprint."""
    assert (ours == printed) is not row.is_misprint, ours


def numbers(function: Callable[[Scale], tuple[int, ...]]) -> Callable[[Row], None]:
    return lambda row: same(row, function(row.scale), row.expected_ints)


def number(function: Callable[[Scale], int]) -> Callable[[Row], None]:
    return lambda row: same(row, function(row.scale), int(row.expected))


def verdict(function: Callable[[Scale], bool]) -> Callable[[Row], None]:
    return lambda row: same(row, function(row.scale), {"yes": True, "no": False}[row.expected])


def last_number(row: Row) -> int:
    return int(re.findall(r"\d+", row.property)[-1])


def distinct_vectors(row: Row) -> None:
    vectors = {size: set() for size in range(4, 9)}
    for scale in EVERY_SET:
        if scale.cardinality in vectors:
            vectors[scale.cardinality].add(interval_class_vector(scale))
    same(row, tuple(map(len, vectors.values())), row.expected_ints)


def forms_that_differ(row: Row) -> None:
    differing = {prime_form(scale) for scale in EVERY_SET if prime_form(scale) != prime_form_rahn(scale)}
    same(row, len(differing), int(row.expected))


def z_related(row: Row) -> None:
    labels = set(row.property.split()[1].split("|"))
    same(row, {forte_label(row.scale), z_partner(row.scale)}, labels)
    one, other = (Scale.of(*class_from_label(label)) for label in sorted(labels))
    assert interval_class_vector(one) == interval_class_vector(other)
    assert prime_form(one) != prime_form(other)


def z_pairs(row: Row) -> None:
    pairs = {frozenset((forte_label(scale), z_partner(scale))) for scale in EVERY_SET[1:] if z_partner(scale)}
    same(row, len(pairs), int(row.expected))


def least_mask(tones: tuple[int, ...], sign: int = 1) -> int:
    mask = sum(1 << sign * tone % 12 for tone in tones)
    return min(rotated_mask(mask, steps, 12) for steps in range(12))


def trichords_under_transposition(row: Row) -> None:
    """Nuno 2020: each trichord class in Forte's order, a chiral one as its prime form and then its inversion."""
    types: list[int] = []
    for tones in TRICHORDS:
        types += dict.fromkeys((least_mask(tones), least_mask(tones, -1)))
    counts = subset_class_counts(row.scale, 3, inversions=False)
    same(row, tuple(counts[mask] for mask in types), row.expected_ints)


def trichords_under_inversion(row: Row) -> None:
    counts = subset_class_counts(row.scale, 3, inversions=True)
    classes = [min(least_mask(tones), least_mask(tones, -1)) for tones in TRICHORDS]
    same(row, tuple(counts[mask] for mask in classes), row.expected_ints)


def symmetric_trichords(row: Row) -> None:
    same(row, tuple(int(reflection_axes(Scale.of(*tones)) > 0) for tones in TRICHORDS), row.expected_ints)


def other_set(row: Row) -> Scale:
    inside = re.search(r"\{(.*)\}", row.property)
    assert inside
    return Scale.of(*map(int, inside[1].split()))


def exactly(index: Callable[[Scale, Scale], Fraction | int | None]) -> Callable[[Row], None]:
    return lambda row: same(row, index(row.scale, other_set(row)), Fraction(row.expected))


def rel_rounded(row: Row) -> None:
    value = rel_tni(row.scale, other_set(row))
    assert value is not None
    same(row, round(value, 3), float(row.expected))


def rel_truncated(row: Row) -> None:
    value = rel_tn(row.scale, other_set(row))
    assert value is not None
    same(row, int(value * 1000) / 1000, float(row.expected))


def common_tones(row: Row) -> None:
    steps = re.match(r"common_tones_T(\d+)", row.property)
    assert steps
    same(row, common_tones_transposition(row.scale)[int(steps[1]) - 1], int(row.expected))


def evenness_formula(row: Row) -> None:
    same(row, maximally_even_set(*map(int, re.findall(r"\d+", row.property))), row.expected_ints)


def well_formed(row: Row) -> None:
    same(row, well_formedness(row.scale).replace("-", ""), row.expected)


def printed_spectra(row: Row) -> None:
    same(row, "|".join(",".join(map(str, sizes)) for sizes in spectra(row.scale)), row.expected)


def deep_classes(row: Row) -> None:
    same(row, {forte_label(scale) for scale in EVERY_SET if is_deep(scale)}, set(row.expected.split()))


def well_formed_differences(row: Row) -> None:
    tones = row.scale.cardinality
    assert tones * (tones**2 - 1) // 6 == int(row.expected)
    same(row, differences(row.scale), int(row.expected))


HANDLERS: list[Handler] = [
    (re.compile(pattern), check)
    for pattern, check in (
        (r"bracelets_total .*", lambda row: same(row, sum(bracelet_counts(row.divisions)), int(row.expected))),
        (r"necklaces_total .*", lambda row: same(row, sum(necklace_counts(row.divisions)), int(row.expected))),
        (r"TI_classes_per_cardinality", lambda row: same(row, bracelet_counts(row.divisions), row.expected_ints)),
        (r"TI classes total mod 7", lambda row: same(row, sum(bracelet_counts(7)), int(row.expected))),
        (r"IV_count_distinct_per_card_4\.\.8", distinct_vectors),
        (r"prime_form_forte .*", numbers(prime_form)),
        (r"prime_form_rahn .*", numbers(prime_form_rahn)),
        (r"number_of_TI_classes_where_Forte!=Rahn", forms_that_differ),
        (r"icv .*", numbers(interval_class_vector)),
        (r"z_related .*", z_related),
        (r"number_of_Z_pairs", z_pairs),
        (r"degree_T_symmetry .*", number(rotational_symmetry)),
        (r"trichord_T_type_vector .*", trichords_under_transposition),
        (r"ncv_TI card3", trichords_under_inversion),
        (r"inversionally symmetric trichords in Forte order", symmetric_trichords),
        (r"SIM vs .*", exactly(sim)),
        (r"ASIM vs .*", exactly(asim)),
        (r"%REL2 vs .*", exactly(percent_rel2)),
        (r"REL \(T classes.*", rel_truncated),
        (r"REL \(T/I classes\).*", rel_rounded),
        (r"common_tones_T.*", common_tones),
        (r"propriety.*", lambda row: same(row, propriety(row.scale), row.expected)),
        (r"Carey max failures N=\d+", lambda row: same(row, most_failures(last_number(row)), int(row.expected))),
        (r"Carey max differences N=\d+", lambda row: same(row, most_differences(last_number(row)), int(row.expected))),
        (r"differences of well-formed scale .*", well_formed_differences),
        (r"maximally_even", verdict(is_maximally_even)),
        (r"J\(\d+,\d+,\d+\)", evenness_formula),
        (r".*second-order ME.*", verdict(is_second_order_maximally_even)),
        (r"well_formed", well_formed),
        (r"myhill", verdict(is_myhill)),
        (r"spectrum .*", printed_spectra),
        (r"deep", verdict(is_deep)),
        (r"deep sets of n=12 \(TI classes\)", deep_classes),
        (r"Messiaen mode \d+ distinct transpositions", number(transposition_count)),
    )
]
