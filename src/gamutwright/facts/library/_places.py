"""Names and witnesses that several facts share.

Conventions: chords are pointed at from their root up and labelled with their names; tones are pointed at upwards from
the root of the scale.
"""

from __future__ import annotations

from collections.abc import Iterable

from gamutwright.facts.model import Witness, WitnessKind
from gamutwright.theory.harmony import Chord, chord_name, tertian_numerals
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import generator_chain, generators
from gamutwright.theory.spelling import tone_name_map

__all__ = ["chord_names", "chord_places", "generator_chains", "labelled_tones", "named_tones", "tertian_chords"]


def named_tones(scale: Scale, tones: Iterable[int]) -> tuple[str, ...] | None:
    """Name tones as a value of a fact.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale that holds them.
    tones : iterable of int
        The tones, in steps above the root.

    Returns
    -------
    tuple of str or None
        Their names in the order given; None without any.

    Examples
    --------
    >>> named_tones(Scale.of(9, 0, 4), [3, 7]), named_tones(Scale.of(9, 0, 4), [])
    (('C', 'E'), None)
    """
    names = tone_name_map(scale)
    return tuple(names[tone] for tone in tones) or None


def chord_names(scale: Scale, chords: Iterable[Chord]) -> tuple[str, ...] | None:
    """Name chords as a value of a fact.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale that holds them.
    chords : iterable of Chord
        The chords.

    Returns
    -------
    tuple of str or None
        Their names in the order given; None without any.

    Examples
    --------
    >>> chord_names(Scale.of(9, 0, 4), [Chord(0, "m")]), chord_names(Scale.of(9, 0, 4), [])
    (('Am',), None)
    """
    return tuple(place.label for place in chord_places(scale, chords)) or None


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


def generator_chains(scale: Scale) -> tuple[Witness, ...]:
    """List the chains, one for each generating interval.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        The tones in the order of the chain, labelled with the size of its interval.

    Examples
    --------
    >>> [(w.parts[0], w.label) for w in generator_chains(Scale.of(0, 2, 4, 7, 9))]
    [((4, 9, 2, 7, 0), '5'), ((0, 7, 2, 9, 4), '7')]
    """
    return tuple(Witness(WitnessKind.TONES, (generator_chain(scale, step),), str(step)) for step in generators(scale))


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


def tertian_chords(scale: Scale, size: int) -> tuple[Witness, ...]:
    """Point at the chords of every other tone, upwards from the root of the scale.

    Parameters
    ----------
    scale : Scale, 12 divisions, at least 2 * size - 1 tones
        The scale.
    size : int
        Tones of a chord: 3 for triads, 4 for seventh chords.

    Returns
    -------
    tuple of Witness
        A chord each, labelled with its numeral.

    Examples
    --------
    >>> [(w.parts, w.label) for w in tertian_chords(Scale.of(0, 2, 4, 5, 7, 9, 11), 3)][6]
    (((11, 2, 5),), 'vii°')
    """
    tones = scale.tones
    return tuple(
        Witness(WitnessKind.CHORD, (tuple(tones[(degree + 2 * place) % len(tones)] for place in range(size)),), numeral)
        for degree, numeral in enumerate(tertian_numerals(scale, size))
    )
