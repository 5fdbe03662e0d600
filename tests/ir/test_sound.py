"""What a sound refuses, and how sounds are moved and joined."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from gamutwright.codec import digest
from gamutwright.errors import DomainError
from gamutwright.ir.playing import ChordSymbol, Drum, Gamut, Metre, Part, Stroke
from gamutwright.ir.sound import Mark, Note, Sound, Timbre, joined, shifted

ONE = Sound(100, (Note(0, 50, 440.0, item=1), Note(50, 50, 550.0)), marks=(Mark(0, 1), Mark(50, 2)))
BAND = Sound(
    100,
    (Note(0, 50, 440.0), Note(0, 90, 110.0, part=Part.BASS)),
    strokes=(Stroke(25, Drum.BRUSH),),
    metre=Metre(3, 4),
    bars=(0, 60),
    symbols=(ChordSymbol(0, "Am"),),
    gamuts=(Gamut(0, (440.0,)),),
)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Note(0, 10, 15.0), "Hz"),
        (lambda: Note(0, 10, 9_000.0), "octaves"),
        (lambda: Note(0, 10, float("nan")), "Hz"),
        (lambda: Note(-1, 10, 440.0), "later start"),
        (lambda: Note(0, 0, 440.0), "longer duration"),
        (lambda: Note(0, 10, 440.0, velocity=1.1), "velocity"),
        (lambda: Note(0, 10, 440.0, velocity=float("nan")), "velocity"),
        (lambda: Sound(9, (Note(0, 10, 440.0),)), "longer"),
        (lambda: Sound(90, (Note(5, 10, 440.0), Note(0, 10, 440.0))), "Sort"),
        (lambda: Sound(90, marks=(Mark(91, 1),)), "longer"),
        (lambda: Sound(25 * 3600 * 48_000), "24 hours"),
        (lambda: shifted(ONE, -1), "later"),
        (lambda: joined(()), "one or more"),
        (lambda: joined((ONE, Sound(1, timbre=Timbre.STRUCK))), "mix"),
        (lambda: joined((ONE, BAND)), "one timbre and metre"),
        (lambda: Note(0, 10, 440.0, part=Part.DRUM), "stroke"),
        (lambda: Sound(9, strokes=(Stroke(10, Drum.BRUSH),)), "longer"),
        (lambda: Sound(9, strokes=(Stroke(5, Drum.BRUSH), Stroke(4, Drum.BRUSH))), "Sort"),
        (lambda: Sound(9, metre=Metre(3, 4)), "what has a metre has bars"),
        (lambda: Sound(9, bars=(0,)), "what has a metre has bars"),
    ],
)
def test_what_cannot_be_is_refused(make: Callable[[], object], words: str):
    with pytest.raises(DomainError, match=words):
        make()


def test_items_are_known_at_every_tick():
    later = shifted(ONE, 20)
    assert [later.item_at(tick) for tick in (0, 19, 20, 69, 70, 119)] == [0, 0, 1, 1, 2, 2]


def test_joining_keeps_gaps_and_order():
    three = joined((ONE, ONE, ONE), gap_ticks=7)
    assert three.ticks == 314
    assert [note.start_tick for note in three.notes] == [0, 50, 107, 157, 214, 264]
    assert [mark.tick for mark in three.marks] == [0, 50, 107, 157, 214, 264]


def test_equal_sounds_have_equal_digests():
    assert digest(ONE) == digest(shifted(ONE, 0)) != digest(shifted(ONE, 1))


def test_everything_moves_together():
    later = shifted(BAND, 7)
    moved = (later.notes, later.strokes)
    assert [[one.start_tick for one in row] for row in moved] == [[7, 7], [32]]
    assert (later.bars, later.symbols[0].tick, later.gamuts[0].tick) == ((7, 67), 7, 7)
    twice = joined((BAND, BAND))
    assert twice.bars == (0, 60, 100, 160)
    assert [stroke.start_tick for stroke in twice.strokes] == [25, 125]
    assert [symbol.tick for symbol in twice.symbols] == [gamut.tick for gamut in twice.gamuts] == [0, 100]


def test_parts_come_from_the_top_of_a_score():
    assert ONE.parts == (Part.TUNE,)
    assert BAND.parts == (Part.TUNE, Part.BASS, Part.DRUM)
    assert Sound(10).parts == ()
