"""Whether the scale has fewer different transpositions than the octave has steps, because some transposition by less
than an octave brings its own tones back.

Conventions: Messiaen lists seven such modes; he leaves out those that are parts of another with the same
transpositions, and the chromatic scale, all of which count here.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import MESSIAEN_1944, STRAUS
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import has_limited_transpositions

__all__ = ["FACT"]

MODES = Citation(MESSIAEN_1944, "chapter XVI", Evidence.MEMORY)
RECOMPUTED = Citation(STRAUS, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="has_limited_transpositions",
    title="Limited transposition",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=has_limited_transpositions,
    needs=("transposition_count",),
    terms=("limited transposition", "limited transpositions"),
    picture=Picture("clock", "none"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(MODES,),
    worked=(
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), True, MODES),
        Worked(Scale.of(0, 1, 5, 6, 7, 11), True, MODES),
        Worked(Scale.of(0, 4, 8), True, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, RECOMPUTED),
    ),
)
