"""The traditionally named scales on the same root that contain all the scale's tones and at least one more.

Conventions: a set with several names is listed under one of them. The melakartas, numbered by rule, and the chromatic
scale, which contains every scale, are left out.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
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
    WitnessKind,
    Worked,
)
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.naming import supersets_named
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "named_supersets"]

RUDIMENTS = Citation(PRACTICE, "scales that extend the pentatonic and blues scales", Evidence.PRACTICE)


def named_supersets(scale: Scale) -> tuple[str, ...]:
    """List the scales by name.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of str
        Their names; empty where there is none.

    Examples
    --------
    >>> named_supersets(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('bebop dominant', 'bebop major')
    """
    return tuple(record.name for record in supersets_named(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Give the tones of each, counted from the root of the scale at hand.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A scale each, upwards from its own first tone.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0, 2, 3, 5, 7, 8))]
    ['aeolian', 'harmonic minor', 'Messiaen mode 7']
    """
    return tuple(Witness(WitnessKind.SCALE, (record.scale.tones,), record.name) for record in supersets_named(scale))


FACT = Fact(
    id="named_supersets",
    title="Named scales around",
    doc=__doc__,
    group=Group.RELATIVES,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=named_supersets,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the names held are those of twelve divisions"),
    needs=("traditional_names",),
    picture=Picture("comparison"),
    sound=Phrase("witnesses"),
    roles=Roles(reader=Reader.SCALES, longest=4, part=Part.RELATIVES, rank=5, lists_supersets=True),
    sources=(RUDIMENTS,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9), ("ionian", "mixolydian", "bebop dominant", "bebop major"), RUDIMENTS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8), ("aeolian", "harmonic minor", "Messiaen mode 7"), RUDIMENTS),
        Worked(Scale.of(0, 2, 4, 7, 9), ("ionian", "aeolian"), RUDIMENTS, refutes=True),
        Worked(Scale.of(0, 1, 2, 3, 4, 5, 6), (), RUDIMENTS),
    ),
)
