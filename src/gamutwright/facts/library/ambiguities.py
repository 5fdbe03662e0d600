"""The number of pairs of intervals that are equal in size but cover different numbers of scale steps, as the augmented
fourth and the diminished fifth do.

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
from gamutwright.theory.coherence import ambiguities, ambiguous_pairs
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TERMS = Citation(RAHN_1991, "33, where the terms are introduced", Evidence.READ)
DEFINED = Citation(CAREY_2002, "definitions and formulas", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_2002, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the ambiguities.

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
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((5, 11), (11, 5))]
    """
    return tuple(Witness(WitnessKind.INTERVAL_PAIR, pair) for pair in ambiguous_pairs(scale))


FACT = Fact(
    id="ambiguities",
    title="Ambiguities",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.INT,
    unit="pairs of intervals",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=ambiguities,
    witnesses=witnesses,
    counts=True,
    domain=Domain(tones=(3, 72)),
    needs=("spectra",),
    terms=("ambiguity", "ambiguities"),
    picture=Picture("spectra"),
    sound=Phrase("witnesses"),
    kernel="gamutwright.kernels.spans",
    sources=(TERMS, DEFINED),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 7, 9), 0, RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 18, RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 3, RECOMPUTED, refutes=True),
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 11), 10, RECOMPUTED),
    ),
)
