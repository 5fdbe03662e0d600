"""The file around a film: its boxes, streams, formats and colours.

What is asked: docs/film.md. An index in front lets a film begin before it is loaded; edit lists are skipped by some
players, which then show pictures and sound out of step; colours without tags are guessed, and differently by everyone.

Conventions: colour codes as in ITU-T H.273, where 1 is BT.709 in each table (from memory).
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import av

from gamutwright.errors import FileError
from gamutwright.ir.evidence import Evidence
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.render.readback.boxes import Box, Track
from gamutwright.render.readback.film_report import RENDER_AGAIN, Check, Group, broken, held

__all__ = ["Streams", "box_checks", "open_film", "read_streams", "stream_checks"]

_COLOURS = ("primaries", "transfer", "matrix")
_NEITHER_LISTS_NOR_ADDRESSES = {"format_whitelist": "mov", "protocol_whitelist": "file"}


def open_film(path: Path) -> av.container.InputContainer:
    """Open a film, and nothing that it names.

    Parameters
    ----------
    path : Path
        The film.

    Returns
    -------
    InputContainer
        To be closed.
    """
    # With its scheme, a name that looks like an address is a name.
    return av.open(f"file:{path}", options=_NEITHER_LISTS_NOR_ADDRESSES)


@dataclass(frozen=True, slots=True)
class Streams:
    """What the streams of a film say of themselves.

    Parameters
    ----------
    title : str
        Title in the file.
    seconds : float
        Length of the file.
    codec, profile, pixels : str
        Of the picture.
    width, height : int
        Of the picture.
    rate : float
        Frames a second.
    colours : tuple of int
        Codes of primaries, transfer, matrix and range.
    sound_codec, sound_profile : str
        Of the sound.
    sample_rate, channels : int
        Of the sound.
    starts : tuple of float
        When each stream begins, in seconds.
    """

    title: str
    seconds: float
    codec: str
    profile: str
    pixels: str
    width: int
    height: int
    rate: float
    colours: tuple[int, int, int, int]
    sound_codec: str
    sound_profile: str
    sample_rate: int
    channels: int
    starts: tuple[float, ...]


def read_streams(path: Path) -> Streams:
    """Read what the streams of a film say of themselves.

    Parameters
    ----------
    path : Path
        The film.

    Returns
    -------
    Streams
        What they say.

    Raises
    ------
    FileError
        If it is no film, or has no picture or no sound.
    """
    try:
        with open_film(path) as film:
            return _streams(path, film)
    except (av.error.FFmpegError, ValueError, UnicodeDecodeError) as error:
        if isinstance(error, FileError):
            raise
        raise FileError(str(path), f"it cannot be opened as a film ({error})", RENDER_AGAIN) from error


def _streams(path: Path, film: Any) -> Streams:  # noqa: ANN401 - the library's own type
    if not film.streams.video or not film.streams.audio:
        missing = "sound" if film.streams.video else "picture"
        raise FileError(str(path), f"it holds no {missing}", "Give a finished film.")
    video, audio = film.streams.video[0], film.streams.audio[0]
    codec, heard = video.codec_context, audio.codec_context
    return Streams(
        film.metadata.get("title", ""),
        (film.duration or 0) / 1_000_000,
        codec.name,
        codec.profile or "",
        codec.pix_fmt or "",
        codec.width,
        codec.height,
        float(video.average_rate or 0),
        (int(codec.color_primaries), int(codec.color_trc), int(codec.colorspace), int(codec.color_range)),
        heard.name,
        heard.profile or "",
        heard.sample_rate,
        heard.channels,
        tuple(float((stream.start_time or 0) * stream.time_base) for stream in (video, audio)),
    )


def box_checks(file: Box, tracks: tuple[Track, ...]) -> Iterator[Check]:
    """Check the order of the boxes.

    Parameters
    ----------
    file : Box
        The boxes.
    tracks : tuple of Track
        Its tracks.

    Yields
    ------
    Check
        One after another.
    """
    kinds = [box.kind for box in file.boxes]
    index, data = (kinds.index(kind) if kind in kinds else -1 for kind in ("moov", "mdat"))
    expected = "the index stands before pictures and sound"
    if 0 <= index < data:
        yield held(Group.FILE, "index in front", expected, "it does")
    else:
        found = "there is none" if index < 0 else "it stands behind them"
        yield broken(Group.FILE, "index in front", expected, found, RENDER_AGAIN)
    edited = [box for track in tracks for box in track.box.walk() if box.kind == "elst"]
    expected = "no track is shifted by an edit list"
    if edited:
        yield broken(Group.FILE, "no edit list", expected, f"{len(edited)} are", RENDER_AGAIN)
    else:
        yield held(Group.FILE, "no edit list", expected, "none is")
    coloured = _colour_box(tracks)
    expected = "the colours are tagged in the container as BT.709, limited range"
    if coloured == (1, 1, 1, 0):
        yield held(Group.FILE, "colour box", expected, "they are")
    else:
        found = "there is no tag" if coloured is None else f"the codes are {coloured}"
        yield broken(Group.FILE, "colour box", expected, found, RENDER_AGAIN)


def _colour_box(tracks: tuple[Track, ...]) -> tuple[int, int, int, int] | None:
    """Read the colour box in the picture's sample entry, behind 78 bytes of its own (ISO/IEC 14496-12, 12.1)."""
    for track in tracks:
        tables = track.box.first("mdia", "minf", "stbl", "stsd")
        if track.kind != "vide" or tables is None:
            continue
        body = tables.body
        at = body.find(b"colrnclx", 8 + 8 + 78)
        with contextlib.suppress(IndexError):
            if at >= 0:
                codes = [int.from_bytes(body[at + 8 + 2 * k : at + 10 + 2 * k], "big") for k in range(3)]
                return codes[0], codes[1], codes[2], body[at + 14] >> 7
    return None


def stream_checks(streams: Streams, film: Evidence) -> Iterator[Check]:
    """Check what the streams say of themselves.

    Parameters
    ----------
    streams : Streams
        What they say.
    film : Evidence
        What was promised.

    Yields
    ------
    Check
        One after another.
    """
    size, seen, sound = film.picture, f"{streams.width}x{streams.height}", streams.sound_codec.upper()
    frame_rate = film.picture.frames * TICKS_PER_SECOND / film.ticks
    pairs = [
        (
            "picture format",
            f"H.264 High, yuv420p, {size.width}x{size.height}, {frame_rate:g} frames a second",
            f"{_named(streams.codec)} {streams.profile}, {streams.pixels}, {seen}, {streams.rate:g} frames a second",
        ),
        (
            "colour tags",
            "BT.709 primaries, transfer and matrix, limited range: 1, 1, 1, 1",
            "BT.709 primaries, transfer and matrix, limited range: " + ", ".join(map(str, streams.colours)),
        ),
        (
            "sound format",
            f"AAC LC, {film.sample_rate} Hz, {film.channels} channels",
            f"{sound} {streams.sound_profile}, {streams.sample_rate} Hz, {streams.channels} channels",
        ),
        (
            "begins at zero",
            "picture and sound begin at 0 s",
            "picture and sound begin at "
            + " and ".join(f"{start:g}" for start in dict.fromkeys(streams.starts))
            + " s",
        ),
    ]
    for name, expected, found in pairs:
        if expected == found:
            yield held(Group.FILE, name, expected, "it is so")
        elif name == "colour tags":
            yield broken(
                Group.FILE, name, expected, f"the codes are {', '.join(map(str, streams.colours))}", RENDER_AGAIN
            )
        else:
            yield broken(Group.FILE, name, expected, found, RENDER_AGAIN)


def _named(codec: str) -> str:
    return {"h264": "H.264", "hevc": "H.265"}.get(codec, codec)
