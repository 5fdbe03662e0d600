"""The names of the tones upwards from the root, letters with their sharps and flats.

Conventions: seven tones take one letter each, in order, where double accidentals suffice; other scales take their
names from one stretch of twelve fifths around the root. The whole policy stands in `gamutwright.theory.spelling`. A
spelling fixed by the teacher stands above it. Names here are ASCII; `b` and `#` are printed as ♭ and ♯.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import KOSTKA_PAYNE, LONGUET_HIGGINS_1987, PRACTICE, TEMPERLEY_2001
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
from gamutwright.facts.roles import Basic, Part, Reader, Roles
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names

__all__ = ["FACT"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 1, key signatures")
RUDIMENTS = Citation(PRACTICE, "key signatures and minor scales", Evidence.PRACTICE)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their names, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, labelled with its name.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(8, 0, 3))]
    ['Ab', 'C', 'Eb']
    """
    return tuple(
        Witness(WitnessKind.TONE, ((tone,),), name) for tone, name in zip(scale.tones, tone_names(scale), strict=True)
    )


FACT = Fact(
    id="spelling",
    title="Spelling",
    doc=__doc__,
    group=Group.NAMES,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=tone_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rule="note names are those of twelve divisions"),
    terms=("spelling", "spelled"),
    picture=Picture("staff"),
    sound=Phrase("scale"),
    roles=Roles(reader=Reader.NOTES, basic=Basic.TONES, part=Part.BUILD, rank=2, is_needed=True),
    sources=(KEYS, Citation(LONGUET_HIGGINS_1987, "the line of fifths"), Citation(TEMPERLEY_2001, "chapter 5")),
    worked=(
        Worked(Scale.of(8, 10, 0, 1, 3, 5, 7), ("Ab", "Bb", "C", "Db", "Eb", "F", "G"), KEYS),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), ("A", "B", "C", "D", "E", "F", "G#"), RUDIMENTS),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), ("A", "B", "C", "D", "E", "F", "Ab"), RUDIMENTS, refutes=True),
        Worked(Scale.of(6, 8, 10, 11, 1, 3, 5), ("Gb", "Ab", "Bb", "B", "Db", "Eb", "F"), RUDIMENTS, refutes=True),
        Worked(Scale.of(0, 1, 3, 4, 6, 8, 10), ("C", "Db", "Eb", "Fb", "Gb", "Ab", "Bb"), RUDIMENTS),
    ),
)
