"""The tones of the scale on a keyboard tuned to ratios of the primes 2, 3 and 5 above C.

Conventions: the ratios are 1/1 16/15 9/8 6/5 5/4 4/3 45/32 3/2 8/5 5/3 9/5 15/8. They are one choice of several; 25/24,
64/45 and 16/9 are common alternatives. C is the home of the tuning and each pitch class has one key, so the sizes
depend on where the scale begins and not on how it is spelled. Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._keyboards import keyboard_fact
from gamutwright.facts.model import Citation, Evidence, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import FIVE_LIMIT

__all__ = ["FACT"]

TABLE = Citation(BARBOUR_1951, "chapter 5; cents from the logarithms of the ratios", Evidence.RECOMPUTED)

FACT = keyboard_fact(
    "five_limit_cents",
    __doc__,
    "Five-limit just intonation",
    FIVE_LIMIT,
    terms=("five-limit",),
    sources=(Citation(BARBOUR_1951, "chapter 5, just intonation"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 111.731, 203.910, 315.641, 386.314, 498.045, 590.224, 701.955, 813.686, 884.359, 1017.596, 1088.269),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 4, 7), (0.0, 386.314, 701.955), TABLE, tolerance=5e-4),
        # The fifth on D is a syntonic comma narrow.
        Worked(Scale.of(2, 9), (0.0, 680.449), TABLE, tolerance=5e-4),
        Worked(Scale.of(2, 9), (0.0, 701.955), TABLE, tolerance=5e-4, refutes=True),
    ),
)
