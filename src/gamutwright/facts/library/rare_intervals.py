"""The interval classes that occur in the scale, but less often than any other that does: hearing one of them tells most
about where in the scale one is.

Conventions: classes in steps of the division, ascending; several if they occur equally seldom. The witnesses are the
pairs of tones, each labelled with its class.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BROWNE_1981
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
from gamutwright.theory.intervals import pairs_of_class, rare_intervals
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

DEFINED = Citation(BROWNE_1981, "rare intervals of the diatonic set", Evidence.MEMORY)
RECOMPUTED = Citation(BROWNE_1981, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the pairs of tones of the rare classes.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        An interval each, labelled with its interval class.

    Examples
    --------
    >>> [(w.parts, w.label) for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [(((5, 11),), '6')]
    """
    return tuple(
        Witness(WitnessKind.INTERVAL, (pair,), str(of_class))
        for of_class in rare_intervals(scale)
        for pair in pairs_of_class(scale, of_class)
    )


FACT = Fact(
    id="rare_intervals",
    title="Rare intervals",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INTS,
    unit="steps of the division",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=rare_intervals,
    witnesses=witnesses,
    domain=Domain(tones=(2, 72)),
    needs=("interval_class_vector",),
    terms=("rare interval", "rare intervals"),
    picture=Picture("vector"),
    sound=Phrase("witnesses"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (6,), DEFINED),
        Worked(Scale.of(0, 4, 7), (3, 4, 5), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), (6,), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (1, 6), DEFINED, refutes=True),
    ),
)
