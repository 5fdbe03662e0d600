"""The tones by which the scale differs from its nearest familiar scale: those that the familiar scale has elsewhere,
or not at all.

Conventions: the nearest familiar scale stands on the same root. Where tones of it are only left out, nothing in the
scale is coloured, and the notion does not apply.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PERSICHETTI_1961, PRACTICE
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
from gamutwright.facts.pointing import at_tones
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.character import colour_tones
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "colour_tone_names"]

MODES = Citation(PERSICHETTI_1961, "chapter 2, the tones that colour the modes")
MINOR = Citation(PRACTICE, "the raised seventh of harmonic minor in rudiments teaching", Evidence.PRACTICE)


def colour_tone_names(scale: Scale) -> tuple[str, ...] | None:
    """Name the colour tones.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        Their names, upwards from the root; None where there is none.

    Examples
    --------
    >>> colour_tone_names(Scale.of(7, 9, 11, 1, 2, 4, 5))
    ('C#', 'F')
    """
    return named_tones(scale, colour_tones(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the colour tones.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, upwards from the root.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(2, 4, 5, 7, 9, 11, 0))]
    [((9,),)]
    """
    return at_tones(colour_tones(scale))


FACT = Fact(
    id="colour_tones",
    title="Colour tones",
    doc=__doc__,
    group=Group.RELATIVES,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=colour_tone_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the familiar scales are those of twelve divisions"),
    none_when="it has no nearest familiar scale, or only leaves out tones of it",
    needs=("nearest_relative",),
    terms=("colour tone", "colour tones"),
    picture=Picture("keyboard"),
    sound=Phrase("witnesses"),
    roles=Roles(reader=Reader.NOTES, longest=6, part=Part.COMPARE, rank=2, is_needed=True),
    sources=(MODES, Citation(KOSTKA_PAYNE, "the modes as altered major and minor scales")),
    worked=(
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("B",), MODES),
        Worked(Scale.of(4, 5, 7, 9, 11, 0, 2), ("F",), MODES),
        Worked(Scale.of(5, 7, 9, 11, 0, 2, 4), ("B",), MODES),
        Worked(Scale.of(7, 9, 11, 0, 2, 4, 5), ("F",), MODES),
        Worked(Scale.of(11, 0, 2, 4, 5, 7, 9), ("C", "F"), MODES),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), ("G#",), MINOR),
        Worked(Scale.of(0, 2, 4, 7, 9), None, MINOR),
    ),
)
