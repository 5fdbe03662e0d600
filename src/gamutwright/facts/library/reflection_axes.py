"""The number of lines about which the clock of the scale can be turned over without changing it.

Conventions: each line stands for one inversion, the witness k sending x to k - x with tones counted from the root; its
line passes through k/2 and the point opposite. The number is also called the degree of inversional symmetry.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, NUNO_2020, STRAUS
from gamutwright.facts.model import (
    Citation,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Picture,
    Scope,
    Witness,
    WitnessKind,
    Worked,
)
from gamutwright.theory.pcset import inversion_stabiliser
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import reflection_axes

__all__ = ["FACT"]

LISTED = Citation(NUNO_2020, "list of set classes, column of inversional symmetry", Evidence.READ)
QUOTED = Citation(
    FORTE_1973, "inversionally symmetric trichords, after a transcription of Castren 1994", Evidence.QUOTED
)
RECOMPUTED = Citation(STRAUS, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the axes.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        One for each inversion, by its number.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((4,),)]
    """
    return tuple(Witness(WitnessKind.AXIS, ((index,),)) for index in inversion_stabiliser(scale))


FACT = Fact(
    id="reflection_axes",
    title="Axes of reflection",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.INT,
    unit="axes",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=reflection_axes,
    witnesses=witnesses,
    counts=True,
    terms=("axis of reflection", "axes of reflection", "inversional symmetry"),
    picture=Picture("clock"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(LISTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, RECOMPUTED),
        Worked(Scale.of(0, 4, 8), 3, RECOMPUTED),
        Worked(Scale.of(0, 4, 7), 0, QUOTED),
    ),
)
