"""The scale written as a row of ones and zeros, one for each step of the octave upwards from the root: one where the
scale has a tone, zero where it leaves one out.

Conventions: read from left to right like a keyboard; the first digit is the root. The row is a way to write the set;
what it would amount to as a binary number is nowhere told.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import MORRIS_1987, PRACTICE
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.facts.roles import Reader, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "bit_string"]

BY_HAND = Citation(PRACTICE, "written out from the tones by hand", Evidence.PRACTICE)


def bit_string(scale: Scale) -> str:
    """Write the characteristic function of the set as text.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    str
        As many digits as divisions, the root first.

    Examples
    --------
    >>> bit_string(Scale.of(0, 2, 4, 5, 7, 9, 11))
    '101011010101'
    """
    return scale.bits


FACT = Fact(
    id="bit_string",
    title="Bit string",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.TEXT,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=bit_string,
    domain=Domain(tones=(0, 72)),
    needs=("pitch_classes",),
    terms=("bit string", "row of bits"),
    picture=Picture("keyboard", "value"),
    roles=Roles(reader=Reader.DIGITS, longest=12),
    sources=(Citation(MORRIS_1987, "chapter 3, characteristic functions"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "101011010101", BY_HAND),
        Worked(Scale.of(0, 3, 5, 7, 10), "100101010010", BY_HAND),
        Worked(Scale.of(0, 3, 5, 7, 10), "010010101001", BY_HAND, refutes=True),
    ),
)
