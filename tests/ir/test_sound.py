"""What a sound refuses, and how sounds are moved and joined."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from gamutwright.codec import digest
from gamutwright.errors import DomainError
from gamutwright.ir.sound import Mark, Note, Sound, Timbre, joined, shifted

ONE = Sound(100, (Note(0, 50, 440.0, item=1), Note(50, 50, 550.0)), marks=(Mark(0, 1), Mark(50, 2)))


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
