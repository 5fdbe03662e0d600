"""A piece of music made from a scale: who plays which degree in which bar, and what the chords are called.

One record for everybody: what is heard, written on a staff, exported and lit in pictures follows from it alone.

**Conventions.** Time is counted in twelfths of a quarter note, from the first bar on, counting in included. A degree is
counted from the lowest tone of the scale as 0, through its tones, so that the octave is as many as there are tones; so
whatever is played belongs to the scale. Sections say in which scale degrees are counted from when on: a piece may end
in another than it begins in. A tone is written for its whole length and held for a share of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from gamutwright.errors import DomainError, told
from gamutwright.ir.playing import Drum, Metre, Part
from gamutwright.music.performance import USUAL_TEMPO
from gamutwright.theory.scale import Scale

__all__ = ["QUARTER", "Harmony", "Piece", "Section", "Tap", "Tone", "bar_length", "degree_of", "step_of"]

QUARTER = 12
"""Parts of a quarter note in which time is counted."""


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone of one part.

    Parameters
    ----------
    start, length : int
        When it begins, and how long it is written.
    degree : int
        Which tone, counted through the scale of its section.
    part : Part
        Who plays it.
    force : float in (0, 1]
        How hard it is attacked.
    share : float in (0, 1]
        How much of its length it is held.
    """

    start: int
    length: int
    degree: int
    part: Part = Part.TUNE
    force: float = 0.6
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Tap:
    """A stroke on a drum.

    Parameters
    ----------
    start : int
        When.
    drum : Drum
        What is struck.
    force : float in (0, 1]
        How hard.
    item : int >= 0
        The tone of the scale it stands for, numbered from 1; 0 for none.
    """

    start: int
    drum: Drum
    force: float = 0.5
    item: int = 0


@dataclass(frozen=True, slots=True)
class Harmony:
    """From here on, this chord.

    Parameters
    ----------
    start : int
        When.
    tones : tuple of int
        Its tones in steps above the root of the scale, its own root first.
    symbol : str
        What it is called, in ASCII.
    """

    start: int
    tones: tuple[int, ...]
    symbol: str


@dataclass(frozen=True, slots=True)
class Section:
    """From here on, degrees are those of this scale.

    Parameters
    ----------
    start : int
        When.
    scale : Scale
        The scale.
    """

    start: int
    scale: Scale


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece.

    Parameters
    ----------
    title : str
        A short name.
    metre : Metre
        Its metre.
    bars : int > 0
        How many bars it has, counting in included.
    sections : tuple of Section
        At least one, from 0 on.
    tones : tuple of Tone
        By start.
    taps : tuple of Tap
        By start.
    harmonies : tuple of Harmony
        By start.
    counted_in : int >= 0
        How many of the bars only count in.
    tempo : float
        Beats a minute, where nobody asks for another tempo.

    Raises
    ------
    DomainError
        If it has no bar or no scale, or something lies outside its bars.
    """

    title: str
    metre: Metre
    bars: int
    sections: tuple[Section, ...]
    tones: tuple[Tone, ...] = ()
    taps: tuple[Tap, ...] = ()
    harmonies: tuple[Harmony, ...] = ()
    counted_in: int = 0
    tempo: float = USUAL_TEMPO

    def __post_init__(self) -> None:
        end = self.length
        is_inside = all(0 <= tone.start < tone.start + tone.length <= end for tone in self.tones) and all(
            0 <= tap.start < end for tap in self.taps
        )
        if not self.sections or self.bars < 1 or not is_inside:
            raise DomainError(
                told("a piece of {bars} bars", bars=self.bars),
                told("a piece has a scale and a bar or more, and all its tones lie within them"),
                told("Give it more bars."),
            )

    @property
    def length(self) -> int:
        """How long it is, in twelfths of a quarter note."""
        return self.bars * bar_length(self.metre)

    @property
    def parts(self) -> tuple[Part, ...]:
        """Who plays in it, from the top of a score to its bottom."""
        playing = {tone.part for tone in self.tones} | ({Part.DRUM} if self.taps else set())
        return tuple(part for part in Part if part in playing)

    def scale_at(self, start: int) -> Scale:
        """Say in which scale degrees are counted.

        Parameters
        ----------
        start : int
            When.

        Returns
        -------
        Scale
            That of the last section that has begun.
        """
        return next(section.scale for section in reversed(self.sections) if section.start <= start)

    def of(self, part: Part) -> tuple[Tone, ...]:
        """List the tones of a part.

        Parameters
        ----------
        part : Part
            Who.

        Returns
        -------
        tuple of Tone
            By start.
        """
        return tuple(tone for tone in self.tones if tone.part is part)

    def together(self, part: Part) -> tuple[tuple[Tone, ...], ...]:
        """Gather the tones of a part that begin together.

        Parameters
        ----------
        part : Part
            Who.

        Returns
        -------
        tuple of tuple of Tone
            By start, each the lowest first.
        """
        ordered = sorted(self.of(part), key=lambda tone: (tone.start, tone.degree))
        return tuple(tuple(group) for _, group in groupby(ordered, key=lambda tone: tone.start))


def bar_length(metre: Metre) -> int:
    """Say how long a bar is.

    Parameters
    ----------
    metre : Metre
        The metre.

    Returns
    -------
    int
        Twelfths of a quarter note.

    Examples
    --------
    >>> bar_length(Metre(4, 4)), bar_length(Metre(6, 8))
    (48, 36)
    """
    return 4 * QUARTER * metre.count // metre.unit


def step_of(scale: Scale, degree: int) -> int:
    """Say where a degree lies.

    Parameters
    ----------
    scale : Scale
        The scale.
    degree : int
        Counted through it, 0 for its lowest tone.

    Returns
    -------
    int
        Steps above the root.

    Examples
    --------
    >>> pentatonic = Scale.of(0, 2, 4, 7, 9)
    >>> [step_of(pentatonic, degree) for degree in (-1, 0, 3, 5)]
    [-3, 0, 7, 12]
    """
    octave, place = divmod(degree, scale.cardinality)
    return scale.tones[place] + octave * scale.divisions


def degree_of(scale: Scale, step: int) -> int:
    """Say which degree lies at a step; the nearest where none does, of two the lower.

    Parameters
    ----------
    scale : Scale
        The scale.
    step : int
        Steps above the root.

    Returns
    -------
    int
        The degree.

    Examples
    --------
    >>> pentatonic = Scale.of(0, 2, 4, 7, 9)
    >>> [degree_of(pentatonic, step) for step in (-3, 7, 12, 5, 11)]
    [-1, 3, 5, 2, 5]
    """
    octave, rest = divmod(step, scale.divisions)
    near = ((abs(tone - rest), place) for place, tone in enumerate((*scale.tones, scale.tones[0] + scale.divisions)))
    return octave * scale.cardinality + min(near)[1]
