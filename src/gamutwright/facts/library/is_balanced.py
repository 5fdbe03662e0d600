"""Whether the tones, as equal weights set round a circle, balance exactly about its centre.

Conventions: decided in whole numbers, not by rounding: the sum of the tones as points of the circle vanishes exactly if
a certain polynomial with whole coefficients, the cyclotomic one, divides the polynomial of the set.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import LEWIN_1959, MILNE_2015
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Phrase, Picture, Scope, Worked
from gamutwright.theory.fourier import is_balanced
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

RECOMPUTED = Citation(
    MILNE_2015, "definition; all seven-tone sets searched by adding unit vectors", Evidence.RECOMPUTED
)


FACT = Fact(
    id="is_balanced",
    doc=__doc__,
    title="Perfect balance",
    group=Group.FOURIER,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=is_balanced,
    needs=("balance",),
    terms=("perfectly balanced", "perfect balance"),
    picture=Picture("clock"),
    sound=Phrase("scale"),
    kernel="gamutwright.kernels.circle",
    sources=(
        Citation(MILNE_2015, "definition of perfect balance"),
        Citation(LEWIN_1959, "the first exceptional property"),
    ),
    worked=(
        Worked(Scale.of(0, 4, 8), True, Citation(LEWIN_1959, "the first exceptional property")),
        Worked(Scale.of(0, 3, 4, 7, 8, 11), True, Citation(MILNE_2015, "perfectly balanced scales")),
        Worked(Scale.of(0, 1, 4, 7, 8), True, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, RECOMPUTED),
        Worked(
            Scale.of(0, 2, 4, divisions=7),
            False,
            Citation(MILNE_2015, "a prime division has no balanced set but the full one"),
        ),
    ),
)
