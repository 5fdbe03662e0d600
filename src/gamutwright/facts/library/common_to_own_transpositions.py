"""The number of tones that remain in the scale whichever of its tones it is built on anew, step for step from the root.

Conventions: the scale is transposed so that its root falls on each of its tones in turn, and the tones found in all
these transpositions are counted. C major begun on C, D, E, F, G, A and B always contains E. A tone has this property
exactly if turning the clock over so that the root and it change places leaves the scale unchanged, so the number equals
that of the axes of reflection.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE, STRAUS
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
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import common_to_own_transpositions

__all__ = ["FACT", "common_tone_count"]

DEFINED = Citation(
    STRAUS, "common tones under transposition, applied to the tones of the scale; value recomputed", Evidence.RECOMPUTED
)
KEYS = Citation(PRACTICE, "key signatures of C, D, E, F, G, A and B major", Evidence.PRACTICE)


def common_tone_count(scale: Scale) -> int:
    """Count the tones common to the transpositions of the scale onto its own tones.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Number of tones.

    Examples
    --------
    >>> common_tone_count(Scale.of(0, 2, 4, 5, 7, 9, 11))
    1
    """
    return len(common_to_own_transpositions(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the common tones, upwards from the root.

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
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((4,),)]
    """
    return at_tones(common_to_own_transpositions(scale))


FACT = Fact(
    id="common_to_own_transpositions",
    title="Tones common to its own transpositions",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INT,
    unit="tones",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=common_tone_count,
    witnesses=witnesses,
    counts=True,
    domain=Domain(rooted=True),
    terms=("own transpositions",),
    picture=Picture("clock"),
    sound=Phrase("witnesses"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, KEYS),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, DEFINED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 0, DEFINED),
    ),
)
