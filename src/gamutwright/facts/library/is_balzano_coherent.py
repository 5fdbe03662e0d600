"""Whether an interval of more scale steps is always larger than any of fewer steps, the two halves of the octave once
excepted.

Conventions: one ambiguity is allowed, that of a half octave as fourth and as fifth; any other ambiguity comes with that
of its inversions and so makes two. Of seven-tone scales in twelve divisions only the diatonic qualifies.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BALZANO_1980
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.propriety import is_balzano_coherent
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

QUOTED = Citation(
    BALZANO_1980,
    "as given in a course page of Dartmouth College: one coherent class of seven tones, the diatonic",
    Evidence.QUOTED,
)
RECOMPUTED = Citation(BALZANO_1980, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="is_balzano_coherent",
    title="Coherence in Balzano's sense",
    doc=__doc__,
    group=Group.COHERENCE,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=is_balzano_coherent,
    domain=Domain(tones=(3, 72)),
    needs=("propriety",),
    terms=("Balzano",),
    picture=Picture("spectra"),
    kernel="gamutwright.kernels.spans",
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, QUOTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), False, QUOTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 11), False, QUOTED),
        Worked(Scale.of(0, 2, 4, 7, 9), True, RECOMPUTED),
    ),
)
