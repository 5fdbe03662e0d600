"""How rough all tones of the scale are when they sound together, by Sethares's model of beating partials, where one is
the roughness of two pure tones at 440 and 460 hertz.

Conventions: one octave of the equal division from the root at or above middle C, A at 440 hertz, the octave of the root
left out. Each tone has six harmonics, each 0.88 times as strong as the one before. Two partials weigh as the weaker of
them, as in the program that Sethares published; his paper has their product. More tones are rougher: compare scales
with equally many.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import SETHARES_1993
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Phrase, Picture, Scope, Worked
from gamutwright.theory.consonance import scale_sethares_roughness
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

SUMMED = Citation(
    SETHARES_1993, "constants of the program; all pairs of partials added up one by one", Evidence.RECOMPUTED
)


FACT = Fact(
    id="sethares_roughness",
    doc=__doc__,
    title="Roughness by Sethares",
    group=Group.CONSONANCE,
    dtype=Dtype.FLOAT,
    unit="times the roughness of 440 and 460 hertz",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=scale_sethares_roughness,
    needs=("tone_frequencies",),
    terms=("roughness by Sethares",),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    sources=(Citation(SETHARES_1993, "the dissonance measure; constants of the program dissmeasure", Evidence.QUOTED),),
    worked=(
        Worked(Scale.of(0, 7), 0.794517, SUMMED, tolerance=5e-7),
        Worked(Scale.of(0, 1), 4.410817, SUMMED, tolerance=5e-7),
        Worked(Scale.of(0, 4, 7), 4.990467, SUMMED, tolerance=5e-7),
        # With the paper's product of amplitudes and rounded constants.
        Worked(Scale.of(0, 4, 7), 3.976120, SUMMED, tolerance=5e-7, refutes=True),
    ),
)
