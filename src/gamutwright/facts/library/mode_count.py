"""The number of different scales one gets by starting the same tones from each of them in turn, two being the same if
their steps are.

Conventions: it is the number of tones unless the scale repeats itself within the octave. Each witness is the tone to
start from; of tones that give the same steps only the first is named.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
from gamutwright.facts.model import (
    Citation,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Phrase,
    Picture,
    Scope,
    Witness,
    WitnessKind,
    Worked,
)
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale
from gamutwright.theory.symmetry import mode_count, mode_tones

__all__ = ["FACT"]

MODES = Citation(PRACTICE, "the church modes and the symmetric scales", Evidence.PRACTICE)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones that start different modes.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, upwards from the root.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))]
    [((0,),), ((1,),)]
    """
    return tuple(Witness(WitnessKind.MODE, ((tone,),)) for tone in mode_tones(scale))


FACT = Fact(
    id="mode_count",
    title="Distinct modes",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.INT,
    unit="modes",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=mode_count,
    witnesses=witnesses,
    counts=True,
    needs=("step_pattern",),
    terms=("distinct modes", "different modes"),
    picture=Picture("modes"),
    sound=Phrase("modes"),
    kernel="gamutwright.kernels.interval_columns",
    roles=Roles(part=Part.RELATIVES, rank=2),
    sources=(MODES,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 7, MODES),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), 2, MODES),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 1, MODES),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, MODES, refutes=True),
    ),
)
