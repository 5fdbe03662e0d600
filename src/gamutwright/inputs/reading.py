"""What readers share: the request, the reading they give, and how a root is placed under a set of tones.

Conventions: a reader takes the text without prefix and without a final `on ROOT`, and gives the readings it finds or
raises `NotThisFormError`, which says how much of the text fitted, so that the nearest form can speak. Where no root is
stated, 0 (C in twelve divisions) is taken and a remark says so.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from gamutwright.errors import DomainError, InputError, told
from gamutwright.theory.notenames import NoteNames, fifths_to_name, name_to_fifths, note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import spelled_from, with_names

__all__ = [
    "NotThisFormError",
    "Option",
    "Reader",
    "Reading",
    "Request",
    "Root",
    "placed",
    "read_root",
    "shortened",
    "spelled_from_root",
]

_LONGEST_QUOTED = 60


@dataclass(frozen=True, slots=True)
class Reading:
    """A scale and how it was understood.

    Parameters
    ----------
    scale : Scale
        The scale.
    form : str
        The form it was read in, such as `notes`.
    remarks : tuple of str
        What a user should know: assumptions, guesses, sources.
    """

    scale: Scale
    form: str
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Root:
    """A root that was stated.

    Parameters
    ----------
    pitch_class : int
        Its pitch class.
    name : str
        Its ASCII note name; empty where a number was given.
    """

    pitch_class: int
    name: str = ""


@dataclass(frozen=True, slots=True)
class Request:
    """What a reader is asked.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    names : NoteNames
        The language of note names.
    root : Root or None
        The root stated beside the tones.
    is_explicit : bool
        Whether the user named the form by its prefix.
    """

    divisions: int
    names: NoteNames
    root: Root | None = None
    is_explicit: bool = False


@dataclass(frozen=True, slots=True)
class Option:
    """One way to understand a text.

    Parameters
    ----------
    reading : Reading
        The reading.
    plainly : str
        How to write it so that it cannot be understood otherwise.
    is_bare : bool
        Whether it must not be taken unless written plainly.
    """

    reading: Reading
    plainly: str
    is_bare: bool = False


Reader = Callable[[str, Request], tuple[Option, ...]]


class NotThisFormError(InputError):
    """Text that is not in a reader's form.

    Parameters
    ----------
    value, rule, next_step : str
        As for every error.
    fit : float in [0, 1]
        Share of the text that fitted the form.
    """

    def __init__(self, value: str, rule: str, next_step: str, fit: float = 0.0) -> None:
        super().__init__(value, rule, next_step)
        self.args = (value, rule, next_step, fit)
        self.fit = fit


def shortened(text: str) -> str:
    """Quote a text, cut where it is long.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The text in quotes, on one line, at most some sixty characters.

    Examples
    --------
    >>> shortened("C D"), len(shortened("x" * 1000)) < 80
    ("'C D'", True)
    """
    text = " ".join("".join(c if c.isprintable() else " " for c in text[: 4 * _LONGEST_QUOTED]).split())
    return f"'{text}'" if len(text) <= _LONGEST_QUOTED else f"'{text[:_LONGEST_QUOTED]}...'"


def read_root(text: str, request: Request) -> Root:
    """Read a root: a note name in the request's language, or a pitch class.

    Parameters
    ----------
    text : str
        The root.
    request : Request
        Divisions and language.

    Returns
    -------
    Root
        The root.

    Raises
    ------
    InputError
        If it is neither.

    Examples
    --------
    >>> from gamutwright.theory.notenames import names_in
    >>> read_root("E flat", Request(12, names_in("english")))
    Root(pitch_class=3, name='Eb')
    """
    text = text.strip()
    if re.fullmatch(r"[0-9]{1,3}", text) and int(text) < request.divisions:
        return Root(int(text))
    name = request.names.read(text) if len(text) < _LONGEST_QUOTED else None
    if name and request.divisions == 12:
        return Root(note_name_to_pitch_class(name), name)
    if name:
        raise InputError(
            told("root {text}", text=shortened(text)),
            told("note names are those of 12 divisions, and these are {divisions}", divisions=request.divisions),
            told("Give the root as a number from 0 to {part}.", part=request.divisions - 1),
        )
    rule, example = told("a root is a pitch class from 0 to {most}", most=request.divisions - 1), "0"
    if request.divisions == 12:
        rule = told("a root is a note name ({language}) or a pitch class from 0 to 11", language=request.names.language)
        example = told("{these} or {that}", these=request.names.write("Eb"), that="3")
    raise InputError(told("root {text}", text=shortened(text)), rule, told("Write it like {example}.", example=example))


def placed(mask: int, request: Request) -> tuple[Scale, tuple[str, ...]]:
    """Put tones on the stated root, or on 0 with a remark.

    Parameters
    ----------
    mask : int
        Tones above the root.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of (Scale, tuple of str)
        The scale, spelled from the root's name where that departs from the policy, and remarks.
    """
    root = request.root
    if root is None:
        taken = "C" if request.divisions == 12 else "0"
        return Scale(mask, request.divisions), (f"no root is stated; {taken} is taken",)
    return spelled_from_root(Scale(mask, request.divisions, root.pitch_class), root)


def spelled_from_root(scale: Scale, root: Root) -> tuple[Scale, tuple[str, ...]]:
    """Spell a scale from the name that its stated root was given.

    Parameters
    ----------
    scale : Scale
        The scale on that root.
    root : Root
        The root; one that was given as a number leaves the spelling to the policy.

    Returns
    -------
    tuple of (Scale, tuple of str)
        The scale, spelled from the root's name where that departs from the policy, and remarks.
    """
    if not root.name:
        return scale, ()
    try:
        return with_names(scale, spelled_from(scale, root.name)), ()
    except DomainError:
        usual = fifths_to_name(name_to_fifths(root.name))
        return scale, (f"from {usual} a tone would need more than two accidentals; the usual spelling is taken",)
