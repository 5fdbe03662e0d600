"""What a script, a command or a program asks of a piece, written as words: `metre=3/4 bars=8 tempo=76`.

**Conventions.** Options stand in one order, so that equal requests are equal words. What is not asked for is the
piece's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches

from gamutwright.errors import DomainError, told
from gamutwright.ir.sound import Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import Request
from gamutwright.music.tune import METRES
from gamutwright.theory.tuning import Tuning

__all__ = ["OPTIONS", "asked", "options_in_words"]

OPTIONS = ("tempo", "metre", "bars", "version", "timbre")
"""Every option by its name."""


def options_in_words(options: Mapping[str, str]) -> str:
    """Write options in their order.

    Parameters
    ----------
    options : mapping of str to str
        Options and anything else, by name.

    Returns
    -------
    str
        The options alone.

    Examples
    --------
    >>> options_in_words({"bars": "8", "play": "tune", "tempo": "76"})
    'tempo=76 bars=8'
    """
    return " ".join(f"{name}={options[name]}" for name in OPTIONS if options.get(name))


def asked(words: str, tuning: Tuning | None = None) -> tuple[Request, Performance]:
    """Read options.

    Parameters
    ----------
    words : str
        As `options_in_words` writes them.
    tuning : Tuning, optional
        How keys are tuned.

    Returns
    -------
    Request
        What is asked of a piece.
    Performance
        How it is played.

    Raises
    ------
    DomainError
        If a value is none that the option takes.

    Examples
    --------
    >>> request, performance = asked("tempo=76 metre=3/4 bars=8")
    >>> str(request.metre), request.bars, performance.tempo
    ('3/4', 8, 76.0)
    """
    options = dict(item.partition("=")[::2] for item in words.split())
    name = options.get("metre", "")
    if name and name not in METRES:
        raise DomainError(
            f"metre={name}", told("there is none of this name"), told("Choose one of {list}.", list=", ".join(METRES))
        )
    timbre = options.get("timbre", Timbre.PLUCKED.value)
    if timbre not in set(Timbre):
        near = get_close_matches(timbre, list(Timbre), 1)
        hint = told("Did you mean {near}? ", near=near[0]) if near else ""
        raise DomainError(
            f"timbre={timbre}",
            told("there is none of this name"),
            told("{hint}Choose one of {list}.", hint=hint, list=", ".join(Timbre)),
        )
    tempo = _number(options, "tempo")
    bars, version = _whole(options, "bars"), _whole(options, "version")
    return Request(METRES.get(name), bars, version or 1, tempo), Performance(Timbre(timbre), tempo, tuning)


def _number(options: Mapping[str, str], name: str) -> float | None:
    try:
        return float(options[name]) if name in options else None
    except ValueError:
        raise DomainError(
            f"{name}={options[name]}", told("it is a number"), told("Write {name}=80.", name=name)
        ) from None


def _whole(options: Mapping[str, str], name: str) -> int | None:
    if name not in options:
        return None
    if not options[name].isascii() or not options[name].isdigit() or not 0 < int(options[name][:9]) < 10**6:
        raise DomainError(
            f"{name}={options[name]}", told("it is a whole number from 1"), told("Write {name}=4.", name=name)
        )
    return int(options[name])
