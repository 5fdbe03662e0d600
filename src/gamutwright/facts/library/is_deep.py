"""Whether every interval class occurs a different number of times in the scale.

Conventions: an interval class that does not occur counts as occurring no times, so one at most may be missing. Moving
such a scale by different intervals leaves different numbers of common tones.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import GAMER_1967, JOHNSON_2003
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.intervals import is_deep
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

QUOTED = Citation(JOHNSON_2003, "41, as quoted in Wikipedia, Deep scale property", Evidence.QUOTED)
DEFINED = Citation(GAMER_1967, "deep scales", Evidence.MEMORY)


FACT = Fact(
    id="is_deep",
    title="Deep scale",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=is_deep,
    domain=Domain(tones=(2, 72), divisions=(4, 72)),
    needs=("interval_class_vector",),
    terms=("deep scale",),
    picture=Picture("vector"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(DEFINED, QUOTED),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, QUOTED),
        Worked(Scale.of(0, 1, 2, 3, 4, 5), True, DEFINED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), False, QUOTED),
    ),
)
