"""Changing finished films behind the back of whoever made them: their sound, pictures, captions, chapters and boxes.

Everything is done on the file with FFmpeg's libraries or on its bytes, never through the code that made it.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import av
import numpy as np
from numpy.typing import NDArray

RATE = 48_000
IN_FRONT = {"movflags": "+faststart+negative_cts_offsets", "use_editlist": "0"}
Samples = NDArray[np.float32]
Planes = tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]
Paint = Callable[[int, Planes], None]


def samples_of(film: Path) -> Samples:
    """Decode the sound, (ticks, channels)."""
    with av.open(str(film)) as file:
        return np.concatenate([frame.to_ndarray().T for frame in file.decode(audio=0)])


def planes_of(frame: av.VideoFrame) -> Planes:
    flat = frame.to_ndarray(format="yuv420p")
    height, width = frame.height, frame.width
    bright, blue, red = np.split(flat.reshape(-1), [height * width, height * width * 5 // 4])
    half = (height // 2, width // 2)
    return bright.reshape(height, width).copy(), blue.reshape(half).copy(), red.reshape(half).copy()


def codes_of(colour: str) -> tuple[int, int, int]:
    """Turn #RRGGBB into brightness, blue and red difference (ITU-R BT.709 in limited range, from memory)."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    luma = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return (
        round(16 + 219 * luma),
        round(128 + 224 * (blue - luma) / 1.8556),
        round(128 + 224 * (red - luma) / 1.5748),
    )


def paint_disc(planes: Planes, x: float, y: float, radius: float, colour: str) -> None:
    for index, (plane, code) in enumerate(zip(planes, codes_of(colour), strict=True)):
        scale = 1 if index == 0 else 2
        rows, columns = np.ogrid[: plane.shape[0], : plane.shape[1]]
        far = np.hypot((rows + 0.5) * scale - y, (columns + 0.5) * scale - x)
        plane[far <= radius] = code


def paint_box(planes: Planes, box: tuple[int, int, int, int], colour: str) -> None:
    left, top, right, bottom = box
    for index, (plane, code) in enumerate(zip(planes, codes_of(colour), strict=True)):
        scale = 1 if index == 0 else 2
        plane[top // scale : bottom // scale, left // scale : right // scale] = code


def tone(freq_hz: float, ticks: int, rms: float) -> Samples:
    """Make a tone with some partials, fading in and out, apart from the project's synthesiser."""
    time = np.arange(ticks) / RATE
    wave = sum(np.sin(2 * np.pi * k * freq_hz * time + k * k) / k**1.5 for k in range(1, 7)) * np.exp(-1.5 * time)
    ramp = np.minimum(1, np.minimum(np.arange(ticks), np.arange(ticks)[::-1]) / 480)
    wave = wave * ramp
    return (wave * rms / np.sqrt(np.mean(wave**2))).astype(np.float32)


Container = av.container.InputContainer
Track = av.stream.Stream


def _tracks(
    out: av.container.OutputContainer, source: Container, sound: dict[str, Any], tags: int | None, *, is_painted: bool
) -> tuple[Track, Track, Track]:
    given = source.streams.video[0]
    if is_painted:
        video = out.add_stream("libx264", rate=30, options={"preset": "superfast", "crf": "16", "bf": "0", "g": "30"})
        video.width, video.height, video.pix_fmt = given.codec_context.width, given.codec_context.height, "yuv420p"
        video.codec_context.options = {**video.codec_context.options, "profile": "high"}
        if tags is not None:
            codec = video.codec_context
            codec.color_range, codec.color_primaries, codec.color_trc, codec.colorspace = tags, tags, tags, tags
    else:
        video = out.add_stream_from_template(given)
    audio = out.add_stream("aac", **sound)
    audio.bit_rate = 256_000
    audio.codec_context.options = {"aac_coder": "fast"}
    text = out.add_stream_from_template(next(s for s in source.streams.subtitles if s.language == "eng"))
    return video, audio, text


def remade(
    film: Path,
    place: Path,
    *,
    sound: Callable[[Samples], Samples] | None = None,
    picture: Paint | None = None,
    chapters: Callable[[list[dict[str, Any]]], list[dict[str, Any]]] | None = None,
    options: dict[str, str] | None = None,
    rate: int = RATE,
    layout: str = "stereo",
    tags: int | None = 1,
    frames: int | None = None,
) -> Path:
    """Write a film anew with something changed in it."""
    samples = samples_of(film)
    samples = samples if sound is None else sound(samples)
    with av.open(str(film)) as source, av.open(str(place), "w", format="mp4", options=options or IN_FRONT) as out:
        is_painted = picture is not None or tags != 1
        video, audio, text = _tracks(out, source, {"rate": rate, "layout": layout}, tags, is_painted=is_painted)
        out.metadata["title"] = source.metadata["title"]
        listed = [{**chapter, "metadata": dict(chapter["metadata"])} for chapter in source.chapters()]
        out.set_chapters(chapters(listed) if chapters else listed)
        packets = [*_pictures(source, video, picture, frames, is_painted=is_painted)]
        packets += _sound(samples, audio, rate, layout)
        with av.open(str(film)) as again:
            for packet in again.demux(next(s for s in again.streams.subtitles if s.language == "eng")):
                if packet.size:
                    packet.stream = text
                    packets.append((float(packet.pts * packet.time_base), packet))
        for _, packet in sorted(packets, key=lambda item: item[0]):
            out.mux(packet)
    return place


def _pictures(
    source: Container, video: Track, picture: Paint | None, frames: int | None, *, is_painted: bool
) -> list[tuple[float, Any]]:
    packets: list[tuple[float, Any]] = []
    if not is_painted:
        for packet in source.demux(source.streams.video[0]):
            if packet.size and (frames is None or len(packets) < frames):
                packet.stream = video
                packets.append((float(packet.pts * packet.time_base), packet))
        return packets
    for number, frame in enumerate(source.decode(video=0)):
        planes = planes_of(frame)
        if picture is not None:
            picture(number, planes)
        flat = np.concatenate([plane.reshape(-1) for plane in planes]).reshape(frame.height * 3 // 2, frame.width)
        new = av.VideoFrame.from_ndarray(flat, format="yuv420p")
        new.pts, new.time_base = number, Fraction(1, 30)
        packets += [(float(p.pts * p.time_base), p) for p in video.encode(new)]
    packets += [(float(p.pts * p.time_base), p) for p in video.encode(None)]
    return packets


def _sound(samples: Samples, audio: Track, rate: int, layout: str) -> list[tuple[float, Any]]:
    # The coder begins 1,024 samples before the sound, and nothing in the file says so.
    rows = np.ascontiguousarray(samples[1024:].T if rate == RATE else samples.T)
    given = av.AudioFrame.from_ndarray(rows, format="fltp", layout="stereo")
    given.sample_rate = RATE
    packets: list[tuple[float, Any]] = []
    resampler = av.AudioResampler(format="fltp", layout=layout, rate=rate, frame_size=1024)
    at = 0
    for frame in [*resampler.resample(given), *resampler.resample(None)]:
        frame.pts, frame.time_base = at, Fraction(1, rate)
        at += frame.samples
        packets += [(float(p.pts * p.time_base), p) for p in audio.encode(frame)]
    return packets + [(float(p.pts * p.time_base), p) for p in audio.encode(None)]


def with_bytes(film: Path, place: Path, old: bytes, new: bytes, *, last: bool = False) -> Path:
    """Replace one stretch of bytes by another of the same length."""
    data = film.read_bytes()
    assert len(old) == len(new)
    at = data.rindex(old) if last else data.index(old)
    place.write_bytes(data[:at] + new + data[at + len(old) :])
    return place
