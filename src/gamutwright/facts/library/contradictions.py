"""The number of pairs of intervals in which the one that covers fewer scale steps is the larger.

Conventions: an interval is two tones with a direction, upwards from the first to the second, so each pair of intervals,
not of sizes, counts. The one of fewer steps is named first.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CAREY_2002, RAHN_1991
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
from gamutwright.theory.coherence import contradictions, contradictory_pairs
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TERMS = Citation(RAHN_1991, "33, where the terms are introduced", Evidence.READ)
DEFINED = Citation(CAREY_2002, "definitions and formulas", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_2002, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the contradictions.

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
    >>> [w.parts for w in witnesses(Scale.of(0, 1, 2))]
    [((2, 0), (0, 2))]
    """
    return tuple(Witness(WitnessKind.INTERVAL_PAIR, pair) for pair in contradictory_pairs(scale))


FACT = Fact(
    id="contradictions",
    title="Contradictions",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.INT,
    unit="pairs of intervals",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=contradictions,
    witnesses=witnesses,
    counts=True,
    domain=Domain(tones=(3, 72)),
    needs=("spectra",),
    terms=("contradiction", "contradictions"),
    picture=Picture("spectra"),
    sound=Phrase("witnesses"),
    kernel="gamutwright.kernels.spans",
    sources=(TERMS, DEFINED),
    worked=(
        Worked(Scale.of(0, 2, 3, 7, 8), 4, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 0, RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 0, RECOMPUTED),
    ),
)
