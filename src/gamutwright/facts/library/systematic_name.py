"""The name that says how the scale departs from the nearest familiar scale on the same root.

Conventions: the familiar scales are the seven church modes, harmonic minor, melodic minor and harmonic major. An
altered degree, one left out and one added are a change each, a double accidental counts as two; fewest changes win, and
ties go to the scale that stands earlier in `gamutwright.theory.systematic`. Degrees are always measured from the major
scale. Each rooted set of twelve has one such name, and no two share one.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
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
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.scale import Scale
from gamutwright.theory.systematic import systematic_name

__all__ = ["FACT"]

TEACHING = Citation(PRACTICE, "chord-scale names of jazz teaching, such as dorian #4", Evidence.PRACTICE)

FACT = Fact(
    id="systematic_name",
    title="Systematic name",
    doc=__doc__,
    group=Group.NAMES,
    dtype=Dtype.TEXT,
    level=Level.FOUNDATION,
    scope=Scope.ROOTED,
    value=systematic_name,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the familiar scales are those of twelve divisions"),
    needs=("degrees",),
    terms=("systematic name",),
    picture=Picture("comparison", marks="none"),
    sound=Phrase("scale"),
    roles=Roles(reader=Reader.SCALES, part=Part.BUILD, rank=3, names_scale=True),
    sources=(TEACHING,),
    worked=(
        Worked(Scale.of(0, 2, 3, 6, 7, 9, 10), "dorian #4", TEACHING),
        Worked(Scale.of(0, 1, 4, 5, 7, 8, 10), "phrygian natural 3", TEACHING),
        Worked(Scale.of(0, 2, 4, 7, 9), "ionian without 4 and 7", TEACHING),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), "aeolian natural 7", TEACHING, refutes=True),
    ),
)
