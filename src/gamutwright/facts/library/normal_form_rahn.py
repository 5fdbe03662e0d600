"""The most compact order of the scale's own pitch classes, by John Rahn's rule: the rotation with the smallest span,
and among those the one with the smallest intervals compared from the right.

Conventions: absolute pitch classes. Where symmetry leaves rotations tied, the one on the lowest pitch class is taken.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import RAHN_1980
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import normal_form_rahn
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TABLE = Citation(RAHN_1980, "chapter 3, rule applied by hand", Evidence.RECOMPUTED)

FACT = Fact(
    id="normal_form_rahn",
    title="Normal form (Rahn)",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.INTS,
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=normal_form_rahn,
    domain=Domain(tones=(0, 72)),
    needs=("normal_form",),
    terms=("normal form", "normal order"),
    picture=Picture("clock", "value"),
    sources=(Citation(RAHN_1980, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 1, 3, 7, 8), (7, 8, 0, 1, 3), TABLE),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (11, 0, 2, 4, 5, 7, 9), TABLE),
        Worked(Scale.of(0, 1, 3, 7, 8), (0, 1, 3, 7, 8), TABLE, refutes=True),
    ),
)
