"""The number of pairs of intervals that cover equally many scale steps but differ in size.

Conventions: all spans up to one less than the number of tones count, so a pair of seconds and the pair of sevenths that
complete them count both. A scale of equal steps has none. The witnesses come span by span.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CAREY_2002, CAREY_2007, RAHN_1991
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
from gamutwright.theory.coherence import differences, differing_pairs
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TERMS = Citation(RAHN_1991, "33, where the terms are introduced", Evidence.READ)
WELL_FORMED = Citation(CAREY_2007, "well-formed scales of N tones have N(N^2 - 1)/6", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_2002, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the differences, span by span.

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
    >>> len(witnesses(Scale.of(0, 2, 4, 7, 9)))
    20
    """
    return tuple(Witness(WitnessKind.INTERVAL_PAIR, pair) for pair in differing_pairs(scale))


FACT = Fact(
    id="differences",
    title="Differences",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.INT,
    unit="pairs of intervals",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=differences,
    witnesses=witnesses,
    counts=True,
    domain=Domain(tones=(2, 72)),
    needs=("spectra",),
    picture=Picture("spectra"),
    kernel="gamutwright.kernels.spans",
    sources=(TERMS, WELL_FORMED),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 56, WELL_FORMED),
        Worked(Scale.of(0, 2, 4, 7, 9), 20, WELL_FORMED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 82, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 0, RECOMPUTED),
    ),
)
