"""One set for each transposition class of a division, generated directly.

A class of sets under rotation is a binary necklace. Prenecklaces are walked in lexicographic order by Duval's rule:
drop the trailing ones, turn the last zero into a one, repeat what is left around the octave; a word is a necklace where
the length of what is left divides the division. The number of prenecklaces is bounded by a constant times that of
necklaces, so the time for each is constant on average (Duval, "Génération d'une section des classes de conjugaison et
arbre des mots de Lyndon de longueur bornée", Theoretical Computer Science 60, 1988; Ruskey, Savage and Wang,
"Generating Necklaces", Journal of Algorithms 13, 1992; both from memory).

Conventions: the representative of a class is the smallest word among its rotations, the step next below the octave
being the most significant; it holds the root, bit 0. The empty set is left out.
"""

# numba compiles these functions from their bytecode, which its decorators do not type.
# mypy: disallow-untyped-decorators=False, disallow-untyped-calls=False

from __future__ import annotations

from collections.abc import Iterator

import numba
import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import DomainError
from gamutwright.kernels.bit_counts import MAX_DIVISIONS, full_set, rotated

__all__ = ["necklace_chunks", "rooted_members"]

CHUNK = 1 << 18


@numba.njit(nogil=True, cache=True)
def _fill(word: np.uint64, divisions: int, out: NDArray[np.uint64]) -> tuple[int, np.uint64]:
    """Write the necklaces after a word; give how many were written and the last word walked."""
    full, one = full_set(divisions), numba.uint64(1)
    last = numba.uint64(word)
    count = 0
    while count < out.size and last != full:
        period = divisions
        while last & one:
            last >>= one
            period -= 1
        block = last | one
        last, length = block, period
        while length < divisions:
            take = min(length, divisions - length)
            last = (last << numba.uint64(take)) | (last >> numba.uint64(length - take))
            length += take
        if divisions % period == 0:
            out[count] = last
            count += 1
    return count, last


def necklace_chunks(divisions: int, chunk: int = CHUNK) -> Iterator[NDArray[np.uint64]]:
    """Generate one set for each non-empty transposition class.

    Parameters
    ----------
    divisions : int in [1, 36]
        Equal divisions of the octave.
    chunk : int > 0
        Sets in one array.

    Yields
    ------
    array (at most chunk,) uint64
        Words, ascending; memory does not grow with the number of classes.

    Raises
    ------
    DomainError
        If the division is outside its range.

    Examples
    --------
    >>> [words.tolist() for words in necklace_chunks(4)]
    [[1, 3, 5, 7, 15]]
    """
    if not 1 <= divisions <= MAX_DIVISIONS:
        raise DomainError(
            f"{divisions} divisions",
            f"classes are generated for 1 to {MAX_DIVISIONS} divisions",
            "Choose a smaller division.",
        )
    full = (1 << divisions) - 1
    word = 0
    while word != full:
        out = np.empty(chunk, np.uint64)
        count, last = _fill(np.uint64(word), divisions, out)
        word = int(last)
        if count:
            yield out[:count]


@numba.njit(nogil=True, cache=True)
def _spread(
    classes: NDArray[np.uint64], divisions: int, members: NDArray[np.uint64], owners: NDArray[np.uint32]
) -> int:
    count = 0
    one = numba.uint64(1)
    for index in range(classes.size):
        word = classes[index]
        for steps in range(divisions):
            turned = rotated(word, divisions - steps, divisions)
            if steps and turned == word:
                break
            if turned & one:
                members[count] = turned
                owners[count] = index
                count += 1
    return count


def rooted_members(classes: NDArray[np.uint64], divisions: int) -> tuple[NDArray[np.uint64], NDArray[np.uint32]]:
    """Spread classes to their rooted scales: every distinct mode.

    Parameters
    ----------
    classes : array (n_classes,) uint64
        One set for each class, as `necklace_chunks` gives them.
    divisions : int in [1, 36]
        Equal divisions of the octave.

    Returns
    -------
    members : array (n_scales,) uint64
        The rooted scales.
    owners : array (n_scales,) uint32
        For each the index of its class.

    Examples
    --------
    >>> members, owners = rooted_members(np.array([3, 5], np.uint64), 4)
    >>> members.tolist(), owners.tolist()
    ([3, 9, 5], [0, 0, 1])
    """
    members = np.empty(classes.size * divisions, np.uint64)
    owners = np.empty(members.size, np.uint32)
    count = _spread(classes, divisions, members, owners)
    return members[:count], owners[:count]
