"""A film before it is drawn: what is seen, heard and read, and from which tick to which.

Everything that has a time has it here and nowhere else: a renderer draws shots, places clips and writes captions, and
decides nothing. The same record is what a verifier compares a finished film with.

Conventions: time is counted in integer ticks, 48,000 a second, so a tick is one audio sample and 1,600 are a frame at
30 a second. Spans are half-open. Shots follow each other without a gap and begin on frames.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

from gamutwright.errors import DomainError
from gamutwright.ir.cards import Entry
from gamutwright.ir.figure import Figure
from gamutwright.ir.sound import TICKS_PER_SECOND

__all__ = [
    "FRAME_TICKS",
    "LINE_GRID_TICKS",
    "TICKS_PER_SECOND",
    "Caption",
    "ChapterMark",
    "Clip",
    "ClipKind",
    "Panel",
    "Shot",
    "ShotKind",
    "Speech",
    "SpokenWord",
    "TimedLine",
    "Timeline",
    "excerpt",
    "frame_at",
    "grid_at",
]

FRAME_TICKS = 1_600
PROGRESS_STEPS = 6
"""In how many steps a film shows how far a chapter has come: few, since each step is another picture to encode."""
LINE_GRID_TICKS = 1_024
"""Lines and examples begin on multiples of it, frames of the sound's encoder: what is moved is encoded the same."""


def frame_at(tick: int) -> int:
    """Give the first tick of the frame that is shown at a tick, rounded to the nearest frame.

    Parameters
    ----------
    tick : int
        Any tick.

    Returns
    -------
    int
        A multiple of 1,600.

    Examples
    --------
    >>> frame_at(1_700), frame_at(2_400)
    (1600, 3200)
    """
    return (tick + FRAME_TICKS // 2) // FRAME_TICKS * FRAME_TICKS


def grid_at(tick: int) -> int:
    """Give the first tick from here on at which a line or an example may begin.

    Parameters
    ----------
    tick : int
        Any tick.

    Returns
    -------
    int
        A multiple of 1,024.

    Examples
    --------
    >>> grid_at(1_024), grid_at(1_025)
    (1024, 2048)
    """
    return -(-tick // LINE_GRID_TICKS) * LINE_GRID_TICKS


@dataclass(frozen=True, slots=True)
class SpokenWord:
    """When a word is spoken.

    Parameters
    ----------
    start_char, end_char : int
        Its place in the text of the line.
    start_tick, end_tick : int
        When it is heard, counted from the beginning of the line's sound.
    """

    start_char: int
    end_char: int
    start_tick: int
    end_tick: int


@dataclass(frozen=True, slots=True)
class Speech:
    """How long a line takes to say, and when each of its words is heard.

    Parameters
    ----------
    ticks : int
        Length of the sound.
    words : tuple of SpokenWord
        In order; may be empty where nothing is known.
    """

    ticks: int
    words: tuple[SpokenWord, ...] = ()

    def tick_of(self, char: int, length: int) -> int:
        """Say when a place in the text is reached.

        Parameters
        ----------
        char : int
            Offset in the text.
        length : int
            Length of the text, for lines whose words have no times.

        Returns
        -------
        int
            Ticks from the beginning of the line.

        Examples
        --------
        >>> Speech(100, (SpokenWord(0, 4, 10, 40), SpokenWord(5, 9, 50, 90))).tick_of(5, 9)
        50
        >>> Speech(100).tick_of(5, 10)
        50
        """
        for word in self.words:
            if char < word.end_char:
                return word.start_tick
        if self.words:
            return self.words[-1].end_tick
        return self.ticks * char // max(1, length)


class ShotKind(StrEnum):
    """How a shot is laid out."""

    TITLE = "title"
    STAGE = "stage"
    QUESTION = "question"
    END = "end"


@dataclass(frozen=True, slots=True)
class Panel:
    """The words beside the picture, or on a card.

    Parameters
    ----------
    heading : str
        What is being told; alone it is set large, as the opening of a chapter is.
    value : str
        The value that is spoken.
    sentence : str
        One sentence at the most.
    source : str
        Where the fact is published, in short.
    above : str
        A few small words over the heading: course and lesson, or the chapter.
    entries : tuple of Entry
        What a card lists.
    columns : int
        In how many columns a wide card lists it.
    inset : Figure or None
        A small picture under the heading of a title.
    """

    heading: str = ""
    value: str = ""
    sentence: str = ""
    source: str = ""
    above: str = ""
    entries: tuple[Entry, ...] = ()
    columns: int = 1
    inset: Figure | None = None


@dataclass(frozen=True, slots=True)
class Shot:
    """What is seen from one frame to another.

    Parameters
    ----------
    start_tick, end_tick : int
        From when to when; multiples of 1,600.
    kind : ShotKind
        Its layout.
    figure : Figure or None
        The picture on the stage.
    panel : Panel
        The words beside it.
    chapter : int
        Index of the chapter it belongs to; -1 before the first.
    drawing : str
        What kind of picture it is; only pictures of one kind move into each other, others fade.
    is_still : bool
        Whether the picture must not move into this shot: the ear is asked for, or a chapter begins.
    progress : int in [0, 6]
        How many of `PROGRESS_STEPS` of its chapter have passed when it begins.
    """

    start_tick: int
    end_tick: int
    kind: ShotKind
    figure: Figure | None
    panel: Panel
    chapter: int
    drawing: str = ""
    is_still: bool = False
    progress: int = 0


class ClipKind(StrEnum):
    """What a clip is."""

    VOICE = "voice"
    SOUND = "sound"


@dataclass(frozen=True, slots=True)
class Clip:
    """A sound that is placed.

    Parameters
    ----------
    start_tick, ticks : int
        When it begins and how long it is.
    kind : ClipKind
        Voice or sounded example.
    key : str
        Which: the id of the line, or the digest of the sound.
    """

    start_tick: int
    ticks: int
    kind: ClipKind
    key: str


@dataclass(frozen=True, slots=True)
class Caption:
    """Text that is read along.

    Parameters
    ----------
    start_tick, end_tick : int
        From when to when.
    text : str
        One or two rows, separated by a line end.
    """

    start_tick: int
    end_tick: int
    text: str


@dataclass(frozen=True, slots=True)
class ChapterMark:
    """Where a chapter begins."""

    start_tick: int
    title: str


@dataclass(frozen=True, slots=True)
class TimedLine:
    """Where a line of the script is spoken."""

    id: str
    start_tick: int
    end_tick: int
    text: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """A whole film before it is drawn.

    Parameters
    ----------
    title : str
        What the film is called.
    language : str
        Language tag of what is spoken.
    ticks : int
        Its length, a multiple of 1,600.
    shots, clips, captions, chapters, lines : tuple
        Each by time.

    Raises
    ------
    DomainError
        If shots leave a gap, overlap, or do not begin on frames.
    """

    title: str
    language: str
    ticks: int
    shots: tuple[Shot, ...]
    clips: tuple[Clip, ...]
    captions: tuple[Caption, ...]
    chapters: tuple[ChapterMark, ...]
    lines: tuple[TimedLine, ...]

    def __post_init__(self) -> None:
        edges = [0, *(shot.end_tick for shot in self.shots)]
        starts = [*(shot.start_tick for shot in self.shots), self.ticks]
        if edges != starts or any(edge % FRAME_TICKS for edge in edges):
            raise DomainError(
                f"the shots of '{self.title}'",
                "shots follow each other without a gap, from frame to frame, to the end",
                "This is a mistake in the program that made them; please report it.",
            )

    @property
    def chapter_spans(self) -> tuple[tuple[int, int, str], ...]:
        """From which tick to which each chapter lasts, and its title: to the next one, the last to the end."""
        starts = [*(mark.start_tick for mark in self.chapters), self.ticks]
        return tuple(
            (start, end, mark.title) for mark, (start, end) in zip(self.chapters, pairwise(starts), strict=True)
        )


def excerpt(timeline: Timeline, start_tick: int, end_tick: int) -> Timeline:
    """Cut a piece out of a film, as a film of its own that begins at tick 0.

    Parameters
    ----------
    timeline : Timeline
        The film.
    start_tick, end_tick : int
        From when to when; pictures are widened to whole frames, held within the film.

    Returns
    -------
    Timeline
        Shots and captions cut to the piece; clips that begin in it, with their whole length; the chapters, whose count
        is drawn, without their times; the lines that begin in it.

    Raises
    ------
    DomainError
        If there is no frame between the two.

    Examples
    --------
    >>> shot = Shot(0, 8 * FRAME_TICKS, ShotKind.TITLE, None, Panel("Dorian"), -1)
    >>> whole = Timeline("Dorian", "en", 8 * FRAME_TICKS, (shot,), (), (), (), ())
    >>> excerpt(whole, 2_000, 4_000).shots[0].end_tick // FRAME_TICKS
    2
    """
    begin = max(0, start_tick // FRAME_TICKS * FRAME_TICKS)
    end = min(timeline.ticks, -(-end_tick // FRAME_TICKS) * FRAME_TICKS)
    if begin >= end:
        raise DomainError(
            f"ticks {start_tick} to {end_tick}", f"the film has {timeline.ticks} ticks", "Choose a time within it."
        )
    shots = (
        replace(shot, start_tick=max(shot.start_tick, begin) - begin, end_tick=min(shot.end_tick, end) - begin)
        for shot in timeline.shots
        if shot.start_tick < end and shot.end_tick > begin
    )
    captions = (
        Caption(max(one.start_tick, begin) - begin, min(one.end_tick, end) - begin, one.text)
        for one in timeline.captions
        if one.start_tick < end and one.end_tick > begin
    )
    return replace(
        timeline,
        ticks=end - begin,
        shots=tuple(shots),
        clips=tuple(
            replace(clip, start_tick=clip.start_tick - begin)
            for clip in timeline.clips
            if start_tick <= clip.start_tick < end_tick
        ),
        captions=tuple(captions),
        chapters=tuple(ChapterMark(0, mark.title) for mark in timeline.chapters),
        lines=tuple(
            replace(line, start_tick=line.start_tick - begin, end_tick=line.end_tick - begin)
            for line in timeline.lines
            if start_tick <= line.start_tick < end_tick
        ),
    )
