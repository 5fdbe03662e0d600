"""The tones of the scale on a keyboard tuned by pure fifths, the ratio 3 to 2.

Conventions: the fifths run from E flat up to G sharp; the last, from G sharp to E flat, is narrow by the whole
Pythagorean comma. C is the home of the tuning and each pitch class has one key, so the sizes depend on where the scale
begins and not on how it is spelled. Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._keyboards import keyboard_fact
from gamutwright.facts.model import Citation, Evidence, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import PYTHAGOREAN

__all__ = ["FACT"]

TABLE = Citation(BARBOUR_1951, "chapter 1, table of the Pythagorean tuning")
COMMA = Citation(BARBOUR_1951, "chapter 1; a pure fifth less the Pythagorean comma", Evidence.RECOMPUTED)

FACT = keyboard_fact(
    "pythagorean_cents",
    __doc__,
    "Pythagorean tuning",
    PYTHAGOREAN,
    terms=("Pythagorean tuning",),
    sources=(Citation(BARBOUR_1951, "chapter 1"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 113.685, 203.910, 294.135, 407.820, 498.045, 611.730, 701.955, 815.640, 905.865, 996.090, 1109.775),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 3, 7), (0.0, 294.135, 701.955), TABLE, tolerance=5e-4),
        # The fifth on G sharp is the wolf.
        Worked(Scale.of(8, 3), (0.0, 678.495), COMMA, tolerance=5e-4),
        Worked(Scale.of(8, 3), (0.0, 701.955), COMMA, tolerance=5e-4, refutes=True),
    ),
)
