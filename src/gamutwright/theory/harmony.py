"""Chords of a scale: those present in it by root, and those built of every other tone.

A chord is *present* in a scale if all its tones are; a chord is *tertian* if it is built of every other tone of the
scale. In seven-tone scales that resemble the major scale the two views agree, elsewhere they differ.

Conventions: twelve divisions throughout. Chord roots are tones, in steps above the root of the scale, so that nothing
here depends on spelling but `chord_name`. A chord that is the same on several roots, the augmented triad and the
diminished seventh, is found once for each root. Roman numerals count the degrees of the scale itself, whatever its
steps: capitals for a major third, small letters for a minor one, ° diminished, ø half-diminished, + augmented, 7 and M7
for a minor and a major seventh.

References: chord kinds and Roman numerals as in Kostka and Payne, Tonal Harmony, chapters 3 and 4, from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = [
    "CHORDS",
    "OTHER_CHORDS",
    "ROMAN",
    "SEVENTHS",
    "TRIADS",
    "Chord",
    "chord_name",
    "chords_present",
    "seventh_chords",
    "tertian_numerals",
    "triads",
]

TRIADS: Mapping[str, tuple[int, ...]] = {"": (0, 4, 7), "m": (0, 3, 7), "dim": (0, 3, 6), "aug": (0, 4, 8)}
"""Suffix of a triad's name to its tones above its root: major, minor, diminished, augmented."""

SEVENTHS: Mapping[str, tuple[int, ...]] = {
    "maj7": (0, 4, 7, 11),
    "7": (0, 4, 7, 10),
    "m7": (0, 3, 7, 10),
    "m7b5": (0, 3, 6, 10),
    "dim7": (0, 3, 6, 9),
    "mM7": (0, 3, 7, 11),
    "+M7": (0, 4, 8, 11),
}
"""Suffix of a seventh chord's name to its tones above its root."""

OTHER_CHORDS: Mapping[str, tuple[int, ...]] = {
    "7#5": (0, 4, 8, 10),
    "7b5": (0, 4, 6, 10),
    "6": (0, 4, 7, 9),
    "m6": (0, 3, 7, 9),
    "5": (0, 7),
}
"""Suffix of a chord with an altered fifth or an added sixth, or of the bare fifth, to its tones above its root."""
CHORDS: Mapping[str, tuple[int, ...]] = {**TRIADS, **SEVENTHS, **OTHER_CHORDS}
"""Every kind of chord that has a name here."""

_TONES = {
    suffix: tuple(tuple((root + interval) % 12 for interval in intervals) for root in range(12))
    for suffix, intervals in CHORDS.items()
}

# Numeral of a chord by its tones: whether it is written small, and what follows it (Kostka and Payne's habit).
_NUMERALS: Mapping[tuple[int, ...], tuple[bool, str]] = {
    (0, 4, 7): (False, ""),
    (0, 3, 7): (True, ""),
    (0, 3, 6): (True, "°"),
    (0, 4, 8): (False, "+"),
    (0, 4, 7, 11): (False, "M7"),
    (0, 4, 7, 10): (False, "7"),
    (0, 3, 7, 10): (True, "7"),
    (0, 3, 6, 10): (True, "ø7"),
    (0, 3, 6, 9): (True, "°7"),
    (0, 3, 7, 11): (True, "M7"),
    (0, 4, 8, 11): (False, "+M7"),
}
ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII")
"""The numerals of the degrees, from the first."""


@dataclass(frozen=True, slots=True, order=True)
class Chord:
    """A chord of twelve divisions, counted from the root of a scale.

    Parameters
    ----------
    root : int in [0, 12)
        Its root, in steps above the root of the scale.
    suffix : str
        One of the keys of `CHORDS`: "" major, "m" minor and so on.

    Examples
    --------
    >>> Chord(9, "m").tones
    (9, 0, 4)
    """

    root: int
    suffix: str

    @property
    def tones(self) -> tuple[int, ...]:
        """Tones from the chord's root up, in steps above the root of the scale."""
        return _TONES[self.suffix][self.root % 12]


def _refuse_other_divisions(scale: Scale) -> None:
    if scale.divisions != 12:
        raise DomainError(
            f"a scale of {scale.divisions} divisions",
            "chords are named in twelve divisions",
            "Choose twelve divisions.",
        )


def chords_present(scale: Scale, shapes: Mapping[str, tuple[int, ...]]) -> tuple[Chord, ...]:
    """Find the chords of some kinds all of whose tones belong to the scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.
    shapes : mapping of str to tuple of int
        `TRIADS`, `SEVENTHS`, or a part of either.

    Returns
    -------
    tuple of Chord
        Upwards from the root; on one root in the order of `shapes`.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [(chord.root, chord.suffix) for chord in chords_present(Scale.of(0, 3, 4, 7), TRIADS)]
    [(0, ''), (0, 'm')]
    """
    _refuse_other_divisions(scale)
    # A root carries a shape where the scale meets all its copies moved down by the intervals of the shape.
    lowered = [rotated_mask(scale.mask, -interval, 12) for interval in range(12)]
    carried: list[tuple[str, int]] = []
    for suffix, shape in shapes.items():
        roots = scale.mask
        for interval in shape:
            roots &= lowered[interval]
        carried.append((suffix, roots))
    return tuple(Chord(root, suffix) for root in scale.tones for suffix, roots in carried if roots >> root & 1)


def triads(scale: Scale) -> tuple[Chord, ...]:
    """Find the major, minor, diminished and augmented triads of a scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Chord
        Upwards from the root; on one root major, minor, diminished, augmented.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [chord.suffix for chord in triads(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    ['', 'm', 'm', '', '', 'm', 'dim']
    """
    return chords_present(scale, TRIADS)


def seventh_chords(scale: Scale) -> tuple[Chord, ...]:
    """Find the seventh chords of a scale: major, dominant, minor, half and fully diminished, minor-major, augmented.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Chord
        Upwards from the root; on one root in the order of `SEVENTHS`.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [chord.suffix for chord in seventh_chords(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    ['maj7', 'm7', 'm7', 'maj7', '7', 'm7', 'm7b5']
    """
    return chords_present(scale, SEVENTHS)


def chord_name(chord: Chord, names: Mapping[int, str]) -> str:
    """Name a chord.

    Parameters
    ----------
    chord : Chord
        The chord.
    names : mapping of int to str
        Tone to its note name, as `spelling.tone_name_map` gives it.

    Returns
    -------
    str
        Such as `C`, `Dm`, `Bdim`, `Caug`, `G7`.

    Examples
    --------
    >>> chord_name(Chord(2, "m"), {2: "D"})
    'Dm'
    """
    return names[chord.root] + chord.suffix


def tertian_numerals(scale: Scale, size: int) -> tuple[str, ...]:
    """Give the Roman numerals of the chords built of every other tone of the scale.

    Parameters
    ----------
    scale : Scale, 12 divisions, at least 2 * size - 1 tones
        The scale.
    size : int, 3 or 4
        3 for triads, 4 for seventh chords.

    Returns
    -------
    tuple of str
        One for each degree; a chord that is none of the usual kinds is a capital numeral with the sizes of its stacked
        intervals in brackets.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions or has too few tones to skip every other.

    Examples
    --------
    >>> tertian_numerals(Scale.of(0, 2, 4, 5, 7, 9, 11), 3)
    ('I', 'ii', 'iii', 'IV', 'V', 'vi', 'vii°')
    >>> tertian_numerals(Scale.of(0, 2, 4, 7, 9), 3)
    ('I[4 5]', 'II[5 5]', 'III[5 5]', 'IV[5 4]', 'V[5 5]')
    """
    _refuse_other_divisions(scale)
    tones = scale.tones
    if len(tones) < 2 * size - 1:
        raise DomainError(
            f"{len(tones)} tones",
            f"every other tone gives chords of {size} tones from {2 * size - 1} tones on",
            "Look for the chords present instead.",
        )
    numerals = []
    for degree, root in enumerate(tones):
        members = [tones[(degree + 2 * place) % len(tones)] for place in range(size)]
        shape = tuple((tone - root) % 12 for tone in members)
        numeral = ROMAN[degree]
        if shape in _NUMERALS:
            is_small, mark = _NUMERALS[shape]
            numerals.append((numeral.lower() if is_small else numeral) + mark)
        else:
            stacked = (str(upper - lower) for lower, upper in pairwise(shape))
            numerals.append(f"{numeral}[{' '.join(stacked)}]")
    return tuple(numerals)
