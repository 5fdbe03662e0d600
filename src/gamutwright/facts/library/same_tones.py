"""The named scale that has the same tones with another tone for its home, and which of its modes this one is.

Conventions: major, natural minor, harmonic minor, melodic minor and the pentatonic scales are looked for first, then
the other names in the order of the table, melakartas and the chromatic scale left out. A scale that is the same from
several of its tones takes the lowest ordinal.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import GLAREAN_1547, PRACTICE
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
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.modenames import mode_of_named
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["FACT", "same_tones"]

GLAREAN = Citation(GLAREAN_1547, "book 2")
TEACHING = Citation(PRACTICE, "modes of the minor and pentatonic scales in teaching", Evidence.PRACTICE)


def same_tones(scale: Scale) -> str | None:
    """Say whose mode the scale is.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    str or None
        Such as `mode 2 of C major`, in the spelling of the scale; None where no other name is held.

    Examples
    --------
    >>> same_tones(Scale.of(2, 4, 5, 7, 9, 11, 0))
    'mode 2 of C major'
    """
    found = mode_of_named(scale)
    return f"mode {found.ordinal} of {tone_name_map(scale)[found.root]} {found.name}" if found else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the other home.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        The tone that the other scale starts from.

    Examples
    --------
    >>> witnesses(Scale.of(2, 4, 5, 7, 9, 11, 0))[0].parts
    ((10,),)
    """
    found = mode_of_named(scale)
    return (Witness(WitnessKind.MODE, ((found.root,),), found.name),) if found else ()


FACT = Fact(
    id="same_tones",
    title="Same tones, other home",
    doc=__doc__,
    group=Group.RELATIVES,
    dtype=Dtype.TEXT,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=same_tones,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the names held are those of twelve divisions"),
    none_when="no other scale whose name we hold, and which comes before it, has the same tones",
    needs=("spelling",),
    picture=Picture("modes"),
    sound=Phrase("modes"),
    roles=Roles(reader=Reader.ROOTED_SCALES, part=Part.RELATIVES, rank=1, is_early=True, names_scale=True),
    sources=(TEACHING, GLAREAN),
    worked=(
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), "mode 2 of C major", GLAREAN),
        Worked(Scale.of(4, 5, 8, 9, 11, 0, 2), "mode 5 of A harmonic minor", TEACHING),
        Worked(Scale.of(7, 9, 11, 1, 2, 4, 5), "mode 4 of D melodic minor", TEACHING),
        Worked(Scale.of(9, 0, 2, 4, 7), "mode 5 of C major pentatonic", TEACHING),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), "mode 2 of D major", GLAREAN, refutes=True),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), None, TEACHING),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), None, TEACHING),
    ),
)
