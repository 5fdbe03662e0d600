"""The number of tones of the scale that carry a diminished triad: the minor third and diminished fifth above them
belong to the scale too.

Conventions: any tone may be the root; the diminished fifth is six semitones, however it is spelled.
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
    "diminished_triads",
    __doc__,
    "Diminished triads",
    "dim",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    terms=("diminished triad", "diminished triads"),
    roles=Roles(part=Part.HARMONY, rank=6, comparing=6),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, KEYS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 4, COUNTED),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), 8, COUNTED),
        Worked(Scale.of(0, 2, 4, 7, 9), 0, COUNTED),
    ),
)
