"""How the tones of a scale are spelled: a stated policy, since no authority gives one rule for every scale.

The policy, in twelve divisions:

a. *Seven tones, the root among them*: one letter a tone, upwards from the root's letter, with accidentals up to
   double, where that works (rudiments teaching).
b. *Otherwise* every tone takes its name from one stretch of twelve neighbouring places on the line of fifths that
   contains the root (after Longuet-Higgins 1987 and Temperley 2001, who prefer names near the tonic on that line). The
   stretch is chosen by fewest double accidentals, then smallest span between the outer names used, where each
   repeated letter counts as two fifths more, then fewest accidentals; ties go to the flats. Repeats weigh something, so
   that an octatonic scale repeats one letter only, but not everything: a blues scale on C repeats its G and is not
   spelled C D# E# F# G A# to spare it.
c. *The root* is a natural where its pitch class has one. A black key is named by whichever of its two names gives the
   lower cost: for (a) fewest double accidentals, then fewest accidentals; for (b) the cost of (b). Ties go to the
   flat name: Gb major, not F#.

A spelling that the teacher fixed in `Scale.names` stands above the policy.

Conventions: names are ASCII, as `notenames` says; tones are listed upwards from the root. Degree names measure each
tone from the major scale on the root (`1 2 b3 #4`); they depend on the tones alone and follow the spelling on C.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.theory.notenames import (
    LETTERS,
    NoteNames,
    accidental,
    fifths_to_name,
    name_to_fifths,
    names_in,
    note_name_to_pitch_class,
    to_symbols,
)
from gamutwright.theory.scale import Scale

__all__ = [
    "MAJOR",
    "MAJOR_FIFTHS",
    "NoteNames",
    "degree_names",
    "name_to_degree",
    "names_in",
    "note_name_to_pitch_class",
    "root_name",
    "root_names",
    "spelled_from",
    "to_symbols",
    "tone_name_map",
    "tone_names",
    "with_names",
]

_MOST_ACCIDENTALS = 2
MAJOR = (0, 2, 4, 5, 7, 9, 11)
MAJOR_FIFTHS = (0, 2, 4, -1, 1, 3, 5)
"""Tones of the major scale, and their places on the line of fifths, both counted from its root."""
_REPEAT = 2
"""What a repeated letter costs, in fifths of span."""

_Cost = tuple[int, ...]
_Spelling = tuple[int, ...]
"""A place on the line of fifths for each tone, upwards from the root."""


def _signs(fifths: int) -> int:
    return (fifths + 1) // 7


def _refuse_other_divisions(scale: Scale) -> None:
    if scale.divisions != 12:
        raise DomainError(
            f"a scale of {scale.divisions} divisions",
            "note names and degree names are those of twelve divisions",
            "Speak of its steps or pitch classes instead.",
        )


def _by_letters(tones: tuple[int, ...], root: int) -> _Spelling | None:
    """Rule (a): one letter a tone."""
    if len(tones) != 7 or tones[0] != 0:
        return None
    # A semitone up on the same letter is 7 fifths.
    spelling = tuple(
        root + fifths + 7 * (tone - major) for tone, major, fifths in zip(tones, MAJOR, MAJOR_FIFTHS, strict=True)
    )
    return spelling if all(abs(_signs(fifths)) <= _MOST_ACCIDENTALS for fifths in spelling) else None


def _letters_cost(spelling: _Spelling) -> _Cost:
    signs = [abs(_signs(fifths)) for fifths in spelling]
    return (sum(count > 1 for count in signs), sum(signs), sum(spelling))


def _by_stretch(tones: tuple[int, ...], root: int) -> _Spelling | None:
    """Rule (b): the best stretch of twelve fifths that contains the root."""
    best: tuple[_Cost, _Spelling] | None = None
    for highest in range(12):
        offsets = (7 * tone % 12 for tone in tones)
        spelling = tuple(root + (offset if offset <= highest else offset - 12) for offset in offsets)
        if any(abs(_signs(fifths)) > _MOST_ACCIDENTALS for fifths in spelling):
            continue
        option = (_stretch_cost(spelling), spelling)
        best = option if best is None else min(best, option)
    return best[1] if best else None


def _stretch_cost(spelling: _Spelling) -> _Cost:
    if not spelling:
        return ()
    signs = [abs(_signs(fifths)) for fifths in spelling]
    letters = {fifths % 7 for fifths in spelling}
    return (
        sum(count > 1 for count in signs),
        max(spelling) - min(spelling) + _REPEAT * (len(spelling) - len(letters)),
        sum(signs),
        sum(spelling),
    )


def root_names(pitch_class: int) -> tuple[str, ...]:
    """Give the names that the policy considers for a root.

    Parameters
    ----------
    pitch_class : int in [0, 11]
        The root.

    Returns
    -------
    tuple of str
        The natural, or the flat and the sharp of a black key.

    Examples
    --------
    >>> root_names(0), root_names(6)
    (('C',), ('Gb', 'F#'))
    """
    return tuple(fifths_to_name(place) for place in _root_places(pitch_class))


def _root_places(pitch_class: int) -> tuple[int, ...]:
    place = 7 * pitch_class % 12
    if place in {11, 0, 1, 2, 3, 4, 5}:
        return (-1,) if place == 11 else (place,)
    return (place - 12, place)


@lru_cache(maxsize=1 << 16)
def _policy(mask: int, roots: tuple[int, ...]) -> tuple[int, _Spelling] | None:
    tones = Scale(mask).tones
    lettered = [(root, spelling) for root in roots if (spelling := _by_letters(tones, root)) is not None]
    if lettered:
        return min(lettered, key=lambda found: (_letters_cost(found[1]), found[0]))
    stretched = [(root, spelling) for root in roots if (spelling := _by_stretch(tones, root)) is not None]
    return min(stretched, key=lambda found: (_stretch_cost(found[1]), found[0]), default=None)


@lru_cache(maxsize=1 << 16)
def _policy_names(mask: int, root: int) -> tuple[str, ...]:
    found = _policy(mask, _root_places(root))
    return tuple(fifths_to_name(place) for place in found[1]) if found else ()


def tone_names(scale: Scale) -> tuple[str, ...]:
    """Name the tones upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale; a fixed spelling is kept.

    Returns
    -------
    tuple of str
        An ASCII name for each tone.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions.

    Examples
    --------
    >>> " ".join(tone_names(Scale.of(9, 11, 0, 2, 4, 5, 8)))
    'A B C D E F G#'
    >>> " ".join(tone_names(Scale.of(0, 1, 3, 4, 6, 7, 9, 10)))
    'C Db Eb E F# G A Bb'
    """
    _refuse_other_divisions(scale)
    return scale.names or _policy_names(scale.mask, scale.root)


def tone_name_map(scale: Scale) -> dict[int, str]:
    """Map each tone to its name.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    dict of int to str
        Steps above the root to the ASCII name.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions.

    Examples
    --------
    >>> tone_name_map(Scale.of(9, 0, 4))
    {0: 'A', 3: 'C', 7: 'E'}
    """
    return dict(zip(scale.tones, tone_names(scale), strict=True))


def root_name(scale: Scale) -> str:
    """Name the root, whether or not it is one of the tones.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    str
        ASCII note name.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions.

    Examples
    --------
    >>> root_name(Scale.of(1, 3, 5, 6, 8, 10, 0)), root_name(Scale(0b10, root=3))
    ('Db', 'Eb')
    """
    _refuse_other_divisions(scale)
    if scale.names and scale.is_rooted:
        return scale.names[0]
    found = _policy(scale.mask, _root_places(scale.root))
    return fifths_to_name(found[0] if found else _root_places(scale.root)[0])


def spelled_from(scale: Scale, name: str) -> tuple[str, ...]:
    """Spell a scale by the policy from a root name of one's own choice.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale; a fixed spelling is disregarded.
    name : str
        A name of its root.

    Returns
    -------
    tuple of str
        An ASCII name for each tone.

    Raises
    ------
    DomainError
        If the name is not a name of the root, or some tone would need more than two accidentals.

    Examples
    --------
    >>> " ".join(spelled_from(Scale.of(6, 8, 10, 11, 1, 3, 5), "F#"))
    'F# G# A# B C# D# E#'
    """
    _refuse_other_divisions(scale)
    place = name_to_fifths(name)
    if 7 * place % 12 != scale.root:
        raise DomainError(
            f"root name '{name}'",
            f"the root is pitch class {scale.root}, and {name} is {7 * place % 12}",
            f"Write it as {' or '.join(root_names(scale.root))}.",
        )
    found = _policy(scale.mask, (place,))
    if found is None:
        raise DomainError(
            f"root name '{name}'",
            "from this root some tone would need more than two accidentals",
            f"Write it as {' or '.join(root_names(scale.root))}.",
        )
    return tuple(fifths_to_name(place) for place in found[1])


def with_names(scale: Scale, names: Sequence[str]) -> Scale:
    """Fix a spelling, but keep it only where it departs from the policy, so that equal music gives equal values.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.
    names : sequence of str
        A note name for each tone, upwards from the root.

    Returns
    -------
    Scale
        The scale, with `names` empty where they are the policy's own.

    Raises
    ------
    DomainError
        If the names are not those of the tones, in their order.

    Examples
    --------
    >>> with_names(Scale.of(0, 4, 7), ["C", "E", "G"]).names
    ()
    >>> with_names(Scale.of(0, 4, 7), ["C", "Fb", "G"]).names
    ('C', 'Fb', 'G')
    """
    _refuse_other_divisions(scale)
    fixed = tuple(fifths_to_name(name_to_fifths(name)) for name in names)
    found = tuple(note_name_to_pitch_class(name) for name in fixed)
    if found != scale.pitch_classes:
        raise DomainError(
            f"the names {' '.join(names)}",
            f"they are the pitch classes {found}, and the tones are {scale.pitch_classes}",
            "Give a name to each tone, upwards from the root.",
        )
    return replace(scale, names=() if fixed == _policy_names(scale.mask, scale.root) else fixed)


def name_to_degree(name: str, root: str) -> str:
    """Measure a note name from the major scale on a root.

    Parameters
    ----------
    name, root : str
        ASCII note names.

    Returns
    -------
    str
        The degree, such as `b3`; a number from 1 to 7 with flats or sharps in front.

    Examples
    --------
    >>> name_to_degree("F#", "D"), name_to_degree("F", "D"), name_to_degree("G#", "D")
    ('3', 'b3', '#4')
    """
    number = (LETTERS.index(name[0]) - LETTERS.index(root[0])) % 7
    place = name_to_fifths(name) - name_to_fifths(root)
    signs = (place - (0, 2, 4, -1, 1, 3, 5)[number]) // 7
    return ("#" * signs or "b" * -signs) + str(number + 1)


def degree_names(scale: Scale) -> tuple[str, ...]:
    """Name the tones as degrees, measured from the major scale on the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale; its spelling is disregarded.

    Returns
    -------
    tuple of str
        A degree for each tone; for seven tones, the root among them, each number once where rule (a) allows.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions.

    Examples
    --------
    >>> " ".join(degree_names(Scale.of(2, 4, 5, 8, 9, 11, 0)))
    '1 2 b3 #4 5 6 b7'
    """
    _refuse_other_divisions(scale)
    return tuple(
        name_to_degree(name, "C") if accidental(name) else str(LETTERS.index(name) + 1)
        for name in _policy_names(scale.mask, 0)
    )
