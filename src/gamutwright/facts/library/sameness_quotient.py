"""One less the number of differences divided by the most that a scale of so many tones can have: 1 means that intervals
of equally many scale steps never differ in size.

Conventions: the most that N tones can have is N(N - 1)^2/2 in any division; in a small division it may be out of reach.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.bibliography import CAREY_2002
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Scope, Worked
from gamutwright.theory.coherence import sameness_quotient
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

DEFINED = Citation(CAREY_2002, "definitions and formulas", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_2002, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="sameness_quotient",
    title="Sameness quotient",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.FRACTION,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=sameness_quotient,
    domain=Domain(tones=(2, 72)),
    needs=("differences",),
    terms=("sameness quotient",),
    kernel="gamutwright.kernels.spans",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(5, 9), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 7, 9), Fraction(1, 2), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), Fraction(1), RECOMPUTED),
        Worked(Scale.of(0, 1, 5), Fraction(0), RECOMPUTED),
    ),
)
