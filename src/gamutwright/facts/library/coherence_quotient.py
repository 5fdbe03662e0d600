"""One less the number of coherence failures divided by the most that a scale of so many tones can have: 1 means that
the number of scale steps and the size of intervals never disagree.

Conventions: the most that N tones can have is N(N - 1)(N - 2)(3N - 5)/24 in any division; in a small division it may be
out of reach.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.bibliography import CAREY_2002
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Scope, Worked
from gamutwright.theory.coherence import coherence_quotient
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

DEFINED = Citation(CAREY_2002, "definitions and formulas", Evidence.MEMORY)
RECOMPUTED = Citation(CAREY_2002, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="coherence_quotient",
    title="Coherence quotient",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.FRACTION,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=coherence_quotient,
    domain=Domain(tones=(3, 72)),
    needs=("coherence_failures",),
    terms=("coherence quotient",),
    kernel="gamutwright.kernels.spans",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(139, 140), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 7, 9), Fraction(1), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), Fraction(122, 140), RECOMPUTED),
        Worked(Scale.of(0, 1, 2), Fraction(0), RECOMPUTED),
    ),
)
