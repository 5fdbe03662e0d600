"""The number of places where two semitone steps follow each other directly.

Conventions: a run across the root counts; three semitones in a row are two places. Each witness is the three tones of
one.
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
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.intervals import semitone_runs
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "semitone_run_count"]

BY_HAND = Citation(PRACTICE, "semitones in a row, counted by hand from the step pattern", Evidence.PRACTICE)


def semitone_run_count(scale: Scale) -> int:
    """Count the places where two semitone steps follow each other.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Number of places.

    Examples
    --------
    >>> semitone_run_count(Scale.of(0, 1, 2, 3))
    2
    """
    return len(semitone_runs(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the places, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        The three tones of each.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 3, 5, 6, 7, 10))]
    [((5, 6, 7),)]
    """
    return tuple(Witness(WitnessKind.TONES, (run,)) for run in semitone_runs(scale))


FACT = Fact(
    id="semitone_runs",
    title="Semitones in a row",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INT,
    unit="places",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=semitone_run_count,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="a semitone is a step of twelve divisions"),
    needs=("semitone_steps",),
    terms=("consecutive semitones", "semitones in a row"),
    picture=Picture("ladder"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=4),
    sources=(BY_HAND,),
    worked=(
        Worked(Scale.of(0, 3, 5, 6, 7, 10), 1, BY_HAND),
        Worked(Scale.of(*range(12)), 12, BY_HAND),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 0, BY_HAND),
    ),
)
