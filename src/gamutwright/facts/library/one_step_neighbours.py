"""The number of other scales that come from moving a single tone by one step of the division into an empty place.

Conventions: any tone may move, the root too; the new scale is still counted from the old root, so it may lack it. A
tone that would land on another tone of the scale does not move.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import TYMOCZKO_2011
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
from gamutwright.theory.voiceleading import one_step_neighbours

__all__ = ["FACT", "count"]

COUNTED = Citation(
    TYMOCZKO_2011, "chapter 4; tones with an empty place beside them counted by hand", Evidence.RECOMPUTED
)


def count(scale: Scale) -> int:
    """Count the neighbours.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Different sets of tones one step away.

    Examples
    --------
    >>> count(Scale.of(0, 2, 4, 5, 7, 9, 11))
    10
    """
    return len(one_step_neighbours(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the neighbours, by the tone that moves; down before up.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        The tones of each counted from the old root, labelled with the tone that moved and its new place.

    Examples
    --------
    >>> [(w.label, w.parts) for w in witnesses(Scale.of(0, 4, 7))][-1]
    ('7 up to 8', ((0, 4, 8),))
    """
    return tuple(
        Witness(
            WitnessKind.SCALE,
            (move.scale.tones,),
            f"{move.tone} {'up' if move.step > 0 else 'down'} to {(move.tone + move.step) % scale.divisions}",
        )
        for move in one_step_neighbours(scale)
    )


FACT = Fact(
    id="one_step_neighbours",
    doc=__doc__,
    title="Neighbours one step away",
    group=Group.RELATIVES,
    dtype=Dtype.INT,
    unit="scales",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=count,
    witnesses=witnesses,
    counts=True,
    terms=("one-step neighbour", "one-step neighbours"),
    picture=Picture("neighbours"),
    sound=Phrase("alternation"),
    roles=Roles(part=Part.RELATIVES, rank=6),
    sources=(Citation(TYMOCZKO_2011, "chapter 4, voice leading by a single step"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 10, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 12, COUNTED),
        Worked(Scale.of(0, 4, 7), 6, COUNTED),
        Worked(Scale.of(*range(12)), 0, COUNTED),
    ),
)
