"""Pitches as the MIDI Tuning Standard writes them: three-byte words, and the two messages that carry them.

Conventions: a word is three numbers from 0 to 127: a key of equal temperament, then the fraction of a semitone above
it in 14 bits, the more significant seven first. One unit is 1/16384 of a semitone, 0.0061 cents. Pitches are counted
in semitones with middle C at 60 and A4, 440 Hz, at 69. The word 7F 7F 7F means "no change" and stands for no pitch.

References: MIDI Manufacturers Association, MIDI Tuning Messages, in the MIDI 1.0 Detailed Specification. Several of the
frequencies printed there as examples are wrong in the last places; the words are decoded here by the rule.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import reduce
from operator import xor

from gamutwright.errors import DomainError
from gamutwright.theory.tuning import A4_HZ

__all__ = [
    "NO_CHANGE",
    "Word",
    "bulk_tuning_dump",
    "freq_hz_to_word",
    "semitones_to_word",
    "single_note_tuning_change",
    "word_text",
    "word_to_freq_hz",
    "word_to_semitones",
]

Word = tuple[int, int, int]
NO_CHANGE: Word = (0x7F, 0x7F, 0x7F)
_UNITS = 1 << 14
_KEYS = 128
_NAME_LENGTH = 16


def semitones_to_word(semitones: Fraction | float) -> Word:
    """Write a pitch as the nearest tuning word.

    Parameters
    ----------
    semitones : Fraction or float
        The pitch; middle C is 60.

    Returns
    -------
    tuple of three int in [0, 127]
        The word; rounding may carry into the next key.

    Raises
    ------
    DomainError
        If the pitch lies below key 0 or above the highest word.

    Examples
    --------
    >>> word_text(semitones_to_word(Fraction(121, 2)))
    '3C 40 00'
    """
    units = round(semitones * _UNITS)
    if not 0 <= units < _KEYS * _UNITS - 1:
        raise DomainError(
            f"pitch {float(semitones):.4f}",
            "tuning words reach from key 0 to just below key 128",
            "Move it by octaves.",
        )
    key, fraction = divmod(units, _UNITS)
    return key, fraction >> 7, fraction & 0x7F


def word_to_semitones(word: Word) -> Fraction:
    """Read the pitch of a tuning word.

    Parameters
    ----------
    word : tuple of three int in [0, 127]
        The word.

    Returns
    -------
    Fraction, semitones
        The exact pitch; middle C is 60.

    Raises
    ------
    DomainError
        If a byte is out of range, or the word is the one for "no change".

    Examples
    --------
    >>> word_to_semitones((0x3C, 0x40, 0x00))
    Fraction(121, 2)
    """
    if not all(0 <= byte < 128 for byte in word) or word == NO_CHANGE:
        raise DomainError(
            f"word {word}", "a tuning word has three bytes from 0 to 127, and 7F 7F 7F is no pitch", "Check the bytes."
        )
    key, high, low = word
    return key + Fraction(high << 7 | low, _UNITS)


def freq_hz_to_word(freq_hz: float) -> Word:
    """Write a frequency as the nearest tuning word.

    Parameters
    ----------
    freq_hz : float > 0
        The frequency, hertz.

    Returns
    -------
    tuple of three int in [0, 127]
        The word.

    Raises
    ------
    DomainError
        If the frequency is not positive or beyond the words.

    Examples
    --------
    >>> word_text(freq_hz_to_word(440.0))
    '45 00 00'
    """
    if freq_hz <= 0:
        raise DomainError(f"{freq_hz} Hz", "a frequency is positive", "Give hertz above zero.")
    return semitones_to_word(69 + 12 * math.log2(freq_hz / A4_HZ))


def word_to_freq_hz(word: Word) -> float:
    """Read the frequency of a tuning word.

    Parameters
    ----------
    word : tuple of three int in [0, 127]
        The word.

    Returns
    -------
    float, Hz
        Its frequency with A4 at 440 Hz.

    Raises
    ------
    DomainError
        If the word is none, or stands for "no change".

    Examples
    --------
    >>> round(word_to_freq_hz((0x3C, 0, 0)), 4)
    261.6256
    """
    return A4_HZ * math.exp2(float(word_to_semitones(word) - 69) / 12)


def word_text(word: Word) -> str:
    """Print a word in hexadecimal.

    Parameters
    ----------
    word : tuple of three int in [0, 127]
        The word.

    Returns
    -------
    str
        Three pairs of digits.

    Examples
    --------
    >>> word_text((69, 0, 127))
    '45 00 7F'
    """
    return " ".join(f"{byte:02X}" for byte in word)


def _check_data(**numbers: int) -> None:
    for name, number in numbers.items():
        if not 0 <= number < 128:
            raise DomainError(f"{name} {number}", "a data byte of MIDI runs from 0 to 127", f"Choose another {name}.")


def single_note_tuning_change(keys: Mapping[int, Word], program: int = 0, device: int = 0x7F) -> bytes:
    """Build the real-time message that retunes some keys at once.

    Parameters
    ----------
    keys : mapping of int to Word
        Key in [0, 127] to its new word; 1 to 127 of them.
    program : int in [0, 127]
        Tuning program.
    device : int in [0, 127]
        Device; 127 is all of them.

    Returns
    -------
    bytes
        The whole message, F0 to F7.

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> single_note_tuning_change({60: (60, 64, 0)}).hex(" ")
    'f0 7f 7f 08 02 00 01 3c 3c 40 00 f7'
    """
    if not keys:
        raise DomainError("no keys", "a tuning change names one key or more", "Give at least one key.")
    _check_data(program=program, device=device, count=len(keys))
    data = []
    for key, word in sorted(keys.items()):
        _check_data(key=key, byte=max(word), least=min(word))
        data += [key, *word]
    return bytes([0xF0, 0x7F, device, 0x08, 0x02, program, len(keys), *data, 0xF7])


def bulk_tuning_dump(words: Sequence[Word], name: str, program: int = 0, device: int = 0x7F) -> bytes:
    """Build the message that carries the tuning of all 128 keys.

    Parameters
    ----------
    words : sequence of 128 Word
        A word for each key, `NO_CHANGE` where it is left alone.
    name : str
        Name of the tuning, ASCII, at most 16 characters; padded with spaces.
    program : int in [0, 127]
        Tuning program.
    device : int in [0, 127]
        Device; 127 is all of them.

    Returns
    -------
    bytes
        The whole message of 408 bytes, F0 to F7; the checksum is the exclusive or of all between F0 and itself.

    Raises
    ------
    DomainError
        If there are not 128 words, the name does not fit, or a number is out of range.

    Examples
    --------
    >>> message = bulk_tuning_dump([(key, 0, 0) for key in range(128)], "EQUAL")
    >>> len(message), message[:6].hex(" ")
    (408, 'f0 7e 7f 08 01 00')
    """
    if len(words) != _KEYS:
        raise DomainError(f"{len(words)} words", "a bulk dump tunes all 128 keys", "Give a word for each key.")
    if len(name) > _NAME_LENGTH or not name.isascii() or not name.isprintable():
        raise DomainError(
            f"name {name!r}", f"the name has at most {_NAME_LENGTH} printable ASCII characters", "Shorten it."
        )
    _check_data(program=program, device=device)
    for word in words:
        _check_data(byte=max(word), least=min(word))
    body = [0x7E, device, 0x08, 0x01, program, *name.ljust(_NAME_LENGTH).encode("ascii")]
    body += [byte for word in words for byte in word]
    return bytes([0xF0, *body, reduce(xor, body), 0xF7])
