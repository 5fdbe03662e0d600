"""What scores write alike, as MusicXML: pitches, signs, and chord symbols.

**Conventions.** Pitches are those of `music.written`; `alter` has the exact distance in semitones to four places, and
the sign is that of the nearest quarter tone.
"""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree as ET

from gamutwright.languages import language_of
from gamutwright.music.written import Pitch
from gamutwright.publish.score.xml_parts import added
from gamutwright.theory.notenames import accidental

__all__ = [
    "KINDS",
    "SIGNS",
    "decimal",
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
