"""The sum of the straight-line distances between all pairs of tones when the octave is drawn as a circle of radius one:
the more evenly the tones are spread, the larger it is.

Conventions: the measure compares scales of equally many tones; among those of one size the maximally even ones have the
largest sum.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BLOCK_DOUTHETT_1994
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.evenness import chord_length_sum
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

DEFINED = Citation(BLOCK_DOUTHETT_1994, "definition", Evidence.MEMORY)
GEOMETRY = Citation(
    BLOCK_DOUTHETT_1994, "definition; value from the sides and diagonals of regular polygons", Evidence.RECOMPUTED
)


FACT = Fact(
    id="chord_length_sum",
    title="Sum of chord lengths",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.FLOAT,
    unit="radii",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=chord_length_sum,
    needs=("is_maximally_even",),
    terms=("sum of chord lengths",),
    picture=Picture("clock", "none"),
    kernel="gamutwright.kernels.circle",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 6), 2.0, GEOMETRY, tolerance=1e-12),
        Worked(Scale.of(0, 4, 8), 3 * 3**0.5, GEOMETRY, tolerance=1e-12),
        Worked(Scale.of(0, 3, 6, 9), 4 + 4 * 2**0.5, GEOMETRY, tolerance=1e-12),
        Worked(Scale.of(0), 0.0, GEOMETRY),
    ),
)
