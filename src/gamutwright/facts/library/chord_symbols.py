"""The chords on the root from whose symbols a player reads the scale: the seventh chords it holds there, or else
sixth chords or triads.

Conventions: the chord has the perfect fifth wherever the scale has it. `7#5` and `7b5` are dominant sevenths with an
altered fifth, `6` and `m6` a major and a minor triad with the sixth added. The most usual symbol stands first.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import NETTLES_GRAF_1997, PRACTICE
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
from gamutwright.theory.harmonyroles import chord_symbols
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "chord_symbol_names"]

CHORD_SCALES = Citation(NETTLES_GRAF_1997, "chord scales of the diatonic functions")
COUNTED = Citation(PRACTICE, "chords spelled out by hand on the root", Evidence.PRACTICE)


def chord_symbol_names(scale: Scale) -> tuple[str, ...] | None:
    """Name the chords.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        Their names; None where the root carries none.

    Examples
    --------
    >>> chord_symbol_names(Scale.of(2, 4, 5, 7, 9, 11, 0))
    ('Dm7',)
    """
    return chord_names(scale, (symbol.chord for symbol in chord_symbols(scale)))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the chords.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        A chord each.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(7, 9, 11, 1, 2, 4, 5))]
    ['G7']
    """
    return chord_places(scale, (symbol.chord for symbol in chord_symbols(scale)))


FACT = Fact(
    id="chord_symbols",
    title="Chord symbols it fits",
    doc=__doc__,
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=chord_symbol_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="chords are named in twelve divisions"),
    none_when="the root carries no triad, sixth chord or seventh chord",
    needs=("spelling",),
    terms=("chord symbol", "chord symbols"),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.CHORDS, longest=3, part=Part.HARMONY, rank=3),
    sources=(CHORD_SCALES,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("Cmaj7",), CHORD_SCALES),
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("Dm7",), CHORD_SCALES),
        Worked(Scale.of(7, 9, 11, 1, 2, 4, 5), ("G7",), CHORD_SCALES),
        Worked(Scale.of(0, 2, 4, 7, 9), ("C6",), COUNTED),
        Worked(Scale.of(0, 1, 7), None, COUNTED),
    ),
)
