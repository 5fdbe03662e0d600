"""The seventh chords built on each degree of the scale from every other tone, as Roman numerals.

Conventions: a numeral counts the degrees of the scale itself, without accidentals: vii of a scale whose seventh degree
`degrees` writes ♭7 stands on that flat seventh. Capitals stand for a major third, small letters for a minor one, ° for
a diminished and ø for a half-diminished chord, + for an augmented triad; 7 is a minor or, with °, a diminished seventh
and M7 a major one. Any other chord is a capital numeral with the sizes of its three stacked intervals in brackets,
counted in semitones.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PRACTICE
from gamutwright.facts.library._places import tertian_chords
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Phrase,
    Picture,
    Scope,
    Witness,
    Worked,
)
from gamutwright.facts.roles import Reader, Roles
from gamutwright.theory.harmony import tertian_numerals
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tertian_sevenths"]

MINOR = Citation(KOSTKA_PAYNE, "chapter 3, diatonic chords in major and harmonic minor")
COUNTED = Citation(PRACTICE, "chords spelled out by hand on each tone", Evidence.PRACTICE)
SIZE = 4


def tertian_sevenths(scale: Scale) -> tuple[str, ...]:
    """Give the Roman numerals of the chords on the degrees.

    Parameters
    ----------
    scale : Scale, 12 divisions, at least 7 tones
        The scale.

    Returns
    -------
    tuple of str
        One for each degree.

    Examples
    --------
    >>> tertian_sevenths(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('IM7', 'ii7', 'iii7', 'IVM7', 'V7', 'vi7', 'viiø7')
    """
    return tertian_numerals(scale, SIZE)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the chords, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions, at least 7 tones
        The scale.

    Returns
    -------
    tuple of Witness
        A chord each, labelled with its numeral.

    Examples
    --------
    >>> witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))[4].parts
    ((7, 11, 2, 5),)
    """
    return tertian_chords(scale, SIZE)


FACT = Fact(
    id="tertian_sevenths",
    doc=__doc__,
    title="Seventh chords on the degrees",
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=tertian_sevenths,
    witnesses=witnesses,
    domain=Domain(
        tones=(7, 12),
        divisions=(12, 12),
        rooted=True,
        rule="every other tone makes seventh chords from 7 tones of twelve divisions on",
    ),
    needs=("tertian_triads", "seventh_chords"),
    terms=("tertian seventh chord", "tertian seventh chords"),
    picture=Picture("staff"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.NUMERALS, longest=7),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("IM7", "ii7", "iii7", "IVM7", "V7", "vi7", "viiø7"), MINOR),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), ("iM7", "iiø7", "III+M7", "iv7", "V7", "VIM7", "vii°7"), MINOR),
        Worked(Scale.of(0, 2, 4, 7, 9), None, COUNTED),
    ),
)
