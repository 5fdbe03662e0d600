"""Frequency ratios judged by their numbers: Euler's gradus, Barlow's harmonicity, and the just ratio nearest a tone.

Conventions: a ratio is a `Fraction`, higher frequency over lower, in lowest terms; 3/2 is the fifth upwards. Barlow's
tables write it the other way round, 2:3. His harmonicity has a *sign*: positive where the lower tone is the simpler
number (octave, fifth), negative where the higher one is (fourth, minor third); of two equally simple numbers it is
positive. A just error is the tempered size minus the just one, so that a wide tempered interval has a positive error.

References: Euler, Tentamen novae theoriae musicae (1739), chapter 4, from memory; Barlow, Computer Music Journal 11(1)
(1987), 44-60, table 2 on p. 45; the list of ratios follows the table of intervals in A. J. Ellis's translation of
Helmholtz, On the Sensations of Tone (1885), appendix XX, from memory.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from fractions import Fraction
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale

__all__ = [
    "JUST_RATIOS",
    "euler_gradus",
    "harmonicity",
    "indigestibility",
    "just_error_cents",
    "just_errors",
    "just_ratios",
    "nearest_just_ratio",
    "ratio_cents",
]

# fmt: off
JUST_RATIOS: tuple[Fraction, ...] = tuple(
    Fraction(upper, lower)
    for upper, lower in (
        (1, 1), (25, 24), (16, 15), (10, 9), (9, 8), (8, 7), (7, 6), (6, 5), (5, 4), (9, 7), (4, 3), (7, 5), (45, 32),
        (64, 45), (10, 7), (3, 2), (14, 9), (8, 5), (5, 3), (12, 7), (7, 4), (16, 9), (9, 5), (15, 8), (48, 25), (2, 1),
    )
)
# fmt: on
"""Ratios of the primes 2, 3, 5 and 7 with names of their own, upwards; with each its complement to the octave."""


@lru_cache(maxsize=4096)
def _prime_factors(number: int) -> tuple[tuple[int, int], ...]:
    if number < 1:
        raise DomainError(f"{number}", "a ratio is made of positive whole numbers", "Give numbers from 1 upwards.")
    found: list[tuple[int, int]] = []
    prime = 2
    while number > 1:
        if prime * prime > number:
            prime = number
        power = 0
        while number % prime == 0:
            number //= prime
            power += 1
        if power:
            found.append((prime, power))
        prime += 1
    return tuple(found)


def euler_gradus(*numbers: int) -> int:
    """Give Euler's degree of sweetness (gradus suavitatis) of a chord of numbers.

    Parameters
    ----------
    *numbers : int > 0
        The frequencies as whole numbers, such as 4, 5, 6; a common factor is taken out.

    Returns
    -------
    int >= 1
        1 + the sum of k (p - 1) over the prime powers p**k of the least common multiple; 1 for a unison.

    Raises
    ------
    DomainError
        If a number is not positive, or none is given.

    Examples
    --------
    >>> euler_gradus(2, 3), euler_gradus(4, 5, 6), euler_gradus(10, 12, 15)
    (4, 9, 9)
    """
    if not numbers or min(numbers) < 1:
        raise DomainError(f"{numbers}", "the gradus is defined for positive whole numbers", "Give one or more.")
    common = math.gcd(*numbers)
    multiple = math.lcm(*(number // common for number in numbers))
    return 1 + sum(power * (prime - 1) for prime, power in _prime_factors(multiple))


def indigestibility(number: int) -> Fraction:
    """Give Barlow's indigestibility of a whole number.

    Parameters
    ----------
    number : int > 0
        The number.

    Returns
    -------
    Fraction >= 0
        The sum of 2 k (p - 1)**2 / p over its prime powers p**k; 0 for 1.

    Raises
    ------
    DomainError
        If the number is not positive.

    Examples
    --------
    >>> indigestibility(7), indigestibility(6)
    (Fraction(72, 7), Fraction(11, 3))
    """
    return sum((Fraction(2 * power * (prime - 1) ** 2, prime) for prime, power in _prime_factors(number)), Fraction())


def harmonicity(ratio: Fraction) -> Fraction:
    """Give Barlow's harmonicity of an interval, with its sign.

    Parameters
    ----------
    ratio : Fraction > 0
        Higher frequency over lower; not 1, whose harmonicity is infinite.

    Returns
    -------
    Fraction
        One over the sum of the two indigestibilities; negative where the upper number is the more digestible.

    Raises
    ------
    DomainError
        For the unison, or a ratio that is not positive.

    Examples
    --------
    >>> harmonicity(Fraction(3, 2)), harmonicity(Fraction(4, 3))
    (Fraction(3, 11), Fraction(-3, 14))
    """
    if ratio == 1:
        raise DomainError("the ratio 1/1", "the harmonicity of the unison is infinite", "Leave the unison out.")
    upper, lower = indigestibility(ratio.numerator), indigestibility(ratio.denominator)
    return (1 if upper >= lower else -1) / (upper + lower)


def ratio_cents(ratio: Fraction) -> float:
    """Give the size of a ratio.

    Parameters
    ----------
    ratio : Fraction > 0
        The ratio.

    Returns
    -------
    float, cents
        1200 times its logarithm to base 2.

    Examples
    --------
    >>> ratio_cents(Fraction(2)), round(ratio_cents(Fraction(3, 2)), 3)
    (1200.0, 701.955)
    """
    return 1200 * (math.log2(ratio.numerator) - math.log2(ratio.denominator))


_JUST_CENTS = tuple(ratio_cents(ratio) for ratio in JUST_RATIOS)


def nearest_just_ratio(steps: int, divisions: int) -> Fraction:
    """Find the ratio of the list that lies nearest to a tone of an equal division.

    Parameters
    ----------
    steps : int in [0, divisions]
        The tone above the root.
    divisions : int > 0
        Equal divisions of the octave.

    Returns
    -------
    Fraction in [1, 2]
        One of `JUST_RATIOS`; of two equally near the lower.

    Raises
    ------
    DomainError
        If the tone lies outside the octave.

    Examples
    --------
    >>> nearest_just_ratio(4, 12), nearest_just_ratio(6, 12), nearest_just_ratio(25, 31)
    (Fraction(5, 4), Fraction(45, 32), Fraction(7, 4))
    """
    return JUST_RATIOS[_nearest_place(steps, divisions)]


@lru_cache(maxsize=8192)
def _nearest_place(steps: int, divisions: int) -> int:
    if not 0 <= steps <= divisions:
        raise DomainError(f"{steps} steps", f"the octave has {divisions} steps", "Reduce the tone by octaves.")
    cents = 1200 * steps / divisions
    above = max(bisect_left(_JUST_CENTS, cents), 1)
    # 45/32 and 64/45 lie equally far from the half octave: rounding must not choose between them.
    nearer_above = _JUST_CENTS[above] - cents < cents - _JUST_CENTS[above - 1] - 1e-9
    return above if nearer_above else above - 1


def just_error_cents(steps: int, divisions: int) -> float:
    """Give the error of a tone against the nearest ratio of the list.

    Parameters
    ----------
    steps : int in [0, divisions]
        The tone above the root.
    divisions : int > 0
        Equal divisions of the octave.

    Returns
    -------
    float, cents
        Tempered minus just: positive where the tempered interval is the wider.

    Raises
    ------
    DomainError
        If the tone lies outside the octave.

    Examples
    --------
    >>> round(just_error_cents(7, 12), 3), round(just_error_cents(4, 12), 3)
    (-1.955, 13.686)
    """
    return 1200 * steps / divisions - _JUST_CENTS[_nearest_place(steps, divisions)]


def just_ratios(scale: Scale) -> tuple[Fraction, ...]:
    """Give the nearest just ratio for each tone.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Fraction
        One for each tone, upwards from the root.

    Examples
    --------
    >>> [str(ratio) for ratio in just_ratios(Scale.of(0, 4, 7, 10))]
    ['1', '5/4', '3/2', '16/9']
    """
    return tuple(nearest_just_ratio(tone, scale.divisions) for tone in scale.tones)


def just_errors(scale: Scale) -> tuple[float, ...]:
    """Give the error of each tone against its nearest just ratio.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of float, cents
        One for each tone, tempered minus just.

    Examples
    --------
    >>> [round(error, 3) for error in just_errors(Scale.of(0, 3, 7))]
    [0.0, -15.641, -1.955]
    """
    return tuple(just_error_cents(tone, scale.divisions) for tone in scale.tones)
