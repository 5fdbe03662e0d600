"""The number of augmented triads in the scale, counted once for each root: an augmented triad divides the octave
equally, so each of its three tones is a root of it.

Conventions: the count is therefore always a multiple of three.
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

__all__ = ["FACT", "augmented_triads"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 3, diatonic triads in major and minor")
COUNTED = Citation(PRACTICE, "triads spelled out by hand on each tone", Evidence.PRACTICE)
SHAPE = {"aug": TRIADS["aug"]}


def augmented_triads(scale: Scale) -> int:
    """Count the augmented triads.

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
    >>> augmented_triads(Scale.of(0, 2, 4, 5, 7, 9, 11))
    0
    """
    return len(chords_present(scale, SHAPE))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the augmented triads, upwards from the root.

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
    >>> [w.label for w in witnesses(Scale.of(9, 11, 0, 2, 4, 5, 8))]
    ['Caug', 'Eaug', 'G#aug']
    """
    return chord_places(scale, chords_present(scale, SHAPE))


FACT = Fact(
    id="augmented_triads",
    doc=__doc__,
    title="Augmented triads",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="chords",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=augmented_triads,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("spelling",),
    terms=("augmented triad", "augmented triads"),
    picture=Picture("clock"),
    sound=Phrase("chords"),
    roles=Roles(part=Part.HARMONY, rank=4),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 3, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, COUNTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 0, KEYS),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 1, COUNTED, refutes=True),
    ),
)
