"""The major and minor triads other than the tonic that hold a colour tone of the scale.

Conventions: first those with the most colour tones; then those that have one as root or third before those that have
it only as fifth, the tone most readily left out; then the least motion of voices from the tonic, then most tones in
common with it. In scales of seven tones a triad is built of every other tone.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, PERSICHETTI_1961, PRACTICE
from gamutwright.facts.library._places import chord_names, chord_places
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
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.harmonyroles import colour_chords
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "colour_chord_names"]

MODES = Citation(PERSICHETTI_1961, "chapter 2, example 2-9, primary triads of the modes; a summary was read")
COUNTED = Citation(PRACTICE, "triads spelled out by hand on each tone", Evidence.PRACTICE)


def colour_chord_names(scale: Scale) -> tuple[str, ...] | None:
    """Name the colour chords.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        Their names, in their order; None where there is none.

    Examples
    --------
    >>> colour_chord_names(Scale.of(4, 5, 7, 9, 11, 0, 2))
    ('F', 'Dm')
    """
    return chord_names(scale, colour_chords(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the colour chords.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        A chord each, in their order.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(2, 4, 5, 7, 9, 11, 0))]
    ['G', 'Em']
    """
    return chord_places(scale, colour_chords(scale))


FACT = Fact(
    id="colour_chords",
    title="Colour chords",
    doc=__doc__,
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=colour_chord_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="chords are named in twelve divisions"),
    none_when="no major or minor triad beside the tonic holds a colour tone",
    needs=("tonic", "colour_tones"),
    terms=("colour chord", "colour chords"),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.CHORDS, longest=5, part=Part.HARMONY, rank=2, is_early=True),
    sources=(MODES, Citation(KOSTKA_PAYNE, "the fifth of a chord may be left out")),
    worked=(
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("G", "Em"), MODES),
        Worked(Scale.of(4, 5, 7, 9, 11, 0, 2), ("F", "Dm"), MODES),
        Worked(Scale.of(5, 7, 9, 11, 0, 2, 4), ("G", "Em"), MODES),
        Worked(Scale.of(7, 9, 11, 0, 2, 4, 5), ("Dm", "F"), MODES),
        Worked(Scale.of(4, 5, 8, 9, 11, 0, 2), ("F", "Dm"), MODES),
        Worked(Scale.of(0, 2, 3, 5, 7, 9, 11), None, COUNTED),
    ),
)
