"""The sum of the steps from the root up to each tone: of two scales with as many tones the one with the larger sum is
the brighter.

Conventions: only scales of one size in one division are compared by it. Among the church modes it gives the order by
flattened degrees: lydian, ionian, mixolydian, dorian, aeolian, phrygian, locrian, each one semitone darker.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PERSICHETTI_1961, PRACTICE
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Phrase,
    Picture,
    Scope,
    Worked,
)
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.character import brightness
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

MODES = Citation(PERSICHETTI_1961, "chapter 2, the modes in order of darkness; sums added up by hand")
ALONE = Citation(PRACTICE, "a root alone has nothing above it", Evidence.PRACTICE)


FACT = Fact(
    id="brightness",
    title="Brightness",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INT,
    unit="steps",
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=brightness,
    domain=Domain(rooted=True),
    needs=("step_pattern",),
    picture=Picture("ladder", marks="none"),
    sound=Phrase("drone"),
    roles=Roles(part=Part.BUILD, rank=4, comparing=1, of_one_size=True),
    sources=(Citation(PERSICHETTI_1961, "chapter 2"),),
    worked=(
        Worked(Scale.of(5, 7, 9, 11, 0, 2, 4), 39, MODES),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 38, MODES),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), 36, MODES),
        Worked(Scale.of(11, 0, 2, 4, 5, 7, 9), 33, MODES),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), 38, MODES, refutes=True),
        Worked(Scale.of(0), 0, ALONE),
    ),
)
