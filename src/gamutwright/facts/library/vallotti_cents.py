"""The tones of the scale on a keyboard in Vallotti's tuning: the six fifths from F up to B are a sixth of the
Pythagorean comma narrow, the other six pure.

Conventions: keys with few accidentals have the purest thirds. C is the home of the tuning and each pitch class has one
key, so the sizes depend on where the scale begins and not on how it is spelled. Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._keyboards import keyboard_fact
from gamutwright.facts.model import Citation, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import VALLOTTI

__all__ = ["FACT"]

TABLE = Citation(BARBOUR_1951, "chapter 7, Vallotti; table of modern tuners")

FACT = keyboard_fact(
    "vallotti_cents",
    __doc__,
    "Vallotti",
    VALLOTTI,
    terms=("Vallotti",),
    sources=(Citation(BARBOUR_1951, "chapter 7, Vallotti"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 94.135, 196.090, 298.045, 392.180, 501.955, 592.180, 698.045, 796.090, 894.135, 1000.0, 1090.225),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(6, 10, 1), (0.0, 407.820, 701.955), TABLE, tolerance=5e-4),
        # The triad on F sharp is not that on C.
        Worked(Scale.of(6, 10, 1), (0.0, 392.180, 698.045), TABLE, tolerance=5e-4, refutes=True),
    ),
)
