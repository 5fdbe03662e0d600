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
from gamutwright.theory.character import colour_tones, nearest_relative
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


@pytest.mark.parametrize("minutes", [3.0, 4.0, 6.0, 10.0])
def test_the_length_is_kept(minutes: float) -> None:
    written = draft(read_scale("G acoustic").scale, Wish(minutes=minutes), shares=shares_of(12))
    assert written.minutes <= minutes * 1.06


def test_a_term_is_defined_once_and_before_it_is_told() -> None:
    script = parse(drafted(read_scale("C octatonic, semitone first").scale, Level.RESEARCH, minutes=15.0))
    defined: list[str] = []
    for line in script.lines:
        for mark in line.marks:
            if (fact_id := mark.get("define")) and (not defined or defined[-1] != fact_id):
                assert fact_id not in defined
                defined.append(fact_id)
            told = mark.get("fact")
            if told and not mark.get("than"):
                assert told in defined, told


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
    known = {"step_pattern", "semitone_steps", "cardinality"}
    source = drafted(scale, known=known)
    assert not any(f"define={fact_id}}}" in source for fact_id in known)
    assert "fact=step_pattern" in source


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
def test_a_scale_without_a_name_is_not_called_by_one(language: str, name: str) -> None:
    """Every shape of welcome and farewell comes up among so many seeds, and none presents "this scale"."""
    ends = set()
    for seed in range(24):
        source = drafted(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19), Level.FOUNDATION, language, seed=seed)
        assert not faults(source)
        lines = [line.text for line in parse(source).lines if line.text]
        ends |= {" ".join(lines[:2]), " ".join(lines[-2:])}
    assert len(ends) >= 8
    assert not [text for text in ends if name in text.casefold() or name.capitalize() in text]


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
def test_a_tune_ends_every_lesson_and_is_heard_beside_the_relative_where_there_is_one(language: str, part: int) -> None:
    """That the best example is the same tune in the nearest familiar scale is common practice, no source."""
    for mask in range(1 + 62 * part, 4096, 186):
        scale = Scale(mask)
        source = drafted(scale, language=language, minutes=4)
        assert ("play=tune show=staff" in source) == (scale.cardinality >= 3), scale
        assert ("play=tune-changed" in source) == (nearest_relative(scale) is not None), scale
        assert not ("play=tune-changed" in source and "play=alternation" in source), scale
    beyond = drafted(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19), language=language, minutes=4)
    assert "play=tune show=ladder" in beyond
    assert "play=tune-changed" not in beyond


def test_a_mode_is_not_compared_by_what_all_modes_share() -> None:
    """D dorian has the steps, tritones and triads of any diatonic mode; it is brighter than natural minor."""
    text = drafted(read_scale("D dorian").scale)
    compared = set(re.findall(r"fact=(\w+) than=", text))
    assert compared == {"brightness"}
    assert "[higher]{fact=brightness" in text
    assert "[B]{fact=colour_tones" in text


def test_home_and_colour_chords_are_told_before_what_is_rare() -> None:
    """In six minutes at every level: Persichetti's primary triads of phrygian, I, II and vii, from a summary."""
    for level in Level:
        text = drafted(read_scale("E phrygian").scale, level, minutes=6.0)
        assert "[E minor]{fact=tonic" in text
        assert "[F major and D minor]{fact=colour_chords" in text
