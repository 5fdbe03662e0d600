"""Degrees measured from the major scale on the root: `1 2 b3 #4 5 6 b7`.

Conventions: the first degree is 1; a final 1, or an 8 after a seventh, closes the octave. Degrees also spell: `#4` on C
is F sharp, `b5` is G flat. They belong to twelve divisions.
"""

from __future__ import annotations

import re

from gamutwright.errors import DomainError, told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, placed, shortened
from gamutwright.theory.notenames import fifths_to_name, name_to_fifths
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import MAJOR, MAJOR_FIFTHS, root_name, with_names

__all__ = ["read_degrees"]

_SYMBOLS = str.maketrans({"♯": "#", "♭": "b", "𝄪": "##", "𝄫": "bb", "♮": ""})
_DEGREE = re.compile(r"(b{0,4}|#{0,4})([1-7])")


def read_degrees(text: str, request: Request) -> tuple[Option, ...]:
    """Read degrees.

    Parameters
    ----------
    text : str
        The degrees.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If a word is no degree, a tone comes twice, or 1 is missing.
    """
    example = told("Write degrees like: 1 2 b3 #4 5 6 b7.")
    words = [word for word in re.split(r"[\s,;–-]+", text.translate(_SYMBOLS)) if word]
    if len(words) > 1 and words[0] == "1" and (words[-1] == "1" or (words[-1] == "8" and words[-2].endswith("7"))):
        words.pop()
    found: dict[int, int] = {}
    for word in words:
        degree = _DEGREE.fullmatch(word)
        fit = len(found) / len(words)
        if not degree:
            raise NotThisFormError(
                shortened(word), told("a degree is 1 to 7 with flats or sharps in front"), example, fit
            )
        signs, index = degree[1].count("#") - degree[1].count("b"), int(degree[2]) - 1
        tone = (MAJOR[index] + signs) % 12
        if tone in found:
            raise NotThisFormError(shortened(word), told("this tone comes twice"), example, fit)
        found[tone] = MAJOR_FIFTHS[index] + 7 * signs
    if not words or words[0] != "1":
        raise NotThisFormError(shortened(words[0] if words else text), told("degrees begin with 1, the root"), example)
    if request.divisions != 12 and not (request.is_explicit or set("".join(words)) & set("b#")):
        raise NotThisFormError(shortened(text), told("degrees belong to 12 divisions"), example, 0.4)
    if request.divisions != 12:
        rule = told(
            "degrees are measured from the major scale of 12 divisions, and these are {divisions}",
            divisions=request.divisions,
        )
        raise NotThisFormError(shortened(text), rule, told("Give pitch classes or steps instead."), 0.9)
    scale, remarks = placed(sum(1 << tone for tone in found), request)
    scale, more = _spelled(scale, found, request)
    return (Option(Reading(scale, "degrees", (*remarks, *more)), f"degrees: {' '.join(words)}"),)


def _spelled(scale: Scale, fifths: dict[int, int], request: Request) -> tuple[Scale, tuple[str, ...]]:
    """Spell as the degrees say, where two accidentals suffice."""
    root = request.root.name if request.root and request.root.name else root_name(Scale(scale.mask, 12, scale.root))
    try:
        names = [fifths_to_name(name_to_fifths(root) + fifths[tone]) for tone in scale.tones]
    except DomainError:
        return scale, ("as degrees some tone would need more than two accidentals; the usual spelling is taken",)
    return with_names(scale, names), ()
