"""The scale turned over about its root: every interval above the root becomes the same interval below it.

Conventions: pitch classes, listed upwards from the root. In twelve divisions C is 0.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import RAHN_1980
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Phrase,
    Picture,
    Scope,
    Worked,
)
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import inversion

__all__ = ["FACT"]

DEFINED = Citation(RAHN_1980, "transposition and inversion", Evidence.MEMORY)
RECOMPUTED = Citation(RAHN_1980, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="inversion",
    title="Inversion",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.INTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=inversion,
    domain=Domain(rooted=True),
    needs=("pitch_classes",),
    terms=("inversion",),
    picture=Picture("comparison", "value"),
    sound=Phrase("alternation"),
    roles=Roles(part=Part.RELATIVES, rank=8),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 4, 7), (0, 5, 8), DEFINED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (0, 1, 3, 5, 7, 8, 10), RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 10).transposed(2), (2, 4, 5, 7, 9, 11, 0), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (0, 2, 4, 5, 7, 9, 11), RECOMPUTED, refutes=True),
    ),
)
