"""Whether the steps come in three sizes and the pattern becomes that of a well-formed scale whenever any two of the
sizes are taken as equal.

Conventions: only the order of the step sizes counts, not how large they are. Such a scale has an odd number of tones.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLAMPITT_1997
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import is_pairwise_well_formed

__all__ = ["FACT"]

DEFINED = Citation(CLAMPITT_1997, "definition; the pattern a b a c a b a", Evidence.MEMORY)
RECOMPUTED = Citation(CLAMPITT_1997, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="is_pairwise_well_formed",
    title="Pairwise well-formedness",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=is_pairwise_well_formed,
    domain=Domain(tones=(3, 72)),
    needs=("step_pattern", "well_formedness"),
    terms=("pairwise well-formed",),
    picture=Picture("ladder", "none"),
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 1, 3, 4, 8, 9, 11), True, DEFINED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, RECOMPUTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), False, RECOMPUTED),
    ),
)
