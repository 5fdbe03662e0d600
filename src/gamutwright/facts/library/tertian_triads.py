"""The triads built on each degree of the scale from every other tone, as Roman numerals.

Conventions: a numeral counts the degrees of the scale itself, without accidentals: iv° of the acoustic scale stands on
its fourth degree, which `degrees` writes ♯4 because it compares with major. Capitals stand for a major triad, small
letters for a minor one, ° for diminished and + for augmented. Any other chord is a capital numeral with the sizes of
its two stacked intervals in brackets, counted in semitones.
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
from gamutwright.facts.roles import Basic, Part, Reader, Roles
from gamutwright.theory.harmony import tertian_numerals
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tertian_triads"]

MINOR = Citation(KOSTKA_PAYNE, "chapter 3, diatonic chords in major and harmonic minor")
COUNTED = Citation(PRACTICE, "chords spelled out by hand on each tone", Evidence.PRACTICE)
SIZE = 3


def tertian_triads(scale: Scale) -> tuple[str, ...]:
    """Give the Roman numerals of the chords on the degrees.

    Parameters
    ----------
    scale : Scale, 12 divisions, at least 5 tones
        The scale.

    Returns
    -------
    tuple of str
        One for each degree.

    Examples
    --------
    >>> tertian_triads(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('I', 'ii', 'iii', 'IV', 'V', 'vi', 'vii°')
    """
    return tertian_numerals(scale, SIZE)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the chords, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions, at least 5 tones
        The scale.

    Returns
    -------
    tuple of Witness
        A chord each, labelled with its numeral.

    Examples
    --------
    >>> witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))[4].parts
    ((7, 11, 2),)
    """
    return tertian_chords(scale, SIZE)


FACT = Fact(
    id="tertian_triads",
    doc=__doc__,
    title="Triads on the degrees",
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.ROOTED,
    value=tertian_triads,
    witnesses=witnesses,
    domain=Domain(
        tones=(5, 12),
        divisions=(12, 12),
        rooted=True,
        rule="every other tone makes triads from 5 tones of twelve divisions on",
    ),
    needs=("triads",),
    terms=("tertian triad", "tertian triads"),
    picture=Picture("staff"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.NUMERALS, longest=7, basic=Basic.NUMERALS, part=Part.HARMONY, rank=9),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("I", "ii", "iii", "IV", "V", "vi", "vii°"), MINOR),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), ("i", "ii°", "III+", "iv", "V", "VI", "vii°"), MINOR),
        Worked(Scale.of(0, 2, 4, 7, 9), ("I[4 5]", "II[5 5]", "III[5 5]", "IV[5 4]", "V[5 5]"), COUNTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), ("i", "ii°", "III", "iv", "v", "VI", "VII"), MINOR, refutes=True),
    ),
)
