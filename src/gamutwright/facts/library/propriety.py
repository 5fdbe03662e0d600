"""Whether an interval that covers more scale steps is always at least as large as any that covers fewer: strictly
proper if always larger, proper if sometimes equal, improper if sometimes smaller.

Conventions: the value is "strictly proper", "proper" or "improper". The witnesses show why a scale is no better:
contradictions where it is improper, ambiguities where it is merely proper.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import ROTHENBERG_1978
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
from gamutwright.theory.coherence import ambiguous_pairs, contradictory_pairs
from gamutwright.theory.propriety import propriety
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

QUOTED = Citation(ROTHENBERG_1978, "as given in Wikipedia, Rothenberg propriety", Evidence.QUOTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List what keeps the scale from being strictly proper.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        Pairs of intervals: contradictions of an improper scale, ambiguities of a proper one.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((5, 11), (11, 5))]
    """
    pairs = contradictory_pairs(scale) or ambiguous_pairs(scale)
    return tuple(Witness(WitnessKind.INTERVAL_PAIR, pair) for pair in pairs)


FACT = Fact(
    id="propriety",
    title="Propriety",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.TEXT,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=propriety,
    witnesses=witnesses,
    domain=Domain(tones=(3, 72)),
    needs=("spectra",),
    terms=("proper", "strictly proper", "improper", "propriety"),
    picture=Picture("spectra"),
    sound=Phrase("witnesses"),
    kernel="gamutwright.kernels.spans",
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 7, 9), "strictly proper", QUOTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "proper", QUOTED),
        Worked(Scale.of(0, 1, 4, 6, 8), "proper", QUOTED),
        Worked(Scale.of(0, 2, 3, 7, 8), "improper", QUOTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "strictly proper", QUOTED, refutes=True),
    ),
)
