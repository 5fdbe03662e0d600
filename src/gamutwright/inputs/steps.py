"""Step patterns: `2-1-2-2-1-2-2`, `2 1 2 2 1 2 2`, `2122122`, `T S T T S T T`, `W H W W H W W`.

Conventions: steps are counted upwards from the root, in steps of the division, and sum to the octave. T and W are two
semitones, S and H one, TS and WH three; letters belong to twelve divisions. In a run of digits, three or more unless
the form is named, each digit is a step.
"""

from __future__ import annotations

import itertools
import re

from gamutwright.errors import told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, placed, shortened

__all__ = ["read_steps"]

_LETTERS = {"t": 2, "w": 2, "s": 1, "h": 1, "ts": 3, "wh": 3, "st": 3, "hw": 3}


def read_steps(text: str, request: Request) -> tuple[Option, ...]:
    """Read a step pattern.

    Parameters
    ----------
    text : str
        The steps.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If a word is no step, or the steps do not sum to the octave.
    """
    example = told("Write steps like: 2-2-1-2-2-2-1 or T T S T T T S.")
    words = [word for word in re.split(r"[\s,;+–-]+", text) if word]
    is_run = len(words) == 1 and bool(re.fullmatch(r"[1-9]{2,}", words[0])) and words[0] != str(request.divisions)
    if is_run and (request.is_explicit or len(words[0]) > 2):
        words = list(words[0])
    if not words:
        raise NotThisFormError(shortened(text), told("there are no steps in it"), example)
    sizes: list[int] = []
    for word in words:
        size = _LETTERS.get(word.lower()) if request.divisions == 12 else None
        if size is None and re.fullmatch(r"[0-9]{1,4}", word):
            size = int(word)
        if not size:
            rule = (
                told("a step is a number from 1, T, S, W or H")
                if request.divisions == 12
                else told("a step is a number from 1")
            )
            raise NotThisFormError(shortened(word), rule, example, len(sizes) / len(words))
        sizes.append(size)
    if sum(sizes) != request.divisions:
        rule = told(
            "the steps sum to {sizes}, and the octave has {divisions}", sizes=sum(sizes), divisions=request.divisions
        )
        raise NotThisFormError(shortened(text), rule, example, 0.9 if len(sizes) > 2 and not is_run else 0.4)
    if len(sizes) == 1 and not request.is_explicit:
        raise NotThisFormError(shortened(text), told("a single step stands behind the word steps:"), example)
    mask = sum(1 << tone for tone in itertools.accumulate(sizes[:-1], initial=0))
    scale, remarks = placed(mask, request)
    return (Option(Reading(scale, "steps", remarks), f"steps: {'-'.join(map(str, sizes))}"),)
