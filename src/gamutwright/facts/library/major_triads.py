"""The number of tones of the scale that carry a major triad: the major third and perfect fifth above them belong to the
scale too.

Conventions: any tone may be the root, whether or not every other tone of the scale would build the chord there.
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

__all__ = ["FACT", "major_triads"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 3, diatonic triads in major and minor")
COUNTED = Citation(PRACTICE, "triads spelled out by hand on each tone", Evidence.PRACTICE)
SHAPE = {"": TRIADS[""]}


def major_triads(scale: Scale) -> int:
    """Count the major triads.

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
    >>> major_triads(Scale.of(0, 2, 4, 5, 7, 9, 11))
    3
    """
    return len(chords_present(scale, SHAPE))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the major triads, upwards from the root.

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
    ['C', 'F', 'G']
    """
    return chord_places(scale, chords_present(scale, SHAPE))


FACT = Fact(
    id="major_triads",
    doc=__doc__,
    title="Major triads",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="chords",
    level=Level.FOUNDATION,
    scope=Scope.TN,
    value=major_triads,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("spelling",),
    terms=("major triad", "major triads"),
    picture=Picture("clock"),
    sound=Phrase("chords"),
    roles=Roles(part=Part.HARMONY, rank=1, comparing=3),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 3, KEYS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 2, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 0, COUNTED),
        Worked(Scale.of(*range(12)), 12, COUNTED),
    ),
)
