"""The names of all seventh chords whose tones belong to the scale.

Conventions: upwards from the root; on one root in the order major seventh `maj7`, dominant `7`, minor `m7`,
half-diminished `m7b5`, diminished `dim7`, minor with major seventh `mM7`, augmented with major seventh `+M7`. A
diminished seventh chord is named on each of its four roots.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PRACTICE
from gamutwright.facts.library._places import chord_places
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
from gamutwright.facts.roles import Basic, Reader, Roles
from gamutwright.theory.harmony import chord_name, seventh_chords
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["FACT", "sevenths"]

SEVENTHS_OF_KEYS = Citation(KOSTKA_PAYNE, "chapter 3, diatonic seventh chords in major")
COUNTED = Citation(PRACTICE, "chords spelled out by hand on each tone", Evidence.PRACTICE)


def sevenths(scale: Scale) -> tuple[str, ...]:
    """Name the chords.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of str
        Their names, upwards from the root.

    Examples
    --------
    >>> sevenths(Scale.of(9, 11, 0, 2, 4, 5, 7))
    ('Am7', 'Bm7b5', 'Cmaj7', 'Dm7', 'Em7', 'Fmaj7', 'G7')
    """
    names = tone_name_map(scale)
    return tuple(chord_name(chord, names) for chord in seventh_chords(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the chords, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A chord each, labelled with its name.

    Examples
    --------
    >>> tuple(w.label for w in witnesses(Scale.of(9, 11, 0, 2, 4, 5, 7))) == sevenths(Scale.of(9, 11, 0, 2, 4, 5, 7))
    True
    """
    return chord_places(scale, seventh_chords(scale))


FACT = Fact(
    id="sevenths",
    doc=__doc__,
    title="Names of the seventh chords",
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=sevenths,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("seventh_chords",),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.CHORDS, longest=7, basic=Basic.SEVENTHS),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(
            Scale.of(0, 2, 4, 5, 7, 9, 11), ("Cmaj7", "Dm7", "Em7", "Fmaj7", "G7", "Am7", "Bm7b5"), SEVENTHS_OF_KEYS
        ),
        Worked(Scale.of(9, 0, 3, 6), ("Adim7", "Cdim7", "Ebdim7", "Gbdim7"), COUNTED),
        Worked(Scale.of(0, 4, 7), (), COUNTED),
    ),
)
