"""Drafts: every claim a draft makes is confirmed, at every level, in both languages; and a draft teaches, not lists."""

from __future__ import annotations

import itertools
import re

import pytest

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.claims import Verdict, check
from gamutwright.lessons.draft import draft
from gamutwright.lessons.format import to_source
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.theory.character import Relation, colour_tones, nearest_relative
from gamutwright.theory.scale import Scale
from thinning import thinned, usually

KINDS = list(itertools.product(Level, ("en", "de")))
PARTS = 32


def drafted(scale: Scale, level: Level = Level.FURTHER, language: str = "en", **wish: object) -> str:
    return draft(scale, Wish(level=level, **wish), language, shares=shares_of(scale.divisions)).source  # type: ignore[arg-type]


def faults(source: str) -> list[tuple[str, str, str]]:
    return [(claim.verdict.value, claim.words, claim.reason) for claim in check(parse(source)).faults]


@pytest.mark.exhaustive
@pytest.mark.parametrize("part", usually(range(PARTS), 0))
def test_all_rooted_scales_of_twelve_draft_and_check_clean(part: int) -> None:
    """Every one of the 2,048, the six kinds of lesson in turn and the root too; short lessons, to be quick.

    The usual run has a thirty-second of them; all are drafted and checked as one course by `make bench`.
    """
    for index in range(part, 2048, PARTS):
        level, language = KINDS[index % len(KINDS)]
        scale = Scale(2 * index + 1, 12, index * 7 % 12)
        assert not faults(drafted(scale, level, language, minutes=2.0, seed=index)), scale


@pytest.mark.parametrize(("level", "language"), thinned(KINDS, 0.4))
def test_long_lessons_check_clean(level: Level, language: str) -> None:
    for index, mask in enumerate(range(0b101010110101, 4096, 222)):
        scale = Scale(mask | 1, 12, index % 12)
        assert not faults(drafted(scale, level, language, minutes=20.0, seed=index)), scale


@pytest.mark.parametrize(
    ("divisions", "level", "language"),
    thinned(((divisions, *kind) for divisions in (5, 7, 19, 22, 24, 31) for kind in KINDS), 0.4),
)
def test_other_divisions_draft_and_check_clean(divisions: int, level: Level, language: str) -> None:
    for tones in (1, 2, 5, 7, min(12, divisions)):
        mask = sum(1 << (k * divisions // tones) for k in range(min(tones, divisions)))
        scale = Scale(mask, divisions, tones % divisions)
        assert not faults(drafted(scale, level, language)), scale


def test_the_same_wish_gives_the_same_text_and_another_seed_another() -> None:
    scale = read_scale("G acoustic").scale
    assert drafted(scale, seed=3) == drafted(scale, seed=3)
    assert drafted(scale, seed=3) != drafted(scale, seed=4)


@pytest.mark.parametrize(
    ("minutes", "language"), thinned(itertools.product((1.0, 2.0, 3.0, 5.0, 8.0), ("en", "de")), 0.5)
)
def test_the_length_is_kept(minutes: float, language: str) -> None:
    """To within a twentieth or ten seconds, whichever is more; a short lesson may be shorter than its story allows."""
    for seed, name in enumerate(("E phrygian", "C blues", "Eb major pentatonic", "A harmonic minor", "D dorian")):
        asked = Wish(level=list(Level)[seed % 3], minutes=minutes, seed=seed)
        written = draft(read_scale(name).scale, asked, language, shares=shares_of(12))
        if minutes > 1 or written.minutes < 1:
            assert abs(written.minutes - minutes) * 60 <= max(3 * minutes, 10), name


def test_an_idea_is_explained_once_and_before_the_plan_tells_it() -> None:
    made = draft(read_scale("C octatonic, semitone first").scale, Wish(level=Level.RESEARCH, minutes=15.0))
    script = parse(made.source)
    explained: list[str] = []
    told: dict[str, int] = {}
    for number, line in enumerate(script.lines):
        for mark in line.marks:
            if mark.explained and (not explained or explained[-1] != mark.explained):
                assert mark.explained not in explained
                explained.append(mark.explained)
            if (fact_id := mark.get("fact")) and fact_id not in told:
                told[fact_id] = number
    first = {mark.explained: n for n, line in reversed(list(enumerate(script.lines))) for mark in line.marks}
    for item in (item for chapter in made.plan.chapters for item in chapter.items if item.is_defined):
        assert first[item.fact.id] <= told.get(item.fact.id, len(script.lines)), item.fact.id


def test_what_a_fact_needs_is_explained_before_it() -> None:
    registry = default_registry()
    script = parse(drafted(read_scale("G acoustic").scale, Level.RESEARCH, minutes=20.0))
    order = list(
        dict.fromkeys(mark.get("define") for line in script.lines for mark in line.marks if mark.get("define"))
    )
    for fact_id in order:
        for need in registry.fact(fact_id).needs:
            if need in order:
                assert order.index(need) < order.index(fact_id)


def test_what_earlier_lessons_explained_is_not_explained_again() -> None:
    scale = read_scale("D dorian").scale
    before = parse(drafted(scale, minutes=8.0))
    known = {mark.explained for line in before.lines for mark in line.marks} - {""}
    after = drafted(scale, minutes=8.0, known=known)
    assert known
    assert not any(f"{how}={fact_id}}}" in after for how in ("define", "explain") for fact_id in known)


def test_facts_above_the_level_and_facts_that_do_not_apply_are_not_mentioned() -> None:
    registry = default_registry()
    scale = read_scale("C whole-tone").scale
    source = drafted(scale, Level.FOUNDATION, minutes=15.0)
    for fact_id in set(re.findall(r"(?:fact|each)=(\w+)", source)):
        assert registry.fact(fact_id).level is Level.FOUNDATION
        assert registry.fact(fact_id).evaluate(scale) is not None


def test_no_two_sentences_in_a_row_have_the_same_shape() -> None:
    """Sentences that state a fact: their words outside the bound ones differ from those of the one before."""
    for scale in ("G acoustic", "C major pentatonic", "C harmonic minor"):
        script = parse(drafted(read_scale(scale).scale, minutes=12.0))
        shapes = []
        for line in script.lines:
            claims = [mark for mark in line.marks if mark.get("fact")]
            if claims:
                shape = line.text
                for mark in reversed(claims):
                    shape = f"{shape[: mark.words[0]]}#{shape[mark.words[1] :]}"
                shapes.append(shape)
        assert all(one != other for one, other in itertools.pairwise(shapes))


def test_a_draft_is_formatted_and_every_line_has_an_id() -> None:
    script = parse(drafted(read_scale("A minor").scale))
    assert to_source(script) == script.source
    assert all(line.has_own_id for line in script.lines)


def test_the_most_surprising_facts_are_told() -> None:
    """Of the 66 seven-tone classes only the diatonic is maximally even (Clough & Douthett 1991, from memory)."""
    report = check(parse(drafted(read_scale("C major").scale, minutes=8.0)))
    shares = [claim for claim in report.claims if claim.kind == "share"]
    assert shares
    assert all(claim.verdict is Verdict.CONFIRMED for claim in shares)
    assert "7 of 462" in str([claim.expected for claim in shares]) or "seven of 462" in str(
        [claim.expected for claim in shares]
    )


@pytest.mark.parametrize(("language", "name"), [("en", "this scale"), ("de", "diese Tonleiter")])
def test_a_scale_without_a_name_is_not_presented_by_one(language: str, name: str) -> None:
    """Of a scale in nineteen divisions is asked what it is made of; nothing welcomes "this scale"."""
    for seed in range(12):
        source = drafted(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19), Level.FOUNDATION, language, seed=seed)
        assert not faults(source)
        lines = [line.text for line in parse(source).lines if line.text]
        assert not [text for text in (*lines[1:3], lines[-1]) if name in text.casefold()]


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_colour_tone_is_named_wherever_there_is_one(language: str) -> None:
    """Also in a short lesson for beginners; the tones are those of `character`, which its own tests hold."""
    for index, mask in enumerate(range(0b10010101, 4096, 118)):
        scale = Scale(mask | 1, 12, index % 12)
        text = drafted(scale, Level.FOUNDATION, language, minutes=2.0, seed=index)
        assert ("fact=colour_tones" in text) == bool(colour_tones(scale)), scale


@pytest.mark.parametrize(
    ("language", "part"),
    usually(itertools.product(("en", "de"), range(3)), ("en", 0), ("de", 1)),
)
def test_music_comes_first_and_the_tune_is_heard_beside_the_relative(language: str, part: int) -> None:
    """That the best example is the same tune in the nearest familiar scale is common practice, no source."""
    for mask in range(1 + 62 * part, 4096, 186):
        scale = Scale(mask)
        script = parse(drafted(scale, language=language, minutes=4))
        played = [mark.get("play") for line in script.lines for mark in line.marks if mark.get("play")]
        assert (played[0] == "tune-over-drone") == (scale.cardinality >= 3), scale
        assert (script.lines[0].text == "") == (scale.cardinality >= 3), scale
        relative = nearest_relative(scale)
        if relative is not None and relative.relation is not Relation.LEFT_OUT:
            assert "tune-changed" in played, scale
        if relative is None:
            assert "tune-changed" not in played, scale
    beyond = drafted(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19), language=language, minutes=4)
    assert "play=tune-changed" not in beyond


def test_a_mode_is_not_compared_by_what_all_modes_share() -> None:
    """D dorian has the steps, tritones and triads of any diatonic mode; it is brighter than natural minor."""
    text = drafted(read_scale("D dorian").scale)
    compared = set(re.findall(r"fact=(\w+) than=", text))
    assert compared <= {"brightness"}
    assert "[B]{fact=colour_tones" in text


def test_home_and_colour_chords_are_told_before_what_is_rare() -> None:
    """In six minutes at every level: of Persichetti's primary triads of phrygian I and II, from a summary."""
    for level in Level:
        text = drafted(read_scale("E phrygian").scale, level, minutes=6.0)
        assert "[E minor]{fact=tonic" in text
        assert "[F major]{fact=colour_chords at=1}" in text
