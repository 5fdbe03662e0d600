"""Who plays in a sound and in which metre, and what it holds besides notes: strokes on drums, chord symbols, gamuts.

**Conventions.** As `ir.sound`: ticks, 48,000 a second. A part is what one player plays; a sound of one part has only
its tune. What is struck on a drum has no pitch, and so is no note.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from gamutwright.errors import DomainError

__all__ = ["ChordSymbol", "Drum", "Gamut", "Metre", "Part", "Stroke"]


class Part(StrEnum):
    """Who plays, from the top of a score to its bottom."""

    TUNE = "tune"
    CHORD = "chord"
    DRONE = "drone"
    BASS = "bass"
    DRUM = "drum"


class Drum(StrEnum):
    """What is struck without a pitch of its own."""

    BRUSH = "brush"
    WOOD_BLOCK = "wood block"


@dataclass(frozen=True, slots=True)
class Metre:
    """How many of which notes make a bar.

    Parameters
    ----------
    count : int in [1, 72]
        The upper number of a time signature.
    unit : int, one of 2, 4, 8, 16
        The lower one.

    Raises
    ------
    DomainError
        If there is no such metre.

    Examples
    --------
    >>> six = Metre(6, 8)
    >>> six.is_compound, six.beats, six.quarters_per_beat
    (True, 2, Fraction(3, 2))
    >>> Metre(4, 4).beats, str(Metre(3, 4))
    (4, '3/4')
    """

    count: int
    unit: int

    def __post_init__(self) -> None:
        if not 1 <= self.count <= 72 or self.unit not in {2, 4, 8, 16}:
            raise DomainError(
                f"metre {self.count}/{self.unit}",
                "a bar has 1 to 72 halves, quarters, eighths or sixteenths",
                "Choose 4/4, 3/4 or 6/8.",
            )

    @property
    def is_compound(self) -> bool:
        """Whether its beats are dotted: three eighths or sixteenths each."""
        return self.unit >= 8 and self.count % 3 == 0 and self.count > 3

    @property
    def beats(self) -> int:
        """How many beats a bar has."""
        return self.count // 3 if self.is_compound else self.count

    @property
    def quarters_per_beat(self) -> Fraction:
        """How long a beat is, in quarter notes."""
        return Fraction(4 * (3 if self.is_compound else 1), self.unit)

    def __str__(self) -> str:
        return f"{self.count}/{self.unit}"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A stroke on a drum.

    Parameters
    ----------
    start_tick : int >= 0
        When it begins.
    drum : Drum
        What is struck.
    velocity : float in (0, 1]
        How hard.
    item : int >= 0
        Which of the things walked through it belongs to; 0 for none.

    Raises
    ------
    DomainError
        If a number lies outside its range.
    """

    start_tick: int
    drum: Drum
    velocity: float = 0.7
    item: int = 0

    def __post_init__(self) -> None:
        if self.start_tick < 0 or not 0 < self.velocity <= 1 or self.item < 0:
            raise DomainError(
                f"a stroke at tick {self.start_tick} of velocity {self.velocity}, item {self.item}",
                "ticks and items count from 0, and velocity lies above 0 and up to 1",
                "Choose other numbers.",
            )


@dataclass(frozen=True, slots=True)
class ChordSymbol:
    """From a tick on, this chord is meant.

    Parameters
    ----------
    tick : int >= 0
        The moment.
    text : str
        Its symbol in ASCII, such as `Dm7`; in words where there are no letters.
    """

    tick: int
    text: str


@dataclass(frozen=True, slots=True)
class Gamut:
    """From a tick on, notes have these pitches only, octaves aside.

    Parameters
    ----------
    tick : int >= 0
        The moment.
    freqs_hz : tuple of float
        One of each pitch.
    """

    tick: int
    freqs_hz: tuple[float, ...]
