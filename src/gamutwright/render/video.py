"""The film as a file: pictures encoded shot by shot in parallel, joined by their packets, with sound and captions.

Most of a lesson is pictures that hold. A shot is encoded once: its change, then a group of pictures of the held one,
which is repeated as packets for as long as it holds. Shots do not depend on each other, so they go to as many
processes as there are cores, and their packets follow each other in one stream.

Conventions: H.264 High, yuv420p, BT.709 in limited range, 30 frames a second, every group closed and begun by an IDR
picture, no B pictures. The quantizer is constant and finer for IDR pictures, because a rate control mends a held
picture bit by bit and starts rough with each group, which is seen as a pulse. AAC-LC at 48 kHz; moov in front, no edit
list. A group never has a single picture unless its shot has, so that two IDR pictures do not follow each other
needlessly.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import tempfile
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gamutwright.errors import FileError
from gamutwright.ir.timeline import TICKS_PER_SECOND, Timeline
from gamutwright.render.frames import FramePainter, Run, runs_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["FilmStyle", "encode_film"]

FRAMES_A_SECOND = 30
GROUP = 30
"""Pictures in a group of a held picture: one second, for seeking."""
ASS_HEADER = (
    b"[Script Info]\r\nScriptType: v4.00+\r\n\r\n[V4+ Styles]\r\n"
    b"Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, "
    b"Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, "
    b"MarginV, Encoding\r\n"
    b"Style: Default,Arial,18,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,1\r\n\r\n[Events]\r\n"
    b"Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text\r\n"
)
"""What FFmpeg's text encoders want to be told before anything is encoded; players bring their own style."""
Packets = list[bytes]


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
    preset: str = "veryfast"
    stamp: str = ""


def _shots_of(timeline: Timeline) -> Iterator[list[Run]]:
    """Gather the runs of each shot."""
    shot_runs: list[Run] = []
    for run in runs_of(timeline):
        shot_runs.append(run)
        if run.before is None:
            yield shot_runs
            shot_runs = []


def _encoder(style: FilmStyle) -> Any:  # noqa: ANN401 - the library's own type
    import av  # noqa: PLC0415 - a large library that only films need

    codec = av.CodecContext.create("libx264", "w")
    codec.width, codec.height, codec.pix_fmt = style.width, style.height, "yuv420p"
    codec.time_base, codec.framerate = Fraction(1, FRAMES_A_SECOND), Fraction(FRAMES_A_SECOND)
    codec.color_range, codec.color_primaries, codec.color_trc, codec.colorspace = 1, 1, 1, 1
    codec.options = {
        "qp": str(style.quantizer),
        "preset": style.preset,
        "profile": "high",
        "x264-params": "keyint=600:min-keyint=600:bframes=0:scenecut=0:open-gop=0:stitchable=1:threads=1:"
        "repeat-headers=1:ipratio=2:colorprim=bt709:transfer=bt709:colormatrix=bt709:range=tv",
    }
    return codec


def _group(pictures: Iterable[tuple[NDArray[np.uint8], int]], style: FilmStyle) -> Packets:
    """Encode one closed group: each picture as often as it says."""
    import av  # noqa: PLC0415 - as above

    packets: Packets = []
    codec, at = _encoder(style), 0
    for pixels, count in pictures:
        picture = av.VideoFrame.from_ndarray(pixels[..., :3].copy(), format="rgb24").reformat(
            format="yuv420p", dst_colorspace=1, src_color_range=2, dst_color_range=1
        )
        for _ in range(count):
            picture.pts = at
            at += 1
            packets.extend(bytes(packet) for packet in codec.encode(picture))
    packets.extend(bytes(packet) for packet in codec.encode(None))
    return packets


def _encode_shot(work: tuple[list[Run], Timeline, FilmStyle]) -> Packets:
    """Encode a shot: its change with the beginning of what it changes to, then the held picture by repetition."""
    runs, timeline, style = work
    painter = FramePainter(timeline, style.width, style.height, style.theme, style.stamp)
    held = painter.paint(runs[-1])
    left = runs[-1].count
    packets: Packets = []
    if len(runs) > 1:
        first = min(left, GROUP)
        pictures = [(painter.paint(run), 1) for run in runs[:-1]]
        packets += _group([*pictures, (held, first)], style)
        left -= first
    if left:
        group = _group([(held, min(left, GROUP))], style)
        while left:
            # A rest of one picture joins the group before it, so that no two IDR pictures meet.
            take = left if left <= len(group) else len(group) - 1 if left == len(group) + 1 else len(group)
            packets += group[:take]
            left -= take
    return packets


def _slim(timeline: Timeline) -> Timeline:
    """Keep of a timeline what a frame needs: workers need not be sent every shot."""
    return replace(timeline, ticks=0, shots=(), clips=(), captions=(), lines=())


def _packets(timeline: Timeline, style: FilmStyle, progress: Callable[[int, int], None] | None) -> Iterator[Packets]:
    shots = list(_shots_of(timeline))
    small, workers = _slim(timeline), os.cpu_count() or 1
    work = [(runs, small, style) for runs in shots]
    if workers == 1 or len(work) < 2:
        results: Iterable[Packets] = map(_encode_shot, work)
        pool: contextlib.AbstractContextManager[Any] = contextlib.nullcontext()
    else:
        pool = ProcessPoolExecutor(workers, mp_context=multiprocessing.get_context("spawn"))
        results = pool.map(_encode_shot, work)
    with pool:
        for done, packets in enumerate(results, 1):
            yield packets
            if progress:
                progress(done, len(work))


def encode_film(
    timeline: Timeline,
    samples: NDArray[np.float32],
    path: Path,
    style: FilmStyle | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> None:
    """Draw, encode and write a film.

    Parameters
    ----------
    timeline : Timeline
        What is seen, heard and read.
    samples : array (ticks,) or (ticks, channels) float32
        The mixed sound at 48,000 a second.
    path : Path
        Where the file goes; it appears there whole or not at all.
    style : FilmStyle, optional
        Size, theme and quality.
    progress : callable, optional
        Told the shots done and the shots in all.

    Raises
    ------
    FileError
        If it cannot be written.
    """
    chosen = style or FilmStyle()
    place = path.resolve()
    try:
        with tempfile.TemporaryDirectory(prefix=f".{place.name}-", dir=place.parent) as folder:
            stream, film = Path(folder, "picture.h264"), Path(folder, "film.mp4")
            with stream.open("wb") as file:
                for packets in _packets(timeline, chosen, progress):
                    file.writelines(packets)
            _join(timeline, stream, samples, film)
            with film.open("rb") as file:
                os.fsync(file.fileno())
            film.replace(place)
    except OSError as error:
        raise FileError(
            str(path), f"the film cannot be written ({error.strerror or error})", "Make room, or choose another place."
        ) from error


def _join(timeline: Timeline, stream: Path, samples: NDArray[np.float32], film: Path) -> None:
    """Put picture, sound, captions and chapters into one file."""
    import av  # noqa: PLC0415 - as above

    options = {"movflags": "+faststart+negative_cts_offsets", "use_editlist": "0"}
    with (
        av.open(str(stream), format="h264", options={"framerate": str(FRAMES_A_SECOND)}) as pictures,
        av.open(str(film), "w", format="mp4", options=options) as out,
    ):
        source = pictures.streams.video[0]
        video = out.add_stream_from_template(source)
        video.time_base = Fraction(1, FRAMES_A_SECOND)
        channels = 1 if samples.ndim == 1 else samples.shape[1]
        audio = out.add_stream("aac", rate=TICKS_PER_SECOND, layout="mono" if channels == 1 else "stereo")
        audio.bit_rate = 128_000 if channels == 1 else 256_000
        text = out.add_stream("mov_text")
        text.codec_context.subtitle_header = ASS_HEADER
        text.codec_context.time_base = text.time_base = Fraction(1, 1000)
        for track in (audio, text):
            track.metadata["language"] = {"en": "eng", "de": "deu"}.get(timeline.language, "und")
        out.metadata["title"] = timeline.title
        out.set_chapters(_chapters(timeline))
        sound = _sound(samples, audio)
        captions = _captions(timeline, text)
        for packet in _interleaved(_picture(pictures, source, video), sound, captions):
            out.mux(packet)


def _chapters(timeline: Timeline) -> Any:  # noqa: ANN401 - the library's own type
    starts = [mark.start_tick for mark in timeline.chapters]
    ends = [*starts[1:], timeline.ticks]
    return [
        {
            "id": index,
            "start": start * 1000 // TICKS_PER_SECOND,
            "end": end * 1000 // TICKS_PER_SECOND,
            "time_base": Fraction(1, 1000),
            "metadata": {"title": mark.title},
        }
        for index, (mark, start, end) in enumerate(zip(timeline.chapters, starts, ends, strict=True))
    ]


def _picture(pictures: Any, source: Any, video: Any) -> Iterator[tuple[float, Any]]:  # noqa: ANN401
    for at, packet in enumerate(p for p in pictures.demux(source) if p.size):
        packet.stream = video
        packet.time_base = Fraction(1, FRAMES_A_SECOND)
        packet.pts = packet.dts = at
        packet.duration = 1
        yield at / FRAMES_A_SECOND, packet


def _sound(samples: NDArray[np.float32], audio: Any) -> Iterator[tuple[float, Any]]:  # noqa: ANN401
    import av  # noqa: PLC0415 - as above
    import numpy as np  # noqa: PLC0415 - as above

    rows = np.atleast_2d(samples.T if samples.ndim == 2 else samples).astype(np.float32)
    for start in range(0, rows.shape[1], 1024):
        frame = av.AudioFrame.from_ndarray(
            np.ascontiguousarray(rows[:, start : start + 1024]), format="fltp", layout=audio.layout.name
        )
        frame.sample_rate, frame.pts, frame.time_base = TICKS_PER_SECOND, start, Fraction(1, TICKS_PER_SECOND)
        for packet in audio.encode(frame):
            yield start / TICKS_PER_SECOND, packet
    for packet in audio.encode(None):
        yield rows.shape[1] / TICKS_PER_SECOND, packet


def _captions(timeline: Timeline, text: Any) -> Iterator[tuple[float, Any]]:  # noqa: ANN401
    import av  # noqa: PLC0415 - as above

    for caption in timeline.captions:
        start = caption.start_tick * 1000 // TICKS_PER_SECOND
        length = (caption.end_tick - caption.start_tick) * 1000 // TICKS_PER_SECOND
        content = caption.text.encode()
        packet = av.Packet(len(content).to_bytes(2, "big") + content)
        packet.stream, packet.time_base = text, Fraction(1, 1000)
        packet.pts = packet.dts = start
        packet.duration = length
        yield start / 1000, packet


def _interleaved(*tracks: Iterator[tuple[float, Any]]) -> Iterator[Any]:
    """Give packets of several tracks in the order of their times."""
    heads: list[tuple[float, Any, Iterator[tuple[float, Any]]]] = []
    for track in tracks:
        with contextlib.suppress(StopIteration):
            heads.append((*next(track), track))
    while heads:
        index = min(range(len(heads)), key=lambda i: heads[i][0])
        _, packet, track = heads[index]
        yield packet
        try:
            heads[index] = (*next(track), track)
        except StopIteration:
            heads.pop(index)
