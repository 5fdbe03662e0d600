"""What every diagram is asked with: a scale, the places to mark in it, and the words that belong to the picture.

Conventions: places count tones in steps above the root, as the scale does; a place's number is its position in the
list, from 1. A film that points at one place after another draws the same sketch with one place more each time.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from gamutwright.errors import DomainError
from gamutwright.music.pitches import names_of_steps
from gamutwright.theory.scale import Scale

__all__ = ["COMPARING", "MOST_NUMBERED", "USUAL", "Kind", "Place", "Sketch"]

COMPARING = frozenset({"clock", "comparison"})
"""Diagrams that can show another scale beside or over the first."""
USUAL = "ladder"
"""The diagram of a scale of which nothing in particular is said."""
MOST_NUMBERED = 12
"""With more places than this a picture does not number them: nobody would count along."""


class Kind(StrEnum):
    """How the parts of a place are to be read."""

    TONE = "tone"
    STEP = "step"
    INTERVAL = "interval"
    INTERVAL_PAIR = "interval pair"
    TONES = "tones"
    CHORD = "chord"
    LINK = "link"
    PATH = "path"
    AXIS = "axis"
    MODE = "mode"
    SCALE = "scale"


@dataclass(frozen=True, slots=True)
class Place:
    """A place in the scale.

    Parameters
    ----------
    kind : Kind
        How `parts` is to be read.
    parts : tuple of tuple of int
        Tones in steps above the root; for an axis the number k of the reflection that sends x to k - x.
    label : str
        What a reader would call it; "" where the place says everything.
    """

    kind: Kind
    parts: tuple[tuple[int, ...], ...]
    label: str = ""


@dataclass(frozen=True, slots=True)
class Sketch:
    """What is to be drawn.

    Parameters
    ----------
    scale : Scale
        The scale.
    places : tuple of Place
        What is marked, in the order in which a voice points.
    values : tuple of float
        Numbers that a diagram of columns draws instead of those it computes itself.
    value_labels : tuple of str
        What stands under those columns.
    other : Scale or None
        A second scale, dashed, for diagrams that compare.
    title : str
        A short name; the diagram's own without it.
    statement : str
        What the picture proves, in words; it ends the alt text.
    names : tuple of (int, str)
        Names of steps above the root that replace the spelling, for another language.
    tuning : tuple of int
        Open strings of a fretboard from the lowest, in steps above the C of the lowest octave; the diagram's own
        without it.
    is_weighed : bool
        Whether the centre of gravity is what the picture is about.
    words : tuple of (str, str)
        Words and note names of the picture and what stands for them in another language.
    beside : tuple of str
        Names of the scales that are compared, first the sketch's own; () for none.
    lit : int or None
        How many of the places are marked by now; all without it. What is not yet marked keeps its room, so that
        nothing jumps when it is.
    is_counted : bool
        Whether the places are all there are, so that numbers count along; False for one taken out of a list.
    """

    scale: Scale
    places: tuple[Place, ...] = ()
    values: tuple[float, ...] = ()
    value_labels: tuple[str, ...] = ()
    other: Scale | None = None
    title: str = ""
    statement: str = ""
    names: tuple[tuple[int, str], ...] = field(default=())
    tuning: tuple[int, ...] = ()
    is_weighed: bool = False
    words: tuple[tuple[str, str], ...] = ()
    beside: tuple[str, ...] = ()
    lit: int | None = None
    is_counted: bool = True

    def __post_init__(self) -> None:
        if self.other is not None and self.other.divisions != self.scale.divisions:
            raise DomainError(
                f"{self.other.divisions} beside {self.scale.divisions} divisions",
                "two scales in one picture divide the octave alike",
                "Choose two scales of one division.",
            )
        if self.values and self.value_labels and len(self.values) != len(self.value_labels):
            raise DomainError(
                f"{len(self.values)} values with {len(self.value_labels)} labels",
                "each column has its label",
                "Give as many labels as values, or none.",
            )

    @property
    def is_numbered(self) -> bool:
        """Whether the places carry their numbers."""
        return self.is_counted and len(self.places) <= MOST_NUMBERED

    @property
    def shown(self) -> tuple[Place, ...]:
        """The places that are marked by now."""
        return self.places[: self.lit]

    def name(self, step: int) -> str:
        """Name a step above the root.

        Parameters
        ----------
        step : int
            Steps above the root, any octave.

        Returns
        -------
        str
            Its note name with ♯ and ♭ in twelve divisions, its number elsewhere.

        Examples
        --------
        >>> Sketch(Scale.of(0, 3, 7)).name(3), Sketch(Scale.of(0, 3, 7, divisions=19)).name(22)
        ('E♭', '3')
        """
        own = dict(self.names)
        step %= self.scale.divisions
        return own.get(step) or self.word(names_of_steps(self.scale)[step])

    def word(self, text: str) -> str:
        """Say a word of the picture in the language of its reader.

        Parameters
        ----------
        text : str
            The word, or a note with its sign.

        Returns
        -------
        str
            What stands for it; the same where nothing does.

        Examples
        --------
        >>> Sketch(Scale.of(0, 3, 7), words=(("E♭", "Es"),)).name(3)
        'Es'
        """
        return dict(self.words).get(text, text)

    def upto(self, count: int) -> Sketch:
        """Give the same sketch with the first places marked, the others only kept in mind.

        Parameters
        ----------
        count : int >= 0
            How many.

        Returns
        -------
        Sketch
            The sketch at that moment of the pointing.

        Examples
        --------
        >>> len(Sketch(Scale.of(0), (Place(Kind.TONE, ((0,),)),) * 3).upto(2).shown)
        2
        """
        return replace(self, lit=count)
