"""The most compact way to write the scale's set class, by Allen Forte's rule: of all rotations of the set and of its
inversion, moved to begin on 0, the one with the smallest span, and among those the one packed most closely to the left.

Conventions: Forte's and Rahn's rules disagree on six classes of twelve notes; this is Forte's.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import prime_form
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TABLE = Citation(FORTE_1973, "Appendix 1, as transcribed in music21 10.5", Evidence.QUOTED)

FACT = Fact(
    id="prime_form",
    title="Prime form (Forte)",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.INTS,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=prime_form,
    domain=Domain(tones=(0, 72)),
    needs=("normal_form",),
    terms=("prime form",),
    picture=Picture("clock", "value"),
    sources=(Citation(FORTE_1973, "chapter 1"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (0, 1, 3, 5, 6, 8, 10), TABLE),
        Worked(Scale.of(0, 1, 5, 6, 8), (0, 1, 3, 7, 8), TABLE),
        Worked(Scale.of(0, 1, 4, 5, 7, 9), (0, 1, 3, 5, 8, 9), TABLE),
        Worked(Scale.of(0, 1, 5, 6, 8), (0, 1, 5, 6, 8), TABLE, refutes=True),
    ),
)
