"""The sum of the widths of all spectra divided by the number of tones: how much, on average, intervals of equal span
vary in size.

Conventions: the divisor is the number of tones, as Clough and Douthett have it, not the number of spans, which is one
less. Their name for it is spectrum variation.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.bibliography import CLOUGH_DOUTHETT_1991
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import mean_spectrum_width

__all__ = ["FACT"]

DEFINED = Citation(CLOUGH_DOUTHETT_1991, "section on maximally even sets", Evidence.MEMORY)
RECOMPUTED = Citation(CLOUGH_DOUTHETT_1991, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="mean_spectrum_width",
    title="Mean spectrum width",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.FRACTION,
    unit="steps of the division",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=mean_spectrum_width,
    domain=Domain(tones=(2, 72)),
    needs=("spectrum_widths",),
    terms=("spectrum variation", "mean spectrum width"),
    picture=Picture("spectra"),
    kernel="gamutwright.kernels.spans",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(6, 7), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 7, 9), Fraction(4, 5), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), Fraction(10, 7), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), Fraction(0), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(1), RECOMPUTED, refutes=True),
    ),
)
