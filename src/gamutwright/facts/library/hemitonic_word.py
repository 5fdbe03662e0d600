"""Whether the scale has no semitone steps and is anhemitonic, or has some and is hemitonic.

Conventions: the value is "anhemitonic" or "hemitonic". Steps across the root count. The witnesses are the semitone
steps.
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
from gamutwright.theory.intervals import hemitonic_word
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

VOCABULARY = Citation(PRACTICE, "vocabulary of scales: hemitonic, anhemitonic", Evidence.PRACTICE)
HIRAJOSHI = Citation(
    PRACTICE, "hirajoshi 2-1-4-1-4 is called hemitonic, as given in Wikipedia, Hirajoshi scale", Evidence.QUOTED
)


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
    lower = (tone for tone in scale.tones if scale.mask >> (tone + 1) % 12 & 1)
    return at_intervals(((tone, (tone + 1) % 12) for tone in lower), WitnessKind.STEP)


FACT = Fact(
    id="hemitonic_word",
    title="Hemitonic or anhemitonic",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.TEXT,
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=hemitonic_word,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rule="a semitone is a step of twelve divisions"),
    needs=("semitone_steps",),
    terms=("hemitonic_word",),
    picture=Picture("ladder"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=2),
    sources=(VOCABULARY,),
    worked=(
        Worked(Scale.of(0, 2, 4, 7, 9), "anhemitonic", VOCABULARY),
        Worked(Scale.of(0, 2, 3, 7, 8), "hemitonic", HIRAJOSHI),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "hemitonic", VOCABULARY),
        Worked(Scale.of(0, 2, 3, 7, 8), "anhemitonic", HIRAJOSHI, refutes=True),
    ),
)
