"""Whether some other set class has the same interval-class vector although it is neither a transposition nor an
inversion of the scale.

Conventions: twelve divisions have 23 such pairs of classes.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, NUNO_2020
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import is_z_related
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

LIST = Citation(NUNO_2020, "list of set classes, column zMate", Evidence.READ)

FACT = Fact(
    id="is_z_related",
    title="Z-related",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=is_z_related,
    domain=Domain(divisions=(12, 12), rule="Forte labels exist for twelve divisions only"),
    needs=("interval_class_vector",),
    terms=("Z-related",),
    picture=Picture("clock", "value"),
    sources=(Citation(FORTE_1973, "chapter 1, Z-related pairs"),),
    worked=(
        Worked(Scale.of(0, 1, 4, 6), True, LIST),
        Worked(Scale.of(0, 1, 2, 3, 5, 6), True, LIST),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, LIST),
    ),
)
