"""The tones that the scale leaves out, counted from the same root.

Conventions: pitch classes upwards from the root. The complement of a heptatonic scale of twelve divisions is
pentatonic; scale and complement together make the whole octave.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, PRACTICE
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
from gamutwright.facts.pointing import at_tones
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "complement", "witnesses"]

KEYBOARD = Citation(PRACTICE, "white and black keys of the keyboard", Evidence.PRACTICE)


def complement(scale: Scale) -> tuple[int, ...]:
    """Give the pitch classes left out.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int in [0, divisions)
        Upwards from the root.

    Examples
    --------
    >>> complement(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (1, 3, 6, 8, 10)
    """
    return scale.complement().pitch_classes


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones left out, upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each.

    Examples
    --------
    >>> len(witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11)))
    5
    """
    return at_tones(scale.complement().tones)


FACT = Fact(
    id="complement",
    title="Complement",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=complement,
    witnesses=witnesses,
    domain=Domain(tones=(0, 72)),
    needs=("pitch_classes",),
    terms=("complement",),
    picture=Picture("clock"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.RELATIVES, rank=7),
    sources=(Citation(FORTE_1973, "chapter 1, complement relation"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (1, 3, 6, 8, 10), KEYBOARD),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), (1, 3, 5, 7, 9, 11), KEYBOARD),
        Worked(Scale(0b111111111111), (), Citation(FORTE_1973, "chapter 1, the null set")),
    ),
)
