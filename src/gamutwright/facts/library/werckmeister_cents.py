"""The tones of the scale on a keyboard in Werckmeister's third tuning: the fifths on C, G, D and B are a quarter of a
comma narrow and the others pure.

Conventions: the comma is the Pythagorean one, which is the modern reading; the treatise does not say. C is the home of
the tuning and each pitch class has one key, so the sizes depend on where the scale begins and not on how it is spelled.
Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951, WERCKMEISTER_1691
from gamutwright.facts.library._keyboards import keyboard_fact
from gamutwright.facts.model import Citation, Evidence, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import WERCKMEISTER_III

__all__ = ["FACT"]

ROUNDED = Citation(
    WERCKMEISTER_1691, "third temperament, in whole cents as tabulated in the open library hmt", Evidence.QUOTED
)
COMMAS = Citation(
    WERCKMEISTER_1691, "third temperament; cents from the logarithms of fifths and comma", Evidence.RECOMPUTED
)

FACT = keyboard_fact(
    "werckmeister_cents",
    __doc__,
    "Werckmeister III",
    WERCKMEISTER_III,
    terms=("Werckmeister",),
    sources=(
        Citation(WERCKMEISTER_1691, "third temperament", Evidence.QUOTED),
        Citation(BARBOUR_1951, "chapter 7, Werckmeister"),
    ),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 90.0, 192.0, 294.0, 390.0, 498.0, 588.0, 696.0, 792.0, 888.0, 996.0, 1092.0),
            ROUNDED,
            tolerance=0.5,
        ),
        Worked(Scale.of(0, 4, 7, 9), (0.0, 390.225, 696.090, 888.270), COMMAS, tolerance=5e-4),
        # Tables of whole cents are roundings: the A lies a quarter of a cent above 888.
        Worked(Scale.of(0, 9), (0.0, 888.0), COMMAS, tolerance=5e-4, refutes=True),
    ),
)
