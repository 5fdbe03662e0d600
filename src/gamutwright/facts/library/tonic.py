"""The chord that the scale has for a home: the major triad on the root, else the minor triad, else a seventh chord,
else the root with its fifth.

Conventions: a scale with both triads on its root counts as major. Seventh chords are tried in this order: dominant,
major, minor, minor with a major seventh, augmented with a major seventh, dominant with a raised and with a lowered
fifth, half-diminished, diminished. `A5` is A with its fifth alone.
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
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.harmonyroles import tonic
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tonic_name"]

KEYS = Citation(KOSTKA_PAYNE, "chapter 3, the tonic triads of major and minor")
COUNTED = Citation(PRACTICE, "chords spelled out by hand on the root", Evidence.PRACTICE)


def tonic_name(scale: Scale) -> tuple[str, ...] | None:
    """Name the tonic.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        Its name alone; None where the root carries neither chord nor fifth.

    Examples
    --------
    >>> tonic_name(Scale.of(2, 4, 5, 7, 9, 11, 0))
    ('Dm',)
    """
    home = tonic(scale)
    return (home.name(scale),) if home and home.chord else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at the tonic.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        The chord.

    Examples
    --------
    >>> witnesses(Scale.of(2, 4, 5, 7, 9, 11, 0))[0].parts
    ((0, 3, 7),)
    """
    home = tonic(scale)
    return chord_places(scale, [home.chord]) if home and home.chord else ()


FACT = Fact(
    id="tonic",
    title="Tonic",
    doc=__doc__,
    group=Group.HARMONY,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.SPELLED,
    value=tonic_name,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="chords are named in twelve divisions"),
    none_when="the root carries neither a triad nor a seventh chord nor a fifth",
    needs=("spelling",),
    terms=("tonic",),
    picture=Picture("keyboard"),
    sound=Phrase("chords"),
    roles=Roles(reader=Reader.CHORDS, part=Part.HARMONY, rank=1, is_early=True),
    sources=(Citation(KOSTKA_PAYNE, "chapter 3"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("C",), KEYS),
        Worked(Scale.of(9, 11, 0, 2, 4, 5, 8), ("Am",), KEYS),
        Worked(Scale.of(11, 0, 2, 4, 5, 7, 9), ("Bm7b5",), COUNTED),
        Worked(Scale.of(9, 10, 4), ("A5",), COUNTED),
        Worked(Scale.of(0, 1, 2), None, COUNTED),
    ),
)
