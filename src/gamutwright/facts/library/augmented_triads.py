"""The number of augmented triads in the scale, counted once for each root: an augmented triad divides the octave
equally, so each of its three tones is a root of it.

Conventions: the count is therefore always a multiple of three.
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
    "augmented_triads",
    __doc__,
    "Augmented triads",
    "aug",
    level=Level.FURTHER,
    scope=Scope.TNI,
    terms=("augmented triad", "augmented triads"),
    roles=Roles(part=Part.HARMONY, rank=7),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 3, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, COUNTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 0, KEYS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 1, COUNTED, refutes=True),
    ),
)
