"""The intervals that reach every tone of the scale in one unbroken chain, each of its links being that same interval.

Conventions: sizes in steps of the division, ascending; an interval and its inversion always come together, the chain
running the other way. A chain may close into a ring. Each witness holds the tones in the order of the chain.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CAREY_CLAMPITT_1989, PRACTICE
from gamutwright.facts.library._places import generator_chains
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
    Worked,
)
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import generators

__all__ = ["FACT"]

DEFINED = Citation(CAREY_CLAMPITT_1989, "generated scales", Evidence.MEMORY)
FIFTHS = Citation(PRACTICE, "the diatonic scale as a chain of fifths", Evidence.PRACTICE)
RECOMPUTED = Citation(CAREY_CLAMPITT_1989, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="generators",
    title="Generating intervals",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.INTS,
    unit="steps of the division",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=generators,
    witnesses=generator_chains,
    domain=Domain(tones=(2, 72)),
    terms=("generator", "generators", "generating interval"),
    picture=Picture("clock"),
    sound=Phrase("path"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (5, 7), FIFTHS),
        Worked(Scale.of(0, 2, 4, 7, 9), (5, 7), FIFTHS),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), (2, 10), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), (), RECOMPUTED),
    ),
)
