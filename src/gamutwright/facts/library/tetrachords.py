"""The kinds of its lower tetrachord, from the root to the fourth degree, and of its upper one, from the fifth degree
to the octave.

Conventions: a tetrachord with steps of two, two and one semitones is major, two, one and two minor, one, two and two
phrygian, one, three and one harmonic, two, two and two whole-tone. A scale of seven tones has both; where either has
other steps, the notion does not apply.
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
from gamutwright.theory.character import tetrachords
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tetrachord_names"]

HALVES = Citation(PRACTICE, "tetrachords of the modes and minor scales in rudiments teaching", Evidence.PRACTICE)


def tetrachord_names(scale: Scale) -> tuple[str, ...] | None:
    """Name the two tetrachords.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        The lower, then the upper; None where either has no name.

    Examples
    --------
    >>> tetrachord_names(Scale.of(2, 4, 5, 7, 9, 11, 0))
    ('minor', 'minor')
    """
    halves = tetrachords(scale)
    return tuple(half.name for half in halves) if halves else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the two tetrachords.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        The tones of each, labelled with its kind.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((0, 2, 4, 5),), ((7, 9, 11, 0),)]
    """
    return tuple(
        Witness(WitnessKind.TONES, (tuple(tone % 12 for tone in half.tones),), half.name)
        for half in tetrachords(scale) or ()
    )


FACT = Fact(
    id="tetrachords",
    title="Tetrachords",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=tetrachord_names,
    witnesses=witnesses,
    domain=Domain(tones=(7, 7), divisions=(12, 12), rooted=True, rule="tetrachords halve a scale of seven tones"),
    none_when="one of its halves has steps that no tetrachord with a name has",
    needs=("step_pattern",),
    terms=("tetrachord", "tetrachords"),
    picture=Picture("ladder"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=5),
    sources=(HALVES,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("major", "major"), HALVES),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("minor", "minor"), HALVES),
        Worked(Scale.of(5, 7, 9, 11, 0, 2, 4), ("whole-tone", "major"), HALVES),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), ("minor", "harmonic"), HALVES),
        Worked(Scale.of(4, 5, 7, 9, 11, 0, 2), ("phrygian", "phrygian"), HALVES),
        Worked(Scale.of(0, 1, 2, 3, 4, 5, 6), None, HALVES),
    ),
)
