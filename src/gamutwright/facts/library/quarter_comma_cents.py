"""The tones of the scale on a keyboard in quarter-comma meantone: every fifth but one is a quarter of the syntonic
comma narrow, so that eight of the major thirds are pure.

Conventions: the fifths run from E flat up to G sharp; the last, from G sharp to E flat, is much too wide, the wolf. C
is the home of the tuning and each pitch class has one key, so the sizes depend on where the scale begins and not on how
it is spelled. Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._keyboards import keyboard_fact
from gamutwright.facts.model import Citation, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import QUARTER_COMMA_MEANTONE

__all__ = ["FACT"]

TABLE = Citation(BARBOUR_1951, "chapter 3, table of the quarter-comma temperament")

FACT = keyboard_fact(
    "quarter_comma_cents",
    __doc__,
    "Quarter-comma meantone",
    QUARTER_COMMA_MEANTONE,
    terms=("quarter-comma meantone",),
    sources=(Citation(BARBOUR_1951, "chapter 3"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 4, 7), (0.0, 386.314, 696.578), TABLE, tolerance=5e-4),
        # E flat serves badly as D sharp: the third on B is not pure.
        Worked(Scale.of(11, 3), (0.0, 386.314), TABLE, tolerance=5e-4, refutes=True),
    ),
)
