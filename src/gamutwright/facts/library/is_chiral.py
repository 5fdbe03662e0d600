"""Whether the mirror image of the scale is a different kind of scale, so that no transposition turns the one into the
other.

Conventions: root and mode are disregarded; the mirror image is the inversion.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, STRAUS
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import is_chiral

__all__ = ["FACT"]

QUOTED = Citation(
    FORTE_1973, "inversionally symmetric trichords, after a transcription of Castren 1994", Evidence.QUOTED
)
DEFINED = Citation(STRAUS, "chapter on symmetry", Evidence.MEMORY)
RECOMPUTED = Citation(STRAUS, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="is_chiral",
    title="Chirality",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.BOOL,
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=is_chiral,
    needs=("reflection_axes",),
    terms=("chiral", "achiral", "chirality"),
    picture=Picture("comparison", "none"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(DEFINED,),
    worked=(
        Worked(Scale.of(0, 4, 7), True, QUOTED),
        Worked(Scale.of(0, 4, 8), False, QUOTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), True, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, RECOMPUTED),
    ),
)
