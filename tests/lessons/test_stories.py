"""Stories: which is told of which scale, what they say, and what a course puts in their place.

What fits which scale is common practice of teaching, no source, except where a test names one.
"""

from __future__ import annotations

import contextlib
import itertools
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.errors import GamutwrightError, InputError
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.languages import language_of
from gamutwright.lessons.claims import check
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.stories.choosing import fitting_stories
from gamutwright.lessons.stories.material import material_of
from gamutwright.lessons.stories.own import Own, read_own
from gamutwright.lessons.stories.spreading import spread_stories
from gamutwright.lessons.stories.story import built_in_stories, read_story
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.messages import load_messages
from gamutwright.theory.scale import Scale

HARBOUR = Path(__file__).parents[2] / "examples" / "harbour"


@pytest.mark.parametrize(
    ("scale", "story"),
    [
        ("E phrygian", "one-tone-apart"),
        ("A harmonic minor", "one-tone-apart"),
        ("G acoustic", "one-tone-apart"),
        ("C major pentatonic", "left-out"),
        ("C blues", "added"),
        ("C whole-tone", "all-alike"),
        ("C octatonic, semitone first", "all-alike"),
        ("C hexatonic, semitone first", "all-alike"),
        ("C mela 16 Chakravakam", "from-elsewhere"),
        ("C Db D", "what-it-is"),
    ],
)
def test_the_story_is_the_scales_own(scale: str, story: str) -> None:
    """Limited transposition of the whole-tone and octatonic scales: Messiaen 1944, modes 1 and 2, from memory."""
    assert draft(read_scale(scale).scale, Wish(minutes=2)).story.id == story


def test_every_scale_has_a_story_and_every_story_a_scale() -> None:
    told = set()
    for mask in range(1, 4096, 26):
        scale = Scale(mask | 1, 12, mask % 12)
        material = material_of(scale, {}, default_registry(), wording_for("en"), Level.FURTHER)
        fitting = fitting_stories(built_in_stories(), material)
        assert fitting[-1].id == "what-it-is"
        told |= {story.id for story in fitting}
    for name in ("C whole-tone", "C dorian", "C mela 16 Chakravakam", "C hexatonic, semitone first"):
        material = material_of(read_scale(name).scale, {}, default_registry(), wording_for("en"), Level.FURTHER)
        told |= {story.id for story in fitting_stories(built_in_stories(), material)}
    assert told == {story.id for story in built_in_stories() if not story.is_asked_for}


@pytest.mark.parametrize("language", ["en", "de"])
def test_whatever_a_story_says_has_words(language: str) -> None:
    own = {"greeting", "sign-off"}
    for story in built_in_stories():
        for scene in story.scenes:
            for key in (scene.chapter, *(line.say for line in scene.lines)):
                assert not key or key in own or load_messages(language).shapes(key), (story.id, key)


def test_a_question_is_asked_before_half_a_minute_and_answered_at_the_end() -> None:
    """The half minute is the project's own figure; the title's three seconds are not counted."""
    for name, language in itertools.product(("E phrygian", "C blues", "C whole-tone"), ("en", "de")):
        script = parse(draft(read_scale(name).scale, Wish(minutes=4), language).source)
        opening = [line.text for line in script.chapters[0].lines if line.text]
        assert any(text.endswith("?") for text in opening)
        assert sum(len(text.split()) for text in opening) <= 35
        assert script.chapters[-1].lines[0].text.endswith("?")


def test_the_answer_names_what_the_question_asked_for() -> None:
    """Phrygian's own tone is the lowered second (Persichetti 1961, chapter 2, from memory)."""
    for seed in range(6):
        script = parse(draft(read_scale("E phrygian").scale, Wish(minutes=3, seed=seed)).source)
        answer = " ".join(line.text for line in script.chapters[-1].lines)
        assert "F" in answer.split() or "F," in answer or "F." in answer
        assert "lowered second" in answer or "E phrygian" in answer


def test_a_story_that_does_not_fit_is_refused_with_those_that_do() -> None:
    with pytest.raises(InputError, match=r"does not fit this scale.*one-tone-apart"):
        draft(read_scale("E phrygian").scale, Wish(story="all-alike"))
    with pytest.raises(InputError, match="Did you mean another-home"):
        draft(read_scale("E phrygian").scale, Wish(story="another-hom"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("title = 3", "it is a text"),
        ('title = "a"', "it has no scene"),
        ('title = "a"\nscore = 0\n[[scene]]\nlines = [{ say = "b" }]', "from 1 to 100"),
        ('title = "a"\n[[scene]]\nline = []', "there are"),
        ('title = "a"\n[[scene]]\nlines = [{}]', "neither says"),
        ('title = "a"\nfits = ["changes =< 2"]\n[[scene]]\nlines = [{ say = "b" }]', "it is a measure"),
        ('title = "a"\n[[scene]]\nuse = "harmonies"', "there are chords"),
        ("title = ", "no TOML"),
    ],
)
def test_a_story_that_cannot_be_read_is_explained(text: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        read_story("tide", text)


@settings(max_examples=150)
@given(st.text(max_size=200))
def test_no_text_ends_the_reader(text: str) -> None:
    with contextlib.suppress(GamutwrightError):
        read_story("tide", text)


@pytest.mark.parametrize(
    "scale",
    [
        "D dorian",
        "C octatonic, semitone first",
        *(
            pytest.param(name, marks=pytest.mark.long)
            for name in ("C major", "A harmonic minor", "C blues", "C E G", "B locrian", "C hexatonic, semitone first")
        ),
    ],
)
def test_every_story_that_fits_checks_clean(scale: str) -> None:
    for language, level in itertools.product(("en", "de"), Level):
        tones = read_scale(scale).scale
        material = material_of(tones, {}, default_registry(), wording_for(language), level)
        for story in fitting_stories(built_in_stories(), material):
            made = draft(tones, Wish(level, 3, story=story.id), language)
            assert not check(parse(made.source)).faults, (story.id, language, level)


def test_what_leans_hardest_is_not_said_to_float() -> None:
    """Locrian's second lies a semitone above home; that a semitone to the root pulls is common practice, no source."""
    for seed in range(4):
        text = draft(read_scale("B locrian").scale, Wish(minutes=4, seed=seed)).source
        assert "float" not in text
        assert "takes its time" not in text


def test_what_is_heard_is_told_in_its_order() -> None:
    """An alternation plays the lesson's scale and then the other one."""
    for seed in range(4):
        script = parse(draft(read_scale("C major pentatonic").scale, Wish(minutes=3, seed=seed)).source)
        (line,) = [line for line in script.lines if any(mark.get("play") == "alternation" for mark in line.marks)]
        assert line.text.index("C major pentatonic") < line.text.rindex("C major")


@pytest.mark.parametrize(
    ("scale", "language"),
    [
        ("E phrygian", "de"),
        ("C whole-tone", "en"),
        *(
            pytest.param(name, language, marks=pytest.mark.long)
            for name, language in itertools.product(
                ("G acoustic", "C major pentatonic", "C octatonic, semitone first", "C blues", "F# C", "C D E G Ab"),
                ("en", "de"),
            )
        ),
    ],
)
def test_the_portrait_tells_everything_in_twelve_minutes_and_proves_it(scale: str, language: str) -> None:
    """Nine to twelve minutes are the own figure of the project, for seven tones; fewer have less to tell."""
    made = draft(read_scale(scale).scale, Wish(Level.RESEARCH, 12, story="portrait"), language)
    script = parse(made.source)
    assert not check(script).faults
    assert made.minutes <= 12.6
    told = {mark.get(key) for line in script.lines for mark in line.marks for key in ("fact", "each")}
    assert {"cardinality", "step_pattern", "interval_class_vector", "mode_count", "prime_form", "place_values"} <= told
    assert len(told) >= 38
    assert len(script.chapters) >= 8
    # Nothing is said of rows of semitones where there are no semitones.
    assert ("semitone_runs" in told) == (1 in read_scale(scale).scale.step_pattern)


def test_a_portrait_is_told_only_where_it_is_asked_for() -> None:
    for name in ("E phrygian", "C Db D"):
        material = material_of(read_scale(name).scale, {}, default_registry(), wording_for("en"), Level.RESEARCH)
        assert "portrait" not in {story.id for story in fitting_stories(built_in_stories(), material)}


TIDE = """
title = "tide-ask"
fits = ["size >= 5"]
score = 50

[[scene]]
chapter = "chapter-music"
lines = [{ play = "scale", show = "ladder" }, { say = "tide-ask" }]

[[scene]]
chapter = "chapter-answer"
lines = [{ say = "tide-answer" }, { say = "sign-off" }]
"""
WORDS = """
tide-ask =
    .a = What does the tide bring in?
tide-answer =
    .a = It brings { $tones }.
walk-hear =
    .a = Hear { $name } come and go like the tide.
semitone-steps =
    .define = A semitone step is what a crab walks on the keyboard.
sign-off =
    .a = Until the next tide.
"""


def test_a_course_has_stories_words_and_definitions_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "stories").mkdir()
    (tmp_path / "stories" / "tide.toml").write_text(TIDE, encoding="utf-8")
    (tmp_path / "wording").mkdir()
    (tmp_path / "wording" / "en.ftl").write_text(WORDS, encoding="utf-8")
    own, scale = read_own(tmp_path), read_scale("C D F G A").scale
    made = draft(scale, Wish(minutes=1), own=own)
    lines = [line.text for line in parse(made.source).lines if line.text]
    assert made.story.id == "tide"
    assert (lines[0], lines[-1]) == ("What does the tide bring in?", "Until the next tide.")
    assert "It brings C, D, F, G and A." in lines
    assert not check(parse(made.source)).faults
    walk = draft(scale, Wish(minutes=8, story="what-it-is", level=Level.FOUNDATION), own=own).source
    assert "come and go like the tide" in walk
    assert not check(parse(walk)).faults
    fact = default_registry().facts["semitone_steps"]
    assert own.wording_for("en").definition(fact).startswith("A semitone step is what a crab")
    assert own.wording_for("en").variants(fact) == wording_for("en").variants(fact)


def test_words_that_do_not_parse_name_their_file() -> None:
    with pytest.raises(InputError, match=r"wording/en\.ftl"):
        Own(wording=(("en", "«"),)).wording_for("en")


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_demo_course_greets_and_takes_leave(language: str) -> None:
    own = read_own(HARBOUR)
    lines = [
        line.text
        for line in parse(draft(read_scale("C lydian").scale, Wish(minutes=2), language, own=own).source).lines
        if line.text
    ]
    greetings = own.wording_for(language).tellings("greeting", {}, {})
    assert any(greeting.startswith(lines[0]) for greeting in greetings)
    assert language_of(language).tag in dict(own.wording)


@settings(max_examples=60)
@given(st.lists(st.lists(st.tuples(st.sampled_from("abcd"), st.integers(1, 9)), min_size=1, max_size=4), max_size=8))
def test_no_story_comes_twice_where_another_fits_nearly_as_well(offers: list[list[tuple[str, int]]]) -> None:
    ranked = [sorted(dict(offered).items(), key=lambda entry: -entry[1]) for offered in offers]
    told = spread_stories(ranked)
    for place in range(1, len(told)):
        best = ranked[place][0][1]
        others = [name for name, score in ranked[place] if score >= best - 4 and name != told[place - 1]]
        assert told[place] != told[place - 1] or not others
