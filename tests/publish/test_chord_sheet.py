"""The chord sheet of a play-along, read back from its PDF."""

from __future__ import annotations

import io
import re

import music21
import pypdf
import pytest

from gamutwright.music.pieces import piece_of
from gamutwright.publish.handout.chord_sheet import chord_sheet
from publish.lessons import lesson


def lines(pdf: bytes) -> list[str]:
    (page,) = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return page.extract_text().splitlines()


@pytest.mark.parametrize(
    ("name", "language", "chords", "counting"),
    [
        ("D dorian", "en", ["Dm", "G"], "The first bar counts in."),
        ("E phrygian", "de", ["Em", "F"], "Der erste Takt zählt ein."),
        ("G mixolydian", "en", ["G", "Dm"], "The first bar counts in."),
    ],
)
def test_every_bar_names_its_chord_and_the_chords_their_tones(
    name: str, language: str, chords: list[str], counting: str
):
    """The tones of a chord symbol by music21."""
    told = lesson(name, language)
    piece = piece_of("play-along", told.scale)
    pdf, printed = chord_sheet(told, piece)
    found = lines(pdf)
    assert any(counting in line for line in found)
    for chord in chords:
        (line,) = (line for line in found if line.startswith(f"{chord}: "))
        symbol = music21.harmony.ChordSymbol(chord)
        assert [pitch.name for pitch in symbol.pitches] == [to_english(tone) for tone in line.split(": ")[1].split()]
    numbers = [line for line in found if re.fullmatch(r"\d+", line)]
    assert numbers == [str(bar) for bar in range(1, piece.bars - piece.counted_in + 1)]
    bars = [line.strip() for line in found if line.strip() in chords]
    assert len(bars) == len(numbers)
    assert (bars[0], bars[-1]) == (chords[0], chords[0])
    assert bars[:2] == chords
    assert {text for _, text in printed} >= {*chords, *numbers}


def to_english(tone: str) -> str:
    return "B" if tone == "H" else tone


def test_chords_without_a_symbol_go_by_their_tones():
    told = lesson("3-3-2-3-3-3-2", "en", 4.0, 19)
    found = lines(chord_sheet(told, piece_of("play-along", told.scale))[0])
    assert not any("degree" in line for line in found)
    assert sum(bool(re.fullmatch(r"\d+ \d+ \d+", line.strip())) for line in found) > 20
