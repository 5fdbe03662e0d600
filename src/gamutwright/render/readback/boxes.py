"""The boxes of an MP4 file, and the samples of its text tracks, read without FFmpeg.

An MP4 file is a row of boxes, each with its size and a name of four letters; some hold boxes. Every number in it may
lie, so nothing is read that reaches beyond its box, no list is longer than the bytes that hold it, and what cannot be
is an error with the place where it stands.

Conventions: places are bytes from the beginning of the file. Sources: box layout as in ISO/IEC 14496-12, section 4.2,
and the sample tables of section 8.6 and 8.7 (from memory).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from gamutwright.errors import FileError

__all__ = ["Box", "Track", "read_boxes", "text_samples", "tracks_of"]

HOLDERS = frozenset({"moov", "trak", "mdia", "minf", "stbl", "udta", "edts", "dinf", "tref"})
DEEPEST = 8
MOST_BOXES = 20_000
LARGEST_INDEX = 1 << 28
"""A quarter of a gigabyte: days of film."""
MOST_SAMPLES = 200_000
LARGEST_TEXT = 1 << 16
NEXT_STEP = "Render the film again, or copy it again from where it is whole."


@dataclass(frozen=True, slots=True)
class Box:
    """One box.

    Parameters
    ----------
    kind : str
        Its name of four letters.
    start, size : int
        Where it begins, and how many bytes it has with its head.
    body : bytes
        What it holds, for boxes inside moov; b"" elsewhere.
    boxes : tuple of Box
        The boxes in it.
    """

    kind: str
    start: int
    size: int
    body: bytes = b""
    boxes: tuple[Box, ...] = ()

    def first(self, *path: str) -> Box | None:
        """Find a box by the names on the way to it; the first of each name is taken.

        Parameters
        ----------
        *path : str
            Names, outermost first.

        Returns
        -------
        Box or None
            The box, if it is there.
        """
        here: Box | None = self
        for kind in path:
            here = next((box for box in here.boxes if box.kind == kind), None) if here else None
        return here

    def walk(self) -> Iterator[Box]:
        """Go through this box and all in it.

        Yields
        ------
        Box
            In the order of the file.
        """
        yield self
        for box in self.boxes:
            yield from box.walk()


@dataclass(frozen=True, slots=True)
class Track:
    """What a track says of itself.

    Parameters
    ----------
    number : int
        Its identity in the file.
    kind : str
        Handler: vide, soun, text, sbtl ...
    timescale : int
        Units in a second.
    box : Box
        The box it comes from.
    chapters : tuple of int
        Identities of the tracks it names as its chapters.
    """

    number: int
    kind: str
    timescale: int
    box: Box
    chapters: tuple[int, ...]


def _damaged(path: Path, what: str) -> FileError:
    return FileError(str(path), f"it is no whole MP4 file ({what})", NEXT_STEP)


def read_boxes(path: Path) -> Box:
    """Read the boxes of a file; those in moov with what they hold.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    Box
        A box that stands for the file, named "file".

    Raises
    ------
    FileError
        If the file cannot be read, is cut short, or is no MP4 file.
    """
    try:
        with path.open("rb") as file:
            size = file.seek(0, 2)
            return Box("file", 0, size, b"", tuple(_top(path, file, size)))
    except OSError as error:
        if isinstance(error, FileError):
            raise
        raise FileError(
            str(path), f"it cannot be read ({error.strerror or error})", "Give the path of a finished film."
        ) from error


def _top(path: Path, file: BinaryIO, end: int) -> Iterator[Box]:
    at, count = 0, 0
    while at < end:
        file.seek(at)
        head = file.read(16)
        kind, start, size = _head(path, head, at, end)
        if count == 0 and kind != "ftyp":
            raise _damaged(path, "it does not begin with the box that names its type")
        boxes: tuple[Box, ...] = ()
        if kind == "moov":
            if size > LARGEST_INDEX:
                raise _damaged(path, f"its index has {size} bytes")
            file.seek(at + start)
            body = file.read(size - start)
            boxes = tuple(_inner(path, body, at + start, 1, [0]))
        yield Box(kind, at, size, b"", boxes)
        at, count = at + size, count + 1
        if count > MOST_BOXES:
            raise _damaged(path, f"it has more than {MOST_BOXES} boxes")
    if count == 0:
        raise _damaged(path, "it is empty")


def _head(path: Path, head: bytes, at: int, end: int) -> tuple[str, int, int]:
    """Read name, length of the head and size of a box that begins at a place and must end before another."""
    if len(head) < 8:
        raise _damaged(path, f"it ends within the head of a box, at byte {at}")
    size, start = int.from_bytes(head[:4], "big"), 8
    kind = head[4:8].decode("latin-1")
    if size == 1:
        if len(head) < 16:
            raise _damaged(path, f"it ends within the head of a box, at byte {at}")
        size, start = int.from_bytes(head[8:16], "big"), 16
    elif size == 0:
        size = end - at
    if size < start:
        raise _damaged(path, f"the box {kind!r} at byte {at} says that it has {size} bytes")
    if at + size > end:
        raise _damaged(path, f"the box {kind!r} at byte {at} ends {at + size - end} bytes behind what holds it")
    return kind, start, size


def _inner(path: Path, data: bytes, origin: int, depth: int, count: list[int]) -> Iterator[Box]:
    at = 0
    while at + 8 <= len(data):
        kind, start, size = _head(path, data[at : at + 16], origin + at, origin + len(data))
        body = data[at + start : at + size]
        count[0] += 1
        if depth > DEEPEST or count[0] > MOST_BOXES:
            raise _damaged(path, "its boxes hold boxes without end")
        boxes: tuple[Box, ...] = ()
        if kind in HOLDERS:
            boxes = tuple(_inner(path, body, origin + at + start, depth + 1, count))
        yield Box(kind, origin + at, size, body, boxes)
        at += size


def _numbers(box: Box | None, form: str, at: int) -> tuple[int, ...]:
    """Read numbers at a place of a box; () where it is too short."""
    if box is None or len(box.body) < at + struct.calcsize(form):
        return ()
    return struct.unpack_from(form, box.body, at)


def tracks_of(file: Box) -> tuple[Track, ...]:
    """List the tracks of a file.

    Parameters
    ----------
    file : Box
        From `read_boxes`.

    Returns
    -------
    tuple of Track
        In their order; numbers that are missing are 0.
    """
    found = []
    for box in file.first("moov").boxes if file.first("moov") else ():  # type: ignore[union-attr] # tested just there
        if box.kind != "trak":
            continue
        header, media, handler = box.first("tkhd"), box.first("mdia", "mdhd"), box.first("mdia", "hdlr")
        number = _numbers(header, ">I", 20 if header and header.body[:1] == b"\1" else 12)
        scale = _numbers(media, ">I", 20 if media and media.body[:1] == b"\1" else 12)
        kind = handler.body[8:12].decode("latin-1") if handler else ""
        named = box.first("tref", "chap")
        chapters = struct.unpack(f">{len(named.body) // 4}I", named.body[: len(named.body) // 4 * 4]) if named else ()
        found.append(Track((number or (0,))[0], kind, (scale or (0,))[0], box, chapters))
    return tuple(found)


def _table(path: Path, box: Box | None, columns: int, at: int = 4) -> list[tuple[int, ...]]:
    """Read a list of rows of 32-bit numbers that begins with its length."""
    count = _numbers(box, ">I", at)
    if box is None or not count:
        return []
    width = 4 * columns
    if count[0] > MOST_SAMPLES or len(box.body) < at + 4 + count[0] * width:
        raise _damaged(path, f"the list {box.kind!r} at byte {box.start} says that it has {count[0]} rows")
    return list(struct.iter_unpack(f">{columns}I", box.body[at + 4 : at + 4 + count[0] * width]))


def _sizes(path: Path, box: Box | None) -> list[int]:
    head = _numbers(box, ">II", 4)
    if not head:
        return []
    same, count = head
    if count > MOST_SAMPLES:
        raise _damaged(path, f"a text track says that it has {count} samples")
    return [same] * count if same else [row[0] for row in _table(path, box, 1, 8)]


def _places(path: Path, tables: Box, sizes: list[int]) -> list[int]:
    """Find where each sample lies: chunks begin where the table says, samples follow each other in them."""
    chunks = [row[0] for row in _table(path, tables.first("stco"), 1)]
    if not chunks:
        chunks = [high << 32 | low for high, low in _table(path, tables.first("co64"), 2)]
    runs = _table(path, tables.first("stsc"), 3)
    places: list[int] = []
    for index, (first, count, _) in enumerate(runs):
        last = runs[index + 1][0] - 1 if index + 1 < len(runs) else len(chunks)
        for chunk in chunks[max(0, first - 1) : max(0, last)]:
            at = chunk
            for _ in range(min(count, len(sizes) - len(places))):
                size = sizes[len(places)]
                places.append(at)
                at += size
    return places


def text_samples(path: Path, track: Track) -> list[tuple[float, float, str]]:
    """Read the samples of a text track.

    Parameters
    ----------
    path : Path
        The file.
    track : Track
        A track of captions or chapters: samples of a length in two bytes and text in UTF-8.

    Returns
    -------
    list of (float, float, str)
        From when to when, in seconds, and the text, which may be empty.

    Raises
    ------
    FileError
        If its tables contradict the file.
    """
    tables = track.box.first("mdia", "minf", "stbl")
    if tables is None or not track.timescale:
        return []
    sizes = _sizes(path, tables.first("stsz"))
    places = _places(path, tables, sizes)
    lengths: list[int] = []
    for count, length in _table(path, tables.first("stts"), 2):
        lengths += [length] * min(count, len(sizes) - len(lengths))
    found, now = [], 0
    with path.open("rb") as file:
        for at, size, length in zip(places, sizes, lengths, strict=False):
            file.seek(at)
            data = file.read(min(size, LARGEST_TEXT))
            if len(data) < min(size, LARGEST_TEXT):
                raise _damaged(path, f"a text at byte {at} lies behind its end")
            text = data[2 : 2 + int.from_bytes(data[:2], "big")].decode("utf-8", "replace")
            found.append((now / track.timescale, (now + length) / track.timescale, text))
            now += length
    return found
