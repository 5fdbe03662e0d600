"""What part a fact can play: how its value is read, where a lesson has room for it, what else leans on it.

Lessons, publications and audits ask for a role and never for a fact by its id, so that a fact of any pack can play it.

Conventions: ranks count upwards from 1; 0 is no rank. What a lesson must tell has ranks of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Basic", "Further", "Part", "Reader", "Roles"]


class Reader(StrEnum):
    """How the texts of a value are written, said and heard."""

    VERBATIM = "verbatim"
    NOTES = "notes"
    CHORDS = "chords"
    NUMERALS = "numerals"
    DEGREES = "degrees"
    RATIOS = "ratios"
    SCALES = "scales"
    ROOTED_SCALES = "scales on roots"
    DIGITS = "digits"


class Basic(StrEnum):
    """What every lesson and every audit leans on; one fact at most is the basic one of its kind."""

    SIZE = "size"
    TONES = "tones"
    PITCH_CLASSES = "pitch classes"
    STEPS = "steps"
    DEGREES = "degrees"
    TRIADS = "triads"
    SEVENTHS = "sevenths"
    NUMERALS = "numerals"
    NAMES = "names"


class Part(StrEnum):
    """The part of a lesson that has room for a fact, whatever is remarkable about the scale."""

    HEAR = "hear"
    BUILD = "build"
    COMPARE = "compare"
    HARMONY = "harmony"
    RELATIVES = "relatives"


class Further(StrEnum):
    """A second question that the quiz can ask where a lesson tells the fact."""

    TONE_OF_DEGREE = "tone of a degree"
    PATTERN_OF_MODE = "pattern of a mode"


@dataclass(frozen=True, slots=True)
class Roles:
    """The roles of a fact.

    Parameters
    ----------
    reader : Reader
        How the texts of its value are written, said and heard.
    longest : int, optional
        The most entries, or signs of a text, that are read out; what its type allows without it.
    basic : Basic, optional
        Which of the basic things it states.
    part : Part, optional
        The part of a lesson that has room for it.
    rank : int >= 0
        Its place among what is offered for that part.
    is_needed : bool
        Whether it comes first in that part.
    is_early : bool
        Whether it is taken before what is remarkable about the scale, as far as the time goes.
    comparing : int >= 0
        Its place among what two scales are compared by; 0 for none.
    of_one_size : bool
        Whether only scales with as many tones are compared by it.
    names_scale : bool
        Whether it says what the scale is called, so that no question which names the scale can ask for it.
    lists_supersets : bool
        Whether the scales it names lie around the scale rather than within it.
    further : Further, optional
        A second question of the quiz.

    Examples
    --------
    >>> Roles(reader=Reader.NOTES).part is None
    True
    """

    reader: Reader = Reader.VERBATIM
    longest: int | None = None
    basic: Basic | None = None
    part: Part | None = None
    rank: int = 0
    is_needed: bool = False
    is_early: bool = False
    comparing: int = 0
    of_one_size: bool = False
    names_scale: bool = False
    lists_supersets: bool = False
    further: Further | None = None
