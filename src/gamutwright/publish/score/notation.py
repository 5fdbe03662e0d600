"""What scores write alike: pitches in letters, signs, and chord symbols, as MusicXML.

**Conventions.** Notes are spelled as the scale spells them and stand where sounds are heard, C4 being middle C. In
other divisions than twelve a note takes the nearest letter, `alter` has the exact distance in semitones to four places,
and the sign is that of the nearest quarter tone.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from xml.etree import ElementTree as ET

from gamutwright.languages import language_of
from gamutwright.music.pitches import Register
from gamutwright.publish.score.xml_parts import added
from gamutwright.theory.notenames import LETTERS, accidental, note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = [
    "KINDS",
    "SIGNS",
    "Pitch",
    "decimal",
    "pitch_of",
    "write_accidental",
    "write_chord_name",
    "write_pitch",
]

SIGNS = {
    -6: "triple-flat",
    -4: "flat-flat",
    -2: "flat",
    -1: "quarter-flat",
    0: "natural",
    1: "quarter-sharp",
    2: "sharp",
    4: "double-sharp",
    6: "triple-sharp",
}
"""Name of an accidental by quarter tones."""
KINDS = {
    "": "major",
    "m": "minor",
    "dim": "diminished",
    "aug": "augmented",
    "maj7": "major-seventh",
    "7": "dominant",
    "m7": "minor-seventh",
    "m7b5": "half-diminished",
    "dim7": "diminished-seventh",
    "mM7": "major-minor",
    "+M7": "major-seventh",
    "7#5": "dominant",
    "7b5": "dominant",
    "6": "major-sixth",
    "m6": "minor-sixth",
    "5": "power",
}
"""Kind of chord by suffix."""
_FIFTHS = {"+M7": 1, "7#5": 1, "7b5": -1}
"""Chords that have no kind of their own: those of another fifth."""


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


def decimal(number: Fraction) -> str:
    """Write a number with four places at the most.

    Parameters
    ----------
    number : Fraction
        The number.

    Returns
    -------
    str
        Without noughts at its end.

    Examples
    --------
    >>> decimal(Fraction(3, 2)), decimal(Fraction(0))
    ('1.5', '0')
    """
    text = f"{float(number):.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def write_chord_name(parent: ET.Element, root_name: str, suffix: str, language: str) -> None:
    """Write a chord symbol.

    Parameters
    ----------
    parent : Element
        The measure.
    root_name : str
        Its root in ASCII.
    suffix : str
        One of `KINDS`.
    language : str
        Whose letters are printed.
    """
    harmony = added(parent, "harmony")
    root = added(harmony, "root")
    # The step B is read as H in German; chord symbols keep ♯ and ♭ there, so B♭ is unmistakable.
    printed = language_of(language).chord_roots.get(root_name, "")
    added(root, "root-step", root_name[0], **({"text": printed} if printed else {}))
    if accidental(root_name):
        added(root, "root-alter", accidental(root_name))
    text = "maj7" if suffix == "+M7" else suffix.removesuffix("#5").removesuffix("b5") if suffix in _FIFTHS else suffix
    added(harmony, "kind", KINDS[suffix], text=text.replace("b5", "♭5"))
    if suffix in _FIFTHS:
        degree = added(harmony, "degree")
        added(degree, "degree-value", 5)
        added(degree, "degree-alter", _FIFTHS[suffix])
        added(degree, "degree-type", "alter")


def write_pitch(note: ET.Element, pitch: Pitch) -> None:
    """Write the pitch of a note.

    Parameters
    ----------
    note : Element
        The note.
    pitch : Pitch
        Its pitch.
    """
    written = added(note, "pitch")
    added(written, "step", pitch.step)
    if pitch.alter:
        added(written, "alter", decimal(pitch.alter))
    added(written, "octave", pitch.octave)


def write_accidental(note: ET.Element, pitch: Pitch, held: dict[tuple[str, int], int]) -> None:
    """Write the sign before a note, where the measure has not.

    Parameters
    ----------
    note : Element
        The note.
    pitch : Pitch
        Its pitch.
    held : dict
        The quarter tones by which each line and space of the measure is altered so far; it is kept up to date.
    """
    quarters = round(2 * pitch.alter)
    if held.get((pitch.step, pitch.octave), 0) != quarters:
        added(note, "accidental", SIGNS[quarters])
    held[pitch.step, pitch.octave] = quarters
