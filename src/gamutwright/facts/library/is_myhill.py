"""Whether the intervals of every span, seconds, thirds and so on up to the octave, come in exactly two sizes.

Conventions: spans run from one step to one less than the number of tones. A scale of equal steps has one size for each
span and so lacks the property.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_MYERSON_1985
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import is_myhill

__all__ = ["FACT"]

QUOTED = Citation(CLOUGH_MYERSON_1985, "as given in Wikipedia, Maximal evenness", Evidence.QUOTED)
RECOMPUTED = Citation(CLOUGH_MYERSON_1985, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="is_myhill",
    title="Myhill's property",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=is_myhill,
    domain=Domain(tones=(2, 72)),
    needs=("spectra",),
    terms=("Myhill's property", "Myhill"),
    picture=Picture("spectra"),
    kernel="gamutwright.kernels.spans",
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, QUOTED),
        Worked(Scale.of(0, 2, 4, 7, 9), True, QUOTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), False, QUOTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), False, RECOMPUTED),
    ),
)
