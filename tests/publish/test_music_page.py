"""The page of music in the handout, read back from the PDF and from what the engraver is given."""

from __future__ import annotations

import io
import re
from functools import cache

import music21
import pypdf
import pytest
from PIL import Image

from gamutwright.diagrams.piece_staff import piece_strip
from gamutwright.diagrams.sketch import Sketch
from gamutwright.errors import DomainError
from gamutwright.facts.profile import find
from gamutwright.facts.registry import default_registry
from gamutwright.ir.figure import Engraving, Path, Text, walk
from gamutwright.ir.metrics import box_of
from gamutwright.music.pieces import piece_of
from gamutwright.music.transposing import KEYS, written
from gamutwright.phrasing.printed import printed_value
from gamutwright.publish.handout import printed_figures
from gamutwright.publish.handout import sheets as module
from gamutwright.publish.handout.music_page import music_page
from gamutwright.publish.handout.sheets import handout
from gamutwright.publish.handout.typesetting import typeset
from gamutwright.render.engrave import expanded
from gamutwright.theory.scale import Scale
from publish.lessons import lesson

ACOUSTIC = Scale.of(7, 9, 11, 1, 2, 4, 5)
TRANSPOSITION = {
    "Bb": music21.instrument.Trumpet,
    "Eb": music21.instrument.AltoSaxophone,
    "F": music21.instrument.Horn,
}
SIGNS = {"ff": -2, "f": -1, "n": 0, "s": 1, "x": 2}


@cache
def pages(name: str, language: str, keys: tuple[str, ...], paper: str = "a4") -> list[str]:
    made = handout(lesson(name, language), (), paper=paper, written_for=keys)
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(made.sheet)).pages]


def notes_of(key: str, kind: str, scale: Scale = ACOUSTIC) -> list[music21.pitch.Pitch]:
    """Read the notes out of what is engraved; an accidental holds to the end of its bar."""
    piece, octaves = written(piece_of(kind, scale), key) if key else (piece_of(kind, scale), 0)
    figure = piece_strip(Sketch(piece.sections[0].scale, title=kind), piece, 4, octaves)
    (line,) = [shape for shape in walk(figure.shapes) if isinstance(shape, Engraving)]
    found = []
    for bar in line.source.split("<measure")[1:]:
        held: dict[str, int] = {}
        for letter, octave, sign in re.findall(r'pname="(.)" oct="(\d)"(?: accid="(\w+)")?', bar):
            place = letter + octave
            held[place] = SIGNS[sign] if sign else held.get(place, 0)
            pitch = music21.pitch.Pitch(place)
            pitch.accidental = held[place]
            found.append(pitch)
    return found


@pytest.mark.parametrize("kind", ["tune-over-vamp", "thirds", "groups-of-three"])
@pytest.mark.parametrize("key", KEYS)
def test_staves_are_written_as_the_instruments_read_them(key: str, kind: str):
    """music21 turns what sounds into what its instruments read, note by note, spelling and octave too."""
    interval = TRANSPOSITION[key]().transposition.reverse()
    expected = [pitch.transpose(interval).nameWithOctave for pitch in notes_of("", kind)]
    assert len(expected) > 10
    assert [pitch.nameWithOctave for pitch in notes_of(key, kind)] == expected


def test_a_page_in_concert_pitch_is_always_there():
    """G acoustic: the chords were spelled out by hand."""
    *_, music = pages("G acoustic", "en", ())
    for text in ("in concert pitch", "Tones: G A B C♯ D E F", "A tune, with chords", "Practice in thirds",
                 "Practice in groups of three: the first 4 of 8 bars", "fits: G7.", "G G B D Dm D F A"):  # fmt: skip
        assert text in music, text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_each_key_has_a_page_in_the_order_asked_for(paper: str):
    *_, concert, flat, horn, high = pages("G acoustic", "en", ("Bb", "F", "Eb", "Bb"), paper)
    assert "concert pitch" in concert
    assert "instruments in B♭" in flat
    assert "a major second above" in flat
    assert "Tones: A B C♯ D♯ E F♯ G" in flat
    assert "fits: A7." in flat
    assert "a fifth above" in horn
    assert "fits: D7." in horn
    assert "a major sixth above" in high
    assert "fits: E7." in high
    assert len(pages("G acoustic", "en", ("Bb", "F", "Eb", "Bb"), paper)) == 6


def test_german_names_its_notes():
    """E♭ instruments read A minor pentatonic as F sharp minor pentatonic: fis, a, h, cis, e."""
    *_, music = pages("A minor pentatonic", "de", ("Eb",))
    assert "für Instrumente in Es" in music
    assert "Töne: Fis A H Cis E" in music
    assert "Akkorde auf dem Grundton, zu denen die Tonleiter passt: Fism7." in music


@pytest.mark.parametrize(("name", "divisions"), [("0 5 10 13 18 23 28", 31), ("C G", 12)])
def test_scales_without_a_staff_or_a_tune_have_no_page(name: str, divisions: int):
    told = lesson(name, "en", 4.0, divisions)
    plain, asked = handout(told, ()), handout(told, (), written_for=("Bb",))
    assert plain == asked
    assert not any(origin == "music" for origin, _ in plain.printed)


def test_chords_without_a_symbol_show_their_tones_alone():
    page = music_page(Scale.of(0, 4, 7), "en")
    assert [(bar.symbol, bar.tones) for bar in page.chart] == [("C", "C E G"), ("", "G E C")] * 2
    assert page.lines[0].title == "A tune"


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("scale", [ACOUSTIC, Scale.of(10, 1, 3, 5, 8), Scale.of(*range(12)), Scale.of(0, 1, 7)])
def test_the_chords_are_those_of_the_fact(scale: Scale, language: str):
    fact = default_registry().facts["chord_symbols"]
    value = find(fact, scale).value
    chords = music_page(scale, language).chords
    assert chords.endswith(f": {printed_value(fact, value, language)}.") if value else chords == ""


def test_an_unknown_key_is_refused():
    with pytest.raises(DomainError, match="Bb, Eb, F"):
        handout(lesson(), (), written_for=("D",))


def test_chord_symbols_stand_clear_of_the_notes():
    """The highest parts are those in E flat; some would run into their symbols."""
    crowded = 0
    for root in range(12):
        piece, octaves = written(piece_of("tune-over-vamp", ACOUSTIC.transposed(root)), "Eb")
        figure = expanded(piece_strip(Sketch(piece.sections[0].scale, title="tune"), piece, 4, octaves))
        feet = []
        for shown in (figure, printed_figures._cleared(figure)):
            texts = [shape for shape in walk(shown.shapes) if isinstance(shape, Text)]
            assert [to_ascii(text.text) for text in texts] == [harmony.symbol for harmony in piece.harmonies]
            feet.append(max(box_of(text)[3] for text in texts))
        top = min(box_of(shape)[1] for shape in walk(figure.shapes) if isinstance(shape, Path))
        crowded += feet[0] > top
        assert feet[1] < top
    assert crowded


def to_ascii(text: str) -> str:
    return text.replace("♭", "b").replace("♯", "#")


@pytest.mark.parametrize(
    ("name", "language"), [("G acoustic", "en"), ("A minor pentatonic", "de"), ("C chromatic", "en")]
)
def test_the_page_is_full_and_keeps_its_margins(name: str, language: str):
    """Nothing lies in the margins of 16 mm, and staves to write on reach the last quarter of the page."""
    data, _ = module._data(lesson(name, language), (), "a4", ("Eb",))
    for page in typeset("sheet.typ", data, "png")[2:]:
        picture = Image.open(io.BytesIO(page)).convert("L")
        wide, tall = picture.size
        edge = round(wide * 15 / 210)
        for sides in ((0, 0, edge, tall), (wide - edge, 0, wide, tall)):
            assert picture.crop(sides).getextrema() == (255, 255)
        assert picture.crop((0, round(tall * 0.75), wide, round(tall * 0.92))).getextrema()[0] < 128


def test_what_is_drawn_is_told_in_words():
    tune = music_page(ACOUSTIC, "en", "Bb").lines[0].plate.alt
    names = [pitch.name.replace("#", "♯").replace("-", "♭") for pitch in notes_of("Bb", "tune-over-vamp")]
    told = re.sub(r"[A-G][♯♭]?m?: |;", "", tune.partition("Bar by bar: ")[2].rstrip(".")).split()
    assert told == names
