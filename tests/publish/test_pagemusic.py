"""What a page plays: rows that sound what the scale is, notes with their places, questions with their answers."""

from __future__ import annotations

import json
import math
from itertools import pairwise

import pytest
from lxml import html

from gamutwright.music.piece import bar_length
from gamutwright.music.pieces import piece_of
from gamutwright.music.sounding import leading_part
from gamutwright.publish.page.document import Media, page
from gamutwright.publish.page.music import PIECES
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import QUARTER_COMMA_MEANTONE
from publish.lessons import lesson

LESSONS = {
    "acoustic": ("G acoustic",),
    "german": ("C melodic minor", "de"),
    "nineteen": ("0 3 6 8 11 14 17", "en", 4.0, 19),
}


def made(name: str, **options: object) -> tuple[html.HtmlElement, dict]:
    text = page(lesson(*LESSONS[name]), media=Media(), **options).html
    tree = html.document_fromstring(text)
    return tree, json.loads(tree.get_element_by_id("data").text)


@pytest.mark.parametrize(("name", "low"), [("acoustic", 55), ("german", 60)])
def test_pieces_sound_tones_of_the_scale(name: str, low: int):
    """Every frequency is 440 * 2**((k - 69) / 12) Hz for a key k of the scale (MIDI Tuning Standard, from memory)."""
    tones = {"acoustic": {0, 2, 4, 6, 7, 9, 10}, "german": {0, 2, 3, 5, 7, 9, 11}}[name]
    _, data = made(name)
    assert set(data["pieces"]) == set(PIECES)
    keys = {
        key for piece in data["pieces"].values() for _, _, freq, _, _ in piece["notes"]
        for key in [min(range(24, 109), key=lambda k: abs(440 * 2 ** ((k - 69) / 12) - freq))]
        if freq == pytest.approx(440 * 2 ** ((key - 69) / 12), rel=1e-9)
    }  # fmt: skip
    assert {(key - low) % 12 for key in keys} == tones
    assert len(keys) > len(tones)


def test_nineteen_divisions_and_another_tuning_are_heard():
    _, data = made("nineteen")
    steps = {0, 3, 6, 8, 11, 14, 17}
    for piece in data["pieces"].values():
        for _, _, freq, _, _ in piece["notes"]:
            place = next(
                k for k in range(-60, 80) if freq == pytest.approx(440 * 2 ** (k / 19 - 0.75), rel=1e-9)
            )  # fmt: skip
            assert place % 19 in steps
    _, equal = made("acoustic")
    _, meantone = made("acoustic", tuning=QUARTER_COMMA_MEANTONE)
    assert equal["pieces"]["tune"]["notes"] != meantone["pieces"]["tune"]["notes"]
    third = [row[2] for row in meantone["pieces"]["thirds"]["notes"]][:2]
    assert third[1] / third[0] == pytest.approx(5 / 4, rel=1e-9), "G to B is a pure third (Barbour 1951, from memory)"


@pytest.mark.parametrize("kind", PIECES)
def test_bars_are_full_and_every_note_has_its_place(kind: str):
    scale = Scale.of(7, 9, 11, 1, 2, 4, 5)
    piece = piece_of(kind, scale)
    _, data = made("acoustic")
    row = data["pieces"][kind]
    assert len(row["bars"]) == piece.bars
    assert row["bar"] == bar_length(piece.metre)
    xs = [lit[3] for lit in row["lit"]]
    assert xs == sorted(xs)
    assert len(set(xs)) == len(xs)
    leader = leading_part(piece)
    assert [lit[0] for lit in row["lit"]] == sorted({tone.start for tone in piece.tones if tone.part is leader})


def test_higher_notes_stand_higher():
    """Letters count, accidentals do not: each is half a space from the next (common practice, no source)."""
    _, data = made("acoustic")
    letters = {0: 0, 2: 1, 4: 2, 6: 3, 7: 4, 9: 5, 10: 6}
    heights: dict[int, float] = {}
    for lit in data["pieces"]["thirds"]["lit"]:
        octave, tone = divmod(lit[2], 12)
        heights[7 * octave + letters[tone]] = lit[4]
    places = sorted(heights)
    steps = [(heights[a] - heights[b]) / (b - a) for a, b in pairwise(places)]
    assert max(steps) - min(steps) < 0.3
    assert min(steps) > 10


@pytest.mark.parametrize(("name", "count"), [("acoustic", 9), ("german", 9), ("nineteen", 3)])
def test_questions_have_one_right_answer_and_a_reason_for_each(name: str, count: int):
    tree, data = made(name)
    drills = tree.find_class("drill")
    assert len(drills) == count
    assert {drill.get("id") for drill in drills} == set(data["ear"])
    for drill in drills:
        choices, told = drill.find_class("choice"), drill.find_class("told")
        assert sum("data-right" in choice.attrib for choice in choices) == 1
        assert len(told) == len(choices) >= 2
        assert len({one.text_content() for one in told}) == len(told) or len(choices) > 2
        for choice, reason in zip(choices, told, strict=True):
            said = reason.text_content().split()
            assert len(said) > 3
            assert said[0] in ({"Right.", "Richtig."} if "data-right" in choice.attrib else {"Not", "Das"})


def test_what_is_played_to_the_ear_are_tones_of_the_scale_or_its_relative():
    """G acoustic is beside G major: its fourth raised, its seventh lowered (Persichetti 1961, from memory)."""
    _, data = made("acoustic")
    keys = {
        round(69 + 12 * math.log2(freq / 440)) % 12
        for key, rows in data["ear"].items() if "home" not in key
        for _, _, freq, _ in rows
    }  # fmt: skip
    assert keys <= {7, 9, 11, 0, 1, 2, 4, 5, 6}
    assert {1, 0} & keys


def test_a_page_promises_a_staff_only_where_there_is_one():
    for name, has_staff in (("acoustic", True), ("nineteen", False)):
        tree, _ = made(name)
        section = tree.get_element_by_id("music")
        assert bool(section.find_class("stave")) == ("Staff" in section.find_class("hint")[0].text) == has_staff
