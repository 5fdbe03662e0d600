"""The number of tones that the scale shares with itself moved up by one step, by two steps, and so on to one step below
the octave.

Conventions: steps of the division, semitones in twelve. The entries agree with the interval-class vector, but moving by
half an octave yields two common tones for each pair that is half an octave apart. A tone that stays in the scale
whichever of its own tones the scale is begun on anew, as E does for C major begun on C, D, E, F, G, A and B, is in all
of these transpositions at once.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import JOHNSON_2003, STRAUS
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.intervals import common_tones_transposition
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

RULE = Citation(STRAUS, "common tones under transposition, 71-74, as quoted in a tutorial by Bordini", Evidence.QUOTED)
TABLE = Citation(
    JOHNSON_2003,
    "42, table as copied in Wikipedia, Common tone; the tritone entry is misprinted there",
    Evidence.QUOTED,
)


FACT = Fact(
    id="common_tones_transposition",
    title="Common tones under transposition",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INTS,
    unit="tones",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=common_tones_transposition,
    needs=("interval_class_vector",),
    terms=("common tones under transposition",),
    picture=Picture("vector", "value"),
    sources=(RULE,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (2, 5, 4, 3, 6, 2, 6, 3, 4, 5, 2), RULE),
        Worked(Scale.of(0, 1, 3, 4), (2, 1, 2, 1, 0, 0, 0, 1, 2, 1, 2), RULE),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (2, 5, 4, 3, 6, 1, 6, 3, 4, 5, 2), TABLE, refutes=True),
    ),
)
