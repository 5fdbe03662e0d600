"""Inputs that nobody would write, made from such as somebody has written, the same ones for the same number.

Bytes are flipped, cut out, doubled, moved and repeated; words that readers trip over are put in; numbers become absurd.
"""

from __future__ import annotations

import random
import re
from collections.abc import Sequence

__all__ = ["mutated"]

_LETTERS = """
\u202e \u2028 \u0085 é ſ İ Ａ ² ٣ 𝄪 ♭ \U0001f3bb [ ] { } ( ) < > ' " ` %s {0} .. ../ / | # --- = , ; - \\ \"\"\"
"""
_NUMBERS = "1e999 -1e999 NaN Infinity null true [] {} 0 -1 1 65536 4294967296 18446744073709551616 0.5 1/0 0x10 1_0"
_ABSURD = (*(number.encode() for number in _NUMBERS.split(" ")), b"9" * 400)
_WORDS = (
    *(letter.encode() for letter in _LETTERS.strip("\n").split(" ")), b"\x00", b"\xff\xfe", b"\xef\xbb\xbf",
    b"\xed\xa0\x80", b"\xf4\x90\x80\x80", b"\xc0\xaf", b"\r", b"\n\n", b"\t", b" " * 40, *_ABSURD,
)  # fmt: skip
_REPEATED = (b"[", b"(", b"{", b"*", b"a ", b"**", b'{"a":', b"<b>", b"- ", b"> ", b"1 ", b"..", b"\n", b"x")
_NUMBER = re.compile(rb"\d+")


def mutated(seeds: Sequence[bytes], words: Sequence[bytes], name: str, number: int, largest: int) -> bytes:
    """Make an input.

    Parameters
    ----------
    seeds : sequence of bytes
        What somebody has written.
    words : sequence of bytes
        Words of the format.
    name : str
        Of the reader.
    number : int
        Which input.
    largest : int
        Bytes; what is longer than any reader takes tries nothing.

    Returns
    -------
    bytes
        The input.
    """
    chance = random.Random(f"{name}/{number}")  # noqa: S311 - inputs, not secrets
    content = bytearray(chance.choice(seeds))
    for _ in range(chance.choice((0, 1, 1, 1, 2, 2, 3, 4, 8, 20))):
        _change(content, chance, seeds, words)
    return bytes(content[:largest])


def _change(content: bytearray, chance: random.Random, seeds: Sequence[bytes], words: Sequence[bytes]) -> None:
    kinds = (_flip, _put_number, _put_absurd, _cut, _double, _repeat, _move, _splice)
    if chance.random() < 0.3:
        at = chance.randrange(len(content) + 1)
        content[at:at] = chance.choice((*_WORDS, *words, *words))
    elif not content:
        content += chance.choice(seeds)
    else:
        chance.choice(kinds)(content, chance, seeds)


def _stretch(content: bytearray, chance: random.Random) -> tuple[int, int]:
    at = chance.randrange(len(content))
    return at, min(len(content), at + chance.choice((1, 1, 2, 4, 16, 64, 1024)))


def _flip(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    at = chance.randrange(len(content))
    content[at] = chance.choice((content[at] ^ 1 << chance.randrange(8), chance.randrange(256)))


def _put_number(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    at = chance.randrange(len(content))
    value = chance.choice((0, 1, 255, 2**16, 2**31 - 1, 2**32 - 1, len(content)))
    content[at : at + 4] = value.to_bytes(4, chance.choice(("big", "little")))


def _put_absurd(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    found = list(_NUMBER.finditer(content))
    if found:
        where = chance.choice(found)
        content[where.start() : where.end()] = chance.choice(_ABSURD)


def _cut(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    at, end = _stretch(content, chance)
    del content[at : chance.choice((end, end, end, len(content)))]


def _double(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    at, end = _stretch(content, chance)
    content[at:at] = content[at:end] * chance.choice((1, 2, 30))


def _repeat(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    at, _ = _stretch(content, chance)
    content[at:at] = chance.choice((*_REPEATED, chance.randbytes(4))) * chance.choice((1, 3, 50, 700, 9_000))


def _move(content: bytearray, chance: random.Random, _seeds: Sequence[bytes]) -> None:
    at, end = _stretch(content, chance)
    piece = content[at:end]
    del content[at:end]
    place = chance.randrange(len(content) + 1)
    content[place:place] = piece


def _splice(content: bytearray, chance: random.Random, seeds: Sequence[bytes]) -> None:
    at, other = chance.randrange(len(content)), chance.choice(seeds)
    content[at:] = other[chance.randrange(len(other) + 1) :]
