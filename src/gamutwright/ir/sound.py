"""A sound: notes of exact frequencies and strokes on drums on a row of ticks, and marks that say what is heard when.

A phrase describes, a renderer sounds. The same record becomes samples, a file of events for other instruments, or a
row of moments at which pictures step.

**Conventions.** Time is counted in integer ticks, 48,000 a second: one tick is one audio sample. A note begins exactly
at its first tick; `duration_ticks` runs until it is let go, after which it may ring on, but never past the end of the
sound. Frequencies are hertz. Velocity is the force of the attack, above 0 up to 1, proportional to amplitude. An item
is one of the things that are walked through, numbered from 1; 0 stands for none. A sound in a metre says where its bars
begin; the first may be a bar of counting in. Parts, metres and drums are those of `ir.playing`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from gamutwright.errors import DomainError
from gamutwright.ir.playing import ChordSymbol, Gamut, Metre, Part, Stroke

__all__ = [
    "HIGHEST_HZ",
    "LONGEST_TICKS",
    "LOWEST_HZ",
    "TICKS_PER_SECOND",
    "Mark",
    "Note",
    "Sound",
    "Timbre",
    "joined",
    "shifted",
]

TICKS_PER_SECOND = 48_000
LOWEST_HZ = 20.0
HIGHEST_HZ = 8_000.0
LONGEST_TICKS = 24 * 3600 * TICKS_PER_SECOND


class Timbre(StrEnum):
    """How a tone begins and fades."""

    PLUCKED = "plucked"
    STRUCK = "struck"
    SUSTAINED = "sustained"


@dataclass(frozen=True, slots=True)
class Note:
    """One tone.

    Parameters
    ----------
    start_tick : int >= 0
        When it begins.
    duration_ticks : int > 0
        How long it is held.
    freq_hz : float in [20, 8000]
        Its fundamental.
    velocity : float in (0, 1]
        How hard it is attacked.
    label : str
        What a reader would call it; may be empty.
    item : int >= 0
        Which of the things walked through it belongs to; 0 for none.
    part : Part
        Who plays it; never a drum.

    Raises
    ------
    DomainError
        If a number lies outside its range.

    Examples
    --------
    >>> Note(48_000, 24_000, 440.0).end_tick
    72000
    """

    start_tick: int
    duration_ticks: int
    freq_hz: float
    velocity: float = 0.7
    label: str = ""
    item: int = 0
    part: Part = Part.TUNE

    def __post_init__(self) -> None:
        if not LOWEST_HZ <= self.freq_hz <= HIGHEST_HZ:
            raise DomainError(
                f"a note of {self.freq_hz} Hz",
                f"notes lie between {LOWEST_HZ:g} and {HIGHEST_HZ:g} Hz",
                "Move it by octaves.",
            )
        if self.start_tick < 0 or self.duration_ticks <= 0:
            raise DomainError(
                f"a note of {self.duration_ticks} ticks from tick {self.start_tick}",
                "a note begins at tick 0 or later and lasts a tick or more",
                "Give it a later start or a longer duration.",
            )
        if not 0 < self.velocity <= 1 or self.item < 0:
            raise DomainError(
                f"velocity {self.velocity}, item {self.item}",
                "velocity lies above 0 and up to 1, and items count from 0",
                "Choose other numbers.",
            )
        if self.part is Part.DRUM:
            raise DomainError("a note for a drum", "a drum has no pitch", "Make it a stroke.")

    @property
    def end_tick(self) -> int:
        """The tick at which it is let go."""
        return self.start_tick + self.duration_ticks


@dataclass(frozen=True, slots=True)
class Mark:
    """From a tick on, one of the things walked through is heard.

    Parameters
    ----------
    tick : int >= 0
        The moment.
    item : int >= 0
        Which, numbered from 1; 0 where none of them is meant from here on.
    label : str
        What a reader would call it; may be empty.
    """

    tick: int
    item: int
    label: str = ""


@dataclass(frozen=True, slots=True)
class Sound:
    """Notes, how they sound, and what they stand for.

    Parameters
    ----------
    ticks : int in [0, 4147200000]
        Length; the last of what rings on ends here.
    notes : tuple of Note
        By start; notes of one start in any order.
    timbre : Timbre
        How they sound.
    marks : tuple of Mark
        By tick.
    beat_ticks : int > 0
        Length of a beat, for files that count in beats.
    title : str
        A short name.
    strokes : tuple of Stroke
        By start.
    metre : Metre or None
        Its metre; None for what has no bars.
    bars : tuple of int
        The ticks at which bars begin.
    symbols : tuple of ChordSymbol
        By tick.
    gamuts : tuple of Gamut
        By tick; empty where nothing is promised.

    Raises
    ------
    DomainError
        If something is out of order or beyond the end.

    Examples
    --------
    >>> Sound(96_000, (Note(0, 48_000, 440.0),)).seconds
    2.0
    """

    ticks: int
    notes: tuple[Note, ...] = ()
    timbre: Timbre = Timbre.PLUCKED
    marks: tuple[Mark, ...] = ()
    beat_ticks: int = TICKS_PER_SECOND
    title: str = ""
    strokes: tuple[Stroke, ...] = ()
    metre: Metre | None = None
    bars: tuple[int, ...] = ()
    symbols: tuple[ChordSymbol, ...] = ()
    gamuts: tuple[Gamut, ...] = ()

    def __post_init__(self) -> None:
        if not 0 <= self.ticks <= LONGEST_TICKS or self.beat_ticks <= 0:
            raise DomainError(
                f"{self.ticks} ticks with beats of {self.beat_ticks}",
                "a sound lasts up to 24 hours and its beats a tick or more",
                "Make it shorter, or the beats longer.",
            )
        rows = (
            [note.start_tick for note in self.notes],
            [stroke.start_tick for stroke in self.strokes],
            [mark.tick for mark in self.marks],
            list(self.bars),
            [symbol.tick for symbol in self.symbols],
            [gamut.tick for gamut in self.gamuts],
        )
        last = max([note.end_tick for note in self.notes] + [row[-1] for row in rows if row], default=0)
        if any(row != sorted(row) for row in rows) or last > self.ticks:
            raise DomainError(
                f"notes and marks up to tick {last} in a sound of {self.ticks}",
                "notes, strokes, marks, bars and chords come in the order of their ticks and end within the sound",
                "Sort them, or make the sound longer.",
            )
        if bool(self.bars) != (self.metre is not None):
            raise DomainError(
                f"{len(self.bars)} bars in the metre {self.metre}",
                "what has a metre has bars, and what has bars has a metre",
                "Give both, or neither.",
            )

    @property
    def seconds(self) -> float:
        """Length in seconds."""
        return self.ticks / TICKS_PER_SECOND

    @property
    def parts(self) -> tuple[Part, ...]:
        """Who plays in it, from the top of a score to its bottom.

        Examples
        --------
        >>> from gamutwright.ir.playing import Drum
        >>> [part.value for part in Sound(9, (Note(0, 4, 440.0),), strokes=(Stroke(2, Drum.BRUSH),)).parts]
        ['tune', 'drum']
        """
        playing = {note.part for note in self.notes} | ({Part.DRUM} if self.strokes else set())
        return tuple(part for part in Part if part in playing)

    def item_at(self, tick: int) -> int:
        """Say which item is heard at a tick.

        Parameters
        ----------
        tick : int
            The moment.

        Returns
        -------
        int
            Its number, 0 before the first mark.

        Examples
        --------
        >>> Sound(10, marks=(Mark(2, 1), Mark(5, 2))).item_at(4)
        1
        """
        return next((mark.item for mark in reversed(self.marks) if mark.tick <= tick), 0)


def shifted(sound: Sound, ticks: int) -> Sound:
    """Begin a sound later, with silence before it.

    Parameters
    ----------
    sound : Sound
        The sound.
    ticks : int >= 0
        How much later.

    Returns
    -------
    Sound
        The same notes and marks, later.

    Raises
    ------
    DomainError
        If it would begin before tick 0.

    Examples
    --------
    >>> shifted(Sound(10, (Note(0, 5, 440.0),)), 3).notes[0].start_tick
    3
    """
    if ticks < 0:
        raise DomainError(f"{ticks} ticks", "a sound can only begin later", "Give 0 or more ticks.")
    return replace(
        sound,
        ticks=sound.ticks + ticks,
        notes=tuple(replace(note, start_tick=note.start_tick + ticks) for note in sound.notes),
        marks=tuple(replace(mark, tick=mark.tick + ticks) for mark in sound.marks),
        strokes=tuple(replace(stroke, start_tick=stroke.start_tick + ticks) for stroke in sound.strokes),
        bars=tuple(bar + ticks for bar in sound.bars),
        symbols=tuple(replace(symbol, tick=symbol.tick + ticks) for symbol in sound.symbols),
        gamuts=tuple(replace(gamut, tick=gamut.tick + ticks) for gamut in sound.gamuts),
    )


def joined(sounds: Iterable[Sound], gap_ticks: int = 0) -> Sound:
    """Set sounds of one timbre and one metre one after another.

    Parameters
    ----------
    sounds : iterable of Sound
        At least one; title, timbre and beat are the first one's.
    gap_ticks : int >= 0
        Silence between them.

    Returns
    -------
    Sound
        All of them; items keep their numbers.

    Raises
    ------
    DomainError
        If there is none, or timbres or metres differ.

    Examples
    --------
    >>> one = Sound(10, (Note(0, 5, 440.0),))
    >>> [note.start_tick for note in joined((one, one), 2).notes]
    [0, 12]
    """
    parts = tuple(sounds)
    if len({(part.timbre, part.metre) for part in parts}) != 1:
        raise DomainError(
            f"{len(parts)} sounds",
            "one or more sounds of one timbre and metre can be joined",
            "Render them apart and mix them.",
        )
    later, ticks = [], -gap_ticks
    for part in parts:
        later.append(shifted(part, ticks + gap_ticks))
        ticks = later[-1].ticks
    return replace(
        parts[0],
        ticks=ticks,
        notes=tuple(note for part in later for note in part.notes),
        marks=tuple(mark for part in later for mark in part.marks),
        strokes=tuple(stroke for part in later for stroke in part.strokes),
        bars=tuple(bar for part in later for bar in part.bars),
        symbols=tuple(symbol for part in later for symbol in part.symbols),
        gamuts=tuple(gamut for part in later for gamut in part.gamuts),
    )
