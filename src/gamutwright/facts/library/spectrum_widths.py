"""For each number of scale steps, the size of the largest interval that covers so many steps less the size of the
smallest.

Conventions: an entry for each span, seconds first, in steps of the division. A width of 0 means that all intervals of
that span are equal.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_DOUTHETT_1991
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import spectrum_widths

__all__ = ["FACT"]

DEFINED = Citation(CLOUGH_DOUTHETT_1991, "section on maximally even sets", Evidence.MEMORY)
RECOMPUTED = Citation(CLOUGH_DOUTHETT_1991, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="spectrum_widths",
    title="Spectrum widths",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.INTS,
    unit="steps of the division",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=spectrum_widths,
    domain=Domain(tones=(2, 72)),
    needs=("spectra",),
    terms=("spectrum width", "spectrum widths"),
    picture=Picture("spectra"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (1, 1, 1, 1, 1, 1), DEFINED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), (0, 0, 0, 0, 0), DEFINED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), (2, 1, 2, 2, 1, 2), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), (1, 1, 1, 1, 1, 1), DEFINED, refutes=True),
    ),
)
