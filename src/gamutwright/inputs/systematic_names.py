"""Systematic names: `D dorian #4`, `ionian without 4 and 7`, `aeolian with added b2`.

Conventions: those of `gamutwright.theory.systematic`; degrees are measured from the major scale on the root.
"""

from __future__ import annotations

from gamutwright.errors import DomainError, told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, placed, shortened
from gamutwright.inputs.traditional import roots_and_rests
from gamutwright.theory.systematic import FAMILIAR, scale_from_systematic_name

__all__ = ["read_systematic_name"]

_LONGEST = 200


def read_systematic_name(text: str, request: Request) -> tuple[Option, ...]:
    """Read a systematic name.

    Parameters
    ----------
    text : str
        The name, perhaps with its root in front.
    request : Request
        Divisions, language and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If it is no systematic name.
    """
    example = told("Write it like: D dorian #4, or ionian without 4 and 7.")
    text = " ".join(text.split())
    nearest: DomainError | None = None
    if len(text) <= _LONGEST:
        for placing, rest in roots_and_rests(text, request):
            try:
                mask = scale_from_systematic_name(rest)
            except DomainError as error:
                begins = rest.lower().startswith((*FAMILIAR, "major", "minor", "natural minor"))
                nearest = error if begins else nearest
                continue
            if request.divisions != 12:
                rule = told(
                    "systematic names are those of 12 divisions, and these are {divisions}", divisions=request.divisions
                )
                raise NotThisFormError(shortened(text), rule, told("Give pitch classes or steps instead."), 0.9)
            scale, remarks = placed(mask, placing)
            root = f" on {placing.root.name or placing.root.pitch_class}" if placing.root else ""
            return (Option(Reading(scale, "systematic name", remarks), f"name: {rest.lower()}{root}"),)
    if nearest:
        raise NotThisFormError(nearest.value, nearest.rule, nearest.next_step, 0.9)
    raise NotThisFormError(shortened(text), told("a systematic name alters a familiar scale"), example)
