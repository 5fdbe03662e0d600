"""The tones of the scale that may sound above the chord of its first chord symbol: those a whole tone above a tone of
the chord.

Conventions: over a dominant seventh the flat and the sharp ninth and the flat thirteenth are available as well.
Authors disagree about the thirteenth over a minor seventh chord, which makes a tritone with the third; here it is
available.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
from gamutwright.facts.library._tensions import CHORD_SCALES, tension_fact
from gamutwright.facts.model import Citation, Evidence, Worked
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

COUNTED = Citation(PRACTICE, "tones above the chord counted by hand", Evidence.PRACTICE)

FACT = tension_fact(
    "tensions",
    __doc__,
    "Available tensions",
    lambda symbol: symbol.available,
    none_when="the root carries no chord, or nothing lies a whole tone above its tones",
    terms=("available tension", "available tensions"),
    rank=6,
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("D", "A"), CHORD_SCALES),
        Worked(Scale.of(7, 9, 11, 1, 2, 4, 5), ("A", "C#", "E"), CHORD_SCALES),
        Worked(Scale.of(4, 5, 7, 9, 11, 0, 2), ("A",), CHORD_SCALES),
        Worked(Scale.of(0, 4, 7), None, COUNTED),
    ),
)
