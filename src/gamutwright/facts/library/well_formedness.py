"""Whether the scale is a chain of one interval that always covers the same number of scale steps; if besides all its
steps are equal, it is called degenerate.

Conventions: the value is "non-degenerate", "degenerate" or "not well-formed". Links of the chain count, not the
interval that closes it. The non-degenerate scales are exactly those with Myhill's property, as Carey and Clampitt
prove. The witnesses are the chains.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CAREY_CLAMPITT_1989
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
from gamutwright.theory.spectra import generator_chain, generators, well_formedness

__all__ = ["FACT"]

DEFINED = Citation(CAREY_CLAMPITT_1989, "definition of well-formed scales", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_CLAMPITT_1989, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the chains of a well-formed scale, one for each generating interval.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        The tones in the order of the chain, labelled with the size of its interval.

    Examples
    --------
    >>> [(w.parts[0], w.label) for w in witnesses(Scale.of(0, 2, 4, 7, 9))]
    [((4, 9, 2, 7, 0), '5'), ((0, 7, 2, 9, 4), '7')]
    """
    if well_formedness(scale) == "not well-formed":
        return ()
    return tuple(Witness(WitnessKind.TONES, (generator_chain(scale, step),), str(step)) for step in generators(scale))


FACT = Fact(
    id="well_formedness",
    title="Well-formedness",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.TEXT,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=well_formedness,
    witnesses=witnesses,
    domain=Domain(tones=(2, 72)),
    needs=("generators",),
    terms=("well-formed", "well-formedness", "degenerate"),
    picture=Picture("clock"),
    sound=Phrase("path"),
    kernel="gamutwright.kernels.spans",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "non-degenerate", DEFINED),
        Worked(Scale.of(0, 2, 4, 7, 9), "non-degenerate", DEFINED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), "degenerate", DEFINED),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), "not well-formed", RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), "non-degenerate", DEFINED, refutes=True),
    ),
)
