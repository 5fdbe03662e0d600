"""Which take of a line is heard: the one that was chosen last, and is still there.

**Conventions.** `chosen.json` beside the takes holds `take`, the chosen number, and `before`, the numbers that were
chosen earlier, the last of them last; so a choice can be undone, and a chosen take that is thrown away leaves its place
to the one before it. Where none of them is there, the newest take is the chosen one.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

from gamutwright.codec import plain_from_json
from gamutwright.errors import DomainError
from gamutwright.files import write_text
from gamutwright.render.takefile import Take, line_folder, list_takes

__all__ = ["choose_take", "chosen_take", "earlier_choice", "undo_choice"]

REMEMBERED: Final = 50


def choose_take(takes: Path, line_id: str, number: int) -> Take:
    """Choose the take that is spoken.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.
    number : int
        Number of a take.

    Returns
    -------
    Take
        The chosen take.

    Raises
    ------
    DomainError
        If the line has no such take.
    """
    found = {take.number: take for take in list_takes(takes, line_id)}
    if number not in found:
        there = ", ".join(map(str, found)) or "none yet"
        raise DomainError(
            f"take {number} of line {line_id}", f"there is no such take (there: {there})", "Choose one of them."
        )
    choices = _choices(takes, line_id)
    if not choices and len(found) > 1:
        choices = [max(one for one in found if one != number)]
    if choices[-1:] != [number]:
        choices.append(number)
    _write(takes, line_id, choices)
    return found[number]


def chosen_take(takes: Path, line_id: str) -> Take | None:
    """Give the take that was chosen for a line, whether stale or not.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.

    Returns
    -------
    Take or None
        The chosen one, else the newest; None for a line without takes.
    """
    found = {take.number: take for take in list_takes(takes, line_id)}
    chosen = (found[number] for number in reversed(_choices(takes, line_id)) if number in found)
    return next(chosen, found[max(found)] if found else None)


def earlier_choice(takes: Path, line_id: str) -> int | None:
    """Tell which take undoing the choice would bring back.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.

    Returns
    -------
    int or None
        Its number; None where there is nothing to undo.
    """
    there = {take.number for take in list_takes(takes, line_id)}
    found = [number for number in _choices(takes, line_id) if number in there]
    return next((number for number in reversed(found) if number != found[-1]), None)


def undo_choice(takes: Path, line_id: str) -> Take:
    """Take the last choice back.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.

    Returns
    -------
    Take
        The take that was chosen before, and is again.

    Raises
    ------
    DomainError
        If none was.
    """
    number = earlier_choice(takes, line_id)
    if number is None:
        raise DomainError(
            f"the choice for line {line_id}", "no other take was chosen before", "Choose a take by its number."
        )
    choices = _choices(takes, line_id)
    while choices[-1] != number:
        choices.pop()
    _write(takes, line_id, choices)
    return next(take for take in list_takes(takes, line_id) if take.number == number)


def _choices(takes: Path, line_id: str) -> list[int]:
    """Read which takes were chosen, the last of them last."""
    try:
        held: Any = plain_from_json((line_folder(takes, line_id) / "chosen.json").read_bytes())
        numbers = [*held.get("before", ()), held["take"]]
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return []
    return [number for number in numbers if isinstance(number, int)]


def _write(takes: Path, line_id: str, choices: list[int]) -> None:
    held = {"take": choices[-1], "before": choices[-1 - REMEMBERED : -1]}
    write_text(line_folder(takes, line_id) / "chosen.json", json.dumps(held) + "\n")
