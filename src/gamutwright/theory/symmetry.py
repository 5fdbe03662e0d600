"""Modes and symmetry: what remains the same when a scale is moved or turned over.

A set that some transposition by less than an octave leaves unchanged has transpositional (rotational) symmetry; one
that some inversion leaves unchanged has inversional (reflectional) symmetry. Degrees of symmetry count these
operations, as in John Rahn, "Basic Atonal Theory" (1980), and Joseph Straus, "Introduction to Post-Tonal Theory".
Olivier Messiaen, "Technique de mon langage musical" (1944), chapter XVI, calls scales with fewer transpositions than
the division has steps modes of limited transposition.

**Conventions**: an inversion is named by the number k for which it sends x to k - x, tones counted from the root; it
turns the clock about one line, through k/2 and the point opposite. The empty set has every symmetry.
"""

from __future__ import annotations

from gamutwright.theory.pcset import inversion_stabiliser, transposition_stabiliser
from gamutwright.theory.scale import Scale

__all__ = [
    "has_limited_transpositions",
    "inversion",
    "is_chiral",
    "is_palindromic",
    "mode_count",
    "mode_tones",
    "reflection_axes",
    "rotational_symmetry",
    "transposition_count",
]


def mode_tones(scale: Scale) -> tuple[int, ...]:
    """List the tones that give different modes when taken as the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        The tones above the root, upwards; of tones that give the same step pattern only the first.

    Examples
    --------
    >>> mode_tones(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))
    (0, 1)
    """
    return scale.tones[: mode_count(scale)]


def mode_count(scale: Scale) -> int:
    """Count the different modes, that is the different step patterns from its tones.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        The number of tones divided by the degree of rotational symmetry.

    Examples
    --------
    >>> mode_count(Scale.of(0, 2, 4, 5, 7, 9, 11)), mode_count(Scale.of(0, 2, 4, 6, 8, 10))
    (7, 1)
    """
    return scale.cardinality // rotational_symmetry(scale)


def rotational_symmetry(scale: Scale) -> int:
    """Count the transpositions within the octave that leave the set unchanged, the one by nothing included.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int in [1, divisions]
        The degree of transpositional symmetry.

    Examples
    --------
    >>> rotational_symmetry(Scale.of(0, 4, 8)), rotational_symmetry(Scale.of(0, 4, 7))
    (3, 1)
    """
    return len(transposition_stabiliser(scale))


def transposition_count(scale: Scale) -> int:
    """Count the different transpositions of the set.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int in [1, divisions]
        The division divided by the degree of rotational symmetry.

    Examples
    --------
    >>> transposition_count(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))
    3
    """
    return scale.divisions // rotational_symmetry(scale)


def has_limited_transpositions(scale: Scale) -> bool:
    """Whether the set has fewer different transpositions than the division has steps.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        True also for the whole division and for sets that Messiaen leaves out as parts of his modes.

    Examples
    --------
    >>> has_limited_transpositions(Scale.of(0, 2, 4, 6, 8, 10)), has_limited_transpositions(Scale.of(0, 4, 7))
    (True, False)
    """
    return rotational_symmetry(scale) > 1


def reflection_axes(scale: Scale) -> int:
    """Count the inversions that leave the set unchanged, each a reflection of the clock about its own line.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int in [0, divisions]
        The degree of inversional symmetry.

    Examples
    --------
    >>> reflection_axes(Scale.of(0, 2, 4, 5, 7, 9, 11)), reflection_axes(Scale.of(0, 4, 7))
    (1, 0)
    """
    return len(inversion_stabiliser(scale))


def is_chiral(scale: Scale) -> bool:
    """Whether no transposition of the inverted set is the set itself.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        True where set and mirror image are of different kinds.

    Examples
    --------
    >>> is_chiral(Scale.of(0, 2, 3, 5, 7, 8, 11)), is_chiral(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (True, False)
    """
    return not inversion_stabiliser(scale)


def is_palindromic(scale: Scale) -> bool:
    """Whether the steps from the root read the same upwards and downwards.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        Whether the inversion about the root leaves the set unchanged.

    Examples
    --------
    >>> is_palindromic(Scale.of(0, 2, 3, 5, 7, 9, 10)), is_palindromic(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (True, False)
    """
    return scale.inverted().mask == scale.mask


def inversion(scale: Scale) -> tuple[int, ...]:
    """Give the pitch classes of the scale turned over about its root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int in [0, divisions)
        Upwards from the root.

    Examples
    --------
    >>> inversion(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (0, 1, 3, 5, 7, 8, 10)
    """
    return scale.inverted().pitch_classes
