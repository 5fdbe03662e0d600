"""A piece as transposing instruments read it: the same tones to the ear, written higher.

Conventions: instruments in B flat are written a major second above what sounds, those in E flat a major sixth, those in
F a fifth, as for trumpet, alto saxophone and horn (common practice, no source). Instruments that sound an octave lower
still, such as the tenor saxophone, read the same notes. The written scale is spelled by policy, so that no reader meets
more signs than needed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from gamutwright.errors import DomainError
from gamutwright.music.piece import Harmony, Piece, Section
from gamutwright.music.pitches import Register
from gamutwright.theory.harmony import CHORDS
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["KEYS", "chord_suffix", "written"]

KEYS: Mapping[str, int] = {"Bb": 2, "Eb": 9, "F": 7}
"""Keys of transposing instruments, and by how many semitones their part is written above what sounds."""


def chord_suffix(harmony: Harmony, scale: Scale) -> str | None:
    """Say which chord a harmony is on its root, where a chord symbol writes it.

    Parameters
    ----------
    harmony : Harmony
        The harmony.
    scale : Scale, 12 divisions
        The scale that it belongs to.

    Returns
    -------
    str or None
        The part of its symbol after the root; None where no symbol says which tones sound.

    Examples
    --------
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> chord_suffix(Harmony(0, (0, 3, 7), "Dm"), dorian), chord_suffix(Harmony(0, (0,), "D"), dorian)
    ('m', None)
    """
    root = tone_name_map(scale)[harmony.tones[0]]
    suffix = harmony.symbol.removeprefix(root)
    chord = {(tone - harmony.tones[0]) % 12 for tone in harmony.tones}
    is_written = harmony.symbol.startswith(root) and set(CHORDS.get(suffix, ())) == chord
    return suffix if is_written else None


def written(piece: Piece, key: str) -> tuple[Piece, int]:
    """Write a piece for instruments of a key.

    Parameters
    ----------
    piece : Piece
        A piece of one scale in twelve divisions.
    key : str
        One of `KEYS`.

    Returns
    -------
    Piece
        The piece in the scale that is written, with the chords of that scale.
    int
        By how many octaves it is written above the height where that scale would be played.

    Raises
    ------
    DomainError
        If there is no such key, or the piece is not of one scale in twelve divisions.

    Examples
    --------
    >>> from gamutwright.music.pieces import piece_of
    >>> made, octaves = written(piece_of("cadence", Scale.of(2, 4, 5, 7, 9, 11, 0)), "Eb")
    >>> [harmony.symbol for harmony in made.harmonies], octaves
    (['Bm', 'E', 'Bm'], 1)
    """
    if key not in KEYS:
        raise DomainError(f"instruments in '{key}'", "there are none", f"Choose one of {', '.join(KEYS)}.")
    if len(piece.sections) != 1 or piece.sections[0].scale.divisions != 12:
        raise DomainError(
            f"'{piece.title}' for instruments in {key}",
            "what is transposed is of one scale in twelve divisions",
            "Choose another piece, or another scale.",
        )
    scale = piece.sections[0].scale
    moved = scale.transposed(KEYS[key])
    above = scale.root + Register(scale).lowest + KEYS[key] - moved.root - Register(moved).lowest
    harmonies = tuple(_renamed(harmony, scale, moved) for harmony in piece.harmonies)
    return replace(piece, sections=(Section(0, moved),), harmonies=harmonies), above // 12


def _renamed(harmony: Harmony, scale: Scale, moved: Scale) -> Harmony:
    suffix = chord_suffix(harmony, scale)
    if suffix is None:
        return harmony
    return replace(harmony, symbol=tone_name_map(moved)[harmony.tones[0]] + suffix)
