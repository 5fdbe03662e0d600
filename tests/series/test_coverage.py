"""What a course shows of the field, against published counts, counting formulas and plain enumeration."""

from __future__ import annotations

from math import comb, gcd

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.codec import to_plain
from gamutwright.facts.model import Dtype, Level
from gamutwright.facts.registry import default_registry
from gamutwright.series.coverage import coverage_of, coverage_rows
from gamutwright.theory.scale import Scale

REGISTRY = default_registry()
MAJOR, WHOLE_TONE = Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(0, 2, 4, 6, 8, 10)
ROOTED = [Scale(mask) for mask in range(1, 4096, 2)]


@pytest.fixture(scope="module")
def everything() -> list[Scale]:
    return ROOTED


class TestCounts:
    @pytest.mark.exhaustive
    def test_all_scales_of_twelve_divisions(self, everything: list[Scale]) -> None:
        """OEIS A035495 and A052307, rows 12, without the empty set; binomials for rooted scales."""
        (division,) = coverage_of(everything, REGISTRY).divisions
        assert [row.classes for row in division.sizes] == [1, 6, 19, 43, 66, 80, 66, 43, 19, 6, 1, 1]
        assert [row.set_classes for row in division.sizes] == [1, 6, 12, 29, 38, 50, 38, 29, 12, 6, 1, 1]
        for row in (*division.sizes, division.total):
            assert (row.scales_shown, row.classes_shown, row.set_classes_shown) == (
                row.scales,
                row.classes,
                row.set_classes,
            )
        total = division.total
        # 352 and 224 with the empty set (OEIS A000031 and A000029; Read 1997 as named there).
        assert (total.lessons, total.scales, total.classes, total.set_classes) == (2048, 2048, 351, 223)

    @pytest.mark.parametrize("divisions", [1, 2, 5, 7, 12, 19, 24, 31, 53, 72])
    def test_classes_follow_the_formula(self, divisions: int) -> None:
        """Necklaces of k beads among n: (1/n) sum over j dividing gcd(n, k) of phi(j) C(n/j, k/j) (Read 1997)."""
        (division,) = coverage_of([Scale(1, divisions)], REGISTRY).divisions
        for row in division.sizes:
            n, k = divisions, row.tones
            common = gcd(n, k)
            phi = {j: sum(gcd(i, j) == 1 for i in range(1, j + 1)) for j in range(1, common + 1) if common % j == 0}
            assert row.classes * n == sum(p * comb(n // j, k // j) for j, p in phi.items())
            assert row.scales == comb(n - 1, k - 1)

    @settings(max_examples=40, deadline=None)
    @given(st.integers(2, 9), st.data())
    def test_what_is_shown_is_what_a_list_of_all_finds(self, n: int, data: st.DataObject) -> None:
        masks = data.draw(st.lists(st.integers(0, (1 << n - 1) - 1).map(lambda half: 2 * half + 1), min_size=1))
        scales = [Scale(mask, n, data.draw(st.integers(0, n - 1))) for mask in masks]
        (division,) = coverage_of(scales, REGISTRY).divisions

        def orbit(mask: int, *, with_inversion: bool) -> frozenset[frozenset[int]]:
            tones = [t for t in range(n) if mask >> t & 1]
            signs = (1, -1) if with_inversion else (1,)
            return frozenset(frozenset((sign * t + k) % n for t in tones) for k in range(n) for sign in signs)

        for row in division.sizes:
            own = [mask for mask in masks if mask.bit_count() == row.tones]
            assert row.lessons == len(own)
            assert row.scales_shown == len(set(own))
            assert row.classes_shown == len({orbit(mask, with_inversion=False) for mask in own})
            assert row.set_classes_shown == len({orbit(mask, with_inversion=True) for mask in own})

    def test_the_modes_of_the_major_scale_are_one_class(self) -> None:
        """Seven modes, one transposition class: 7-35 (Forte 1973, appendix 1, from memory)."""
        (division,) = coverage_of([MAJOR.mode(degree).transposed(degree) for degree in range(1, 8)], REGISTRY).divisions
        seven = division.sizes[6]
        assert (seven.lessons, seven.scales_shown, seven.classes_shown, seven.set_classes_shown) == (7, 7, 1, 1)

    def test_divisions_are_kept_apart(self) -> None:
        found = coverage_of([MAJOR, Scale.of(0, 3, 6, 9, 11, 14, 17, divisions=19)], REGISTRY)
        assert [(d.divisions, d.total.lessons) for d in found.divisions] == [(12, 1), (19, 1)]


class TestSides:
    def test_a_property_is_shown_once_both_sides_are(self) -> None:
        """Myhill's property: the diatonic scale has it, the whole-tone scale has not (Clough & Myerson 1985)."""
        alone = {side.fact_id: side for side in coverage_of([MAJOR], REGISTRY).sides}
        both = {side.fact_id: side for side in coverage_of([MAJOR, WHOLE_TONE, WHOLE_TONE], REGISTRY).sides}
        assert (alone["is_myhill"].shown, both["is_myhill"].shown) == ("only where it holds", "both sides")
        assert (both["is_myhill"].yes, both["is_myhill"].no) == (1, 2)
        # Both are maximally even (Clough & Douthett 1991), so the failing side is still missing.
        assert both["is_maximally_even"].shown == "only where it holds"

    def test_what_does_not_apply_is_never_shown(self) -> None:
        """The Z-relation is read from Forte's table, which covers twelve divisions only."""
        found = {side.fact_id: side for side in coverage_of([Scale.of(0, 2, 4, divisions=7)], REGISTRY).sides}
        assert (found["is_z_related"].shown, found["is_z_related"].silent) == ("never", 1)

    def test_every_fact_that_is_yes_or_no_is_there(self) -> None:
        ids = [fact.id for fact in REGISTRY.facts.values() if fact.dtype is Dtype.BOOL]
        assert [side.fact_id for side in coverage_of([], REGISTRY).sides] == ids


class TestLevels:
    def test_facts_told_are_counted_by_level(self) -> None:
        found = {row.level: row for row in coverage_of([MAJOR], REGISTRY, ["cardinality", "is_myhill"]).levels}
        assert (found["foundation"].told, found["further"].told, found["research"].told) == (1, 1, 0)
        for level, row in found.items():
            assert row.facts == sum(fact.level is Level(level) for fact in REGISTRY.facts.values())
            assert row.applicable == row.told + len(row.untold) <= row.facts
        assert "cardinality" not in found["foundation"].untold
        assert "step_pattern" in found["foundation"].untold

    def test_what_says_nothing_of_the_scales_is_not_missing(self) -> None:
        """Five divisions have no Forte labels, so a course about them cannot tell any."""
        (row,) = [r for r in coverage_of([Scale.of(0, 2, divisions=5)], REGISTRY).levels if r.level == "further"]
        assert "forte_label" not in row.untold


class TestRows:
    def test_sizes_without_lessons_are_left_out(self) -> None:
        rows = coverage_rows(coverage_of([MAJOR, WHOLE_TONE], REGISTRY))["sizes"]
        assert [row["tones"] for row in rows] == ["6", "7", "all"]
        assert rows[0]["classes"] == "1 of 80"
        assert rows[-1]["scales"] == "2 of 2,048"
        assert rows[-1]["share of classes"] == "under 1 %"

    def test_shares_never_round_to_all(self) -> None:
        """2,047 of 2,048 scales leave out one transposition class of 351 at most, and it shows."""
        scales = [scale for scale in ROOTED if scale.mask != 4095]
        total = coverage_rows(coverage_of(scales, REGISTRY))["sizes"][-1]
        assert (total["classes"], total["share of classes"]) == ("350 of 351", "over 99 %")

    def test_it_can_be_written_as_json(self) -> None:
        plain = to_plain(coverage_of([MAJOR], REGISTRY))
        assert plain["divisions"][0]["sizes"][6]["classes"] == 66


def test_a_course_without_lessons_shows_nothing() -> None:
    found = coverage_of([], REGISTRY)
    assert (found.lessons, found.divisions) == (0, ())
    assert {side.shown for side in found.sides} == {"never"}
    assert coverage_rows(found)["sizes"] == []
