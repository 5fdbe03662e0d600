"""The most compact way to write the scale's set class, by John Rahn's rule: of all rotations of the set and of its
inversion, moved to begin on 0, the one with the smallest span, and among those the one with the smallest intervals
compared from the right.

Conventions: Forte's and Rahn's rules disagree on six classes of twelve notes; this is Rahn's.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import RAHN_1980
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import prime_form_rahn
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TABLE = Citation(RAHN_1980, "table of set classes, as transcribed in hmt", Evidence.QUOTED)

FACT = Fact(
    id="prime_form_rahn",
    title="Prime form (Rahn)",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.INTS,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=prime_form_rahn,
    domain=Domain(tones=(0, 72)),
    needs=("prime_form",),
    terms=("prime form",),
    picture=Picture("clock", "value"),
    sources=(Citation(RAHN_1980, "chapter 4"),),
    worked=(
        Worked(Scale.of(0, 1, 3, 7, 8), (0, 1, 5, 6, 8), TABLE),
        Worked(Scale.of(0, 1, 3, 6, 8, 9), (0, 2, 3, 6, 7, 9), TABLE),
        Worked(Scale.of(0, 1, 3, 5, 8, 9), (0, 1, 4, 5, 7, 9), TABLE),
        Worked(Scale.of(0, 1, 3, 7, 8), (0, 1, 3, 7, 8), TABLE, refutes=True),
    ),
)
