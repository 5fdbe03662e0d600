"""The label of the scale's set class in Allen Forte's table: the number of tones, a hyphen, and the ordinal in that
table, with a Z where another class has the same interval-class vector.

Conventions: the label names the class of all transpositions and inversions, so it depends neither on root nor on mode.
Letters for the two mirror images are not standard between authors and are left out; the prime form says which one is
meant.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import forte_label
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TABLE = Citation(FORTE_1973, "Appendix 1, as transcribed in music21 10.5", Evidence.QUOTED)

FACT = Fact(
    id="forte_label",
    title="Forte label",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.TEXT,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=forte_label,
    domain=Domain(divisions=(12, 12), rule="Forte labels exist for twelve divisions only"),
    needs=("prime_form",),
    terms=("Forte label", "Forte number", "set class"),
    picture=Picture("clock", "value"),
    sources=(Citation(FORTE_1973, "Appendix 1"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "7-35", TABLE),
        Worked(Scale.of(0, 1, 3, 6, 8, 9), "6-Z29", TABLE),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), "7-32", TABLE),
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 11), "7-35", TABLE, refutes=True),
    ),
)
