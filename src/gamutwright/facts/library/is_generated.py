"""Whether the scale is one unbroken chain of a single interval, as the major scale is a chain of fifths.

Conventions: tones are taken within one octave; a chain may close into a ring.
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
from gamutwright.theory.spectra import is_generated

__all__ = ["FACT"]

DEFINED = Citation(CAREY_CLAMPITT_1989, "generated scales", Evidence.MEMORY)
FIFTHS = Citation(PRACTICE, "the diatonic scale as a chain of fifths", Evidence.PRACTICE)
RECOMPUTED = Citation(CAREY_CLAMPITT_1989, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="is_generated",
    title="Generated scale",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=is_generated,
    witnesses=generator_chains,
    domain=Domain(tones=(2, 72)),
    needs=("generators",),
    terms=("generated scale",),
    picture=Picture("clock"),
    sound=Phrase("path"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, FIFTHS),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), True, RECOMPUTED),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), False, RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), False, RECOMPUTED),
    ),
)
