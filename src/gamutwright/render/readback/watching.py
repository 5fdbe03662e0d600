"""One pass over the pictures of a film: every frame seen, no group of frames decoded twice.

A group begins with an IDR picture, behind which nothing that came before is used; so what a group shows follows from
its bytes alone. Held pictures are often written as the same group again and again: such a group is decoded once,
however the film was made, and counts as often as it stands there. Groups do not depend on each other and are decoded
on all cores, in order, a few ahead.

Conventions: frames are counted from 0. Luminance is relative luminance as WCAG 2.2 defines it (0 black, 1 white), in
blocks of a grid that has 64 columns in a wide frame and 64 rows in a tall one; red is the share of saturated red of
the same definition. Memory does not grow with the length of the film but for one number a frame.
"""

from __future__ import annotations

import hashlib
import os
import threading
from collections import OrderedDict, deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import av
import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import FileError
from gamutwright.ir.evidence import Spot
from gamutwright.render.readback.container import open_film

__all__ = ["LONGEST_GROUP", "Group", "Seen", "watch"]

LONGEST_GROUP = 300
"""More frames without a fresh start make a film that cannot be sought in, and are not taken."""
_KEPT_GROUPS = 6
_LINEAR = np.array([v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in np.arange(256) / 255])
# Limited range: 16 is black, 235 white (ITU-R BT.709). A grey of that code has this luminance.
_GREY = np.interp((np.arange(256) - 16) / 219, np.arange(256) / 255, _LINEAR).astype(np.float32)


@dataclass(frozen=True, slots=True)
class Group:
    """Frames that were decoded together.

    Parameters
    ----------
    first : int
        Number of the first frame.
    luminance : array (frames, rows, columns) float32
        Of blocks.
    red : array (frames, rows, columns) float32
        How red blocks are, in (R - G - B) x 320, where red makes up four fifths; 0 elsewhere.
    spots : dict of int to tuple of float
        For frames that were asked for: how much of each spot has the colour looked for.
    """

    first: int
    luminance: NDArray[np.float32]
    red: NDArray[np.float32]
    spots: dict[int, tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class Seen:
    """How many frames there were, and whether their times are even.

    Parameters
    ----------
    frames : int
        How many.
    is_even : bool
        Whether every frame lasts as long as the first and there is none out of order.
    decoded : int
        How many of them had to be decoded.
    """

    frames: int
    is_even: bool
    decoded: int


@dataclass(slots=True)
class _Clock:
    """Notices frames that come too late, too early or twice."""

    step: int = 0
    is_even: bool = True

    def add(self, packets: _Packets) -> None:
        times = sorted(packet.pts if packet.pts is not None else -1 for packet in packets.packets)
        self.step = self.step or int(packets.packets[0].duration or 0) or (times[1] - times[0] if len(times) > 1 else 1)
        first = packets.first * self.step
        if times != list(range(first, first + self.step * len(times), self.step)):
            self.is_even = False


@dataclass(slots=True)
class _Packets:
    first: int
    packets: list[av.Packet[Any]] = field(default_factory=list)

    def digest(self) -> bytes:
        found = hashlib.blake2b(digest_size=16)
        for packet in self.packets:
            found.update(len(bytes(packet)).to_bytes(4, "big"))
            found.update(bytes(packet))
        return found.digest()


def _is_idr(packet: av.Packet[Any], length_size: int) -> bool:
    """Say whether a packet holds an IDR picture: a unit of type 5 (ITU-T H.264, 7.4.1, from memory)."""
    data, at = bytes(packet), 0
    while at + length_size < len(data):
        size = int.from_bytes(data[at : at + length_size], "big")
        if data[at + length_size] & 31 == 5:
            return True
        at += length_size + size
    return False


class _Reader:
    """Decodes groups and looks at their frames; each thread has a decoder of its own."""

    def __init__(self, stream: Any, colours: Sequence[tuple[int, int, int]], wanted: int) -> None:  # noqa: ANN401 - the library's own type
        self._name, self._extra = stream.codec_context.name, stream.codec_context.extradata
        self._colours, self._wanted = np.array(colours, dtype=np.float32), wanted
        self._own = threading.local()
        self.decoded = 0

    def look(self, group: _Packets, views: Mapping[int, tuple[Spot, ...]]) -> Group:
        decoder = getattr(self._own, "decoder", None)
        if decoder is None:
            decoder = self._own.decoder = av.CodecContext.create(self._name, "r")
            decoder.extradata, decoder.thread_count = self._extra, 1
        luminance: list[NDArray[np.float32]] = []
        red: list[NDArray[np.float32]] = []
        spots: dict[int, tuple[float, ...]] = {}
        last: _Thin | None = None
        for packet in [*group.packets, None]:
            for frame in decoder.decode(packet):
                number = group.first + len(luminance)
                planes = _planes(frame)
                thin = _thinned(planes)
                if last is not None and all(np.array_equal(*pair) for pair in zip(thin, last, strict=True)):
                    luminance.append(luminance[-1])
                    red.append(red[-1])
                else:
                    luminance.append(_blocks(thin))
                    red.append(_red(thin))
                last = thin
                if number in views:
                    spots[number] = tuple(self._share(planes, spot) for spot in views[number])
        decoder.flush_buffers()
        if len(luminance) != len(group.packets):
            return Group(group.first, np.zeros((0, 1, 1), np.float32), np.zeros((0, 1, 1), np.float32), {})
        return Group(group.first, np.stack(luminance), np.stack(red), spots)

    def _share(self, planes: _Planes, spot: Spot) -> float:
        """Say how much of the ring of a spot is nearer to the colour looked for than to any other."""
        bright, blue, red = planes
        reach = spot.radius
        rows = np.arange(max(0, int(spot.y - reach)), min(bright.shape[0], int(spot.y + reach) + 2))
        columns = np.arange(max(0, int(spot.x - reach)), min(bright.shape[1], int(spot.x + reach) + 2))
        far = np.hypot(rows[:, None] + 0.5 - spot.y, columns[None, :] + 0.5 - spot.x)
        # In a small mark the middle is all there is.
        inner = 0.5 * reach if reach >= 6 else 0.0
        down, across = np.nonzero((far <= max(0.9 * reach, 0.8)) & (far >= inner))
        y, x = rows[down], columns[across]
        if not len(y):
            return 0.0
        half_y, half_x = np.minimum(y // 2, blue.shape[0] - 1), np.minimum(x // 2, blue.shape[1] - 1)
        pixels = _to_rgb(bright[y, x], blue[half_y, half_x], red[half_y, half_x])
        apart = ((pixels[:, None, :] - self._colours[None, :, :]) ** 2).sum(axis=2)
        return float((apart.argmin(axis=1) == self._wanted).mean())


_Planes = tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]


def _planes(frame: av.VideoFrame) -> _Planes:
    if frame.format.name not in {"yuv420p", "yuvj420p"}:
        frame = frame.reformat(format="yuv420p")
    found = []
    for plane in frame.planes[:3]:
        rows = np.frombuffer(memoryview(plane), np.uint8)[: plane.line_size * plane.height].reshape(
            plane.height, plane.line_size
        )
        found.append(rows[:, : plane.width])
    return found[0], found[1], found[2]


def _to_rgb(bright: NDArray[Any], blue: NDArray[Any], red: NDArray[Any]) -> NDArray[np.float32]:
    """Turn codes of limited range into red, green and blue from 0 to 255 (ITU-R BT.709)."""
    luma = (bright.astype(np.float32) - 16) * (255 / 219)
    cb, cr = (plane.astype(np.float32) - 128 for plane in (blue, red))
    scale = 255 / 224
    rgb = np.stack(
        [luma + 1.5748 * scale * cr, luma - (0.1873 * cb + 0.4681 * cr) * scale, luma + 1.8556 * scale * cb], -1
    )
    clipped: NDArray[np.float32] = np.clip(rgb, 0, 255)
    return clipped


_Thin = tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]


def _thinned(planes: _Planes) -> _Thin:
    """Keep about ten pixels of brightness for each block of the grid either way, and half as many of colour."""
    columns, rows = _grid(planes[0])
    step = max(1, min(planes[0].shape[1] // columns, planes[0].shape[0] // rows) // 10)
    bright, blue, red = (np.ascontiguousarray(plane[::step, ::step]) for plane in planes)
    return bright, blue, red


def _means(plane: NDArray[Any], columns: int, rows: int) -> NDArray[np.float32]:
    """Average over a grid. No matrix product: those would spread over threads that are busy with other groups."""
    down, across = (
        np.arange(count) * length // count for length, count in zip(plane.shape, (rows, columns), strict=True)
    )
    sums = np.add.reduceat(np.add.reduceat(plane, across, axis=1, dtype=np.float32), down, axis=0)
    counts = np.outer(np.diff([*down, plane.shape[0]]), np.diff([*across, plane.shape[1]]))
    means: NDArray[np.float32] = (sums / counts).astype(np.float32)
    return means


def _grid(plane: NDArray[Any]) -> tuple[int, int]:
    return (64, 36) if plane.shape[1] >= plane.shape[0] else (36, 64)


def _blocks(thin: _Thin) -> NDArray[np.float32]:
    return _means(_GREY[thin[0]], *_grid(thin[0]))


def _red(thin: _Thin) -> NDArray[np.float32]:
    rgb = _to_rgb(*(_means(plane, *_grid(thin[0])) for plane in thin))
    linear = _LINEAR[rgb.astype(np.uint8)]
    total = linear.sum(axis=-1)
    excess = (linear[..., 0] - linear[..., 1] - linear[..., 2]).clip(0) * 320
    found: NDArray[np.float32] = np.where(linear[..., 0] >= 0.8 * total, excess, 0).astype(np.float32)
    return found


def _groups(path: Path, film: Any, stream: Any, clock: _Clock) -> Iterator[_Packets]:  # noqa: ANN401 - the library's own types
    """Gather the packets from one fresh start to the next."""
    extra = stream.codec_context.extradata or b""
    length_size = (extra[4] & 3) + 1 if len(extra) > 4 and extra[0] == 1 else 4
    is_h264 = stream.codec_context.name == "h264"
    group, count = _Packets(0), 0
    for packet in film.demux(stream):
        if not packet.size:
            continue
        if group.packets and packet.is_keyframe and (not is_h264 or _is_idr(packet, length_size)):
            clock.add(group)
            yield group
            group = _Packets(count)
        group.packets.append(packet)
        count += 1
        if len(group.packets) > LONGEST_GROUP:
            raise FileError(
                str(path),
                f"no picture of the {LONGEST_GROUP} behind frame {group.first} can be shown without those before it",
                "Render it again: players could not seek in it.",
            )
    if group.packets:
        clock.add(group)
        yield group


def _looked_at(groups: Iterator[_Packets], reader: _Reader, views: Mapping[int, tuple[Spot, ...]]) -> Iterator[Group]:
    """Look at groups on all cores, in order; what has the bytes of one just seen is not decoded again."""
    workers = os.cpu_count() or 1
    known: OrderedDict[bytes, Future[Group]] = OrderedDict()
    waiting: deque[tuple[int, Future[Group]]] = deque()
    with ThreadPoolExecutor(workers) as pool:
        for group in groups:
            wanted = range(group.first, group.first + len(group.packets))
            inside = {number: views[number] for number in wanted if number in views}
            key = group.digest()
            if inside or key not in known:
                known[key] = pool.submit(reader.look, group, inside)
                reader.decoded += len(group.packets)
            known.move_to_end(key)
            waiting.append((group.first, known[key]))
            if len(known) > _KEPT_GROUPS + 2 * workers:
                known.popitem(last=False)
            if len(waiting) > 2 * workers:
                yield _at(*waiting.popleft())
        while waiting:
            yield _at(*waiting.popleft())


def _at(first: int, looked: Future[Group]) -> Group:
    group = looked.result()
    return group if group.first == first else replace(group, first=first, spots={})


def watch(
    path: Path,
    views: Mapping[int, tuple[Spot, ...]],
    colours: Sequence[tuple[int, int, int]],
    wanted: int,
    see: Callable[[Group], None],
    progress: Callable[[int, int], None] | None = None,
) -> Seen:
    """Look at every frame of a film, in order.

    Parameters
    ----------
    path : Path
        The film.
    views : mapping of int to tuple of Spot
        Frames in which places are read.
    colours : sequence of (int, int, int)
        All colours a place may have, red, green and blue from 0 to 255.
    wanted : int
        Which of them is looked for.
    see : callable
        Told every group of frames.
    progress : callable, optional
        Told the frames seen, and how many there are.

    Returns
    -------
    Seen
        How many frames there were.

    Raises
    ------
    FileError
        If there is no picture, it cannot be decoded, or it cannot be sought in.
    """
    frames = 0
    try:
        with open_film(path) as film:
            if not film.streams.video:
                raise FileError(str(path), "it holds no picture", "Give a finished film.")
            stream = film.streams.video[0]
            reader = _Reader(stream, colours, wanted)
            clock = _Clock()
            for group in _looked_at(_groups(path, film, stream, clock), reader, views):
                if not len(group.luminance):
                    raise FileError(str(path), f"its picture is damaged behind frame {frames}", "Render it again.")
                see(group)
                frames = group.first + len(group.luminance)
                if progress:
                    progress(frames, max(frames, stream.frames))
    except av.error.FFmpegError as error:
        raise FileError(
            str(path), f"its picture cannot be decoded behind frame {frames} ({error.strerror})", "Render it again."
        ) from error
    return Seen(frames, clock.is_even, reader.decoded)
