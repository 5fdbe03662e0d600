"""The sizes of the Fourier coefficients of the set of tones: the first says how far the tones crowd together on the
circle, and each further one, the k-th, how strongly they gather on k equally spaced points of it.

Conventions: coefficients 1 to half the number of divisions, in order; the others repeat them. The coefficient of index
0, which is only the number of tones, is left out. The transform is that of the set, not that of the scale in its order.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import AMIOT_2016, LEWIN_1959, QUINN_2006
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Worked
from gamutwright.theory.fourier import fourier_magnitudes
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

VALUES = Citation(QUINN_2006, "coefficients of chords and scales")


FACT = Fact(
    id="fourier_magnitudes",
    doc=__doc__,
    title="Fourier coefficients",
    group=Group.FOURIER,
    dtype=Dtype.FLOATS,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=fourier_magnitudes,
    domain=Domain(tones=(0, 72)),
    terms=("Fourier coefficient", "Fourier coefficients"),
    picture=Picture("fourier", "value"),
    sound=Phrase("scale"),
    sources=(
        Citation(LEWIN_1959, "the five exceptional properties"),
        Citation(QUINN_2006, "part 2"),
        Citation(AMIOT_2016, "chapter 1"),
    ),
    worked=(
        Worked(Scale.of(0, 4, 7), (0.5176, 1.0, 2.2361, 1.7321, 1.9319, 1.0), VALUES, tolerance=5e-5),
        Worked(Scale.of(0, 3, 6), (1.0, 1.0, 1.0, 3.0, 1.0, 1.0), VALUES, tolerance=5e-5),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), (0.0, 0.0, 0.0, 0.0, 0.0, 6.0), VALUES, tolerance=5e-5),
        # An augmented triad lies on one whole-tone set, so its sixth coefficient is not zero.
        Worked(Scale.of(0, 4, 8), (0.0, 0.0, 3.0, 0.0, 0.0, 0.0), VALUES, tolerance=5e-5, refutes=True),
    ),
)
