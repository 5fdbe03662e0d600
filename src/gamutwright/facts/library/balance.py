"""How nearly the tones, as equal weights set round a circle, would balance about its centre: one if they do exactly,
zero if all the weight is in one place.

Conventions: one minus the distance of the centre of gravity from the centre of the circle, whose radius is one; this is
the first Fourier coefficient of the set divided by the number of tones.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import MILNE_2015
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Phrase, Picture, Scope, Worked
from gamutwright.theory.fourier import balance
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

RECOMPUTED = Citation(MILNE_2015, "definition of balance; value by adding unit vectors", Evidence.RECOMPUTED)


FACT = Fact(
    id="balance",
    doc=__doc__,
    title="Balance",
    group=Group.FOURIER,
    dtype=Dtype.FLOAT,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=balance,
    needs=("centre_of_gravity",),
    terms=("balance",),
    picture=Picture("clock"),
    sound=Phrase("scale"),
    kernel="gamutwright.kernels.circle",
    sources=(Citation(MILNE_2015, "definition of balance"),),
    worked=(
        Worked(Scale.of(0, 3, 4, 7, 8, 11), 1.0, Citation(MILNE_2015, "perfectly balanced scales")),
        Worked(Scale.of(0, 1, 4, 7, 8), 1.0, RECOMPUTED),
        Worked(Scale.of(0), 0.0, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1.0, RECOMPUTED, refutes=True),
    ),
)
