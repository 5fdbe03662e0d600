"""The most compact order of the scale's own pitch classes, by Allen Forte's rule: the rotation with the smallest span,
and among those the one packed most closely to the left.

Conventions: absolute pitch classes. Where symmetry leaves rotations tied, the one on the lowest pitch class is taken.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import normal_form
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

MUSIC21 = Citation(FORTE_1973, "chapter 1, rule as applied by music21 10.5", Evidence.QUOTED)

FACT = Fact(
    id="normal_form",
    title="Normal form (Forte)",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.INTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=normal_form,
    domain=Domain(tones=(0, 72)),
    needs=("pitch_classes",),
    terms=("normal form", "normal order"),
    picture=Picture("clock", "value"),
    sources=(Citation(FORTE_1973, "chapter 1"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (11, 0, 2, 4, 5, 7, 9), MUSIC21),
        Worked(Scale.of(0, 3, 8), (8, 0, 3), MUSIC21),
        Worked(Scale.of(0, 1, 3, 7, 8), (7, 8, 0, 1, 3), MUSIC21, refutes=True),
    ),
)
