"""Where the tones, as equal weights set round a circle, have their centre of gravity.

Conventions: the root is at the top of a circle of radius one and the tones run clockwise; the first number is how far
the point lies to the right, the second how far up. Both are zero exactly where the tones balance.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import AMIOT_2016, LEWIN_1959, MILNE_2015
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.fourier import centre_of_gravity
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

RECOMPUTED = Citation(MILNE_2015, "definition; sines and cosines of the hours of a clock", Evidence.RECOMPUTED)


FACT = Fact(
    id="centre_of_gravity",
    doc=__doc__,
    title="Centre of gravity",
    group=Group.FOURIER,
    dtype=Dtype.FLOATS,
    unit="radii",
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=centre_of_gravity,
    terms=("centre of gravity",),
    picture=Picture("clock", "value"),
    sources=(Citation(MILNE_2015, "balance as a centre of gravity"), Citation(AMIOT_2016, "chapter 1")),
    worked=(
        Worked(Scale.of(0), (0.0, 1.0), RECOMPUTED),
        Worked(Scale.of(0, 3), (0.5, 0.5), RECOMPUTED, tolerance=1e-12),
        Worked(Scale.of(0, 4, 8), (0.0, 0.0), Citation(LEWIN_1959, "the first exceptional property")),
        # Counted against the clock, or from the right instead of the top.
        Worked(Scale.of(0, 3), (-0.5, 0.5), RECOMPUTED, tolerance=1e-12, refutes=True),
    ),
)
