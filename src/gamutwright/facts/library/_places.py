"""Witnesses that several facts about chords and tunings share.

Conventions: chords are pointed at from their root up and labelled with their names; tones are pointed at upwards from
the root of the scale.
"""

from __future__ import annotations

from collections.abc import Iterable

from gamutwright.facts.model import Witness, WitnessKind
from gamutwright.theory.harmony import Chord, chord_name
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["chord_places", "labelled_tones"]


def chord_places(scale: Scale, chords: Iterable[Chord]) -> tuple[Witness, ...]:
    """Point at chords by name.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale that holds them.
    chords : iterable of Chord
        The chords.

    Returns
    -------
    tuple of Witness
        One each, in the order given.

    Examples
    --------
    >>> chord_places(Scale.of(9, 0, 4), [Chord(0, "m")])[0].label
    'Am'
    """
    names = tone_name_map(scale)
    return tuple(Witness(WitnessKind.CHORD, (chord.tones,), chord_name(chord, names)) for chord in chords)


def labelled_tones(scale: Scale, labels: Iterable[str]) -> tuple[Witness, ...]:
    """Point at every tone with a label of its own.

    Parameters
    ----------
    scale : Scale
        The scale.
    labels : iterable of str
        One for each tone.

    Returns
    -------
    tuple of Witness
        A tone each, upwards from the root.

    Examples
    --------
    >>> [w.label for w in labelled_tones(Scale.of(0, 7), ["1/1", "3/2"])]
    ['1/1', '3/2']
    """
    return tuple(Witness(WitnessKind.TONE, ((tone,),), label) for tone, label in zip(scale.tones, labels, strict=True))
