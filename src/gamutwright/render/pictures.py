"""The picture track, shot by shot: drawn once, encoded once, as packets that can be laid out for any length.

Most of a lesson is pictures that hold. A held picture is one IDR picture, and then pictures in which every macroblock
is skipped; these are the same for every picture, but for the number in their header. So one of them is encoded once,
and is laid out with the numbers that follow for as long as a picture holds. What a shot encodes to depends on what it
shows and not on how long: a corrected sentence moves shots in time and leaves their packets alone.

Conventions: H.264 High, yuv420p, BT.709 in limited range, 30 frames a second, no B pictures, one slice a picture. Every
group is closed and begun by an IDR picture. The quantizer is constant and finer for IDR pictures, because a rate
control mends a held picture bit by bit and starts rough with each group, which is seen as a pulse. Packets are in Annex
B form with parameter sets before each IDR picture. The loop filter is off: drawings have thin lines, which it blurs a
little more with every picture of a change, to be seen when the next group begins.

References: ITU-T H.264 (08/2021), 7.3.3 (slice header: first_mb_in_slice, slice_type, pic_parameter_set_id, frame_num)
and 7.4.3 (frame_num counts reference pictures modulo MaxFrameNum); from memory.
"""

from __future__ import annotations

import functools
import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import numpy as np

from gamutwright.errors import DomainError
from gamutwright.ir.timeline import ChapterMark, Shot, Timeline
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.store import Parcel
from gamutwright.render.frames import FramePainter, Run, runs_of
from gamutwright.render.raster import frame_to_png

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["FRAMES_A_SECOND", "FilmStyle", "extended", "laid_out", "picture_jobs", "poster_job"]

FRAMES_A_SECOND = 30
GROUP = 30
"""Pictures in a group of a held picture: one second, for seeking."""
FRAME_NUMBERS = 16
"""MaxFrameNum as x264 chooses it for streams without B pictures."""
_NUMBER_BIT = 7
"""Where frame_num begins in a P slice's header: after first_mb_in_slice 0, slice_type 5, pic_parameter_set_id 0."""
_HEADER = 0b1_00110_1
SETTLING = 3
"""How often the picture that a change ends with is encoded: it gets sharper twice, and then rests."""


@dataclass(frozen=True, slots=True)
class FilmStyle:
    """How a film is drawn and encoded.

    Parameters
    ----------
    width, height : int
        Size in pixels.
    theme : str
        Name of the theme.
    quantizer : int
        x264's quantizer; smaller is better.
    preset : str
        x264's speed.
    stamp : str
        Words across every frame of a draft; "" for none.
    """

    width: int = 1920
    height: int = 1080
    theme: str = "night"
    quantizer: int = 20
    preset: str = "superfast"
    stamp: str = ""


def picture_jobs(timeline: Timeline, style: FilmStyle) -> tuple[tuple[Job, int], ...]:
    """Say what has to be encoded, and for how many frames each of it is shown.

    Parameters
    ----------
    timeline : Timeline
        The film.
    style : FilmStyle
        How it is drawn and encoded.

    Returns
    -------
    tuple of (Job, int)
        One for each shot, in order; `laid_out` turns a result into that many packets.
    """
    slim = _slim(timeline)
    seen: dict[int, str] = {}
    common = f"{sources_digest('ir', 'render', 'codec.py')}{_libraries()}{slim!r}{style!r}"
    jobs = []
    for runs in _shots_of(timeline):
        # Only the last run tells how long; the job must not know.
        work = [*runs[:-1], replace(runs[-1], count=GROUP)]
        content = "".join(f"{run.count}{run.share}{_digest(run.shot, seen)}{_digest(run.before, seen)}" for run in work)
        key = hashlib.sha256(f"picture{common}{content}".encode()).hexdigest()
        shots = [replace(run, shot=_timeless(run.shot), before=run.before and _timeless(run.before)) for run in work]
        jobs.append((Job(key, _encoded, (shots, slim, style), 0.05 + 0.014 * (len(runs) - 1)), _frames(runs)))
    return tuple(jobs)


def poster_job(timeline: Timeline, style: FilmStyle) -> Job:
    """Say what draws the still that stands for the film.

    Parameters
    ----------
    timeline : Timeline
        The film, whose first shot is shown.
    style : FilmStyle
        How it is drawn.

    Returns
    -------
    Job
        Its result has one blob, a PNG file.
    """
    slim, shot = _slim(timeline), _timeless(timeline.shots[0])
    content = f"poster{sources_digest('ir', 'render', 'codec.py')}{_libraries()}{slim!r}{style!r}{shot!r}"
    return Job(hashlib.sha256(content.encode()).hexdigest(), _poster, (Run(1, shot), slim, style), 0.15)


def laid_out(parcel: Parcel, count: int) -> Iterator[bytes]:
    """Give the packets of a shot for a length.

    Parameters
    ----------
    parcel : Parcel
        Result of a picture job: the packets of its change, if it has one, the held picture, and one that changes
        nothing.
    count : int
        Frames.

    Yields
    ------
    bytes
        One packet for each frame.
    """
    *change, held, still = parcel.blobs
    left = count
    if change:
        # The picture is held at first by going on with the change: a new group beginning just then would be seen.
        length = min(left, len(change) + GROUP)
        yield from extended(change, still, length)
        left -= length
    while left:
        # A rest of one frame joins the group before it, so that no two IDR pictures meet.
        length = left if left <= GROUP + 1 else GROUP
        yield from extended([held], still, length)
        left -= length


def extended(group: Sequence[bytes], still: bytes, count: int) -> Iterator[bytes]:
    """Lay out a closed group for any number of pictures.

    Parameters
    ----------
    group : sequence of bytes
        An IDR picture, and P pictures.
    still : bytes
        A P picture that changes nothing.
    count : int
        How many pictures.

    Yields
    ------
    bytes
        The packets of the group, then the still one again and again with the number that follows.
    """
    yield from group[:count]
    for number in range(len(group), count):
        yield _renumbered(still, number)


def _renumbered(packet: bytes, number: int) -> bytes:
    """Write another frame_num into the header of a P slice of one slice a picture."""
    start = 5 if packet.startswith(b"\0\0\0\1") else 4
    head = int.from_bytes(packet[start : start + 2], "big")
    if head >> (16 - _NUMBER_BIT) != _HEADER or packet[start - 1] & 0x1F != 1:
        raise DomainError(
            f"a picture that begins with {packet[:8].hex()}",
            "it is not laid out as the encoder is asked to",
            "This is a mistake in the program, or another encoder; please report it.",
        )
    shift = 16 - _NUMBER_BIT - 4
    head = head & ~(0xF << shift) | (number % FRAME_NUMBERS) << shift
    return packet[:start] + head.to_bytes(2, "big") + packet[start + 2 :]


def _frames(runs: list[Run]) -> int:
    return sum(run.count for run in runs)


def _shots_of(timeline: Timeline) -> Iterator[list[Run]]:
    """Gather the runs of each shot."""
    shot_runs: list[Run] = []
    for run in runs_of(timeline):
        shot_runs.append(run)
        if run.before is None:
            yield shot_runs
            shot_runs = []


def _slim(timeline: Timeline) -> Timeline:
    """Keep of a timeline what a frame needs, without any times."""
    chapters = tuple(ChapterMark(0, mark.title) for mark in timeline.chapters)
    return replace(timeline, ticks=0, shots=(), clips=(), captions=(), lines=(), chapters=chapters)


def _timeless(shot: Shot) -> Shot:
    return replace(shot, start_tick=0, end_tick=0)


def _digest(shot: Shot | None, seen: dict[int, str]) -> str:
    """Digest what a shot shows; the figures of a lesson recur, so each is written out once."""
    if shot is None:
        return ""
    if id(shot) not in seen:
        seen[id(shot)] = hashlib.sha256(repr(_timeless(shot)).encode()).hexdigest()
    return seen[id(shot)]


def _libraries() -> str:
    from importlib import metadata  # noqa: PLC0415 - only to name versions

    return " ".join(f"{name} {metadata.version(name)}" for name in ("av", "skia-python", "verovio"))


def _poster(work: tuple[Run, Timeline, FilmStyle]) -> Parcel:
    run, timeline, style = work
    return Parcel(None, (frame_to_png(_painter(timeline, style).paint(run)),))


def _painter(timeline: Timeline, style: FilmStyle) -> FramePainter:
    return FramePainter(timeline, style.width, style.height, style.theme, style.stamp)


def _encoded(work: tuple[list[Run], Timeline, FilmStyle]) -> Parcel:
    """Encode a shot: its change up to the held picture, the held picture by itself, and one that changes nothing."""
    runs, timeline, style = work
    painter = _painter(timeline, style)
    held = _frame(painter.paint(runs[-1]))
    change: list[bytes] = []
    if len(runs) > 1:
        moving = (_frame(painter.paint(run)) for run in runs[:-1])
        change = _group([*moving, *[held] * SETTLING], style)
    return Parcel(None, (*change, *_group([held], style), _still(style)))


def _group(frames: Sequence[Any], style: FilmStyle) -> list[bytes]:
    """Encode one closed group, a packet for each frame."""
    codec = _encoder(style)
    packets: list[bytes] = []
    for number, frame in enumerate(frames):
        frame.pts = number
        packets += (bytes(packet) for packet in codec.encode(frame))
    if len(packets) != len(frames):
        raise DomainError(
            f"{len(packets)} packets for {len(frames)} frames",
            "the encoder gives one for each as it comes",
            "This is another encoder than the one that was tried; please report the version of PyAV.",
        )
    return packets


@functools.cache
def _still(style: FilmStyle) -> bytes:
    """Encode a picture that changes nothing: every macroblock of it is skipped, whatever was there before."""
    greys = [_frame(np.full((style.height, style.width, 4), level, dtype=np.uint8)) for level in (60, 128)]
    one, other = (_group([grey, grey], style)[1] for grey in greys)
    if one != other:
        raise DomainError(
            "a picture that should change nothing",
            "it depends on the one before it",
            "This is another encoder than the one that was tried; please report the version of PyAV.",
        )
    return one


def _frame(pixels: NDArray[np.uint8]) -> Any:  # noqa: ANN401 - the library's own type
    import av  # noqa: PLC0415 - a large library that only films need

    return av.VideoFrame.from_numpy_buffer(np.ascontiguousarray(pixels), format="rgba").reformat(
        format="yuv420p", dst_colorspace=1, src_color_range=2, dst_color_range=1, interpolation="AREA"
    )


def _encoder(style: FilmStyle) -> Any:  # noqa: ANN401 - as above
    import av  # noqa: PLC0415 - as above

    codec = av.CodecContext.create("libx264", "w")
    codec.width, codec.height, codec.pix_fmt = style.width, style.height, "yuv420p"
    codec.time_base, codec.framerate = Fraction(1, FRAMES_A_SECOND), Fraction(FRAMES_A_SECOND)
    codec.color_range, codec.color_primaries, codec.color_trc, codec.colorspace = 1, 1, 1, 1
    codec.options = {
        "qp": str(style.quantizer),
        "preset": style.preset,
        "profile": "high",
        # One packet for each frame as it is given: whether a picture still changes is known at once.
        "tune": "zerolatency",
        "x264-params": "keyint=600:min-keyint=600:bframes=0:scenecut=0:open-gop=0:stitchable=1:threads=1:"
        "sliced-threads=0:no-deblock=1:repeat-headers=1:ipratio=2:"
        "colorprim=bt709:transfer=bt709:colormatrix=bt709:range=tv",
    }
    return codec
