"""The number of tones that the scale shares with each of its inversions, beginning with the one about the root.

Conventions: entry k, from 0, is for the inversion that sends x to k - x, tones counted from the root. Two tones that
change places count both, a tone that stays counts once.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import RAHN_1980
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Scope, Worked
from gamutwright.theory.intervals import common_tones_inversion
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

DEFINED = Citation(RAHN_1980, "common tones under inversion; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="common_tones_inversion",
    title="Common tones under inversion",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INTS,
    unit="tones",
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=common_tones_inversion,
    needs=("inversion",),
    terms=("common tones under inversion", "index vector"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 4, 7), (1, 0, 1, 0, 2, 0, 0, 2, 1, 0, 0, 2), DEFINED),
        Worked(Scale.of(*range(12)), (12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12), DEFINED),
        Worked(Scale.of(0, 1, 3), (1, 2, 1, 2, 2, 0, 1, 0, 0, 0, 0, 0), DEFINED),
        Worked(Scale.of(0, 4, 7), (1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 1), DEFINED, refutes=True),
    ),
)
