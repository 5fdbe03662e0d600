"""The set on the circle: balance, perfect balance, evenness, the sum of chord lengths.

Whether a set is perfectly balanced is decided exactly: the sum of its roots of unity vanishes exactly if the polynomial
with a term for each tone is divisible by the cyclotomic polynomial of the division; each power's remainder is tabled
once as whole numbers and only added.

Conventions: as in `theory.fourier` and `theory.evenness`. Floats are sums in another order than there, so they agree to
about 1e-12, not to the last bit.
"""

# numba compiles these functions from their bytecode, which its decorators do not type.
# mypy: disallow-untyped-decorators=False, disallow-untyped-calls=False

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numba
import numpy as np
from numpy.typing import NDArray

__all__ = ["COLUMNS", "columns"]

COLUMNS = ("balance", "is_balanced", "evenness", "chord_length_sum")
NEARLY_ZERO = 1e-6


@lru_cache(maxsize=64)
def _cyclotomic(order: int) -> tuple[int, ...]:
    """Coefficients of the cyclotomic polynomial, lowest first: x^order - 1 divided by those of its proper divisors."""
    dividend = [-1, *[0] * (order - 1), 1]
    for divisor in range(1, order):
        if order % divisor == 0:
            dividend = _divided(dividend, _cyclotomic(divisor))
    return tuple(dividend)


def _divided(dividend: list[int], divisor: tuple[int, ...]) -> list[int]:
    rest, quotient = list(dividend), []
    while len(rest) >= len(divisor):
        factor = rest[-1]
        quotient.append(factor)
        offset = len(rest) - len(divisor)
        for place, coefficient in enumerate(divisor):
            rest[offset + place] -= factor * coefficient
        rest.pop()
    return quotient[::-1]


@lru_cache(maxsize=64)
def _remainders(divisions: int) -> NDArray[np.int32]:
    """Remainder of each power x^0 .. x^(n-1) by the cyclotomic polynomial, a row each."""
    modulus = _cyclotomic(divisions)
    degree = len(modulus) - 1
    rows = np.zeros((divisions, degree), np.int32)
    power = [1, *[0] * (degree - 1)]
    for step in range(divisions):
        rows[step] = power
        leading = power[-1]
        power = [0, *power[:-1]]
        power = [entry - leading * modulus[place] for place, entry in enumerate(power)]
    return rows


@numba.njit(nogil=True, cache=True)
def _measure(
    masks: NDArray[np.uint64],
    divisions: int,
    circle: NDArray[np.complex128],
    chords: NDArray[np.float64],
    remainders: NDArray[np.int32],
    found: NDArray[np.float64],
) -> None:
    rest = np.zeros(remainders.shape[1], np.int32)
    tones = np.empty(divisions, np.int32)
    for index in range(masks.size):
        word = masks[index]
        count = 0
        for step in range(divisions):
            if (word >> numba.uint64(step)) & numba.uint64(1):
                tones[count] = step
                count += 1
        centre, spread, lengths = 0j, 0j, 0.0
        for place in range(count):
            centre += circle[tones[place]]
            angle = 2.0 * np.pi * (tones[place] * count - place * divisions) / (divisions * count)
            spread += complex(np.cos(angle), np.sin(angle))
            for lower in range(place):
                lengths += chords[tones[place] - tones[lower]]
        weight = abs(centre) / count
        balanced = False
        if weight < NEARLY_ZERO:
            rest[:] = 0
            for place in range(count):
                rest += remainders[tones[place]]
            balanced = not rest.any()
        found[0, index] = 1.0 - weight
        found[1, index] = balanced
        found[2, index] = abs(spread) / count
        found[3, index] = lengths


def columns(masks: NDArray[np.uint64], divisions: int) -> dict[str, NDArray[Any]]:
    """Compute the columns of the circle.

    Parameters
    ----------
    masks : array (n,) uint64
        Sets with bit 0 set.
    divisions : int in [2, 36]
        Equal divisions of the octave.

    Returns
    -------
    dict of str to array
        An array (n,) for each of `COLUMNS`.

    Examples
    --------
    >>> columns(np.array([0b000100010001], np.uint64), 12)["is_balanced"].tolist()
    [True]
    """
    steps = np.arange(divisions)
    found = np.empty((4, masks.size))
    _measure(
        masks,
        divisions,
        np.exp(2j * np.pi * steps / divisions),
        2.0 * np.sin(np.pi * steps / divisions),
        _remainders(divisions),
        found,
    )
    return {
        "balance": found[0],
        "is_balanced": found[1].astype(np.bool_),
        "evenness": found[2],
        "chord_length_sum": found[3],
    }
