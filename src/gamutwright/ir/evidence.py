"""What a finished film must show and sound, as plain data that a verifier compares it with.

Made from a timeline before anything is encoded, kept in the ledger, and read back without any knowledge of how the film
was made. Places are called lit where the picture shows the role of what is being said (`ir.litplaces`).

**Conventions.** Ticks as in `ir.timeline`; frames are counted from 0; places are pixels of the frame. A place is named
by the figure; it is read on the ring between half its radius and nine tenths of it, so that a number in it does not
matter. A view is a frame well inside a shot, behind its change.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping, Sequence
from dataclasses import MISSING, dataclass, fields, is_dataclass
from itertools import pairwise

from gamutwright.codec import Plain, digest, to_plain
from gamutwright.errors import InputError
from gamutwright.ir.figure import Role
from gamutwright.ir.playing import Drum, Part
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, Caption, ChapterMark, Clip, ClipKind, Shot, Timeline

__all__ = [
    "FORMAT",
    "Belonging",
    "Change",
    "Colour",
    "Evidence",
    "Example",
    "Knock",
    "Loudness",
    "Picture",
    "Spot",
    "Tone",
    "View",
    "changes_of",
    "evidence_from_plain",
    "examples_of",
    "with_film",
]

FORMAT = "gamutwright.film/1"


@dataclass(frozen=True, slots=True)
class Picture:
    """The frame.

    Parameters
    ----------
    width, height : int
        Size in pixels.
    frames : int
        How many there are.
    """

    width: int
    height: int
    frames: int


@dataclass(frozen=True, slots=True)
class Loudness:
    """The level of the whole.

    Parameters
    ----------
    target_lufs, tolerance_lu : float
        Integrated loudness, and how far it may be from there.
    ceiling_dbtp : float
        The highest true peak.
    """

    target_lufs: float
    tolerance_lu: float
    ceiling_dbtp: float


@dataclass(frozen=True, slots=True)
class Colour:
    """The colour of a role.

    Parameters
    ----------
    role : str
        The role.
    colour : str
        `#RRGGBB`.
    """

    role: str
    colour: str


@dataclass(frozen=True, slots=True)
class Change:
    """Where the picture changes.

    Parameters
    ----------
    frame : int
        The first frame that differs.
    moving : int
        How many frames show the change itself; 0 for a cut.
    """

    frame: int
    moving: int


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a frame.

    Parameters
    ----------
    name : str
        What the figure calls it.
    x, y, radius : float
        Where, in pixels.
    share : float in (0, 1]
        How much of it has the colour of what is being said when it is lit.
    """

    name: str
    x: float
    y: float
    radius: float
    share: float


@dataclass(frozen=True, slots=True)
class View:
    """What is lit in one frame.

    Parameters
    ----------
    frame : int
        Which.
    picture : str
        What the picture is about.
    lit, dark : tuple of int
        The places that have the colour of what is being said, and those that have not, as positions in the list of all
        places.
    """

    frame: int
    picture: str
    lit: tuple[int, ...]
    dark: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Tone:
    """A tone of an example.

    Parameters
    ----------
    start_tick, ticks : int
        When it begins in the film and how long it is held.
    freq_hz : float
        Its fundamental.
    label : str
        What a reader would call it; may be empty.
    part : str
        Who plays it.
    """

    start_tick: int
    ticks: int
    freq_hz: float
    label: str
    part: str = Part.TUNE.value


@dataclass(frozen=True, slots=True)
class Knock:
    """A stroke on a drum.

    Parameters
    ----------
    start_tick : int
        When it is heard in the film.
    drum : str
        What is struck.
    """

    start_tick: int
    drum: str


@dataclass(frozen=True, slots=True)
class Belonging:
    """What tones of an example may be from a tick on.

    Parameters
    ----------
    start_tick : int
        From when on.
    freqs_hz : tuple of float
        One of each pitch; octaves of it belong as well.
    """

    start_tick: int
    freqs_hz: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Example:
    """A sounded example.

    Parameters
    ----------
    key : str
        What is played.
    start_tick, ticks : int
        When, and how long.
    tones : tuple of Tone
        Its tones, by start.
    knocks : tuple of Knock
        Its strokes on drums, by start.
    belongings : tuple of Belonging
        What its tones may be, by start; empty where nothing is promised.
    """

    key: str
    start_tick: int
    ticks: int
    tones: tuple[Tone, ...]
    knocks: tuple[Knock, ...] = ()
    belongings: tuple[Belonging, ...] = ()

    @property
    def parts(self) -> tuple[str, ...]:
        """Who plays in it, from the top of a score to its bottom."""
        playing = {tone.part for tone in self.tones} | ({Part.DRUM.value} if self.knocks else set())
        return tuple(part.value for part in Part if part.value in playing)


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a film must show and sound.

    Parameters
    ----------
    format : str
        `FORMAT`.
    title, language : str
        What it is called and in which language it is spoken.
    ticks : int
        Its length.
    picture : Picture
        The frame.
    sample_rate, channels : int
        The sound.
    loudness : Loudness
        Its level.
    colours : tuple of Colour
        The colours of the roles.
    chapters : tuple of ChapterMark
        Where chapters begin.
    captions : tuple of Caption
        What is read along.
    changes : tuple of Change
        Where the picture changes.
    places : tuple of Spot
        All places that are lit at some time.
    views : tuple of View
        Which of them are lit, and when.
    unread : int
        In how many frames something is lit that is too thin to be read.
    examples : tuple of Example
        What is played.
    """

    format: str
    title: str
    language: str
    ticks: int
    picture: Picture
    sample_rate: int
    channels: int
    loudness: Loudness
    colours: tuple[Colour, ...]
    chapters: tuple[ChapterMark, ...]
    captions: tuple[Caption, ...]
    changes: tuple[Change, ...]
    places: tuple[Spot, ...]
    views: tuple[View, ...]
    unread: int
    examples: tuple[Example, ...]


def examples_of(timeline: Timeline, sounds: Mapping[str, Sound]) -> tuple[Example, ...]:
    """List what is played, tone by tone.

    Parameters
    ----------
    timeline : Timeline
        The film.
    sounds : mapping of str to Sound
        By the key of the clip.

    Returns
    -------
    tuple of Example
        By time.
    """
    return tuple(
        _example(clip, sounds[clip.key])
        for clip in sorted(timeline.clips, key=lambda clip: clip.start_tick)
        if clip.kind is ClipKind.SOUND and clip.key in sounds
    )


def _example(clip: Clip, sound: Sound) -> Example:
    start = clip.start_tick
    return Example(
        clip.key,
        start,
        clip.ticks,
        tuple(
            Tone(start + note.start_tick, note.duration_ticks, note.freq_hz, note.label, note.part.value)
            for note in sound.notes
        ),
        tuple(Knock(start + stroke.start_tick, stroke.drum.value) for stroke in sound.strokes),
        tuple(Belonging(start + gamut.tick, gamut.freqs_hz) for gamut in sound.gamuts),
    )


def changes_of(shots: Sequence[Shot], moving: Callable[[Shot, Shot], int]) -> tuple[Change, ...]:
    """List where the picture changes.

    Parameters
    ----------
    shots : sequence of Shot
        The shots of a film.
    moving : callable
        Says over how many frames one shot becomes the next.

    Returns
    -------
    tuple of Change
        By frame; shots that look alike give none.
    """
    found = []
    for before, shot in pairwise(shots):
        looks = [(each.figure, each.panel, each.kind, each.chapter, each.progress) for each in (before, shot)]
        if looks[0] != looks[1]:
            found.append(Change(shot.start_tick // FRAME_TICKS, moving(before, shot)))
    return tuple(found)


def with_film(ledger: Mapping[str, Plain], film: Evidence) -> dict[str, Plain]:
    """Add what a film must show and sound to a ledger, under the digest of the whole.

    Parameters
    ----------
    ledger : mapping
        The ledger of the script.
    film : Evidence
        The evidence.

    Returns
    -------
    dict
        The ledger with `film`, and its digest made anew.

    Examples
    --------
    >>> film = Evidence(FORMAT, "A", "en", 0, Picture(16, 9, 0), 48000, 2, Loudness(-16, 1, -1), (), (), (), (), (),
    ...                 (), 0, ())
    >>> sorted(with_film({"format": "gamutwright.ledger/1", "digest": "old"}, film))
    ['digest', 'film', 'format']
    """
    body = {key: value for key, value in ledger.items() if key != "digest"} | {"film": to_plain(film)}
    return {**body, "digest": digest(body)}


def evidence_from_plain(plain: object) -> Evidence:
    """Read evidence from plain data.

    Parameters
    ----------
    plain : object
        What JSON gave.

    Returns
    -------
    Evidence
        The record.

    Raises
    ------
    InputError
        If something is missing, of another kind, or unknown; the value says where.
    """
    if isinstance(plain, dict) and plain.get("format") != FORMAT:
        raise InputError(
            f"format {plain.get('format')!r}", f"the film part of a ledger has the format {FORMAT!r}", _AGAIN
        )
    found: Evidence = _read(plain, Evidence, "film")
    _check(found)
    return found


_AGAIN = "Give the ledger that was written beside the film."


def _read(plain: typing.Any, kind: typing.Any, place: str) -> typing.Any:  # noqa: ANN401 - any field's type
    if is_dataclass(kind):
        hints = typing.get_type_hints(kind)
        wanted = {field.name for field in fields(kind) if field.default is MISSING}
        if not isinstance(plain, dict) or not wanted <= set(plain) <= set(hints):
            raise InputError(place, f"it has the entries {', '.join(sorted(hints))}", _AGAIN)
        return kind(**{key: _read(value, hints[key], f"{place}.{key}") for key, value in plain.items()})  # type: ignore[operator] # a dataclass
    if typing.get_origin(kind) is tuple:
        if not isinstance(plain, list):
            raise InputError(place, "it is a list", _AGAIN)
        inner = typing.get_args(kind)[0]
        return tuple(_read(value, inner, f"{place}[{index}]") for index, value in enumerate(plain))
    allowed: tuple[type, ...] = (int, float) if kind is float else (kind,)
    if not isinstance(plain, allowed) or (isinstance(plain, bool) and kind is not bool):
        raise InputError(f"{place}: {str(plain)[:40]!r}", f"it is a {kind.__name__}", _AGAIN)
    return plain


def _check(film: Evidence) -> None:
    """Refuse numbers that no film has, so that nothing that reads them needs to fear them."""
    most = 24 * 3600 * TICKS_PER_SECOND
    sizes = film.picture
    moments = [
        *(mark.start_tick for mark in film.chapters),
        *(tick for caption in film.captions for tick in (caption.start_tick, caption.end_tick)),
        *(change.frame * FRAME_TICKS for change in film.changes),
        *(view.frame * FRAME_TICKS for view in film.views),
        *(tick for example in film.examples for tick in (example.start_tick, example.ticks)),
        *(tick for example in film.examples for tone in example.tones for tick in (tone.start_tick, tone.ticks)),
        *(knock.start_tick for example in film.examples for knock in example.knocks),
        *(one.start_tick for example in film.examples for one in example.belongings),
    ]
    spots = film.places
    numbers = [number for view in film.views for number in (*view.lit, *view.dark)]
    tones = [tone for example in film.examples for tone in example.tones]
    belonging = [freq for example in film.examples for one in example.belongings for freq in one.freqs_hz]
    colours = [colour.colour for colour in film.colours]
    good = (
        0 < film.ticks <= most
        and 16 <= min(sizes.width, sizes.height) <= max(sizes.width, sizes.height) <= 16_384
        and all(0 <= moment <= film.ticks for moment in moments)
        and all(0 <= spot.x < sizes.width and 0 <= spot.y < sizes.height for spot in spots)
        and all(0 < spot.radius <= 1000 and 0 < spot.share <= 1 for spot in spots)
        and all(0 <= number < len(spots) for number in numbers)
        and all(20 <= tone.freq_hz <= 8000 for tone in tones)
        and {tone.part for tone in tones} <= {part.value for part in Part} - {Part.DRUM.value}
        and {knock.drum for example in film.examples for knock in example.knocks} <= {drum.value for drum in Drum}
        and all(20 <= freq <= 8000 for freq in belonging)
        and all(len(text) == 7 and not set(text[1:].lower()) - set("0123456789abcdef") for text in colours)
        and {str(Role.NOW), str(Role.GROUND)} <= {colour.role for colour in film.colours}
        and -70 < film.loudness.target_lufs < 0
    )
    if not good:
        raise InputError("the film part of the ledger", "its numbers are not those of a film", _AGAIN)
