"""What a verifier found: one check after another, each held or broken.

Conventions: ticks as in `ir.timeline`; a check says what was expected and what was found, in words.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["RENDER_AGAIN", "Check", "Group", "Report", "Verdict", "broken", "clock", "held", "nothing"]

RENDER_AGAIN = "Render the film again, and do not let another program rewrite it."
"""What to do where the file is not as it was written."""


class Verdict(StrEnum):
    """How a check went."""

    HELD = "held"
    BROKEN = "broken"
    NOTHING = "nothing to check"


class Group(StrEnum):
    """What a check is about."""

    LEDGER = "ledger"
    FILE = "file"
    WORDS = "chapters and captions"
    PICTURE = "picture"
    SOUND = "sound"
    STEP = "in step"


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that was looked at.

    Parameters
    ----------
    group : Group
        What it is about.
    name : str
        Its lasting name.
    verdict : Verdict
        How it went.
    expected, found : str
        What should be, and what is.
    tick : int or None
        Where in the film; None for the whole.
    next_step : str
        What to do, where it is broken.
    """

    group: Group
    name: str
    verdict: Verdict
    expected: str
    found: str
    tick: int | None = None
    next_step: str = ""


@dataclass(frozen=True, slots=True)
class Report:
    """Everything that was looked at.

    Parameters
    ----------
    film, ledger : str
        Names of the files.
    title : str
        What the film is called.
    ticks : int
        Its length.
    checks : tuple of Check
        In order of their groups.
    seconds : float
        How long it took.
    """

    film: str
    ledger: str
    title: str
    ticks: int
    checks: tuple[Check, ...]
    seconds: float

    @property
    def broken(self) -> tuple[Check, ...]:
        """The checks that are broken."""
        return tuple(check for check in self.checks if check.verdict is Verdict.BROKEN)


def held(group: Group, name: str, expected: str, found: str) -> Check:
    """Say that a check held.

    Parameters
    ----------
    group, name, expected, found
        As for `Check`.

    Returns
    -------
    Check
        The check.
    """
    return Check(group, name, Verdict.HELD, expected, found)


def nothing(group: Group, name: str, expected: str) -> Check:
    """Say that there was nothing to check.

    Parameters
    ----------
    group, name, expected
        As for `Check`.

    Returns
    -------
    Check
        The check.
    """
    return Check(group, name, Verdict.NOTHING, expected, "the film has none")


def broken(group: Group, name: str, expected: str, found: str, next_step: str, tick: int | None = None) -> Check:
    """Say that a check is broken.

    Parameters
    ----------
    group, name, expected, found, next_step, tick
        As for `Check`.

    Returns
    -------
    Check
        The check.
    """
    return Check(group, name, Verdict.BROKEN, expected, found, tick, next_step)


def clock(tick: int) -> str:
    """Write a moment of a film for people.

    Parameters
    ----------
    tick : int >= 0
        The moment.

    Returns
    -------
    str
        Minutes, seconds and hundredths.

    Examples
    --------
    >>> clock(62 * 48_000 + 24_000)
    '1:02.50'
    """
    hundredths = tick // 480
    return f"{hundredths // 6000}:{hundredths // 100 % 60:02d}.{hundredths % 100:02d}"
