"""Modes by name against Glarean's modes, jazz teaching and a slow search over the table of names."""

from __future__ import annotations

import pytest

from gamutwright.theory.character import FAMILIAR
from gamutwright.theory.modenames import mode_of_named, named_modes
from gamutwright.theory.naming import landmarks, names_of, scales_called
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)


def test_the_church_modes_are_the_modes_of_major() -> None:
    """Glarean, Dodecachordon (1547), book 2, and common practice for locrian; from memory."""
    names = [name for _, name in named_modes(MAJOR)]
    assert names == ["ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian"]
    for degree in (2, 3, 4, 5, 6, 7):
        found = mode_of_named(MAJOR.mode(degree))
        assert found
        assert (found.name, found.ordinal) == ("major", degree)


def test_modes_of_the_minor_scales() -> None:
    """Altered, acoustic and phrygian dominant as jazz teaching has them: common practice, no source."""
    for name, parent, ordinal in (
        ("altered", "melodic minor", 7),
        ("acoustic", "melodic minor", 4),
        ("phrygian dominant", "harmonic minor", 5),
        ("minor pentatonic", "major pentatonic", 5),
    ):
        found = mode_of_named(scales_called(name)[0].scale)
        assert found
        assert (found.name, found.ordinal) == (parent, ordinal)


@pytest.mark.parametrize("mask", list(landmarks()))
def test_every_mode_of_every_named_scale_is_told_by_a_name(mask: int) -> None:
    """The named scale that is told holds the same tones, and the mode of it with that ordinal is the scale."""
    parent = Scale(mask)
    for degree in range(1, parent.cardinality + 1):
        mode = parent.mode(degree)
        found = mode_of_named(mode)
        if found is None:
            assert mode.mask in landmarks()
            continue
        other = _called(found.name, mode)
        assert other.mode(found.ordinal).mask == mode.mask
        assert found.ordinal >= 2


def _called(name: str, mode: Scale) -> Scale:
    """Find the scale of that name that has the tones of a mode; sources may give a name to several."""
    familiar = {scale.name: sum(1 << tone for tone in scale.tones) for scale in FAMILIAR}
    masks = [familiar[name]] if name in familiar else [record.mask for record in scales_called(name)]
    turns = {mode.mode(degree).mask for degree in range(1, mode.cardinality + 1)}
    return Scale(next(mask for mask in masks if mask in turns))


def test_a_scale_with_a_name_is_no_mode_of_a_less_familiar_one() -> None:
    assert mode_of_named(Scale.of(0, 2, 3, 5, 7, 8, 11)) is None
    assert mode_of_named(Scale.of(0, 2, 4, 6, 8, 10)) is None
    relative = mode_of_named(MAJOR)
    assert relative
    assert (relative.name, relative.ordinal) == ("natural minor", 3)


def test_what_has_no_names() -> None:
    assert mode_of_named(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)) is None
    assert mode_of_named(Scale(0b10)) is None


@pytest.mark.parametrize("mask", range(1, 4096, 64))
def test_modes_come_once_and_upwards(mask: int) -> None:
    scale = Scale(mask)
    modes = named_modes(scale)
    tones = [tone for tone, _ in modes]
    assert tones == sorted(set(tones))
    assert len({scale.mode(scale.tones.index(tone) + 1).mask for tone in tones}) == len(tones)
    first = names_of(scale)
    if first and first[0].tradition != "Carnatic melakartas":
        assert modes[0][1] == first[0].name
