"""How rough all tones of the scale are when they sound together, by Hutchinson and Knopoff: the mean roughness of pairs
of partials within a critical bandwidth, weighed by their strengths.

Conventions: one octave of the equal division from the root at or above middle C, A at 440 hertz, the octave of the root
left out. Each tone has eleven harmonics of strengths one, a half, a third and so on, at their true frequencies;
partials that coincide exactly are merged. More tones are rougher: compare scales with equally many.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import HUTCHINSON_KNOPOFF_1978
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Phrase, Picture, Scope, Worked
from gamutwright.theory.consonance import scale_hutchinson_knopoff_roughness
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

TRIADS = Citation(
    HUTCHINSON_KNOPOFF_1978,
    "triads on middle C, as in the tests of dycon and the description of incon",
    Evidence.QUOTED,
)


FACT = Fact(
    id="hutchinson_knopoff_roughness",
    doc=__doc__,
    title="Roughness by Hutchinson and Knopoff",
    group=Group.CONSONANCE,
    dtype=Dtype.FLOAT,
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=scale_hutchinson_knopoff_roughness,
    needs=("tone_frequencies",),
    terms=("roughness by Hutchinson and Knopoff",),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    sources=(
        Citation(HUTCHINSON_KNOPOFF_1978, "the dissonance factor, as transcribed in dycon and incon", Evidence.QUOTED),
    ),
    worked=(
        Worked(Scale.of(0, 4, 7), 0.1202426, TRIADS, tolerance=5e-8),
        Worked(Scale.of(0, 3, 7), 0.1300830, TRIADS, tolerance=5e-8),
        # With the partials moved to the nearest semitone.
        Worked(Scale.of(0, 4, 7), 0.0889, TRIADS, tolerance=5e-5, refutes=True),
        Worked(Scale.of(0, 3, 7), 0.1040, TRIADS, tolerance=5e-5, refutes=True),
    ),
)
