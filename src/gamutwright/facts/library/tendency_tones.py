"""The tones a semitone from a tone of the major or minor triad on the root that are not in it: they pull towards it.

Conventions: upwards from the root. The places are the moves, each from the tone that pulls to where it pulls; a tone
with a neighbour of the triad on either side has two.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import HURON_2006, KOSTKA_PAYNE, PRACTICE
from gamutwright.facts.library._places import named_tones
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
from gamutwright.facts.pointing import at_intervals
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.character import tendency_tones
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tendency_tone_names"]

KEYS = Citation(KOSTKA_PAYNE, "tendency tones of major and minor")
COUNTED = Citation(PRACTICE, "semitones beside the triad counted by hand", Evidence.PRACTICE)


def tendency_tone_names(scale: Scale) -> tuple[str, ...] | None:
    """Name the tones that pull.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        Their names; None where none pulls, or the root carries no such triad.

    Examples
    --------
    >>> tendency_tone_names(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('F', 'B')
    """
    return named_tones(scale, (pull.tone for pull in tendency_tones(scale)))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the moves.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        From each tone to where it pulls.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((5, 4),), ((11, 0),)]
    """
    return at_intervals((pull.tone, target) for pull in tendency_tones(scale) for target in pull.targets)


FACT = Fact(
    id="tendency_tones",
    title="Tendency tones",
    doc=__doc__,
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=tendency_tone_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="a semitone is a step of twelve divisions"),
    none_when="the root carries no major or minor triad, or no tone lies a semitone from it",
    needs=("tonic",),
    terms=("tendency tone", "tendency tones"),
    picture=Picture("keyboard"),
    sound=Phrase("witnesses"),
    roles=Roles(reader=Reader.NOTES, part=Part.HARMONY, rank=5),
    sources=(Citation(KOSTKA_PAYNE, "tendency tones"), Citation(HURON_2006, "scale-degree qualia")),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("F", "B"), KEYS),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), ("B", "F", "G#"), KEYS),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("E",), COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), None, COUNTED),
    ),
)
