"""The names of all major, minor, diminished and augmented triads whose tones belong to the scale.

Conventions: upwards from the root; on one root major, minor, diminished, augmented. A capital letter alone is a major
triad, `m` minor, `dim` diminished, `aug` augmented. An augmented triad is named on each of its roots.
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
from gamutwright.facts.roles import Basic, Part, Reader, Roles
from gamutwright.theory.harmony import chord_name
from gamutwright.theory.harmony import triads as triads_present
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["FACT", "triads"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 3, diatonic triads in major and minor")
COUNTED = Citation(PRACTICE, "triads spelled out by hand on each tone", Evidence.PRACTICE)


def triads(scale: Scale) -> tuple[str, ...]:
    """Name the chords.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of str
        Their names, upwards from the root.

    Examples
    --------
    >>> triads(Scale.of(7, 9, 11, 0, 2, 4, 6))
    ('G', 'Am', 'Bm', 'C', 'D', 'Em', 'F#dim')
    """
    names = tone_name_map(scale)
    return tuple(chord_name(chord, names) for chord in triads_present(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the chords, upwards from the root.

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
    >>> tuple(w.label for w in witnesses(Scale.of(7, 9, 11, 0, 2, 4, 6))) == triads(Scale.of(7, 9, 11, 0, 2, 4, 6))
    True
    """
    return chord_places(scale, triads_present(scale))


FACT = Fact(
    id="triads",
    doc=__doc__,
    title="Triads",
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=triads,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("spelling",),
    terms=("triad", "triads"),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.CHORDS, longest=9, basic=Basic.TRIADS, part=Part.HARMONY, rank=8),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("C", "Dm", "Em", "F", "G", "Am", "Bdim"), KEYS),
        Worked(
            Scale.of(9, 11, 0, 2, 4, 5, 8),
            ("Am", "Bdim", "Caug", "Dm", "Ddim", "E", "Eaug", "F", "Fm", "Fdim", "G#dim", "G#aug"),
            COUNTED,
        ),
        Worked(Scale.of(0, 1, 2), (), COUNTED),
    ),
)
