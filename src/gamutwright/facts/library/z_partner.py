"""The one other set class that has the same interval-class vector without being a transposition or inversion of the
scale.

Conventions: given by its Forte label. Most scales have none, and then nothing is said.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, NUNO_2020
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import z_partner
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

LIST = Citation(NUNO_2020, "list of set classes, column zMate", Evidence.READ)

FACT = Fact(
    id="z_partner",
    title="Z partner",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.TEXT,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=z_partner,
    domain=Domain(divisions=(12, 12), rule="Forte labels exist for twelve divisions only"),
    none_when="no other set class has its interval-class vector",
    needs=("forte_label", "interval_class_vector", "is_z_related"),
    terms=("Z partner", "Z-related"),
    picture=Picture("clock", "value"),
    sources=(Citation(FORTE_1973, "chapter 1, Z-related pairs"),),
    worked=(
        Worked(Scale.of(0, 1, 4, 6), "4-Z29", LIST),
        Worked(Scale.of(0, 1, 4, 5, 7), "5-Z38", LIST),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), None, LIST),
    ),
)
