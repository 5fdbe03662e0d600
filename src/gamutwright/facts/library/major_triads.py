"""The number of tones of the scale that carry a major triad: the major third and perfect fifth above them belong to the
scale too.

Conventions: any tone may be the root, whether or not every other tone of the scale would build the chord there.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PRACTICE
from gamutwright.facts.library._qualities import quality_fact
from gamutwright.facts.model import Citation, Evidence, Level, Scope, Worked
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 3, diatonic triads in major and minor")
COUNTED = Citation(PRACTICE, "triads spelled out by hand on each tone", Evidence.PRACTICE)

FACT = quality_fact(
    "major_triads",
    __doc__,
    "Major triads",
    "",
    level=Level.FOUNDATION,
    scope=Scope.TN,
    terms=("major triad", "major triads"),
    roles=Roles(part=Part.HARMONY, rank=3, comparing=3),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 3, KEYS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 2, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 0, COUNTED),
        Worked(Scale.of(*range(12)), 12, COUNTED),
    ),
)
