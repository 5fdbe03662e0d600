"""Sets as 64-bit words inside compiled loops.

Conventions: bit k of a word is step k above the root, as in `theory.scale.Scale`; divisions run to 36, so that shifts
by a whole octave stay inside the word.
"""

# numba compiles these functions from their bytecode, which its decorators do not type.
# mypy: disallow-untyped-decorators=False, disallow-untyped-calls=False

from __future__ import annotations

from typing import Any

import numba
import numpy as np
from numba.core import types
from numba.extending import intrinsic

__all__ = ["MAX_DIVISIONS", "full_set", "popcount", "rotated"]

MAX_DIVISIONS = 36


def _popcount(_typing_context: Any, _word: Any) -> Any:  # noqa: ANN401 - the shape that numba asks of an intrinsic
    def emit(_context: Any, builder: Any, _signature: Any, words: Any) -> Any:  # noqa: ANN401 - as above
        return builder.ctpop(words[0])

    return types.uint64(types.uint64), emit


popcount: Any = intrinsic(_popcount)
"""Count the set bits of an unsigned 64-bit word with the processor's own instruction."""


@numba.njit(cache=True, inline="always")
def full_set(divisions: int) -> np.uint64:
    """Give the word of the whole octave.

    Parameters
    ----------
    divisions : int in [1, 36]
        Equal divisions of the octave.

    Returns
    -------
    uint64
        All bits below the division.

    Examples
    --------
    >>> int(full_set(12))
    4095
    """
    return (numba.uint64(1) << numba.uint64(divisions)) - numba.uint64(1)


@numba.njit(cache=True, inline="always")
def rotated(word: np.uint64, steps: int, divisions: int) -> np.uint64:
    """Move every member up by a number of steps, around the octave.

    Parameters
    ----------
    word : uint64
        The set.
    steps : int in [0, divisions]
        How far to move.
    divisions : int in [1, 36]
        Equal divisions of the octave.

    Returns
    -------
    uint64
        The moved set.

    Examples
    --------
    >>> int(rotated(np.uint64(0b10010001), 7, 12))
    2180
    """
    up = numba.uint64(word) << numba.uint64(steps)
    return (up | (numba.uint64(word) >> numba.uint64(divisions - steps))) & full_set(divisions)
