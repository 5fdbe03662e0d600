"""Whether the scale has no semitone steps and is anhemitonic, has some and is hemitonic, or has two in a row and is
cohemitonic.

Conventions: the value is "anhemitonic", "hemitonic" or "cohemitonic"; a cohemitonic scale is hemitonic too, and the
closer word is given. Steps across the root count. The witnesses are the semitone steps.
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
from gamutwright.theory.intervals import hemitonia
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

VOCABULARY = Citation(PRACTICE, "vocabulary of scales: hemitonic, anhemitonic, cohemitonic", Evidence.PRACTICE)
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
    id="hemitonia",
    title="Hemitonia",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.TEXT,
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=hemitonia,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rule="a semitone is a step of twelve divisions"),
    needs=("semitone_steps", "semitone_runs"),
    terms=("hemitonia",),
    picture=Picture("ladder"),
    sound=Phrase("witnesses"),
    sources=(VOCABULARY,),
    worked=(
        Worked(Scale.of(0, 2, 4, 7, 9), "anhemitonic", VOCABULARY),
        Worked(Scale.of(0, 2, 3, 7, 8), "hemitonic", HIRAJOSHI),
        Worked(Scale.of(0, 1, 4, 5, 7, 8, 11), "cohemitonic", VOCABULARY),
        Worked(Scale.of(0, 2, 3, 7, 8), "anhemitonic", HIRAJOSHI, refutes=True),
    ),
)
