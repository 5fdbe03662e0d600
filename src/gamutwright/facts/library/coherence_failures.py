"""The number of ambiguities and contradictions together: pairs of intervals in which the one of fewer scale steps is
not the smaller.

Conventions: intervals have a direction, upwards from the first tone to the second. The witnesses are the ambiguities,
then the contradictions.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CAREY_2002
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
    WitnessKind,
    Worked,
)
from gamutwright.theory.coherence import ambiguous_pairs, coherence_failures, contradictory_pairs
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

DEFINED = Citation(CAREY_2002, "definitions and formulas", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_2002, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the ambiguities, then the contradictions.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        Two intervals each.

    Examples
    --------
    >>> len(witnesses(Scale.of(0, 2, 3, 7, 8)))
    5
    """
    pairs = (*ambiguous_pairs(scale), *contradictory_pairs(scale))
    return tuple(Witness(WitnessKind.INTERVAL_PAIR, pair) for pair in pairs)


FACT = Fact(
    id="coherence_failures",
    title="Coherence failures",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.INT,
    unit="pairs of intervals",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=coherence_failures,
    witnesses=witnesses,
    counts=True,
    domain=Domain(tones=(3, 72)),
    needs=("ambiguities", "contradictions"),
    terms=("coherence failure", "coherence failures"),
    picture=Picture("spectra"),
    kernel="gamutwright.kernels.spans",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 7, 9), 0, RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 7, 8), 5, RECOMPUTED),
    ),
)
