"""Parts for transposing instruments: the instruments of music21 read them back to what sounds."""

from __future__ import annotations

import music21
import pytest

from gamutwright.errors import DomainError
from gamutwright.music.piece import Piece, step_of
from gamutwright.music.pieces import piece_of
from gamutwright.music.pitches import Register
from gamutwright.music.transposing import KEYS, chord_suffix, written
from gamutwright.theory.scale import Scale

INSTRUMENTS = {
    "Bb": (music21.instrument.Trumpet, music21.instrument.Clarinet),
    "Eb": (music21.instrument.AltoSaxophone,),
    "F": (music21.instrument.Horn, music21.instrument.EnglishHorn),
}
SHAPES = [Scale.of(0, 2, 4, 6, 7, 9, 10), Scale.of(0, 3, 5, 7, 10)]
MIDDLE_C = 60


def keys_of(piece: Piece, octaves: int = 0) -> list[int]:
    scale = piece.sections[0].scale
    lowest = MIDDLE_C + scale.root + Register(scale).lowest + 12 * octaves
    return [lowest + step_of(scale, tone.degree) for tone in piece.tones]


@pytest.mark.parametrize("root", range(12))
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("key", KEYS)
def test_what_is_written_sounds_as_in_concert_pitch(key: str, shape: Scale, root: int):
    """The intervals of the instruments are those of music21.instrument."""
    heard = piece_of("tune-over-vamp", shape.transposed(root))
    made, octaves = written(heard, key)
    for instrument in INSTRUMENTS[key]:
        interval = instrument().transposition
        sounding = [music21.pitch.Pitch(midi=number).transpose(interval).midi for number in keys_of(made, octaves)]
        assert sounding == keys_of(heard), instrument


@pytest.mark.parametrize("root", range(12))
@pytest.mark.parametrize("key", KEYS)
def test_chord_symbols_move_along(key: str, root: int):
    """The symbols are read by music21.harmony; flats are written as it reads them, with a minus."""
    heard = piece_of("vamp", SHAPES[0].transposed(root))
    made, _ = written(heard, key)
    up = -INSTRUMENTS[key][0]().transposition.semitones
    for before, after in zip(heard.harmonies, made.harmonies, strict=True):
        classes = [
            {pitch.pitchClass for pitch in music21.harmony.ChordSymbol(one.symbol.replace("b", "-")).pitches}
            for one in (before, after)
        ]
        assert {(number + up) % 12 for number in classes[0]} == classes[1]


def test_a_symbol_says_what_sounds_or_is_left_out():
    """C, E and G have no second chord that a symbol writes; counted by hand."""
    scale = Scale.of(0, 4, 7)
    assert [chord_suffix(one, scale) for one in piece_of("vamp", scale).harmonies] == ["", None, "", None]
    assert [one.symbol for one in written(piece_of("vamp", scale), "F")[0].harmonies][::2] == ["G", "G"]


def test_what_cannot_be_transposed_is_refused():
    with pytest.raises(DomainError, match="Bb, Eb, F"):
        written(piece_of("tune", SHAPES[0]), "D")
    with pytest.raises(DomainError, match="twelve divisions"):
        written(piece_of("tune", Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)), "F")
    with pytest.raises(DomainError, match="one scale"):
        written(piece_of("tune-changed", SHAPES[0]), "F")
