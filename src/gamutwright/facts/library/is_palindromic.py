"""Whether the steps of the scale from its root up to the octave read the same backwards, so that it climbs and falls by
the same steps.

Conventions: this depends on the root; other modes of the same tones may differ. It holds exactly if inversion about the
root changes nothing, and the witness is that axis.
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
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import is_palindromic

__all__ = ["FACT"]

COUNTED = Citation(PRACTICE, "step patterns of the church modes, read backwards", Evidence.PRACTICE)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Give the axis through the root where the scale is symmetric about it.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        The axis, or nothing.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 3, 5, 7, 9, 10))]
    [((0,),)]
    """
    return (Witness(WitnessKind.AXIS, ((0,),)),) if is_palindromic(scale) else ()


FACT = Fact(
    id="is_palindromic",
    title="Palindromic steps",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=is_palindromic,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    needs=("step_pattern",),
    terms=("palindrome", "palindromic"),
    picture=Picture("clock"),
    sound=Phrase("scale"),
    sources=(COUNTED,),
    worked=(
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 10), True, COUNTED),
        Worked(Scale.of(0, 2, 5, 7, 10), True, COUNTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, COUNTED),
    ),
)
