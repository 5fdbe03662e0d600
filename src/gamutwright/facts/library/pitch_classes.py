"""The pitch classes of the scale upwards from its root, octaves disregarded.

Conventions: in twelve divisions C is 0, C sharp 1 and so on to B, 11; in other divisions 0 is the pitch class that the
tuning places on C.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, PRACTICE
from gamutwright.facts.model import (
    Citation,
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
from gamutwright.facts.roles import Basic, Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "pitch_classes"]

RUDIMENTS = Citation(PRACTICE, "key signatures", Evidence.PRACTICE)


def pitch_classes(scale: Scale) -> tuple[int, ...]:
    """Give the pitch classes upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int in [0, divisions)
        One for each tone.

    Examples
    --------
    >>> pitch_classes(Scale.of(2, 4, 6, 7, 9, 11, 1))
    (2, 4, 6, 7, 9, 11, 1)
    """
    return scale.pitch_classes


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones, upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, labelled with its pitch class.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(9, 0, 4))]
    ['9', '0', '4']
    """
    return tuple(
        Witness(WitnessKind.TONE, ((tone,),), str(pitch_class))
        for tone, pitch_class in zip(scale.tones, scale.pitch_classes, strict=True)
    )


FACT = Fact(
    id="pitch_classes",
    title="Pitch classes",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=pitch_classes,
    witnesses=witnesses,
    terms=("pitch class", "pitch classes"),
    picture=Picture("clock"),
    sound=Phrase("scale"),
    roles=Roles(basic=Basic.PITCH_CLASSES, part=Part.BUILD, rank=7),
    sources=(Citation(FORTE_1973, "chapter 1"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (0, 2, 4, 5, 7, 9, 11), RUDIMENTS),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11).transposed(2), (2, 4, 6, 7, 9, 11, 1), RUDIMENTS),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11).transposed(2), (1, 2, 4, 6, 7, 9, 11), RUDIMENTS, refutes=True),
    ),
)
