"""Every error a caller can meet, under one root.

Conventions: an error says three things, kept as attributes and joined in its message: the *value* that was met, the
*rule* it broke and the *next step* that mends it. Each child also inherits the builtin a caller would expect, and all
of them survive pickling, so that they cross process borders with their story.

The tree::

    GamutwrightError
    ├── InputError (ValueError)          text or a file that gives no scale
    │   ├── AmbiguousInputError          ... or that could give several
    │   └── ScriptError                  a script that cannot be read, with the place of every problem
    ├── DomainError (ValueError)         a parameter outside what a definition covers
    ├── CatalogueError (RuntimeError)    a catalogue that cannot be built, read or asked so
    ├── FileError (OSError)              a file that cannot be read or written
    ├── JobError (RuntimeError)          work that took its processes down
    ├── UnknownFactError (LookupError)   a fact asked for under an id nobody offers
    ├── UnprovedError (ValueError)       a script whose statements are not all proved
    ├── PackError (ImportError)          a pack of facts that cannot be taken in
    └── MissingPartError (ImportError)   an optional part that is not installed
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple, Self

__all__ = [
    "AmbiguousInputError",
    "CatalogueError",
    "DomainError",
    "FileError",
    "GamutwrightError",
    "InputError",
    "JobError",
    "MissingPartError",
    "PackError",
    "ScriptError",
    "Tellable",
    "UnknownFactError",
    "UnprovedError",
    "slots_filled",
    "told",
]

_SLOT = re.compile(r"\{(\w+)\}")


class Tellable(str):
    """An English text that remembers what it was made from, so that it can be told in another language.

    Parameters
    ----------
    template : str
        The text with names of slots in braces; braces around anything else stand as they are.
    slots : dict of str to object
        What goes into them: texts, which may be tellable too, and numbers.
    """

    __slots__ = ("slots", "template")

    template: str
    slots: dict[str, object]

    def __new__(cls, template: str, slots: dict[str, object]) -> Self:
        """Fill the slots."""
        made = super().__new__(cls, slots_filled(template, slots))
        made.template = template
        made.slots = slots
        return made

    def __reduce__(self) -> tuple[type[Tellable], tuple[str, dict[str, object]]]:
        return Tellable, (self.template, self.slots)


def slots_filled(template: str, slots: dict[str, object], group_mark: str = ",") -> str:
    """Fill in a template.

    Parameters
    ----------
    template : str
        Text with names of slots in braces.
    slots : dict of str to object
        What goes into them.
    group_mark : str
        What groups the figures of a large number.

    Returns
    -------
    str
        The text.
    """

    def written(name: str) -> str:
        value = slots[name]
        is_count = isinstance(value, int) and not isinstance(value, bool)
        return f"{value:,}".replace(",", group_mark) if is_count else str(value)

    return _SLOT.sub(lambda found: written(found[1]) if found[1] in slots else found[0], template)


def told(template: str, **slots: object) -> Tellable:
    """Tell something in English, so that it can be told in another language (`Language.retold`).

    Parameters
    ----------
    template : str
        The text with names of slots in braces; languages have it in their `errors.toml`.
    **slots : object
        What goes into them.

    Returns
    -------
    Tellable
        The text.

    Examples
    --------
    >>> told("the {kind} '{text}' has {count} letters", kind="note", text="C", count=1200)
    "the note 'C' has 1,200 letters"
    """
    return Tellable(template, slots)


class GamutwrightError(Exception):
    """The root of all errors raised on purpose.

    Parameters
    ----------
    value : str
        What was met, as the user would recognise it.
    rule : str
        The rule it broke, without a full stop.
    next_step : str
        What to do now, as a whole sentence.

    Examples
    --------
    >>> str(GamutwrightError("'C X'", "X is no note name", "Write letters A to G."))
    "'C X': X is no note name. Write letters A to G."
    """

    def __init__(self, value: str, rule: str, next_step: str) -> None:
        super().__init__(value, rule, next_step)
        self.value = value
        self.rule = rule
        self.next_step = next_step

    def __str__(self) -> str:
        return f"{self.value}: {self.rule}. {self.next_step}"

    def retell(self, how: Callable[[str], str]) -> None:
        """Say the same in another language.

        Parameters
        ----------
        how : callable
            Makes a text of another, such as `Language.retold`.
        """
        self.value, self.rule, self.next_step = map(how, (self.value, self.rule, self.next_step))
        self.args = (self.value, self.rule, self.next_step, *self.args[3:])


class InputError(GamutwrightError, ValueError):
    """Text or a file that gives no scale."""


class AmbiguousInputError(InputError):
    """Text that gives several scales; `readings` lists each with the way to write it plainly.

    Parameters
    ----------
    value, rule, next_step : str
        As for `GamutwrightError`.
    readings : tuple of str
        One line for each reading.
    """

    def __init__(self, value: str, rule: str, next_step: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(value, rule, next_step)
        self.args = (value, rule, next_step, readings)
        self.readings = readings


class Problem(NamedTuple):
    """One thing that is wrong in a text, and where.

    Parameters
    ----------
    line, column : int
        Place in the text, both counted from 1; columns count code points.
    message : str
        Value, rule and next step in one line.
    excerpt : str
        The line of the text and, under it, carets below what is meant.
    """

    line: int
    column: int
    message: str
    excerpt: str = ""


class ScriptError(InputError):
    """A script that cannot be read; `problems` lists everything found in one pass, in the order of the text.

    Parameters
    ----------
    value, rule, next_step : str
        As for `GamutwrightError`; the value is the name, line and column of the first problem.
    problems : tuple of Problem
        All of them.
    """

    def __init__(self, value: str, rule: str, next_step: str, problems: tuple[Problem, ...] = ()) -> None:
        super().__init__(value, rule, next_step)
        self.args = (value, rule, next_step, problems)
        self.problems = problems


class DomainError(GamutwrightError, ValueError):
    """A parameter outside what a definition covers."""


class CatalogueError(GamutwrightError, RuntimeError):
    """A catalogue that cannot be built, read, or asked in this way."""


class FileError(GamutwrightError, OSError):
    """A file that cannot be read or written."""


class JobError(GamutwrightError, RuntimeError):
    """Work that cannot be finished, because the processes that did it died."""


class UnknownFactError(GamutwrightError, LookupError):
    """A fact asked for under an id nobody offers."""


class PackError(GamutwrightError, ImportError):
    """A pack of facts that cannot be taken in."""


class MissingPartError(GamutwrightError, ImportError):
    """An optional part that is not installed; the next step is the command that installs it."""


class UnprovedError(GamutwrightError, ValueError):
    """A script whose statements are not all proved, where only a proved one will do."""
