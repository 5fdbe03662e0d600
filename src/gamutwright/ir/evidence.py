"""What a finished film must show and sound, as plain data that a verifier compares it with.

Made from a timeline before anything is encoded, kept in the ledger, and read back without any knowledge of how the film
was made. Places are called lit where the picture shows the role of what is being said; whether they are is taken from
the figure by geometry (`ir.covering`), not from pixels.

**Conventions.** Ticks as in `ir.timeline`; frames are counted from 0; places are pixels of the frame. A place is named
by the figure; it is read on the ring between half its radius and nine tenths of it, so that a number in it does not
matter. A view is a frame well inside a shot, behind its change.
"""

from __future__ import annotations

import math
import typing
from collections.abc import Callable, Mapping, Sequence
from dataclasses import MISSING, dataclass, fields, is_dataclass
from itertools import pairwise

from gamutwright.codec import Plain, digest, to_plain
from gamutwright.errors import InputError
from gamutwright.ir.covering import Cover, share_of_role
from gamutwright.ir.figure import Arc, Dot, Figure, Group, Part, Path, Role, Shape
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, Caption, ChapterMark, ClipKind, Shot, Timeline

__all__ = [
    "FORMAT",
    "Change",
    "Colour",
    "Evidence",
    "Example",
    "Loudness",
    "Picture",
    "Spot",
    "Tone",
    "View",
    "changes_of",
    "evidence_from_plain",
    "examples_of",
    "views_of",
    "with_film",
]

FORMAT = "gamutwright.film/1"
SETTLED_FRAMES = 4
"""How far behind the end of a change a picture is read."""
LARGEST_SPOT = 23.0
CLEAR_SHARE = 0.25
"""A place is only promised where at least this share of it changes colour."""


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
        How many frames show the picture on its way; 0 where it does not move.
    is_cut : bool
        Whether something, such as the words beside it, changes at once all the same.
    """

    frame: int
    moving: int
    is_cut: bool


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a frame.

    Parameters
    ----------
    name : str
        What the figure calls it.
    x, y, radius : float
        Where, in pixels.
    is_lit : bool
        Whether it has the colour of what is being said.
    share : float in (0, 1]
        How much of it has that colour when it is lit.
    """

    name: str
    x: float
    y: float
    radius: float
    is_lit: bool
    share: float


@dataclass(frozen=True, slots=True)
class View:
    """Places in one frame.

    Parameters
    ----------
    frame : int
        Which.
    picture : str
        What the picture is about.
    spots : tuple of Spot
        Its places.
    """

    frame: int
    picture: str
    spots: tuple[Spot, ...]


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
    """

    start_tick: int
    ticks: int
    freq_hz: float
    label: str


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
    """

    key: str
    start_tick: int
    ticks: int
    tones: tuple[Tone, ...]


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
    views : tuple of View
        Which places are lit, and when.
    unmarked : int
        How many places are pointed at without a mark of their own that could be read.
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
    views: tuple[View, ...]
    unmarked: int
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
        Example(
            clip.key,
            clip.start_tick,
            clip.ticks,
            tuple(
                Tone(clip.start_tick + note.start_tick, note.duration_ticks, note.freq_hz, note.label)
                for note in sounds[clip.key].notes
            ),
        )
        for clip in sorted(timeline.clips, key=lambda clip: clip.start_tick)
        if clip.kind is ClipKind.SOUND and clip.key in sounds
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
        if (before.figure, before.panel, before.kind, before.chapter) != (
            shot.figure,
            shot.panel,
            shot.kind,
            shot.chapter,
        ):
            frames = moving(before, shot)
            is_cut = not frames or before.panel != shot.panel
            found.append(Change(shot.start_tick // FRAME_TICKS, frames, is_cut))
    return tuple(found)


def views_of(
    shots: Sequence[Shot],
    moving: Callable[[Shot, Shot], int],
    placed: Callable[[Figure], tuple[float, float, float]],
    lit_roles: frozenset[Role] = frozenset({Role.NOW}),
) -> tuple[tuple[View, ...], int]:
    """Say which places are lit in which frames.

    Parameters
    ----------
    shots : sequence of Shot
        The shots, their figures without engravings.
    moving : callable
        As for `changes_of`.
    placed : callable
        Gives pixels a unit of a figure, and the pixel of its left upper corner.
    lit_roles : frozenset of Role
        The roles with the colour of what is being said.

    Returns
    -------
    tuple of View
        By frame.
    int
        How many places have no mark of their own.
    """
    covers: dict[int, Cover] = {}
    groups: dict[tuple[str, str], list[Figure]] = {}
    for shot in shots:
        if shot.figure is not None and id(shot.figure) not in covers:
            covers[id(shot.figure)] = Cover(shot.figure)
            groups.setdefault((shot.drawing, shot.figure.title), []).append(shot.figure)
    marks = {key: _marks(figures, covers, lit_roles) for key, figures in groups.items()}
    views = []
    for index, shot in enumerate(shots):
        if shot.figure is None:
            continue
        found, _ = marks[shot.drawing, shot.figure.title]
        change = moving(shots[index - 1], shot) if index else 0
        held = (shot.end_tick - shot.start_tick) // FRAME_TICKS - change
        spots = _spots(found, covers[id(shot.figure)], placed(shot.figure), lit_roles)
        if spots:
            frame = shot.start_tick // FRAME_TICKS + change + min(SETTLED_FRAMES, held // 2)
            views.append(View(frame, shot.figure.title, spots))
    return tuple(views), sum(unread for _, unread in marks.values())


_Disc = tuple[float, float, float]


def _marks(
    figures: list[Figure], covers: dict[int, Cover], roles: frozenset[Role]
) -> tuple[list[tuple[str, _Disc, float]], int]:
    """Find for every place that is pointed at a disc that is lit in one state of the picture and not in another."""
    names = dict.fromkeys(part.name for figure in figures for part in figure.parts if part.name.startswith("witness "))
    found, unread = [], 0
    for name in names:
        discs = dict.fromkeys(disc for figure in figures for disc in _discs(figure, name))
        best: tuple[float, _Disc, float] = (0.0, (0, 0, 0), 0.0)
        for disc in discs:
            shares = [share_of_role(covers[id(figure)], *disc, roles) for figure in figures]
            rise = max(shares) - (min(shares) if len(shares) > 1 else 0.0)
            best = max(best, (rise, disc, max(shares)), key=lambda item: item[0])
        if best[0] >= CLEAR_SHARE:
            found.append((name, best[1], best[2]))
        else:
            unread += 1
    return found, unread


def _discs(figure: Figure, name: str) -> list[_Disc]:
    """List discs in which a place might show: its part, and points on the marks that carry its number."""
    found = [_part_disc(part) for part in figure.parts if part.name == name]
    number = name.removeprefix("witness ")
    for shape in _flat(figure.shapes):
        if shape.name == f"mark {number}":
            found += _shape_discs(shape)
    return found


def _part_disc(part: Part) -> _Disc:
    return part.x, part.y, min(part.radius, LARGEST_SPOT)


def _flat(shapes: tuple[Shape, ...]) -> list[Shape]:
    return [inner for shape in shapes for inner in (_flat(shape.shapes) if isinstance(shape, Group) else [shape])]


def _shape_discs(shape: Shape) -> list[_Disc]:
    match shape:
        case Dot():
            return [(shape.x, shape.y, min(shape.radius, LARGEST_SPOT))]
        case Arc():
            middle = _on_circle(shape, shape.start + shape.sweep / 2)
            return [(*middle, min(shape.stroke.width / 2, LARGEST_SPOT))]
        case Path() if shape.stroke is not None and set(shape.verbs) <= set("MLZ"):
            points = list(zip(shape.numbers[::2], shape.numbers[1::2], strict=True))
            width = shape.stroke.width / 2
            found = [
                (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, width)
                for a, b in pairwise(points)
                for share in (0.5, 0.3, 0.7)
            ]
            middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
            return [(*middle, LARGEST_SPOT / 2), *found] if shape.fill else found
        case _:
            return []


def _on_circle(arc: Arc, degrees: float) -> tuple[float, float]:
    turn = math.radians(degrees)
    return arc.x + arc.radius * math.sin(turn), arc.y - arc.radius * math.cos(turn)


def _spots(
    marks: list[tuple[str, _Disc, float]],
    cover: Cover,
    placed: tuple[float, float, float],
    roles: frozenset[Role],
) -> tuple[Spot, ...]:
    scale, left, top = placed
    found = []
    # Where several places share a disc, it is lit for all of them at once.
    for (x, y, radius), (name, most) in reversed({disc: (name, most) for name, disc, most in reversed(marks)}.items()):
        share = share_of_role(cover, x, y, radius, roles)
        # Between the two another mark touches the place, and its colour would prove nothing.
        if share >= 0.75 * most or share <= 0.15 * most:
            pixels = (round(left + scale * x, 2), round(top + scale * y, 2), round(scale * radius, 2))
            found.append(Spot(name, *pixels, share >= 0.75 * most, round(most, 3)))
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
    >>> film = Evidence(FORMAT, "A", "en", 0, Picture(16, 9, 0), 48000, 2, Loudness(-16, 1, -1), (), (), (), (), (), 0,
    ...                 ())
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
    ]
    spots = [spot for view in film.views for spot in view.spots]
    tones = [tone for example in film.examples for tone in example.tones]
    colours = [colour.colour for colour in film.colours]
    good = (
        0 < film.ticks <= most
        and 16 <= min(sizes.width, sizes.height) <= max(sizes.width, sizes.height) <= 16_384
        and all(0 <= moment <= film.ticks for moment in moments)
        and all(0 <= spot.x < sizes.width and 0 <= spot.y < sizes.height for spot in spots)
        and all(0 < spot.radius <= 1000 and 0 < spot.share <= 1 for spot in spots)
        and all(20 <= tone.freq_hz <= 8000 for tone in tones)
        and all(len(text) == 7 and not set(text[1:].lower()) - set("0123456789abcdef") for text in colours)
        and {str(Role.NOW), str(Role.GROUND)} <= {colour.role for colour in film.colours}
        and -70 < film.loudness.target_lufs < 0
    )
    if not good:
        raise InputError("the film part of the ledger", "its numbers are not those of a film", _AGAIN)
