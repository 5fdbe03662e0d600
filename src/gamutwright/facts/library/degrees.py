"""The degree each tone stands for, counted from the root, with sharps and flats measured from the major scale.

Conventions: `b3` is a tone a semitone below the third degree of the major scale on the same root, whatever the scale at
hand. Seven tones take the numbers one to seven once each where double accidentals suffice; in other scales a number may
be missing or come twice.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PRACTICE
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
from gamutwright.facts.roles import Basic, Further, Part, Reader, Roles
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import degree_names

__all__ = ["FACT"]

RUDIMENTS = Citation(PRACTICE, "degree numbers of jazz and popular harmony teaching", Evidence.PRACTICE)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their degrees, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, labelled with its degree.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(9, 0, 4))]
    ['1', 'b3', '5']
    """
    return tuple(
        Witness(WitnessKind.TONE, ((tone,),), name) for tone, name in zip(scale.tones, degree_names(scale), strict=True)
    )


FACT = Fact(
    id="degrees",
    title="Degrees",
    doc=__doc__,
    group=Group.NAMES,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.ROOTED,
    value=degree_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rule="degrees are measured from the major scale of twelve divisions"),
    needs=("spelling",),
    terms=("scale degree", "scale degrees"),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    roles=Roles(reader=Reader.DEGREES, basic=Basic.DEGREES, part=Part.BUILD, rank=1, further=Further.TONE_OF_DEGREE),
    sources=(Citation(KOSTKA_PAYNE, "chapter 1, scale degrees"), RUDIMENTS),
    worked=(
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("1", "2", "b3", "4", "5", "6", "b7"), RUDIMENTS),
        Worked(Scale.of(0, 3, 5, 6, 7, 10), ("1", "b3", "4", "b5", "5", "b7"), RUDIMENTS),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 7), ("1", "2", "3", "4", "5", "6", "7"), RUDIMENTS, refutes=True),
        Worked(Scale.of(0, 1, 3, 4, 6, 8, 10), ("1", "b2", "b3", "b4", "b5", "b6", "b7"), RUDIMENTS),
    ),
)
