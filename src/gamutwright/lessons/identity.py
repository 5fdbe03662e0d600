"""The lasting ids of lines.

The idea: a recorded take belongs to a line, and must find it again after the teacher has edited others. A line may
carry its id in the script; one that does not is known by a digest of its words.

**Conventions.** Ids made here are written in D. Crockford's base 32 in small letters, which leaves out i, l, o and u,
so that no letter is taken for a figure. Lines of the same words are told apart by their number among each other.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Sequence

__all__ = ["ALPHABET", "ID_LENGTH", "assigned_ids", "digest_id"]

ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
ID_LENGTH = 5


def digest_id(words: str, occurrence: int = 0, length: int = ID_LENGTH) -> str:
    """Make an id from words.

    Parameters
    ----------
    words : str
        What is spoken.
    occurrence : int
        How many lines of the same words stand before it.
    length : int
        Characters wanted, at most 12.

    Returns
    -------
    str
        The same id for the same words, on every machine.

    Examples
    --------
    >>> digest_id("Listen.") == digest_id("Listen."), digest_id("Listen.") == digest_id("Listen.", 1)
    (True, False)
    """
    text = f"{words}\0{occurrence}".encode("utf-8", "surrogatepass")
    number = int.from_bytes(hashlib.blake2s(text, digest_size=8).digest(), "big")
    return "".join(ALPHABET[(number >> 5 * place) % 32] for place in range(length))


def assigned_ids(words: Sequence[str], own: Iterable[str | None]) -> tuple[str, ...]:
    """Give every line an id, unique in the script.

    Parameters
    ----------
    words : sequence of str
        What is spoken in each line, or its source where nothing is.
    own : iterable of (str or None)
        The id written in the script, for each line.

    Returns
    -------
    tuple of str
        Written ids stay; the others are made from the words, and lengthened where they would clash.

    Examples
    --------
    >>> first, second, third = assigned_ids(["Listen.", "Listen.", "Sing."], [None, "k3f", None])
    >>> first == digest_id("Listen."), second, third == digest_id("Sing.")
    (True, 'k3f', True)
    """
    written = tuple(own)
    taken = {line_id for line_id in written if line_id is not None}
    before: Counter[str] = Counter()
    ids = []
    for text, line_id in zip(words, written, strict=True):
        made = line_id
        length, occurrence = ID_LENGTH, before[text]
        while made is None:
            candidate = digest_id(text, occurrence, length)
            if candidate not in taken:
                made = candidate
            elif length < 12:
                length += 1
            else:
                occurrence += 1
        before[text] += 1
        taken.add(made)
        ids.append(made)
    return tuple(ids)
