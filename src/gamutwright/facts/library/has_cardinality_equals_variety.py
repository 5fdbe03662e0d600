"""Whether every melodic pattern of k different scale tones, moved along the scale step by step, comes in exactly k
different shapes.

Conventions: two shapes are the same if they are transpositions of each other. Diatonic triads, for one, come in three
shapes: major, minor and diminished. Clough and Myerson prove that scales with Myhill's property have this one too, and
patterns of two tones show the converse; the value is decided so.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_MYERSON_1985
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
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import has_cardinality_equals_variety

__all__ = ["FACT"]

THEOREM = Citation(CLOUGH_MYERSON_1985, "definitions and theorems", Evidence.MEMORY)
RECOMPUTED = Citation(CLOUGH_MYERSON_1985, "definition; value recomputed", Evidence.RECOMPUTED)


FACT = Fact(
    id="has_cardinality_equals_variety",
    title="Cardinality equals variety",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=has_cardinality_equals_variety,
    domain=Domain(tones=(2, 72)),
    needs=("is_myhill",),
    terms=("cardinality equals variety",),
    picture=Picture("spectra"),
    sound=Phrase("chords"),
    sources=(THEOREM,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), True, THEOREM),
        Worked(Scale.of(0, 2, 4, 7, 9), True, THEOREM),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), False, RECOMPUTED),
    ),
)
