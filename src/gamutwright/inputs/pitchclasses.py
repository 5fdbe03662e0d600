"""Pitch classes: `0 2 3 7`, `{0,2,t,e}`, and in the compact writing of set theory `0358`, `024579e`, `(0146)`.

Conventions: the first is the root. In twelve divisions t and A are ten, e and B eleven, beside digits or in brackets. A
final number that repeats the first, or is an octave above it, closes the octave. The compact writing has one sign for
each pitch class and rises; in brackets, where normal forms stand, it may pass the octave once. Without brackets it has
three signs at least, or begins with 0. It belongs to divisions of up to twelve.
"""

from __future__ import annotations

import itertools
import re

from gamutwright.errors import told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, shortened, spelled_from_root
from gamutwright.theory.scale import Scale

__all__ = ["read_pitch_classes"]

_LETTERS = {"t": 10, "e": 11, "a": 10, "b": 11}
_LONGEST_RUN = 24


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
    example = told("Write pitch classes like: 0 2 4 5 7 9 11.")
    bracketed = re.fullmatch(r"\s*[{\[(](.*)[)\]}]\s*", text, re.DOTALL)
    words = [word for word in re.split(r"[\s,;]+", bracketed[1] if bracketed else text) if word]
    if not words:
        raise NotThisFormError(shortened(text), told("there are no pitch classes in it"), example)
    if len(words) == 1 and _is_run(words[0], divisions, is_marked=request.is_explicit or bool(bracketed)):
        run = _read_run(words[0], request, may_turn=request.is_explicit or bool(bracketed))
        return (_option(run, request),)
    has_letters = divisions == 12 and (
        request.is_explicit or bool(bracketed) or any(re.fullmatch(r"[0-9]+", word) for word in words)
    )
    numbers: list[int] = []
    for place, word in enumerate(words):
        fit = max(place / len(words), 0.1 * bool(re.fullmatch(r"[0-9]+", word)))
        number = _LETTERS.get(word.lower()) if has_letters else None
        if number is None:
            if not re.fullmatch(r"[0-9]{1,4}", word):
                letters = told(", t (or A) and e (or B)") if divisions == 12 else ""
                raise NotThisFormError(
                    shortened(word),
                    told("pitch classes are written with numbers from 0{letters}", letters=letters),
                    example,
                    fit,
                )
            number = int(word)
        closes = place == len(words) - 1 > 0 and number in {numbers[0], numbers[0] + divisions}
        if closes:
            break
        if number >= divisions:
            rule = told(
                "pitch classes of {divisions} divisions run from 0 to {part}", divisions=divisions, part=divisions - 1
            )
            raise NotThisFormError(shortened(word), rule, example, fit)
        if number in numbers:
            raise NotThisFormError(shortened(word), told("this pitch class comes twice"), example, fit)
        numbers.append(number)
    return (_option(numbers, request),)


def _option(numbers: list[int], request: Request) -> Option:
    root = request.root.pitch_class if request.root else numbers[0]
    remarks: tuple[str, ...] = ()
    scale = Scale.of(*numbers, divisions=request.divisions, root=root)
    if not scale.is_rooted:
        remarks = ("the root is not one of the pitch classes",)
    elif request.root:
        scale, remarks = spelled_from_root(scale, request.root)
    return Option(Reading(scale, "pitch classes", remarks), f"pcs: {' '.join(map(str, numbers))}")


def _is_run(word: str, divisions: int, *, is_marked: bool) -> bool:
    """Say whether a word is pitch classes written together, rather than one number."""
    if divisions > 12 or not re.fullmatch(r"[0-9teab]{2,}", word, re.IGNORECASE):
        return False
    if word.isdigit() and word[0] != "0" and int(word) < divisions:
        return False
    return is_marked or (any(sign.isdigit() for sign in word) and (len(word) > 2 or word[0] == "0"))


def _read_run(word: str, request: Request, *, may_turn: bool) -> list[int]:
    divisions = request.divisions
    numbers = [_LETTERS[sign] if sign in _LETTERS else int(sign) for sign in word.lower()[:_LONGEST_RUN]]
    turns = sum(low >= high for low, high in itertools.pairwise(numbers))
    is_whole = len(word) <= _LONGEST_RUN and len(set(numbers)) == len(numbers) and max(numbers) < divisions
    if is_whole and (not turns or (may_turn and turns == 1 and numbers[-1] < numbers[0])):
        return numbers
    rule = told(
        "pitch classes written together rise, each once, from 0 to {part}",
        part="e" if divisions == 12 else divisions - 1,
    )
    if word.isdigit() and not may_turn:
        total = sum(map(int, word))
        rule = told(
            "digits written together are steps where they sum to {divisions}, and these sum to {total}, or else "
            "pitch classes where they rise, and these do not",
            divisions=divisions,
            total=total,
        )
    example = told("Write steps like 2212221, pitch classes like 024579e or (0146), bits like: bits 101011010101.")
    raise NotThisFormError(shortened(word), rule, example, 0.9)
