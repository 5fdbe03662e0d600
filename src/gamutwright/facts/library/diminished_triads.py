"""The number of tones of the scale that carry a diminished triad: the minor third and diminished fifth above them
belong to the scale too.

Conventions: any tone may be the root; the diminished fifth is six semitones, however it is spelled.
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
from gamutwright.theory.harmony import TRIADS, chords_present
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "diminished_triads"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 3, diatonic triads in major and minor")
COUNTED = Citation(PRACTICE, "triads spelled out by hand on each tone", Evidence.PRACTICE)
SHAPE = {"dim": TRIADS["dim"]}


def diminished_triads(scale: Scale) -> int:
    """Count the diminished triads.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Number of roots that carry one.

    Examples
    --------
    >>> diminished_triads(Scale.of(0, 2, 4, 5, 7, 9, 11))
    1
    """
    return len(chords_present(scale, SHAPE))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the diminished triads, upwards from the root.

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
    >>> [w.label for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    ['Bdim']
    """
    return chord_places(scale, chords_present(scale, SHAPE))


FACT = Fact(
    id="diminished_triads",
    doc=__doc__,
    title="Diminished triads",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="chords",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=diminished_triads,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("spelling",),
    terms=("diminished triad", "diminished triads"),
    picture=Picture("clock"),
    sound=Phrase("chords"),
    roles=Roles(part=Part.HARMONY, rank=3, comparing=6),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, KEYS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 4, COUNTED),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), 8, COUNTED),
        Worked(Scale.of(0, 2, 4, 7, 9), 0, COUNTED),
    ),
)
