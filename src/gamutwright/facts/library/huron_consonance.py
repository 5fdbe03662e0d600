"""The sum over all intervals of the scale of a weight for each interval class, by which consonant classes count upwards
and dissonant ones downwards.

Conventions: Huron's weights for the classes 1 to 6 are -1.428, -0.582, 0.594, 0.386, 1.240 and -0.453; they are
standard scores, so the sum may be negative. A sum grows with the number of intervals: scales with different numbers of
tones cannot be compared by it.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import HURON_1994
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
from gamutwright.theory.consonance import huron_consonance
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "value"]

SUMMED = Citation(HURON_1994, "weights as transcribed in incon, summed by hand", Evidence.RECOMPUTED)


def value(scale: Scale) -> float:
    """Sum the weights.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    float
        The sum, rounded once from thousandths.

    Examples
    --------
    >>> value(Scale.of(0, 4, 7))
    2.22
    """
    return float(huron_consonance(scale))


FACT = Fact(
    id="huron_consonance",
    doc=__doc__,
    title="Huron's consonance",
    group=Group.CONSONANCE,
    dtype=Dtype.FLOAT,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=value,
    domain=Domain(divisions=(12, 12), rule="the weights are those of the six interval classes of twelve divisions"),
    needs=("interval_class_vector",),
    picture=Picture("vector", "none"),
    sound=Phrase("intervals"),
    sources=(Citation(HURON_1994, "weights as transcribed in the open program incon", Evidence.QUOTED),),
    worked=(
        Worked(
            Scale.of(0, 3, 7),
            2.22,
            Citation(HURON_1994, "minor triad, as printed in the description of incon", Evidence.QUOTED),
        ),
        Worked(
            Scale.of(0, 6), -0.453, Citation(HURON_1994, "weight of class 6, as transcribed in incon", Evidence.QUOTED)
        ),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 4.755, SUMMED),
        Worked(Scale.of(0), 0.0, SUMMED),
    ),
)
