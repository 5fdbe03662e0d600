"""The tones of the scale that may sound above the chord of its first chord symbol: those a whole tone above a tone of
the chord.

Conventions: over a dominant seventh the flat and the sharp ninth and the flat thirteenth are available as well.
Authors disagree about the thirteenth over a minor seventh chord, which makes a tritone with the third; here it is
available.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import NETTLES_GRAF_1997, PRACTICE
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
from gamutwright.theory.harmonyroles import chord_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["FACT", "tensions"]

CHORD_SCALES = Citation(NETTLES_GRAF_1997, "available tensions and tones to avoid")
COUNTED = Citation(PRACTICE, "tones above the chord counted by hand", Evidence.PRACTICE)


def tensions(scale: Scale) -> tuple[str, ...] | None:
    """Name the tones.

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
    >>> tensions(Scale.of(0, 2, 4, 5, 7, 9, 11))
    ('D', 'A')
    """
    names = tone_name_map(scale)
    return tuple(names[place.parts[0][0]] for place in witnesses(scale)) or None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the tones.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, labelled with its interval above the root of the chord.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    ['9', '13']
    """
    symbols = chord_symbols(scale)
    found = symbols[0].available if symbols else ()
    return tuple(Witness(WitnessKind.TONE, ((tension.tone,),), tension.name) for tension in found)


FACT = Fact(
    id="tensions",
    title="Available tensions",
    doc=__doc__,
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=tensions,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="chords are named in twelve divisions"),
    none_when="the root carries no chord, or nothing lies a whole tone above its tones",
    needs=("chord_symbols",),
    terms=("available tension", "available tensions"),
    picture=Picture("keyboard"),
    sound=Phrase("witnesses"),
    roles=Roles(reader=Reader.NOTES, part=Part.HARMONY, rank=6),
    sources=(CHORD_SCALES,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("D", "A"), CHORD_SCALES),
        Worked(Scale.of(7, 9, 11, 1, 2, 4, 5), ("A", "C#", "E"), CHORD_SCALES),
        Worked(Scale.of(4, 5, 7, 9, 11, 0, 2), ("A",), CHORD_SCALES),
        Worked(Scale.of(0, 4, 7), None, COUNTED),
    ),
)
