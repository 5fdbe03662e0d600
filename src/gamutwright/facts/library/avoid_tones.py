"""The tones of the scale that clash when held above the chord of its first chord symbol: those a semitone above a
tone of the chord.

Conventions: over a dominant seventh the flat and the sharp ninth and the flat thirteenth are excepted. Such a tone
may pass; it is not to be held.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
from gamutwright.facts.library._tensions import CHORD_SCALES, tension_fact
from gamutwright.facts.model import Citation, Evidence, Worked
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

COUNTED = Citation(PRACTICE, "tones above the chord counted by hand", Evidence.PRACTICE)

FACT = tension_fact(
    "avoid_tones",
    __doc__,
    "Tones to avoid over its chord",
    lambda symbol: symbol.avoided,
    none_when="the root carries no chord, or nothing lies a semitone above its tones",
    terms=("tone to avoid", "tones to avoid"),
    rank=7,
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("F",), CHORD_SCALES),
        Worked(Scale.of(7, 9, 11, 0, 2, 4, 5), ("C",), CHORD_SCALES),
        Worked(Scale.of(4, 5, 7, 9, 11, 0, 2), ("F", "C"), CHORD_SCALES),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), None, CHORD_SCALES),
        Worked(Scale.of(0, 4, 7), None, COUNTED),
    ),
)
