"""Whether one can read from the gaps between the tones of a pattern, laid out on one cycle of equal spans such as the
circle of fifths, how often each of its shapes occurs in the scale.

Conventions: the cycle passes through all degrees of the scale by one fixed number of scale steps. The diatonic triad
has gaps of 1, 3 and 3 on the circle of fifths, and there are one diminished, three major and three minor triads.
Patterns of two tones decide; for longer ones it then follows, as Clough and Myerson prove.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_MYERSON_1985
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import has_structure_implies_multiplicity

__all__ = ["FACT"]

THEOREM = Citation(CLOUGH_MYERSON_1985, "definitions and theorems", Evidence.MEMORY)
RECOMPUTED = Citation(CLOUGH_MYERSON_1985, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="has_structure_implies_multiplicity",
    title="Structure implies multiplicity",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=has_structure_implies_multiplicity,
    domain=Domain(tones=(2, 72)),
    needs=("has_cardinality_equals_variety",),
    terms=("structure implies multiplicity",),
    picture=Picture("spectra"),
    sources=(THEOREM,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, THEOREM),
        Worked(Scale.of(0, 2, 4, 7, 9), True, THEOREM),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), False, RECOMPUTED),
    ),
)
