"""How nearly the tones, taken in order, divide the octave into equal steps: one if they do exactly, less the more they
stray from it.

Conventions: the size of the first Fourier coefficient of the row of tones as points on a circle of radius one, not of
the set; so a scale with equal steps has one, however many tones it has. A single tone has one.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import AMIOT_2007, MILNE_2015
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Phrase, Picture, Scope, Worked
from gamutwright.theory.fourier import evenness
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

RECOMPUTED = Citation(MILNE_2015, "definition of evenness; value by adding unit vectors", Evidence.RECOMPUTED)


FACT = Fact(
    id="evenness",
    doc=__doc__,
    title="Evenness",
    group=Group.FOURIER,
    dtype=Dtype.FLOAT,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=evenness,
    terms=("evenness",),
    picture=Picture("clock"),
    sound=Phrase("scale"),
    kernel="gamutwright.kernels.circle",
    sources=(Citation(AMIOT_2007, "the first coefficient of a scale"), Citation(MILNE_2015, "definition of evenness")),
    worked=(
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 1.0, Citation(AMIOT_2007, "regular polygons")),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 0.9888, RECOMPUTED, tolerance=5e-5),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 0.9778, RECOMPUTED, tolerance=5e-5),
        # Maximal evenness is not evenness of one: seven tones cannot divide twelve equally.
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1.0, RECOMPUTED, tolerance=5e-5, refutes=True),
    ),
)
