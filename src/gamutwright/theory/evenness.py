"""Maximal evenness: tones spread over the division as evenly as its steps allow.

John Clough and Jack Douthett, "Maximally Even Sets", Journal of Music Theory 35 (1991), 93-173, define a set as
maximally even where each spectrum is one size or two consecutive ones, and prove that these are the sets
J(k) = floor((n k + m) / d). Steven Block and Jack Douthett, Journal of Music Theory 38 (1994), measure evenness by the
lengths of the chords that join the tones on a circle.

**Conventions**: n is the division, d the number of tones, m a whole number that turns the set. Lengths are those of a
circle of radius one. Nothing here depends on the root.
"""

from __future__ import annotations

from math import fsum, gcd, pi, sin

from gamutwright.errors import DomainError
from gamutwright.theory.pcset import interval_class_vector
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.spectra import spectra

__all__ = [
    "chord_length_sum",
    "is_maximally_even",
    "is_second_order_maximally_even",
    "maximally_even_hosts",
    "maximally_even_set",
]


def maximally_even_set(divisions: int, tones: int, offset: int = 0) -> tuple[int, ...]:
    """Give the maximally even set J of Clough and Douthett.

    Parameters
    ----------
    divisions : int > 0
        The division n.
    tones : int in [1, divisions]
        The number of tones d.
    offset : int
        The number m; m from 0 to n - 1 gives every transposition.

    Returns
    -------
    tuple of int
        floor((n k + m) / d) for k from 0 to d - 1, reduced to the octave and ascending.

    Raises
    ------
    DomainError
        If there are no tones, or more than the division has.

    Examples
    --------
    >>> maximally_even_set(12, 7, 5)
    (0, 2, 4, 5, 7, 9, 11)
    """
    if not 1 <= tones <= divisions:
        raise DomainError(
            f"{tones} tones", f"a set of {divisions} divisions has 1 to {divisions} tones", "Choose another number."
        )
    return tuple(sorted((divisions * k + offset) // tones % divisions for k in range(tones)))


def is_maximally_even(scale: Scale) -> bool:
    """Whether every span comes in one size, or in two consecutive ones.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        True for one tone, and by convention for none.

    Examples
    --------
    >>> is_maximally_even(Scale.of(0, 2, 4, 5, 7, 9, 11)), is_maximally_even(Scale.of(0, 2, 3, 5, 7, 8, 11))
    (True, False)
    """
    return all(sizes[-1] - sizes[0] <= 1 for sizes in spectra(scale))


def maximally_even_hosts(scale: Scale) -> tuple[tuple[int, ...], ...]:
    """List the maximally even sets inside which the scale is itself spread as evenly as can be.

    Parameters
    ----------
    scale : Scale
        The scale, with one tone or more.

    Returns
    -------
    tuple of tuple of int
        Each set as tones above the root, ascending; smaller sets first. The scale itself and the whole division are
        left out: either is a host exactly if the scale is maximally even.

    Examples
    --------
    >>> (0, 2, 4, 5, 7, 9, 11) in maximally_even_hosts(Scale.of(0, 4, 7))
    True
    """
    n, count = scale.divisions, scale.cardinality
    found: list[tuple[int, ...]] = []
    if not count:
        return ()
    for size in range(count + 1, n):
        shape = sum(1 << tone for tone in maximally_even_set(n, size))
        for steps in range(n // gcd(n, size)):
            host = rotated_mask(shape, steps, n)
            if scale.mask & ~host:
                continue
            degrees = (host & (1 << tone) - 1 for tone in scale.tones)
            inside = Scale(sum(1 << degree.bit_count() for degree in degrees), size)
            if is_maximally_even(inside):
                found.append(Scale(host, n).tones)
    return tuple(sorted(found, key=lambda host: (len(host), host)))


def is_second_order_maximally_even(scale: Scale) -> bool:
    """Whether the scale is spread as evenly as can be inside a set that is itself maximally even.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        True for every maximally even set, which is so inside itself.

    Examples
    --------
    >>> is_second_order_maximally_even(Scale.of(0, 4, 7)), is_second_order_maximally_even(Scale.of(0, 1, 2))
    (True, False)
    """
    return is_maximally_even(scale) or bool(maximally_even_hosts(scale))


def chord_length_sum(scale: Scale) -> float:
    """Give the sum of the straight-line distances between all pairs of tones on a circle of radius one.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    float
        Sum of 2 sin(pi k / n) over all pairs, k being their interval class.

    Examples
    --------
    >>> round(chord_length_sum(Scale.of(0, 4, 8)), 6)
    5.196152
    """
    n = scale.divisions
    return fsum(often * 2 * sin(pi * k / n) for k, often in enumerate(interval_class_vector(scale), start=1))
