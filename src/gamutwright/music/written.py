"""What staffs and scores write alike: pitches in letters, and lengths in signs.

**Conventions.** Notes are spelled as the scale spells them and stand where sounds are heard, C4 being middle C. In
other divisions than twelve a note takes the nearest letter, and its alteration is the exact distance in semitones.
Lengths are twelfths of a quarter note.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from gamutwright.music.pitches import Register
from gamutwright.theory.notenames import LETTERS, accidental, note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["LENGTHS", "Pitch", "pitch_of", "written_lengths"]

LENGTHS: Mapping[int, tuple[int, int]] = {
    48: (1, 0), 36: (2, 1), 24: (2, 0), 18: (4, 1), 12: (4, 0), 9: (8, 1), 6: (8, 0), 3: (16, 0)
}  # fmt: skip
"""What a single sign writes, the longest first: which part of a whole note, and how many dots."""


@dataclass(frozen=True, slots=True)
class Pitch:
    """A written pitch.

    Parameters
    ----------
    step : str
        Letter.
    alter : Fraction
        Semitones above the natural.
    octave : int
        4 from middle C up to the B above.
    """

    step: str
    alter: Fraction
    octave: int

    @property
    def name(self) -> str:
        """Its name in ASCII, with the nearest sharps or flats."""
        return self.step + ("#" if self.alter > 0 else "b") * abs(round(self.alter))

    @property
    def semitones(self) -> Fraction:
        """Semitones above middle C."""
        return note_name_to_pitch_class(self.step) + self.alter + 12 * (self.octave - 4)


def pitch_of(scale: Scale, step: int) -> Pitch:
    """Write a step of a scale where it is heard.

    Parameters
    ----------
    scale : Scale
        The scale.
    step : int
        Steps above the root where sounds begin; in twelve divisions one of its tones in any octave.

    Returns
    -------
    Pitch
        Its letter, alteration and octave.

    Examples
    --------
    >>> pitch_of(Scale.of(7, 9, 11, 1, 2, 4, 5), 6)
    Pitch(step='C', alter=Fraction(1, 1), octave=4)
    >>> pitch_of(Scale.of(0, 3, divisions=24), 3)
    Pitch(step='D', alter=Fraction(-1, 2), octave=4)
    """
    n = scale.divisions
    height = Fraction(12 * (scale.root + Register(scale).lowest + step), n)
    if n == 12:
        name = tone_name_map(scale)[step % 12]
        letter, alter = name[0], Fraction(accidental(name))
    else:
        letter, alter = min(
            ((letter, (height - note_name_to_pitch_class(letter) + 6) % 12 - 6) for letter in LETTERS),
            key=lambda found: (abs(found[1]), -found[1]),
        )
    octave = (height - alter - note_name_to_pitch_class(letter)) / 12 + 4
    return Pitch(letter, alter, int(octave))


def written_lengths(length: int) -> Iterator[int]:
    """Split a length into those that single signs write.

    Parameters
    ----------
    length : int >= 0
        A multiple of three.

    Yields
    ------
    int
        Keys of `LENGTHS`, the longest first; together they are as long.

    Examples
    --------
    >>> list(written_lengths(30)), list(written_lengths(0))
    ([24, 6], [])
    """
    while length:
        part = next(known for known in LENGTHS if known <= length)
        yield part
        length -= part
