"""Forecasts of what lessons explain, against the plan of a lesson itself."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.profile import Finding, profile
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.draft import draft, outline
from gamutwright.lessons.plan import LEVELS, Wish, make_plan
from gamutwright.lessons.stories.telling import ToldScene
from gamutwright.series.ideas import Forecaster, IdeaBits, mean_seconds
from gamutwright.theory.scale import Scale

REGISTRY = default_registry()
IDS = tuple(REGISTRY.facts)
IDEAS = IdeaBits(REGISTRY)
SECONDS = mean_seconds(REGISTRY, [Scale(0b101010110101), Scale(0b1010010101), Scale(0b10010010001)], "en", IDS)


@pytest.fixture(scope="module", params=[True, False], ids=["counted", "uncounted"])
def forecaster(request: pytest.FixtureRequest) -> tuple[Forecaster, bool]:
    return Forecaster(REGISTRY, lambda ids: SECONDS, shares_of if request.param else None, seed=3), request.param


def _cost(finding: Finding, is_defined: bool) -> float:
    return SECONDS[finding.fact.id][is_defined]


def _explained(scale: Scale, level: Level, minutes: float, known: frozenset[str], *, is_counted: bool) -> set[str]:
    ids = [fact.id for fact in REGISTRY.facts.values() if LEVELS.index(fact.level) <= LEVELS.index(level)]
    shares = shares_of(scale.divisions) if is_counted else None
    plan = make_plan(profile(scale, ids, REGISTRY), REGISTRY, Wish(level, minutes, known, 3), _cost, shares)
    return {item.fact.id for chapter in plan.chapters for item in chapter.items if item.is_defined}


class TestForecast:
    """The plan of a lesson, given the same seconds, is the definition; the forecast is the fast way to it."""

    @settings(max_examples=60, deadline=None)
    @given(
        mask=st.integers(0, 2047).map(lambda half: 2 * half + 1),
        level=st.sampled_from(LEVELS),
        minutes=st.sampled_from([0.5, 2.0, 4.2, 10.0, 60.0]),
        known=st.frozensets(st.sampled_from(IDS), max_size=40),
    )
    def test_explains_what_the_plan_explains(
        self, forecaster: tuple[Forecaster, bool], mask: int, level: Level, minutes: float, known: frozenset[str]
    ) -> None:
        book, is_counted = forecaster
        found = book.explained(book.sketch(Scale(mask), Level.RESEARCH), level, minutes, IDEAS.mask(known))
        assert set(IDEAS.names(found)) == _explained(Scale(mask), level, minutes, known, is_counted=is_counted)

    @pytest.mark.parametrize(("tones", "divisions"), [((0, 3, 6, 9, 11, 14, 17), 19), ((0, 5, 10, 18, 23), 31)])
    def test_other_divisions(self, forecaster: tuple[Forecaster, bool], tones: tuple[int, ...], divisions: int) -> None:
        book, is_counted = forecaster
        scale = Scale.of(*tones, divisions=divisions)
        found = book.explained(book.sketch(scale, Level.FURTHER), Level.FURTHER, 6.0, 0)
        assert set(IDEAS.names(found)) == _explained(scale, Level.FURTHER, 6.0, frozenset(), is_counted=is_counted)

    def test_six_minutes_agree_with_drafts(self) -> None:
        """Seconds are averages here and drafts fit their length: seven of ten ideas that they explain are forecast."""
        scales = [Scale(mask) for mask in (0b101010110101, 0b100110101101, 0b11011011011, 0b1010010101, 0b10101010101)]

        def scenes(scale: Scale, level: Level) -> tuple[ToldScene, ...]:
            return outline(scale, Wish(level), registry=REGISTRY)[1]

        book = Forecaster(REGISTRY, lambda ids: mean_seconds(REGISTRY, scales, "en", ids), shares_of, 0, scenes)
        shared = total = 0
        for scale in scales:
            plan = draft(scale, Wish(minutes=6.0), shares=shares_of(12)).plan
            ours = {item.fact.id for chapter in plan.chapters for item in chapter.items if item.is_defined}
            mask = book.explained(book.sketch(scale, Level.FURTHER), Level.FURTHER, 6.0, 0)
            shared += len(ours & set(IDEAS.names(mask)))
            total += len(ours)
        assert shared / total >= 0.7


def test_ideas_of_packs_that_are_not_installed_have_bits() -> None:
    ideas = IdeaBits(REGISTRY, ["tide_table", "cardinality"])
    assert ideas.names(ideas.mask(["tide_table", "cardinality"])) == ("cardinality", "tide_table")


def test_seconds_of_what_no_scale_has_are_usual_ones() -> None:
    """One tone has no triads to tell of (a chord has three tones), so the sample gives no length."""
    plain, full = mean_seconds(REGISTRY, [Scale(1, 5)], "de", ["major_triads"])["major_triads"]
    assert (plain, full) == (5.0, 15.0)
