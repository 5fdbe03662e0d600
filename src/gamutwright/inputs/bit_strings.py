"""Bit strings: `bits 101011010101`.

Conventions: bits are read from left to right, the root first, one for each step of the division. They stand behind the
word `bits`; a bare row of noughts and ones is listed as a possible reading and never taken. What such a row amounts to
as a number is not read.
"""

from __future__ import annotations

import re

from gamutwright.errors import told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, placed, shortened

__all__ = ["read_bits"]

_LONGEST = 320


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
    found = re.fullmatch(r"\s*(bits\s)?([01\s_]+)", text[:_LONGEST], re.IGNORECASE)
    example = (
        f"Write bits like: bits {'101011010101' if request.divisions == 12 else '1' + '0' * (request.divisions - 1)}."
    )
    if not found or len(text) > _LONGEST:
        raise NotThisFormError(
            shortened(text), told("bits are noughts and ones"), example, 0.6 * text.lower().startswith("bits")
        )
    digits = re.sub(r"[\s_]", "", found[2])
    is_named = bool(found[1]) or request.is_explicit
    if len(digits) != request.divisions:
        rule = told(
            "{divisions} divisions take {divisions} bits, and these are {digits}",
            divisions=request.divisions,
            digits=len(digits),
        )
        raise NotThisFormError(shortened(text), rule, example, 0.9 if is_named else 0.3 * (len(digits) > 6))
    if not is_named and (" " in found[2].strip() or len(digits) < 4):
        raise NotThisFormError(shortened(text), told("bits stand behind the word bits"), example)
    scale, remarks = placed(sum(1 << step for step, digit in enumerate(digits) if digit == "1"), request)
    if not scale.is_rooted:
        remarks = (*remarks, "the root is not one of the tones")
    return (Option(Reading(scale, "bits", remarks), f"bits: {digits}", not is_named),)
