"""Scores of pieces, read back by music21 and engraved by verovio: parts, bars, notes, chord symbols."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree as ET

import music21
import pytest
import verovio

from gamutwright.inputs.text import read_scale
from gamutwright.ir.playing import Part
from gamutwright.music.piece import step_of
from gamutwright.music.pieces import PIECES, Request, piece_of
from gamutwright.music.pitches import Register
from gamutwright.music.tune import METRES
from gamutwright.publish.score.piece_score import piece_score
from gamutwright.theory.scale import Scale

CASES = [
    (name, metre)
    for name, kind in PIECES.items()
    for metre in (METRES if kind.has_metre else [None])
    if name != "play-along" or metre == "4/4"
]


def read(text: str) -> music21.stream.Score:
    score = music21.converter.parse(text, format="musicxml")
    assert isinstance(score, music21.stream.Score)
    return score


def sounding(part: music21.stream.Part) -> list[tuple[float, float, float]]:
    """Start, length and height of every note of a part, tied ones as one."""
    whole = part.stripTies()
    return sorted(
        (float(note.getOffsetInHierarchy(whole)), float(note.quarterLength), float(pitch.ps))
        for note in whole.recurse().notes
        if not isinstance(note, music21.harmony.ChordSymbol)
        for pitch in note.pitches
    )


@pytest.mark.parametrize(("name", "metre"), CASES)
@pytest.mark.parametrize("text", ["D dorian", "Ab lydian"])
def test_every_note_is_read_back(name: str, metre: str | None, text: str):
    scale = read_scale(text).scale
    piece = piece_of(name, scale, Request(METRES[metre] if metre else None))
    score = read(piece_score(piece))
    assert len(score.parts) == len(piece.parts)
    lowest = 12 + Register(scale).lowest + 48 + scale.root
    for part, own in zip(score.parts, piece.parts, strict=True):
        bars = list(part.getElementsByClass("Measure"))
        assert len(bars) == piece.bars
        assert all(bar.duration.quarterLength == bar.barDuration.quarterLength for bar in bars)
        assert bars[0].timeSignature.ratioString == str(piece.metre)
        if own is Part.DRUM:
            starts = {float(note.getOffsetInHierarchy(part)) for note in part.recurse().notes}
            assert starts == {tap.start / 12 for tap in piece.taps}
            continue
        promised = sorted(
            (tone.start / 12, tone.length / 12, float(lowest + step_of(piece.scale_at(tone.start), tone.degree)))
            for tone in piece.of(own)
        )
        assert sounding(part) == promised


def test_chord_symbols_stand_over_their_bars():
    piece = piece_of("tune-over-vamp", Scale.of(2, 4, 5, 7, 9, 11, 0))
    score = read(piece_score(piece))
    found = [
        (symbol.getOffsetInHierarchy(score) * 12, symbol.figure)
        for symbol in score.recurse().getElementsByClass(music21.harmony.ChordSymbol)
    ]
    assert found == [(one.start, one.symbol) for one in piece.harmonies]
    mark = next(iter(score.recurse().getElementsByClass(music21.tempo.MetronomeMark)))
    assert mark.number == 90


@pytest.mark.parametrize("divisions", [19, 31])
def test_other_divisions_say_the_chord_in_words(divisions: int):
    scale = Scale.of(*sorted({round(k * divisions / 7) for k in range(7)}), divisions=divisions)
    piece = piece_of("vamp", scale)
    text = piece_score(piece)
    assert "chord on degree 1" in text
    # Read here: music21 takes no alteration that is none of its own.
    part = ET.fromstring(text.encode()).find("part")  # noqa: S314 - just written
    assert part is not None
    heights = [
        12.0 * int(pitch.findtext("octave", "")) + 12 + "C D EF G A B".index(pitch.findtext("step", ""))
        + float(pitch.findtext("alter", "0"))
        for pitch in part.iter("pitch")
    ]  # fmt: skip
    n = scale.divisions
    lowest = 60 + 12 * (scale.root + Register(scale).lowest) / n
    exact = [lowest + 12 * step_of(scale, tone.degree) / n for tone in piece.of(Part.CHORD)]
    assert sorted(heights) == pytest.approx(sorted(exact), abs=1e-3)


@pytest.mark.parametrize(("name", "metre"), CASES)
def test_every_score_is_engraved(name: str, metre: str | None):
    piece = piece_of(name, Scale.of(7, 9, 11, 1, 2, 4, 5), Request(METRES[metre] if metre else None))
    engraver = verovio.toolkit()
    engraver.setOptions(json.dumps({"pageWidth": 2400, "adjustPageHeight": True, "header": "none"}))
    assert engraver.loadData(piece_score(piece))
    drawn = "".join(engraver.renderToSVG(page) for page in range(1, engraver.getPageCount() + 1))
    assert len(re.findall(r'class="measure"', drawn)) == piece.bars
    assert len(re.findall(r'class="harm"', drawn)) == sum("degree" not in one.symbol for one in piece.harmonies)


def test_parts_have_names_in_the_language_of_the_score():
    piece = piece_of("tune-over-drone", Scale.of(0, 2, 4, 5, 7, 9, 11))
    assert [part.partName for part in read(piece_score(piece, "de")).parts] == ["Melodie", "Bordun"]
