"""The familiar scale on the same root from which the fewest tones are changed, left out or added.

Conventions: familiar are major, natural minor, harmonic minor, melodic minor and, for scales of other than seven
tones, the major and minor pentatonic scales. Ties go to the smaller total change, then to the earlier in this list.
No scale is its own relative; major and natural minor are compared with one another. The places are tones of the
familiar scale that are otherwise here or are left out, or tones that are added to it.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PERSICHETTI_1961, PRACTICE
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
from gamutwright.theory.character import nearest_relative
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "relative_name"]

MODES = Citation(PERSICHETTI_1961, "chapter 2, the modes beside major and minor")
REDUCED = Citation(PRACTICE, "pentatonic and blues scales in rudiments and jazz teaching", Evidence.PRACTICE)


def relative_name(scale: Scale) -> str | None:
    """Name the familiar scale.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    str or None
        Its name; None without a relative.

    Examples
    --------
    >>> relative_name(Scale.of(2, 4, 5, 7, 9, 11, 0))
    'natural minor'
    """
    found = nearest_relative(scale)
    return found.familiar.name if found else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at what departs from the relative.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        Tones of the relative that differ here or are left out, or tones that are added to it.

    Examples
    --------
    >>> [(w.parts, w.label) for w in witnesses(Scale.of(2, 4, 5, 7, 9, 11, 0))]
    [(((8,),), 'changed')]
    """
    found = nearest_relative(scale)
    if found is None:
        return ()
    departing = (*(change.before for change in found.changes), *found.left_out, *found.added)
    return tuple(Witness(WitnessKind.TONE, ((tone,),), str(found.relation)) for tone in departing)


FACT = Fact(
    id="nearest_relative",
    title="Nearest familiar scale",
    doc=__doc__,
    group=Group.RELATIVES,
    dtype=Dtype.TEXT,
    level=Level.FOUNDATION,
    scope=Scope.ROOTED,
    value=relative_name,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the familiar scales are those of twelve divisions"),
    none_when="no familiar scale has as many tones, holds all of them, or lies within it",
    needs=("spelling",),
    picture=Picture("comparison", marks="none"),
    sound=Phrase("alternation"),
    roles=Roles(reader=Reader.SCALES, part=Part.COMPARE, rank=1, is_needed=True, names_scale=True),
    sources=(MODES, Citation(KOSTKA_PAYNE, "the modes as altered major and minor scales")),
    worked=(
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), "natural minor", MODES),
        Worked(Scale.of(5, 7, 9, 11, 0, 2, 4), "major", MODES),
        Worked(Scale.of(0, 2, 4, 7, 9), "major", REDUCED),
        Worked(Scale.of(9, 0, 2, 3, 4, 7), "minor pentatonic", REDUCED),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), "major", MODES, refutes=True),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), None, REDUCED),
    ),
)
