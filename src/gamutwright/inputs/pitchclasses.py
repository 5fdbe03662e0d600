"""Pitch classes: `0 2 3 7`, `{0,2,t,e}`.

Conventions: the first is the root. In twelve divisions t is ten and e eleven, beside digits or in brackets. A final
number that repeats the first, or is an octave above it, closes the octave.
"""

from __future__ import annotations

import re

from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, shortened
from gamutwright.theory.scale import Scale

__all__ = ["read_pitch_classes"]

_LETTERS = {"t": 10, "e": 11}


def read_pitch_classes(text: str, request: Request) -> tuple[Option, ...]:
    """Read pitch classes.

    Parameters
    ----------
    text : str
        The numbers.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If a word is no pitch class of the division, or one comes twice.
    """
    divisions = request.divisions
    example = "Write pitch classes like: 0 2 4 5 7 9 11."
    bracketed = re.fullmatch(r"\s*[{\[(](.*)[)\]}]\s*", text, re.DOTALL)
    words = [word for word in re.split(r"[\s,;]+", bracketed[1] if bracketed else text) if word]
    if not words:
        raise NotThisFormError(shortened(text), "there are no pitch classes in it", example)
    has_letters = divisions == 12 and (
        request.is_explicit or bool(bracketed) or any(re.fullmatch(r"[0-9]+", word) for word in words)
    )
    numbers: list[int] = []
    for place, word in enumerate(words):
        fit = max(place / len(words), 0.1 * bool(re.fullmatch(r"[0-9]+", word)))
        number = _LETTERS.get(word.lower()) if has_letters else None
        if number is None:
            if not re.fullmatch(r"[0-9]{1,4}", word):
                letters = ", t and e" if divisions == 12 else ""
                raise NotThisFormError(
                    shortened(word), f"pitch classes are written with numbers from 0{letters}", example, fit
                )
            number = int(word)
        closes = place == len(words) - 1 > 0 and number in {numbers[0], numbers[0] + divisions}
        if closes:
            break
        if number >= divisions:
            rule = f"pitch classes of {divisions} divisions run from 0 to {divisions - 1}"
            raise NotThisFormError(shortened(word), rule, example, fit)
        if number in numbers:
            raise NotThisFormError(shortened(word), "this pitch class comes twice", example, fit)
        numbers.append(number)
    root = request.root.pitch_class if request.root else numbers[0]
    scale = Scale.of(*numbers, divisions=divisions, root=root)
    remarks = () if scale.is_rooted else ("the root is not one of the pitch classes",)
    plainly = f"pcs: {' '.join(map(str, numbers))}"
    return (Option(Reading(scale, "pitch classes", remarks), plainly),)
