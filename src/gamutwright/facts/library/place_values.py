"""How a set is written in binary, digit by digit: each step of the octave, counted upwards from the root, has a place,
and every place is worth twice the place below it. Told are the worths of the places at which the scale has a tone.

Conventions: the root stands at the place worth one, two to the power of nought; the tone k steps above it at the place
worth two to the power of k. The worths tell the places apart and nothing more: they are nowhere added up, and no number
stands for the whole.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import MORRIS_1987, PRACTICE
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
from gamutwright.facts.roles import Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "place_values", "witnesses"]

BY_HAND = Citation(PRACTICE, "powers of two written out by hand", Evidence.PRACTICE)
MOST_TONES = 8
"""More worths than this are nothing for the ear."""


def place_values(scale: Scale) -> tuple[int, ...]:
    """Give the worth of the place of each tone, upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        Powers of two.

    Examples
    --------
    >>> place_values(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (1, 4, 16, 32, 128, 512, 2048)
    """
    return tuple(1 << tone for tone in scale.tones)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones, upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, labelled with the worth of its place.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0, 4, 7))]
    ['1', '16', '128']
    """
    return tuple(Witness(WitnessKind.TONE, ((tone,),), str(1 << tone)) for tone in scale.tones)


FACT = Fact(
    id="place_values",
    title="Worths of the binary places",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INTS,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=place_values,
    witnesses=witnesses,
    domain=Domain(divisions=(2, 12), rule="worths of more than twelve places are too large to be told"),
    needs=("bit_string",),
    terms=("binary place", "binary places", "powers of two"),
    picture=Picture("keyboard", "value"),
    sound=Phrase("scale"),
    roles=Roles(longest=MOST_TONES),
    sources=(Citation(MORRIS_1987, "chapter 3, characteristic functions"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (1, 4, 16, 32, 128, 512, 2048), BY_HAND),
        Worked(Scale.of(0, 3, 5, 7, 10), (1, 8, 32, 128, 1024), BY_HAND),
        Worked(Scale.of(0, 4, 7).transposed(4), (1, 16, 128), BY_HAND),
        Worked(Scale.of(0, 4, 7).transposed(4), (16, 256, 2048), BY_HAND, refutes=True),
    ),
)
