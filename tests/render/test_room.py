"""The room: linear, light and over in time; and where in it the parts sit."""

from __future__ import annotations

import math

import numpy as np
import pytest

from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import Note, Sound
from gamutwright.render.room import TAIL_TICKS, Room, place_of
from gamutwright.render.synth import render
from render.hearing import RATE


def answer(side: float = 0.0) -> np.ndarray:
    click = np.zeros(RATE)
    click[1_000] = 1.0
    return Room(2 * RATE).add(click, side * click)


def test_nothing_is_heard_before_the_click_and_after_the_tail():
    both = answer()
    assert not both[:1_000].any()
    assert both[1_000] == pytest.approx([1.0, 1.0], abs=1e-6)
    assert not both[1_001 + TAIL_TICKS :].any()


def test_the_room_is_light_and_short():
    """Energy 19 dB below the direct sound; what is left after 300 ms is 35 dB below the room's beginning."""
    wet = answer().copy()
    wet[1_000] = 0
    assert 10 * math.log10(np.sum(wet**2) / 2) == pytest.approx(-19, abs=0.1)
    parts = [np.sum(wet[1_000 + k * 2_400 :][:2_400] ** 2) for k in (0, 6)]
    assert 10 * np.log10(parts[0] / parts[1]) > 35


def test_channels_differ_and_their_mean_is_the_middle():
    plain, placed = answer(), answer(side=0.5)
    assert np.abs(plain[1_001:, 0] - plain[1_001:, 1]).max() > 1e-3
    assert np.abs(plain.mean(axis=1) - placed.mean(axis=1)).max() < 1e-12
    left, right = placed[1_000]
    assert left == pytest.approx(3 * right, rel=1e-3)


def test_blocks_may_be_cut_anywhere():
    rng = np.random.default_rng(5)
    middle = rng.standard_normal(60_000)
    whole = Room(60_000).add(middle, 0 * middle)
    room = Room(60_000)
    pieces = [room.add(piece, 0 * piece) for piece in np.split(middle, [7, 3_000, 29_000])]
    assert np.abs(np.concatenate(pieces) - whole).max() < 1e-8


def test_it_is_silent_at_the_end():
    samples = render(Sound(RATE, (Note(0, RATE, 220.0),)))
    assert np.abs(samples[-48:]).max() < 1e-4 * np.abs(samples).max()


def test_each_part_has_its_place():
    """Bass in the middle, the tune near it, chords spread, drums a little off."""
    notes = {part: [Note(0, 1, freq, part=part) for freq in (140, 280, 560)] for part in Part if part is not Part.DRUM}
    places = {part: [place_of(note) for note in row] for part, row in notes.items()}
    assert places[Part.BASS] == [0.0, 0.0, 0.0]
    assert max(map(abs, places[Part.TUNE])) < 0.1
    low, middle, high = places[Part.CHORD]
    assert low < -0.4 < middle < 0.4 < high
    assert 0.1 < abs(place_of(Stroke(0, Drum.BRUSH))) < 0.4
    assert place_of(Stroke(0, Drum.BRUSH)) * place_of(Stroke(0, Drum.WOOD_BLOCK)) < 0


def test_places_are_heard():
    low, high = (render(Sound(RATE, (Note(0, RATE // 2, freq, part=Part.CHORD),))) for freq in (140.0, 560.0))
    assert np.std(low[:, 0]) > 1.6 * np.std(low[:, 1])
    assert np.std(high[:, 1]) > 1.6 * np.std(high[:, 0])
