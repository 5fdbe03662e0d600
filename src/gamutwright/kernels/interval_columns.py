"""Interval content and symmetry of each class: what rotations and reflections of the set have in common with it.

The number of tones common to a set and its rotation by k is the number of intervals of size k; half of it at the half
octave is the interval-class entry (Lewin 1959; Forte 1973). Rotations and reflections that give the set itself are its
symmetries.

Conventions: as in `theory.pcset`, `theory.intervals` and `theory.symmetry`.
"""

# numba compiles these functions from their bytecode, which its decorators do not type.
# mypy: disallow-untyped-decorators=False, disallow-untyped-calls=False

from __future__ import annotations

from typing import Any

import numba
import numpy as np
from numpy.typing import NDArray

from gamutwright.kernels.bit_counts import full_set, popcount, rotated

__all__ = ["COLUMNS", "columns"]

COLUMNS = (
    "cardinality",
    "interval_class_vector",
    "is_deep",
    "rotational_symmetry",
    "transposition_count",
    "mode_count",
    "has_limited_transpositions",
    "reflection_axes",
    "is_chiral",
)


@numba.njit(nogil=True, cache=True)
def _contents(masks: NDArray[np.uint64], divisions: int, sizes: NDArray[np.uint8], vectors: NDArray[np.uint8]) -> None:
    for index in range(masks.size):
        word = masks[index]
        sizes[index] = popcount(word)
        for step in range(1, divisions // 2 + 1):
            common = popcount(word & rotated(word, step, divisions))
            vectors[index, step - 1] = common // 2 if 2 * step == divisions else common


@numba.njit(nogil=True, cache=True)
def _deep(vectors: NDArray[np.uint8], deep: NDArray[np.bool_]) -> None:
    for index in range(deep.size):
        seen = numba.uint64(0)
        deep[index] = True
        for entry in range(vectors.shape[1]):
            bit = numba.uint64(1) << numba.uint64(vectors[index, entry])
            if seen & bit:
                deep[index] = False
                break
            seen |= bit


@numba.njit(nogil=True, cache=True)
def _symmetries(
    masks: NDArray[np.uint64], divisions: int, rotations: NDArray[np.uint8], reflections: NDArray[np.uint8]
) -> None:
    full = full_set(divisions)
    for index in range(masks.size):
        word = masks[index]
        mirrored = numba.uint64(0)
        for step in range(divisions):
            mirrored = (mirrored << numba.uint64(1)) | ((word >> numba.uint64(step)) & numba.uint64(1))
        turns = 0
        mirrors = 0
        for step in range(divisions):
            turns += rotated(word, step, divisions) == word
            mirrors += (rotated(mirrored, step, divisions) & full) == word
        rotations[index] = turns
        reflections[index] = mirrors


def columns(masks: NDArray[np.uint64], divisions: int) -> dict[str, NDArray[Any]]:
    """Compute the columns of interval content and symmetry.

    Parameters
    ----------
    masks : array (n,) uint64
        Sets with bit 0 set.
    divisions : int in [2, 36]
        Equal divisions of the octave.

    Returns
    -------
    dict of str to array
        An array (n,) for each of `COLUMNS`; `interval_class_vector` has the shape (n, divisions // 2).

    Examples
    --------
    >>> columns(np.array([0b101010110101], np.uint64), 12)["interval_class_vector"].tolist()
    [[2, 5, 4, 3, 6, 1]]
    """
    count = masks.size
    sizes = np.empty(count, np.uint8)
    vectors = np.empty((count, divisions // 2), np.uint8)
    _contents(masks, divisions, sizes, vectors)
    deep = np.empty(count, np.bool_)
    _deep(vectors, deep)
    rotations, reflections = np.empty(count, np.uint8), np.empty(count, np.uint8)
    _symmetries(masks, divisions, rotations, reflections)
    return {
        "cardinality": sizes,
        "interval_class_vector": vectors,
        "is_deep": deep,
        "rotational_symmetry": rotations,
        "transposition_count": (divisions // rotations).astype(np.uint8),
        "mode_count": sizes // rotations,
        "has_limited_transpositions": rotations > 1,
        "reflection_axes": reflections,
        "is_chiral": reflections == 0,
    }
