"""The tones of the scale on a keyboard in Kirnberger's third tuning: the fifths on C, G, D and A are a quarter of the
syntonic comma narrow, so that C to E is a pure third, and the others but one are pure.

Conventions: the fifth on F sharp is narrow by the schisma that is left. C is the home of the tuning and each pitch
class has one key, so the sizes depend on where the scale begins and not on how it is spelled. Sizes are cents above the
root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._keyboards import keyboard_fact
from gamutwright.facts.model import Citation, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import KIRNBERGER_III

__all__ = ["FACT"]

TABLE = Citation(BARBOUR_1951, "chapter 7, Kirnberger; table of modern tuners")

FACT = keyboard_fact(
    "kirnberger_cents",
    __doc__,
    "Kirnberger III",
    KIRNBERGER_III,
    terms=("Kirnberger",),
    sources=(Citation(BARBOUR_1951, "chapter 7, Kirnberger"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 90.225, 193.157, 294.135, 386.314, 498.045, 590.224, 696.578, 792.180, 889.735, 996.090, 1088.269),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 4, 7), (0.0, 386.314, 696.578), TABLE, tolerance=5e-4),
        # Only the third on C is pure: on G it is not.
        Worked(Scale.of(7, 11), (0.0, 386.314), TABLE, tolerance=5e-4, refutes=True),
    ),
)
