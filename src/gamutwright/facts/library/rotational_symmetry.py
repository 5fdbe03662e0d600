"""The number of transpositions within the octave, that by nothing included, after which the scale has the same pitch
classes as before.

Conventions: 1 means no symmetry; a scale whose pattern repeats three times in the octave has degree 3.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import NUNO_2020, STRAUS
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import rotational_symmetry

__all__ = ["FACT"]

LISTED = Citation(NUNO_2020, "list of set classes, column of transpositional symmetry", Evidence.READ)
RECOMPUTED = Citation(STRAUS, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="rotational_symmetry",
    title="Degree of transpositional symmetry",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.INT,
    unit="transpositions",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=rotational_symmetry,
    needs=("step_pattern",),
    terms=("transpositional symmetry", "rotational symmetry"),
    picture=Picture("clock", "none"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(LISTED,),
    worked=(
        Worked(Scale.of(0, 1, 6, 7), 2, LISTED),
        Worked(Scale.of(0, 1, 4, 5, 8, 9), 3, LISTED),
        Worked(Scale.of(0, 1, 2, 4, 5, 6, 8, 9, 10), 3, LISTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, RECOMPUTED),
        Worked(Scale.of(0, 4, 7), 3, RECOMPUTED, refutes=True),
    ),
)
