"""The number of transpositions of the scale that differ in their pitch classes.

Conventions: it is the number of steps in the division unless the scale repeats itself within the octave.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import MESSIAEN_1944, STRAUS
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import transposition_count

__all__ = ["FACT"]

MODES = Citation(MESSIAEN_1944, "chapter XVI", Evidence.MEMORY)
RECOMPUTED = Citation(STRAUS, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="transposition_count",
    title="Distinct transpositions",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.INT,
    unit="transpositions",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=transposition_count,
    needs=("rotational_symmetry",),
    terms=("distinct transpositions", "different transpositions"),
    picture=Picture("clock", "none"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(MODES,),
    worked=(
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 2, MODES),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), 3, MODES),
        Worked(Scale.of(0, 2, 3, 4, 6, 7, 8, 10, 11), 4, MODES),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 12, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, MODES, refutes=True),
    ),
)
