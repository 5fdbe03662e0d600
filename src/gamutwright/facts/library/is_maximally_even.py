"""Whether the tones are spread over the octave as evenly as the division allows: the intervals of each span have one
size, or two that differ by a single step.

Conventions: one tone alone counts as spread evenly. Equal steps are the special case of one size for each span.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_DOUTHETT_1991
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.evenness import is_maximally_even
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

QUOTED = Citation(CLOUGH_DOUTHETT_1991, "as given in Wikipedia, Maximal evenness", Evidence.QUOTED)
DEFINED = Citation(CLOUGH_DOUTHETT_1991, "section on maximally even sets", Evidence.MEMORY)


FACT = Fact(
    id="is_maximally_even",
    title="Maximal evenness",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=is_maximally_even,
    needs=("spectra",),
    terms=("maximally even", "maximal evenness"),
    picture=Picture("clock", "none"),
    kernel="gamutwright.kernels.spans",
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, QUOTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), True, QUOTED),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), True, DEFINED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), False, QUOTED),
    ),
)
