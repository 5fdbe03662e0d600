"""The order of a course: what holds of every order, and a small course worked by hand."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.catalogue.shares import shares_of
from gamutwright.errors import DomainError, InputError
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.draft import draft, outline
from gamutwright.lessons.plan import LEVELS, Wish, plain_ideas
from gamutwright.series.planning import Candidate, CoursePlan, plan_course, plan_rows
from gamutwright.theory.scale import Scale
from thinning import usually

REGISTRY = default_registry()
IDS = sorted(REGISTRY.facts)
MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
WHOLE_TONE = Scale.of(0, 2, 4, 6, 8, 10)
BUILT = frozenset({"cardinality", "step_pattern", "spelling", "semitone_steps", "degrees"})

# The six evenings of the harbour town's music school, scales as any rudiments text gives them (from memory).
HARBOUR = (
    Candidate("ionian-on-c", MAJOR),
    Candidate("dorian-on-d", Scale.of(2, 4, 5, 7, 9, 11, 0)),
    Candidate("harmonic-minor-on-a", Scale.of(9, 11, 0, 2, 4, 5, 8)),
    Candidate("whole-tone-on-c", Scale.of(0, 2, 4, 6, 8, 10)),
    Candidate("major-pentatonic-on-g", Scale.of(7, 9, 11, 2, 4)),
    Candidate("acoustic-on-g", Scale.of(7, 9, 11, 1, 2, 4, 5)),
)


@st.composite
def courses(draw: st.DrawFn) -> list[Candidate]:
    """Up to nine lessons, many of them related, some numbered, some with scripts, some in German."""
    masks = draw(st.lists(st.integers(0, 2047).map(lambda half: 2 * half + 1), min_size=1, max_size=5))
    return [
        Candidate(
            f"evening-{place}",
            Scale(draw(st.sampled_from(masks)), 12, draw(st.integers(0, 11))),
            draw(st.sampled_from(["en", "en", "de"])),
            draw(st.none() | st.integers(1, 9)),
            draw(st.none() | st.frozensets(st.sampled_from(IDS), max_size=6)),
            draw(st.sampled_from(["", "", "foundation", "research"])),
        )
        for place in range(draw(st.integers(1, 9)))
    ]


PATHS = st.lists(st.sampled_from([level.value for level in LEVELS]), min_size=1, max_size=3)


def _slugs(plan: CoursePlan) -> list[str]:
    return [place.candidate.slug for place in plan.places]


class TestEveryOrder:
    @settings(max_examples=12, deadline=None)
    @given(courses(), PATHS, st.booleans())
    def test_keeps_its_promises(self, lessons: list[Candidate], path: list[str], is_listed: bool) -> None:
        plan = plan_course(lessons, REGISTRY, path, is_listed=is_listed)
        # Every lesson has one place.
        assert sorted(_slugs(plan)) == sorted(lesson.slug for lesson in lessons)
        assert plan == plan_course(lessons, REGISTRY, path, is_listed=is_listed)
        for language in {lesson.language for lesson in lessons}:
            places = [place for place in plan.places if place.candidate.language == language]
            # Numbers are kept, and what has none follows the last of them without gaps.
            assert all(place.number == place.candidate.number for place in places if place.candidate.number)
            free = [place.number for place in places if not place.candidate.number]
            last = max((place.candidate.number or 0 for place in places), default=0)
            assert free == list(range(last + 1, last + 1 + len(free)))
            known: frozenset[str] = frozenset()
            for position, place in enumerate(places):
                # What is known is what earlier lessons of the language explained, and is not new a second time.
                assert place.known == known
                assert not known & set(place.explains)
                known |= set(place.explains)
                own = place.candidate.explained
                if own is not None:
                    assert set(place.explains) | set(place.repeats) == own
                # Levels in equal shares, in the order of the path.
                even = path[position * len(path) // len(places)]
                assert place.level == (place.candidate.level or even)

    @settings(max_examples=10, deadline=None)
    @given(courses(), st.randoms(use_true_random=False))
    def test_does_not_depend_on_the_order_given(self, lessons: list[Candidate], chance: Random) -> None:
        shuffled = lessons.copy()
        chance.shuffle(shuffled)
        assert plan_course(shuffled, REGISTRY) == plan_course(lessons, REGISTRY)

    @settings(max_examples=10, deadline=None)
    @given(courses())
    def test_languages_have_memories_of_their_own(self, lessons: list[Candidate]) -> None:
        """A language's part of a course is the course it would be alone."""
        both = plan_course(lessons, REGISTRY)
        apart = [
            plan_course([lesson for lesson in lessons if lesson.language == language], REGISTRY)
            for language in ("de", "en")
        ]
        assert both.places == (*apart[0].places, *apart[1].places)
        assert both.warnings == (*apart[0].warnings, *apart[1].warnings)

    @settings(max_examples=10, deadline=None)
    @given(courses(), PATHS)
    def test_what_an_idea_needs_comes_before_it(self, lessons: list[Candidate], path: list[str]) -> None:
        """Wherever no script says otherwise: explained earlier, in the same lesson, or nothing to say of the scale."""
        plan = plan_course([Candidate(c.slug, c.scale, c.language, c.number) for c in lessons], REGISTRY, path)
        for place in plan.places:
            level = Level(place.level)
            scenes = outline(place.candidate.scale, Wish(level), place.candidate.language, registry=REGISTRY)[1]
            shown = frozenset().union(*(scene.told for scene in scenes))
            ready = place.known | set(place.explains) | plain_ideas(REGISTRY) | shown
            for fact_id in place.explains:
                for need in REGISTRY.fact(fact_id).needs:
                    assert need in ready or REGISTRY.fact(need).evaluate(place.candidate.scale) is None
        assert not [warning for warning in plan.warnings if "explains" in warning]

    @settings(max_examples=10, deadline=None)
    @given(courses())
    def test_a_list_keeps_its_order(self, lessons: list[Candidate]) -> None:
        plan = plan_course(lessons, REGISTRY, is_listed=True)
        for language in ("de", "en"):
            free = [c.slug for c in lessons if c.language == language and c.number is None]
            places = [place.candidate for place in plan.places if place.candidate.language == language]
            assert [candidate.slug for candidate in places if candidate.number is None] == free


@pytest.fixture(scope="module")
def plan() -> CoursePlan:
    return plan_course(HARBOUR, REGISTRY, ("foundation", "further"), shares=shares_of)


class TestHarbourCourse:
    """Six evenings, three of them for beginners."""

    def test_levels_are_three_and_three(self, plan: CoursePlan) -> None:
        assert [place.level for place in plan.places] == ["foundation"] * 3 + ["further"] * 3

    def test_it_begins_with_the_major_scale(self, plan: CoursePlan) -> None:
        """The first scale of rudiments texts: common practice, no source."""
        assert _slugs(plan)[0] == "ionian-on-c"
        assert plan.places[0].explains

    def test_modes_of_one_class_are_apart(self, plan: CoursePlan) -> None:
        """Ionian and dorian are modes of 7-35 (Forte 1973, from memory); two lessons at least lie between them."""
        order = _slugs(plan)
        assert order.index("dorian-on-d") - order.index("ionian-on-c") > 2
        (dorian,) = [place for place in plan.places if place.candidate.slug == "dorian-on-d"]
        assert ("ionian-on-c", "mode") in [(kin.slug, kin.kind) for kin in dorian.kin]

    def test_later_lessons_bring_fewer_new_ideas_of_one_level(self, plan: CoursePlan) -> None:
        counts = [len(place.explains) for place in plan.places]
        assert counts[0] == max(counts[:3])
        assert counts[1] >= counts[2]

    def test_forecasts_are_what_the_drafts_explain(self, plan: CoursePlan) -> None:
        """Drafts written one after another with what is known by then; seven of ten ideas must be forecast."""
        shared = total = 0
        for place in plan.places:
            wish = Wish(Level(place.level), 6.0, place.known)
            told = draft(place.candidate.scale, wish, shares=shares_of(12)).plan
            ideas = {item.fact.id for chapter in told.chapters for item in chapter.items if item.is_defined}
            shared += len(ideas & set(place.explains))
            total += len(ideas | set(place.explains))
        assert shared / total >= 0.7

    def test_what_lessons_really_explain_can_be_told(self) -> None:
        asked: list[tuple[str, Level]] = []

        def defined(candidate: Candidate, level: Level, known: frozenset[str]) -> set[str]:
            asked.append((candidate.slug, level))
            return {"cardinality"} if not known else {"cardinality", "step_pattern"}

        plan = plan_course(HARBOUR, REGISTRY, ("foundation", "further"), defined=defined)
        assert [place.explains for place in plan.places] == [("cardinality",), ("step_pattern",), (), (), (), ()]
        assert [slug for slug, _ in asked] == _slugs(plan)

    def test_rows_word_every_place(self, plan: CoursePlan) -> None:
        rows = plan_rows(plan, lambda fact_id: REGISTRY.fact(fact_id).title)
        assert [row["number"] for row in rows] == ["1", "2", "3", "4", "5", "6"]
        assert "Semitone steps" in rows[0]["new ideas"]
        assert all(row["story"] for row in rows)
        assert all(row["reason"].endswith(".") for row in rows)

    def test_progress_is_told(self) -> None:
        told: list[tuple[int, int]] = []
        german = [Candidate(lesson.slug, lesson.scale, "de") for lesson in HARBOUR[:2]]
        plan_course([*HARBOUR[:2], *german], REGISTRY, progress=lambda done, total: told.append((done, total)))
        assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]


class TestChoice:
    def test_a_script_whose_needs_are_met_goes_first(self) -> None:
        """The spectra need the step pattern explained (`needs` of the fact)."""
        plan = plan_course(
            [
                Candidate("a-spectra", MAJOR, explained=frozenset({"spectra"})),
                Candidate("b-steps", Scale.of(0, 2, 4, 7, 9), explained=BUILT),
            ],
            REGISTRY,
        )
        assert _slugs(plan) == ["b-steps", "a-spectra"]
        assert plan.warnings == ()

    def test_a_lesson_waits_for_its_level(self) -> None:
        lessons = [
            Candidate("a-major", MAJOR, level="research"),
            Candidate("b-trichord", Scale.of(0, 1, 2)),
            Candidate("c-tetrachord", Scale.of(0, 1, 2, 3)),
        ]
        plan = plan_course(lessons, REGISTRY, ("foundation", "further", "research"))
        assert (_slugs(plan)[-1], plan.places[-1].level) == ("a-major", "research")

    def test_relatives_take_turns_with_others(self) -> None:
        """Three modes of the major scale among five lessons: every other one."""
        none = frozenset[str]()
        modes = [Candidate(f"mode-{k}", MAJOR.mode(k), explained=none) for k in (1, 2, 3)]
        others = [
            Candidate("chromatic", Scale(4095), explained=none),
            Candidate("fifths", Scale.of(0, 7), explained=none),
        ]
        plan = plan_course([*modes, *others], REGISTRY)
        assert [slug.startswith("mode") for slug in _slugs(plan)] == [True, False, True, False, True]

    def test_reasons_name_what_had_to_wait(self) -> None:
        none = frozenset[str]()
        plan = plan_course(
            [
                Candidate("c-major", MAJOR, number=1, explained=BUILT),
                Candidate("g-major", MAJOR.transposed(7), explained=none),
                Candidate("whole-tone", WHOLE_TONE, explained=frozenset({"triads", "mode_count"})),
            ],
            REGISTRY,
        )
        assert _slugs(plan) == ["c-major", "whole-tone", "g-major"]
        first, second, third = (place.reason for place in plan.places)
        assert first == "Its script says that it is lesson 1."
        assert second == (
            "It brings 2 new ideas; 'g-major' would bring none, but it and lesson 1 are transpositions of one another."
        )
        assert third == "It is the last one left, with no new idea."


class TestWarnings:
    def test_the_same_scale_twice_is_told_however_far_apart(self) -> None:
        twice = Candidate("major-again", MAJOR, number=40)
        (warning,) = plan_course([Candidate("major", MAJOR, number=1), twice], REGISTRY).warnings
        assert warning == (
            "'major-again' (lesson 40) and 'major' (lesson 1) are about the same scale on the same root."
        )

    def test_the_same_scale_in_two_languages_is_no_duplicate(self) -> None:
        plan = plan_course([Candidate("major", MAJOR), Candidate("dur", MAJOR, "de")], REGISTRY)
        assert plan.warnings == ()
        assert [place.number for place in plan.places] == [1, 1]

    def test_a_number_used_twice(self) -> None:
        lessons = [Candidate("a", MAJOR, number=2), Candidate("b", Scale.of(0, 1, 2), number=2)]
        assert plan_course(lessons, REGISTRY).warnings == ("Number 2 is used twice: 'a', 'b'.",)

    def test_ideas_before_their_needs(self) -> None:
        lessons = [
            Candidate("spectra", MAJOR, number=1, explained=frozenset({"spectra"})),
            Candidate("steps", Scale.of(0, 1, 2), number=2, explained=frozenset({"step_pattern", "cardinality"})),
        ]
        (warning,) = plan_course(lessons, REGISTRY).warnings
        assert warning == "'spectra' (lesson 1) explains 'Spectra' before 'Step pattern' has been explained."

    def test_transpositions_side_by_side(self) -> None:
        lessons = [Candidate("c", MAJOR), Candidate("g", MAJOR.transposed(7))]
        (warning,) = plan_course(lessons, REGISTRY, is_listed=True).warnings
        assert warning == (
            "'g' (lesson 2) and 'c' (lesson 1) stand close together and are transpositions of one another."
        )


class TestRefusals:
    def test_levels_lengths_numbers_and_names(self) -> None:
        one = Candidate("a", MAJOR)
        for levels, minutes, lessons in (
            ((), 6.0, [one]),
            (("advanced",), 6.0, [one]),
            (("further",), 0.0, [one]),
            (("further",), float("nan"), [one]),
            (("further",), 6.0, [Candidate("a", MAJOR, number=0)]),
            (("further",), 6.0, [Candidate("a", MAJOR, level="easy")]),
            (("further",), 6.0, [Candidate("a", MAJOR, minutes=-1.0)]),
        ):
            with pytest.raises(DomainError):
                plan_course(lessons, REGISTRY, levels, minutes)
        with pytest.raises(InputError, match="two lessons have this name"):
            plan_course([one, one], REGISTRY)

    def test_no_lessons_make_no_course(self) -> None:
        assert plan_course([], REGISTRY) == CoursePlan(())


@pytest.mark.exhaustive
@pytest.mark.parametrize("share", usually([1, 4], 4))
def test_all_scales_of_twelve_divisions_find_their_places(share: int) -> None:
    """2,048 lessons or a quarter of them, as many different scales, and every relative where it belongs."""
    count = 2048 // share
    lessons = [Candidate(f"evening-{mask}", Scale(mask)) for mask in range(1, 4096, 2 * share)]
    plan = plan_course(lessons, REGISTRY, ("foundation", "further", "research"), shares=shares_of)
    assert [place.number for place in plan.places] == list(range(1, count + 1))
    assert len(set(_slugs(plan))) == count
    assert len(plan.warnings) <= 10
