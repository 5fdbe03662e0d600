"""The number of seventh chords in the scale: four tones of the scale that make a major, dominant, minor,
half-diminished or diminished seventh chord, a minor triad with a major seventh, or an augmented triad with a major
seventh.

Conventions: any tone may be the root, whether or not every other tone of the scale would build the chord there. The
diminished seventh chord divides the octave equally and is counted once for each of its four roots.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PRACTICE
from gamutwright.facts.library._places import chord_places
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
    Worked,
)
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.harmony import seventh_chords
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "count"]

COUNTED = Citation(PRACTICE, "chords spelled out by hand on each tone", Evidence.PRACTICE)


def count(scale: Scale) -> int:
    """Count the seventh chords.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Number of chords, by root.

    Examples
    --------
    >>> count(Scale.of(0, 4, 7, 10))
    1
    """
    return len(seventh_chords(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the seventh chords, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A chord each, labelled with its name.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(7, 11, 2, 5))]
    ['G7']
    """
    return chord_places(scale, seventh_chords(scale))


FACT = Fact(
    id="seventh_chords",
    doc=__doc__,
    title="Seventh chords",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="chords",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=count,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("triads",),
    terms=("seventh chord", "seventh chords"),
    picture=Picture("clock"),
    sound=Phrase("chords"),
    roles=Roles(part=Part.HARMONY, rank=10),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(
            Scale.of(0, 2, 4, 5, 7, 9, 11), 7, Citation(KOSTKA_PAYNE, "chapter 3, diatonic seventh chords in major")
        ),
        Worked(Scale.of(0, 3, 6, 9), 4, COUNTED),
        Worked(Scale.of(0, 4, 7), 0, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 0, COUNTED),
    ),
)
