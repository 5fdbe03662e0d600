"""Bit strings and masks: `bits 101011010101`, `mask 0b101010110101`, `mask 2741`.

Conventions: `bits` are read from left to right, the root first, one for each step of the division. In a `mask` bit 0,
the last binary digit, is the root. A bare row of noughts and ones, or a bare large number, is never taken: the two
directions are too easily confused, so the error lists the readings.
"""

from __future__ import annotations

import re

from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, placed, shortened

__all__ = ["read_bits", "read_mask"]

_LONGEST = 80


def _bits_option(digits: str, request: Request, *, is_bare: bool = False) -> Option:
    mask = sum(1 << place for place, digit in enumerate(digits) if digit == "1")
    scale, remarks = placed(mask, request)
    if not mask & 1:
        remarks = (*remarks, "the root is not one of the tones")
    return Option(Reading(scale, "bits", remarks), f"bits: {digits}", is_bare)


def _mask_option(number: int, written: str, request: Request, *, is_bare: bool = False) -> Option:
    scale, remarks = placed(number, request)
    if not number & 1:
        remarks = (*remarks, "the root is not one of the tones")
    return Option(Reading(scale, "mask", remarks), f"mask: {written}", is_bare)


def read_bits(text: str, request: Request) -> tuple[Option, ...]:
    """Read a bit string, root first; without the word `bits` it is only listed as a possible reading.

    Parameters
    ----------
    text : str
        The digits.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The reading.

    Raises
    ------
    NotThisFormError
        If it is no bit string of the division's length.
    """
    found = re.fullmatch(r"\s*(bits\s)?([01\s_]+)", text[: 4 * _LONGEST], re.IGNORECASE)
    example = (
        f"Write bits like: bits {'101011010101' if request.divisions == 12 else '1' + '0' * (request.divisions - 1)}."
    )
    if not found or len(text) > 4 * _LONGEST:
        raise NotThisFormError(
            shortened(text), "bits are noughts and ones", example, 0.6 * text.lower().startswith("bits")
        )
    digits = re.sub(r"[\s_]", "", found[2])
    is_named = bool(found[1]) or request.is_explicit
    if len(digits) != request.divisions:
        rule = f"{request.divisions} divisions take {request.divisions} bits, and these are {len(digits)}"
        raise NotThisFormError(shortened(text), rule, example, 0.9 if is_named else 0.3 * (len(digits) > 6))
    if not is_named and (" " in found[2].strip() or len(digits) < 4):
        raise NotThisFormError(shortened(text), "bits stand behind the word bits", example)
    return (_bits_option(digits, request, is_bare=not is_named),)


def read_mask(text: str, request: Request) -> tuple[Option, ...]:
    """Read a set mask, bit 0 being the root; without the word `mask` it is only listed as a possible reading.

    Parameters
    ----------
    text : str
        A decimal number, or a binary one behind `0b`.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The reading.

    Raises
    ------
    NotThisFormError
        If it is no mask of the division.
    """
    largest = (1 << request.divisions) - 1
    example = f"Write a mask like: mask {bin(largest & 0b101010110101)}."
    found = re.fullmatch(r"\s*(mask\s+)?(0b[01_]+|[0-9]+)\s*", text[:_LONGEST], re.IGNORECASE)
    if not found or len(text) > _LONGEST:
        is_near = text.lower().startswith("mask")
        raise NotThisFormError(shortened(text), "a mask is a whole number, such as 0b10010001", example, 0.6 * is_near)
    is_named = bool(found[1]) or request.is_explicit
    written = found[2].lower().replace("_", "")
    if not is_named and len(written) < 3:
        raise NotThisFormError(shortened(text), "a mask stands behind the word mask", example)
    if not is_named and re.fullmatch(r"[01]{4,}", written):
        written = f"0b{written}"  # a bare row of noughts and ones is binary to whoever wrote it
    number = int(written, 0) if written.startswith("0b") else int(written)
    if number > largest:
        rule = f"a mask of {request.divisions} divisions runs from 0 to {largest}"
        raise NotThisFormError(shortened(text), rule, example, 0.9 if is_named else 0.2)
    return (_mask_option(number, written, request, is_bare=not is_named),)
