"""The share of its tones that one must hear on average, the tones coming in random order, before it is certain which
transposition of the scale is being played.

Conventions: every order of the tones is equally likely, and the listener knows the scale but not its transposition.
Transpositions that hold the same tones count as one. The mean is exact; its cost doubles with each tone, so it is given
for up to twenty.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.bibliography import ROTHENBERG_1978
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Scope, Worked
from gamutwright.theory.propriety import MOST_TONES_FOR_EFFICIENCY, efficiency
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

REMEMBERED = Citation(ROTHENBERG_1978, "part II, printed to two places", Evidence.MEMORY)
RECOMPUTED = Citation(ROTHENBERG_1978, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="efficiency",
    title="Efficiency",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.FRACTION,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=efficiency,
    domain=Domain(
        tones=(1, MOST_TONES_FOR_EFFICIENCY), rule="its cost doubles with each tone, so it is given for up to twenty"
    ),
    needs=("transposition_count",),
    terms=("efficiency",),
    sources=(REMEMBERED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(77, 100), REMEMBERED, tolerance=0.005),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), Fraction(113, 147), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 7, 9), Fraction(4, 5), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), Fraction(92, 147), RECOMPUTED),
        Worked(Scale.of(*range(12)), Fraction(0), RECOMPUTED),
    ),
)
