"""The number of steps of one semitone between neighbouring tones, the step back up to the octave counted too.

Conventions: a step that closes the octave counts like any other. A scale without one is called anhemitonic, a scale
with one or more hemitonic.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
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
    Witness,
    WitnessKind,
    Worked,
)
from gamutwright.facts.pointing import at_intervals
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "semitone_steps"]

RUDIMENTS = Citation(PRACTICE, "scale construction", Evidence.PRACTICE)


def semitone_steps(scale: Scale) -> int:
    """Count the steps of one semitone.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Number of steps of size one.

    Examples
    --------
    >>> semitone_steps(Scale.of(0, 2, 4, 5, 7, 9, 11))
    2
    """
    return scale.step_pattern.count(1)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the semitone steps, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A step each.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((4, 5),), ((11, 0),)]
    """
    steps = zip(scale.tones, scale.step_pattern, strict=True)
    return at_intervals(((tone, (tone + 1) % scale.divisions) for tone, step in steps if step == 1), WitnessKind.STEP)


FACT = Fact(
    id="semitone_steps",
    title="Semitone steps",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INT,
    unit="steps",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=semitone_steps,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="a semitone is a step of twelve divisions"),
    needs=("step_pattern",),
    terms=("semitone", "hemitonic", "anhemitonic"),
    picture=Picture("ladder"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=3, is_needed=True, comparing=1),
    sources=(RUDIMENTS,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 2, RUDIMENTS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 3, RUDIMENTS),
        Worked(Scale.of(0, 2, 4, 7, 9), 0, RUDIMENTS),
    ),
)
