"""The sizes of the steps from each tone up to the next, starting at the root and closing at the octave.

Conventions: sizes are counted in steps of the division, semitones in twelve; they always sum to the division. One tone
alone has the whole octave as its only step.
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
from gamutwright.facts.roles import Basic, Further, Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "step_pattern"]

RUDIMENTS = Citation(PRACTICE, "scale construction", Evidence.PRACTICE)


def step_pattern(scale: Scale) -> tuple[int, ...]:
    """Give the steps upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        As many sizes as tones, in steps of the division.

    Examples
    --------
    >>> step_pattern(Scale.of(0, 2, 3, 5, 7, 8, 11))
    (2, 1, 2, 2, 1, 3, 1)
    """
    return scale.step_pattern


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the steps, upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A step each, labelled with its size.

    Examples
    --------
    >>> [w.parts[0] for w in witnesses(Scale.of(0, 4, 7))]
    [(0, 4), (4, 7), (7, 0)]
    """
    return tuple(
        Witness(WitnessKind.STEP, ((tone, (tone + step) % scale.divisions),), str(step))
        for tone, step in zip(scale.tones, scale.step_pattern, strict=True)
    )


FACT = Fact(
    id="step_pattern",
    title="Step pattern",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INTS,
    unit="steps of the division",
    level=Level.FOUNDATION,
    scope=Scope.ROOTED,
    value=step_pattern,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    needs=("cardinality",),
    terms=("step pattern",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    roles=Roles(basic=Basic.STEPS, part=Part.BUILD, rank=1, is_needed=True, further=Further.PATTERN_OF_MODE),
    sources=(RUDIMENTS,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (2, 2, 1, 2, 2, 2, 1), RUDIMENTS),
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 10), (2, 1, 2, 2, 2, 1, 2), RUDIMENTS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), (2, 1, 2, 2, 1, 2, 2), RUDIMENTS, refutes=True),
    ),
)
