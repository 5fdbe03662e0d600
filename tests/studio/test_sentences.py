"""Sentences that are offered for a script check clean in it: the checker is the authority."""

from __future__ import annotations

import pytest

from gamutwright.errors import GamutwrightError
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.studio.marking import mark_script
from gamutwright.studio.sentences import sentences_for

HEAD = "---\nscale: {scale}\nlanguage: {language}\n{more}---\n# Steps\n\nListen. {{play=scale}}\n"


@pytest.mark.parametrize(
    ("scale", "language", "more"),
    [("G acoustic", "en", ""), ("D E F G A B C", "de", ""), ("0 3 6 8 11 14 17", "en", "divisions: 19\n")],
)
def test_every_sentence_is_proved_where_it_is_put(scale: str, language: str, more: str):
    head = HEAD.format(scale=scale, language=language, more=more)
    registry = default_registry()
    offered = sentences_for(head, registry)["facts"]
    assert len(offered) > 30
    added = "\n\n".join(f"{fact['explains']} {fact['says']}" for fact in offered)
    report = check(parse(f"{head}\n{added}\n"))
    assert [(claim.words, claim.reason) for claim in report.faults] == []
    again = {fact["id"]: fact for fact in sentences_for(f"{head}\n{added}\n", registry)["facts"]}
    assert all(fact["is_told"] and fact["is_explained"] for fact in again.values())


def test_cues_are_chips_at_their_places_and_figures_stand_beside_what_they_are_held_against():
    text = (
        HEAD.format(scale="C major", language="en", more="") + "\n[Two]{fact=semitone_steps show=ladder}. {pause=2}\n"
    )
    found = mark_script(text, default_registry())
    chips = [
        (chip.kind, chip.value, chip.words, text[chip.start : chip.end]) for line in found.lines for chip in line.chips
    ]
    assert chips == [
        ("play", "scale", "", "{play=scale}"),
        ("show", "ladder", "Two", "[Two]{fact=semitone_steps show=ladder}"),
        ("pause", "2", "", "{pause=2}"),
    ]
    assert [(one.title, text[one.start : one.end]) for one in found.headings] == [("Steps", "Steps")]
    assert [line.passage for line in found.lines] == [0, 1]
    whole = found.pace[0]
    rate = next(one for one in whole.figures if one.name == "words a minute")
    # BBC Subtitle Guidelines 1.2.3, section 4.1: 160 words a minute.
    assert (rate.against, rate.verdict) == (160, "fine")


def test_a_script_without_a_scale_offers_nothing():
    with pytest.raises(GamutwrightError):
        sentences_for("---\nlevel: further\n---\nListen.\n", default_registry())
