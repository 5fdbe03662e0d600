"""The moves P, L and R between major and minor triads, and which of a scale's triads they join.

P (parallel), L (leading-tone exchange) and R (relative) each hold two tones of a major or minor triad and move the
third, by a semitone for P and L, by a whole tone for R; each undoes itself.

Conventions: twelve divisions. Triads are chords counted from the root of the scale.

References: Cohn, Journal of Music Theory 41 (1997); Douthett and Steinbach, Journal of Music Theory 42 (1998), 241-263.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from gamutwright.errors import DomainError
from gamutwright.theory.harmony import TRIADS, Chord, chords_present
from gamutwright.theory.scale import Scale

__all__ = [
    "MOVES",
    "Link",
    "leading_tone_exchange",
    "major_and_minor_triads",
    "moved_triad",
    "parallel",
    "path_moves",
    "relative",
    "triad_links",
]

MOVES = {"P": 0, "L": 4, "R": 9}
"""Each move by the semitones from the root of the major triad up to that of the minor one."""

_MAJOR_AND_MINOR = {suffix: TRIADS[suffix] for suffix in ("", "m")}
_MOVE_BY_STEPS = {up: move for move, up in MOVES.items()}


@dataclass(frozen=True, slots=True)
class Link:
    """Two triads joined by one of the moves.

    Parameters
    ----------
    major, minor : Chord
        The triads.
    move : str
        P, L or R.
    """

    major: Chord
    minor: Chord
    move: str


def moved_triad(triad: Chord, move: str) -> Chord:
    """Apply one of the moves to a triad.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.
    move : str
        P, L or R.

    Returns
    -------
    Chord
        The triad of the other mode.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> moved_triad(Chord(0, ""), "R")
    Chord(root=9, suffix='m')
    """
    if triad.suffix == "":
        return Chord((triad.root + MOVES[move]) % 12, "m")
    if triad.suffix == "m":
        return Chord((triad.root - MOVES[move]) % 12, "")
    raise DomainError(f"{triad}", "P, L and R move major and minor triads", "Give one of those.")


def parallel(triad: Chord) -> Chord:
    """Apply P: hold root and fifth, change the third.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.

    Returns
    -------
    Chord
        The triad of the other mode on the same root.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> parallel(Chord(0, ""))
    Chord(root=0, suffix='m')
    """
    return moved_triad(triad, "P")


def leading_tone_exchange(triad: Chord) -> Chord:
    """Apply L: hold the minor third and exchange the remaining tone for the one a semitone away.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.

    Returns
    -------
    Chord
        From a major triad the minor one a major third above it, and back.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> leading_tone_exchange(Chord(2, ""))
    Chord(root=6, suffix='m')
    """
    return moved_triad(triad, "L")


def relative(triad: Chord) -> Chord:
    """Apply R: hold the major third and move the remaining tone by a whole tone.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.

    Returns
    -------
    Chord
        From a major triad the minor one a minor third below it, and back.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> relative(Chord(0, ""))
    Chord(root=9, suffix='m')
    """
    return moved_triad(triad, "R")


def major_and_minor_triads(scale: Scale) -> tuple[Chord, ...]:
    """Find the triads that the moves join.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Chord
        Upwards from the root; on one root major before minor.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [(chord.root, chord.suffix) for chord in major_and_minor_triads(Scale.of(0, 3, 4, 7))]
    [(0, ''), (0, 'm')]
    """
    return chords_present(scale, _MAJOR_AND_MINOR)


def triad_links(scale: Scale) -> tuple[Link, ...]:
    """Find the pairs of major and minor triads of a scale that one move joins.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Link
        By the root of the major triad upwards, then P, L, R.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [(link.major.root, link.move) for link in triad_links(Scale.of(0, 3, 4, 7, 9))]
    [(0, 'P'), (0, 'R')]
    """
    minor = set(chords_present(scale, {"m": TRIADS["m"]}))
    return tuple(
        Link(chord, other, move)
        for chord in chords_present(scale, {"": TRIADS[""]})
        for move in MOVES
        if (other := moved_triad(chord, move)) in minor
    )


def path_moves(path: tuple[Chord, ...]) -> str:
    """Name the moves along a path of triads.

    Parameters
    ----------
    path : tuple of Chord
        Major and minor triads, each joined to the next.

    Returns
    -------
    str
        One letter a move.

    Examples
    --------
    >>> path_moves((Chord(0, ""), Chord(9, "m"), Chord(5, "")))
    'RL'
    """
    return "".join(
        _MOVE_BY_STEPS[(after.root - before.root if before.suffix == "" else before.root - after.root) % 12]
        for before, after in pairwise(path)
    )
