"""Spans and sizes of each class: coherence, propriety, Myhill's property, maximal evenness, well-formedness.

One table counts the intervals of each size and span; every column is read off it. Ambiguities and differences need only
two sums: with c(s, g) the number of intervals of size s and span g, and C(s) their sum over spans, the ambiguities are
half of the sum of C(s)^2 less the sum of c(s, g)^2, and the differences are all pairs inside a span less those of equal
size. Contradictions are counted while sizes rise, against the smaller sizes already met in wider spans.

Conventions: as in `theory.spectra`, `theory.coherence` and `theory.propriety`. Texts are given as indices into
`PROPRIETY` and `WELL_FORMEDNESS`. Quotients are one division of whole numbers, so they are the nearest floats to the
exact fractions.
"""

# numba compiles these functions from their bytecode, which its decorators do not type.
# mypy: disallow-untyped-decorators=False, disallow-untyped-calls=False

from __future__ import annotations

from typing import Any

import numba
import numpy as np
from numpy.typing import NDArray

__all__ = ["COLUMNS", "PROPRIETY", "TEXTS", "WELL_FORMEDNESS", "columns"]

COLUMNS = (
    "mean_spectrum_width",
    "is_myhill",
    "is_maximally_even",
    "well_formedness",
    "propriety",
    "is_balzano_coherent",
    "ambiguities",
    "contradictions",
    "coherence_failures",
    "differences",
    "coherence_quotient",
    "sameness_quotient",
)
PROPRIETY = ("improper", "proper", "strictly proper")
WELL_FORMEDNESS = ("not well-formed", "degenerate", "non-degenerate", "")
TEXTS = {"propriety": PROPRIETY, "well_formedness": WELL_FORMEDNESS}


@numba.njit(nogil=True, cache=True)
def _count_intervals(
    word: np.uint64, divisions: int, tones: NDArray[np.int32], table: NDArray[np.int32], flags: NDArray[np.int64]
) -> int:
    """Fill the table of sizes and spans; set flags to total width, Myhill, evenness and propriety; give the tones."""
    count = 0
    for step in range(divisions):
        if (numba.uint64(word) >> numba.uint64(step)) & numba.uint64(1):
            tones[count] = step
            count += 1
    for place in range(count):
        tones[count + place] = tones[place] + divisions
    table[:, :count] = 0
    width, myhill, even, proper, above = 0, count > 1, True, 2, 0
    for span in range(1, count):
        low, high = divisions, 0
        for place in range(count):
            size = tones[place + span] - tones[place]
            table[size, span] += 1
            low, high = min(low, size), max(high, size)
        width += high - low
        even = even and high - low <= 1
        myhill = myhill and high > low and table[low, span] + table[high, span] == count
        if span > 1 and above > low:
            proper = 0
        elif span > 1 and above == low:
            proper = min(proper, 1)
        above = high
    flags[0], flags[1], flags[2], flags[3] = width, myhill, even, proper
    return count


@numba.njit(nogil=True, cache=True)
def _coherence(table: NDArray[np.int32], count: int, divisions: int, below: NDArray[np.int64]) -> tuple[int, int, int]:
    """Read ambiguities, contradictions and differences off the table."""
    squares, sums_squared, contradictions = 0, 0, 0
    below[:count] = 0
    for size in range(1, divisions):
        total, smaller_in_wider = 0, 0
        for span in range(count - 1, 0, -1):
            here = table[size, span]
            if here:
                squares += here * here
                total += here
                contradictions += here * smaller_in_wider
            smaller_in_wider += below[span]
            below[span] += here
        sums_squared += total * total
    same_size = (squares - count * (count - 1)) // 2
    differences = (count - 1) * (count * (count - 1) // 2) - same_size
    return (sums_squared - squares) // 2, contradictions, differences


@numba.njit(nogil=True, cache=True)
def _measure(masks: NDArray[np.uint64], divisions: int, found: NDArray[np.int32]) -> None:
    tones = np.empty(2 * divisions, np.int32)
    table = np.zeros((divisions + 1, divisions + 1), np.int32)
    below = np.zeros(divisions + 1, np.int64)
    flags = np.zeros(4, np.int64)
    for index in range(masks.size):
        count = _count_intervals(masks[index], divisions, tones, table, flags)
        ambiguities, contradictions, differences = _coherence(table, count, divisions, below)
        found[0, index] = count
        found[1, index], found[2, index], found[3, index], found[4, index] = flags[0], flags[1], flags[2], flags[3]
        found[5, index], found[6, index], found[7, index] = ambiguities, contradictions, differences


def columns(masks: NDArray[np.uint64], divisions: int) -> dict[str, NDArray[Any]]:
    """Compute the columns of spans and sizes.

    A scale is well-formed in the non-degenerate sense exactly if it has Myhill's property (Carey and Clampitt 1989),
    and degenerate if its steps are all equal.

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
    >>> found = columns(np.array([0b101010110101], np.uint64), 12)
    >>> int(found["ambiguities"][0]), int(found["differences"][0]), round(float(found["coherence_quotient"][0]), 4)
    (1, 56, 0.9929)
    """
    found = np.empty((8, masks.size), np.int32)
    _measure(masks, divisions, found)
    count, width, myhill, even, proper, ambiguities, contradictions, differences = found
    tones = count.astype(np.int64)
    failures = ambiguities + contradictions
    most_failures = np.maximum(1, tones * (tones - 1) * (tones - 2) * (3 * tones - 5) // 24)
    most_differences = np.maximum(1, tones * (tones - 1) ** 2 // 2)
    well_formed = np.where(tones < 2, 3, np.where(width == 0, 1, np.where(myhill != 0, 2, 0)))
    return {
        "mean_spectrum_width": width / np.maximum(1, tones),
        "is_myhill": myhill.astype(np.bool_),
        "is_maximally_even": even.astype(np.bool_),
        "well_formedness": well_formed.astype(np.uint8),
        "propriety": proper.astype(np.uint8),
        "is_balzano_coherent": (contradictions == 0) & (ambiguities <= 1),
        "ambiguities": ambiguities,
        "contradictions": contradictions,
        "coherence_failures": failures,
        "differences": differences,
        "coherence_quotient": (most_failures - failures) / most_failures,
        "sameness_quotient": (most_differences - differences) / most_differences,
    }
