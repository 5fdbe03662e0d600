"""How many classes of sets a division has, by the lemma of Cauchy and Frobenius (Burnside).

Sets that are transpositions of each other are one *necklace*, and one *bracelet* if inversions count as equal too: the
set classes under transposition, and under transposition and inversion. Counts by number of tones are the sequences
A047996 and A052307 of the On-Line Encyclopedia of Integer Sequences, totals A000031 and A000029; Ronald Read,
"Combinatorial Problems in the Theory of Music", Discrete Mathematics 167 (1997), treats the musical case.

**Conventions**: the empty set and the whole division each count as one class, so twelve divisions have 352 necklaces
and 224 bracelets; tables without the empty set have one fewer.
"""

from __future__ import annotations

from math import comb, gcd

from gamutwright.errors import DomainError

__all__ = ["bracelet_counts", "necklace_counts"]


def _require_division(divisions: int) -> None:
    if divisions < 1:
        raise DomainError(
            f"{divisions} divisions", "the octave is divided into one step or more", "Choose a positive number."
        )


def necklace_counts(divisions: int) -> tuple[int, ...]:
    """Count the classes under transposition by number of tones.

    Parameters
    ----------
    divisions : int > 0
        Equal divisions of the octave.

    Returns
    -------
    tuple of int, length divisions + 1
        For 0, 1, ... tones.

    Raises
    ------
    DomainError
        If the division is not positive.

    Examples
    --------
    >>> necklace_counts(12), sum(necklace_counts(12))
    ((1, 1, 6, 19, 43, 66, 80, 66, 43, 19, 6, 1, 1), 352)
    """
    _require_division(divisions)
    fixed = [0] * (divisions + 1)
    for steps in range(divisions):
        cycles = gcd(steps, divisions)
        length = divisions // cycles
        for chosen in range(cycles + 1):
            fixed[chosen * length] += comb(cycles, chosen)
    return tuple(count // divisions for count in fixed)


def bracelet_counts(divisions: int) -> tuple[int, ...]:
    """Count the classes under transposition and inversion by number of tones.

    Parameters
    ----------
    divisions : int > 0
        Equal divisions of the octave.

    Returns
    -------
    tuple of int, length divisions + 1
        For 0, 1, ... tones.

    Raises
    ------
    DomainError
        If the division is not positive.

    Examples
    --------
    >>> bracelet_counts(12), sum(bracelet_counts(12))
    ((1, 1, 6, 12, 29, 38, 50, 38, 29, 12, 6, 1, 1), 224)
    """
    necklaces = necklace_counts(divisions)
    fixed = [0] * (divisions + 1)
    for index in range(divisions):
        alone = 1 if divisions % 2 else 2 - 2 * (index % 2)
        pairs = (divisions - alone) // 2
        for chosen in range(pairs + 1):
            for single in range(alone + 1):
                fixed[2 * chosen + single] += comb(pairs, chosen) * comb(alone, single)
    return tuple((turned + mirrored // divisions) // 2 for turned, mirrored in zip(necklaces, fixed, strict=True))
