r"""The Fourier transform of a pitch-class set, balance, and evenness.

Two transforms bear the same name in the literature and are kept apart here. The transform of the *set*,
F_k = sum over its tones s of exp(-2 pi i k s / n) (Lewin 1959, Quinn 2006), measures how strongly the set leans
towards the k-fold division of the octave; balance is its first coefficient. The transform of the *scale*, taken of the
row of its d tones exp(2 pi i s_j / n), measures how it moves round the circle; evenness is its first coefficient.

Conventions: tones are steps above the root, so phases are those of the scale brought to its root; n is the division
and d the number of tones. Coefficients are irrational in general and given as floats, but whether one vanishes is
decided in integers: F_k is a sum of roots of unity of order m = n / gcd(n, k), and it is zero exactly if the
cyclotomic polynomial of order m divides the polynomial sum x**s. A magnitude is 0.0 only where it vanishes exactly.

References: Lewin, Journal of Music Theory 3 (1959); Quinn, Perspectives of New Music 44-45 (2006); Amiot, Music Through
Fourier Space (2016), chapters 1 and 3; Milne, Bulger, Herff, Sethares, Mathematics and Computation in Music (2015).
"""

from __future__ import annotations

import cmath
import math
from functools import lru_cache

from gamutwright.theory.scale import Scale

__all__ = [
    "balance",
    "centre_of_gravity",
    "cyclotomic_polynomial",
    "evenness",
    "fourier_coefficients",
    "fourier_magnitudes",
    "is_balanced",
    "is_fourier_zero",
]

# Below this size a coefficient may be zero and is decided exactly; far above the rounding of 72 terms.
_DOUBTFUL = 1e-6


@lru_cache(maxsize=128)
def cyclotomic_polynomial(order: int) -> tuple[int, ...]:
    """Give the polynomial whose roots are the primitive roots of unity of an order.

    Parameters
    ----------
    order : int > 0
        The order.

    Returns
    -------
    tuple of int
        Coefficients, the constant term first; the leading one is 1.

    Examples
    --------
    >>> cyclotomic_polynomial(12)
    (1, 0, -1, 0, 1)
    """
    quotient = [-1] + [0] * (order - 1) + [1]
    for divisor in range(1, order):
        if order % divisor == 0:
            quotient = _divided(quotient, cyclotomic_polynomial(divisor))[0]
    return tuple(quotient)


def _divided(dividend: list[int], divisor: tuple[int, ...]) -> tuple[list[int], list[int]]:
    """Quotient and remainder by a polynomial with leading coefficient 1; constant terms first."""
    remainder = list(dividend)
    degree = len(divisor) - 1
    quotient = [0] * max(len(remainder) - degree, 0)
    for place in range(len(quotient) - 1, -1, -1):
        factor = quotient[place] = remainder[place + degree]
        if factor:
            for offset, coefficient in enumerate(divisor):
                remainder[place + offset] -= factor * coefficient
    return quotient, remainder[:degree]


@lru_cache(maxsize=128)
def _circle(divisions: int) -> tuple[complex, ...]:
    """Place all pitch classes on the circle: exp(-2 pi i s / n)."""
    return tuple(cmath.exp(-2j * math.pi * s / divisions) for s in range(divisions))


def is_fourier_zero(scale: Scale, index: int) -> bool:
    """Whether a Fourier coefficient of the set vanishes, decided in integers.

    Parameters
    ----------
    scale : Scale
        The set.
    index : int
        The coefficient, k.

    Returns
    -------
    bool
        True where F_k is exactly zero.

    Examples
    --------
    >>> is_fourier_zero(Scale.of(0, 4, 8), 1), is_fourier_zero(Scale.of(0, 4, 7), 1)
    (True, False)
    """
    order = scale.divisions // math.gcd(index, scale.divisions)
    powers = [0] * order
    for tone in scale.tones:
        powers[tone % order] += 1
    return not any(_divided(powers, cyclotomic_polynomial(order))[1])


def fourier_coefficients(scale: Scale) -> tuple[complex, ...]:
    """Give all Fourier coefficients of the set, brought to its root.

    Parameters
    ----------
    scale : Scale
        The set.

    Returns
    -------
    tuple of complex
        F_0 to F_(n-1), where n is the division.

    Examples
    --------
    >>> [round(abs(f), 4) for f in fourier_coefficients(Scale.of(0, 4, 8))[:4]]
    [3.0, 0.0, 0.0, 3.0]
    """
    divisions, tones = scale.divisions, scale.tones
    lower = [_coefficient(scale, tones, k) for k in range(divisions // 2 + 1)]
    upper = [lower[divisions - k].conjugate() for k in range(divisions // 2 + 1, divisions)]
    return (*lower, *upper)


def _coefficient(scale: Scale, tones: tuple[int, ...], index: int) -> complex:
    circle = _circle(scale.divisions)
    total = sum((circle[index * tone % scale.divisions] for tone in tones), 0j)
    return 0j if abs(total) < _DOUBTFUL and is_fourier_zero(scale, index) else total


def fourier_magnitudes(scale: Scale) -> tuple[float, ...]:
    """Give the sizes of the Fourier coefficients that transposition and inversion leave alone.

    Parameters
    ----------
    scale : Scale
        The set.

    Returns
    -------
    tuple of float
        The sizes of F_1 to F_floor(n/2), where n is the division; the others repeat them.

    Examples
    --------
    >>> [round(size, 4) for size in fourier_magnitudes(Scale.of(0, 4, 7))]
    [0.5176, 1.0, 2.2361, 1.7321, 1.9319, 1.0]
    """
    tones = scale.tones
    return tuple(abs(_coefficient(scale, tones, k)) for k in range(1, scale.divisions // 2 + 1))


def is_balanced(scale: Scale) -> bool:
    """Whether the tones, as equal weights on the circle, balance about its centre.

    Parameters
    ----------
    scale : Scale
        The set; the empty set balances.

    Returns
    -------
    bool
        True where F_1 is exactly zero.

    Examples
    --------
    >>> is_balanced(Scale.of(0, 3, 4, 7, 8, 11)), is_balanced(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (True, False)
    """
    return is_fourier_zero(scale, 1)


def balance(scale: Scale) -> float:
    """Measure how nearly the tones balance about the centre of the circle.

    Parameters
    ----------
    scale : Scale, at least one tone
        The set.

    Returns
    -------
    float in [0, 1]
        1 - |F_1| / d: 1 where they balance exactly, 0 for a single tone.

    Examples
    --------
    >>> balance(Scale.of(0, 3, 4, 7, 8, 11)), balance(Scale.of(0))
    (1.0, 0.0)
    """
    tones = scale.tones
    return 1.0 - abs(_coefficient(scale, tones, 1)) / len(tones)


def centre_of_gravity(scale: Scale) -> tuple[float, float]:
    """Give the mean of the tones as points of the unit circle.

    Parameters
    ----------
    scale : Scale, at least one tone
        The set.

    Returns
    -------
    tuple of float
        x to the right and y upwards, with the root at the top and tones running clockwise.

    Examples
    --------
    >>> x, y = centre_of_gravity(Scale.of(0, 3))
    >>> round(x, 3), round(y, 3)
    (0.5, 0.5)
    """
    tones = scale.tones
    first = _coefficient(scale, tones, 1)
    # F_1 runs against the clock from the right: its real part is the height, minus its imaginary part the breadth.
    return (0.0 - first.imag) / len(tones), first.real / len(tones)


def evenness(scale: Scale) -> float:
    """Measure how nearly the tones, in order, divide the octave into equal steps.

    Parameters
    ----------
    scale : Scale, at least one tone
        The set.

    Returns
    -------
    float in [0, 1]
        The size of the first coefficient of the row of tones; 1 where all steps are equal.

    Examples
    --------
    >>> round(evenness(Scale.of(0, 2, 4, 5, 7, 9, 11)), 4), evenness(Scale.of(0, 4, 8))
    (0.9888, 1.0)
    """
    tones, divisions = scale.tones, scale.divisions
    cardinality = len(tones)
    if len(set(scale.step_pattern)) == 1:
        return 1.0
    turns = ((tone * cardinality - place * divisions) / (divisions * cardinality) for place, tone in enumerate(tones))
    return abs(sum((cmath.exp(2j * math.pi * turn) for turn in turns), 0j)) / cardinality
