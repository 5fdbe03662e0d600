"""The share of all pairs of tones whose distance occurs in the scale with one number of scale steps only, so that it
can be heard without doubt as a second, a third and so on.

Conventions: a pair is counted once, whichever of its tones is lower. Rothenberg gives the measure for proper scales; an
improper scale has none. The witnesses are the unambiguous pairs.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.bibliography import ROTHENBERG_1978
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Picture,
    Scope,
    Witness,
    Worked,
)
from gamutwright.facts.pointing import at_intervals
from gamutwright.theory.propriety import propriety, stability, unambiguous_pairs
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

QUOTED = Citation(ROTHENBERG_1978, "as given in Wikipedia, Rothenberg propriety", Evidence.QUOTED)
DEFINED = Citation(ROTHENBERG_1978, "definitions", Evidence.MEMORY)
RECOMPUTED = Citation(ROTHENBERG_1978, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the unambiguous pairs of a proper scale.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        An interval each, upwards from the root.

    Examples
    --------
    >>> len(witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11)))
    20
    """
    return () if propriety(scale) == "improper" else at_intervals(unambiguous_pairs(scale))


FACT = Fact(
    id="stability",
    title="Stability",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.FRACTION,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=stability,
    witnesses=witnesses,
    domain=Domain(tones=(3, 72)),
    none_when="the scale is improper, and stability is defined for proper scales",
    needs=("propriety",),
    terms=("stability",),
    picture=Picture("pairs"),
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(20, 21), QUOTED),
        Worked(Scale.of(0, 2, 4, 7, 9), Fraction(1), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), Fraction(10, 21), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 7, 8), None, DEFINED),
    ),
)
