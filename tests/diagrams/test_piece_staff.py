"""Pieces on a staff: every bar, every note in its place, chord symbols over their notes, one note lit."""

from __future__ import annotations

import re
import runpy
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from gamutwright.diagrams.piece_staff import piece_staff
from gamutwright.diagrams.sketch import Sketch
from gamutwright.errors import DomainError
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Engraving, Role, Text, walk
from gamutwright.ir.figure import Path as Outline
from gamutwright.ir.metrics import box_of, text_width
from gamutwright.ir.playing import Part
from gamutwright.music.piece import Piece, bar_length, step_of
from gamutwright.music.pieces import PIECES, Request, piece_of
from gamutwright.music.pitches import Register
from gamutwright.music.rules import RULES
from gamutwright.music.sounding import leading_part, piece_sound
from gamutwright.music.tune import METRES
from gamutwright.phrasing.card_words import card_words
from gamutwright.render.engrave import expanded
from gamutwright.theory.scale import Scale

MEI = "{http://www.music-encoding.org/ns/mei}"
DORIAN = Scale.of(2, 4, 5, 7, 9, 11, 0)
CASES = [(name, metre) for name, kind in PIECES.items() for metre in (METRES if kind.has_metre else [None])]


def made(name: str, metre: str | None, scale: Scale = DORIAN) -> Piece:
    return piece_of(name, scale, Request(METRES[metre] if metre else None))


def systems(piece: Piece, lit: int = 0) -> list[Engraving]:
    figure = piece_staff(Sketch(piece.sections[0].scale), piece, lit)
    return [shape for shape in walk(figure.shapes) if isinstance(shape, Engraving)]


def length_of(element: ET.Element) -> int:
    written = 48 // int(element.get("dur", "1"))
    return written + (written // 2 if element.get("dots") else 0)


@pytest.mark.parametrize(("name", "metre"), CASES)
def test_bars_are_full(name: str, metre: str | None):
    piece = made(name, metre)
    numbers = []
    for system in systems(piece):
        for measure in ET.fromstring(system.source).iter(f"{MEI}measure"):  # noqa: S314 - just written
            numbers.append(int(measure.get("n", "0")))
            timed = [one for one in measure.iter() if one.get("dur") is not None]
            if measure.find(f".//{MEI}mRest") is None:
                assert sum(length_of(one) for one in timed) == bar_length(piece.metre)
    assert numbers == list(range(1, len(numbers) + 1))
    assert len(numbers) == piece.bars or len(numbers) >= 2


@pytest.mark.parametrize("text", ["D dorian", "Ab lydian", "B phrygian"])
def test_notes_stand_where_they_sound(text: str):
    """Letter, octave and sign say the height: C4 is 60, and a sign holds to the end of its bar."""
    scale = read_scale(text).scale
    piece = piece_of("tune", scale)
    signs = {"s": 1, "f": -1, "x": 2, "ff": -2, "n": 0}
    heights = []
    for system in systems(piece):
        for measure in ET.fromstring(system.source).iter(f"{MEI}measure"):  # noqa: S314 - just written
            held: dict[tuple[str, str], int] = {}
            for note in measure.iter(f"{MEI}note"):
                place = (note.get("pname", ""), note.get("oct", ""))
                if note.get("accid"):
                    held[place] = signs[note.get("accid", "n")]
                heights.append(12 * int(place[1]) + 12 + "c d ef g a b".index(place[0]) + held.get(place, 0))
    lowest = 60 + scale.root + Register(scale).lowest
    assert heights == [lowest + step_of(scale, tone.degree) for tone in piece.of(Part.TUNE)]


@pytest.mark.parametrize("name", list(PIECES))
def test_every_mark_of_the_sound_has_its_note(name: str):
    """Notes are numbered as the sound marks them, so that a film that counts marks lights the one that sounds."""
    piece = made(name, None)
    marks = [mark for mark in piece_sound(piece).marks if mark.item]
    for number in (1, len(marks)):
        found = [role for system in systems(piece, number) for role in system.roles]
        assert found == [(f"n{number}", Role.NOW)]
    assert not [role for system in systems(piece, len(marks) + 1) for role in system.roles]


@pytest.mark.parametrize(("name", "metre"), CASES)
def test_what_is_engraved_does_not_collide(name: str, metre: str | None):
    """Every note is drawn, words keep apart and inside the picture, and the arrow is over the note that sounds."""
    piece = made(name, metre, Scale.of(7, 9, 11, 1, 2, 4, 5))
    figure = expanded(piece_staff(Sketch(piece.sections[0].scale), piece, 2))
    places = {part.name: part for part in figure.parts if part.name.startswith("note")}
    assert len(places) >= 2
    texts = [shape for shape in walk(figure.shapes) if isinstance(shape, Text)]
    boxes = [
        (
            one.x - text_width(one.text, one.size, one.face) / 2,
            one.x + text_width(one.text, one.size, one.face) / 2,
            one.y,
        )
        for one in texts
    ]
    assert all(left >= 0 and right <= figure.width for left, right, _ in boxes)
    for number, (left, right, y) in enumerate(boxes):
        for other_left, other_right, other_y in boxes[:number]:
            assert right <= other_left or other_right <= left or abs(y - other_y) >= 30
    (arrow,) = [one for one in texts if one.text == "↓"]
    assert arrow.role is Role.NOW
    assert abs(arrow.x - places["note 2"].x) < 1


def test_chord_symbols_stand_over_the_first_note_of_their_bar():
    piece = made("tune-over-vamp", "4/4")
    labels = [label for system in systems(piece) for label in system.labels]
    tune = piece.of(Part.TUNE)
    found = {int(label.place[1:]): label.text.text for label in labels}
    assert {tune[number - 1].start: text for number, text in found.items()} == {
        one.start: one.symbol for one in piece.harmonies
    }


def test_short_notes_are_beamed_within_their_beat():
    source = systems(piece_of("thirds", Scale.of(0, 2, 4, 5, 7, 9, 11)))[0].source
    assert all(len(re.findall("<note", beam)) == 2 for beam in re.findall("<beam>.*?</beam>", source))
    source = systems(piece_of("groups-of-three", Scale.of(0, 2, 4, 5, 7, 9, 11)))[0].source
    assert all(len(re.findall("<note", beam)) == 3 for beam in re.findall("<beam>.*?</beam>", source))


def test_the_words_for_who_cannot_see():
    assert leading_part(made("step-rhythm", None)) is None
    piece = made("step-rhythm", None)
    assert piece_staff(Sketch(DORIAN), piece).alt == "A staff of one line with 4 bars of 12/8: a rhythm of 28 strokes."


def test_other_divisions_have_no_staff():
    scale = Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)
    with pytest.raises(DomainError, match="ladder"):
        piece_staff(Sketch(scale), piece_of("tune", scale))


DOCS = Path(__file__).parents[2] / "docs"


def test_the_page_about_music_shows_what_there_is():
    """Staves and page are what `make docs` writes; all pieces and all rules are told on it."""
    texts, sounds = runpy.run_path(str(DOCS / "music.py"))["examples"]()
    for path, text in texts.items():
        assert path.read_text(encoding="utf-8") == text, "run: make docs"
    assert {path.name for path in (DOCS / "music").iterdir()} == {
        path.name for path in (*texts, *sounds) if path.parent.name == "music"
    }
    page = (DOCS / "music.md").read_text(encoding="utf-8")
    assert all(f"`{name}`" in page for name in PIECES)
    assert page.partition("## The rules of a tune")[2].partition("## ")[0].count("\n| ") == len(RULES) + 1
    assert len(sounds) == 12


def test_chord_symbols_are_those_of_the_language():
    """B minor is H minor in German (common practice, no source)."""
    scale = read_scale("B dorian").scale
    piece = piece_of("cadence", scale)
    figure = piece_staff(Sketch(scale, words=card_words("de").inside), piece)
    texts = [label.text.text for shape in walk(figure.shapes) if isinstance(shape, Engraving) for label in shape.labels]
    assert [one.symbol for one in piece.harmonies] == ["Bm", "E", "Bm"]
    assert texts == ["Hm", "E", "Hm"]


@pytest.mark.parametrize(
    ("text", "name"), [("Gb lydian", "groups-of-four"), ("Db chromatic", "thirds"), ("C whole tone", "thirds")]
)
def test_the_arrow_keeps_clear_of_beams_and_stems(text: str, name: str):
    """Where no chord symbols need the room, it stands above everything that is engraved."""
    scale = read_scale(text).scale
    piece = piece_of(name, scale)
    for lit in range(1, 9):
        figure = expanded(piece_staff(Sketch(scale), piece, lit))
        (arrow,) = (shape for shape in walk(figure.shapes) if isinstance(shape, Text) and shape.text == "↓")
        feet = arrow.y + arrow.size / 2
        near = [
            box[1]
            for box in (box_of(shape) for shape in walk(figure.shapes) if isinstance(shape, Outline))
            if box[0] <= arrow.x + 12 and box[2] >= arrow.x - 12 and box[1] < 20 + 380
        ]
        assert feet <= min(near)
