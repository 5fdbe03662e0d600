"""The film as a file: packets of pictures and of sound side by side, with captions and chapters.

Pictures and sound come encoded, shot by shot and piece by piece (`pictures`, `soundtrack`); here they get their times.

Conventions: H.264 at 30 frames a second, AAC-LC at 48 kHz whose first packet is heard at tick 0, a track of captions,
chapters in both forms that MP4 knows; moov in front, no edit list.
"""

from __future__ import annotations

import heapq
import io
import itertools
import operator
import os
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gamutwright.errors import FileError
from gamutwright.files import leftovers, workplace
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.ir.timeline import Timeline
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.languages import language_of
from gamutwright.render.pictures import FRAMES_A_SECOND, FilmStyle, laid_out, picture_jobs
from gamutwright.render.soundtrack import AAC_TICKS, samples_to_packets

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["FilmStyle", "encode_film", "write_film"]

ASS_HEADER = (
    b"[Script Info]\r\nScriptType: v4.00+\r\n\r\n[V4+ Styles]\r\n"
    b"Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, "
    b"Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, "
    b"MarginV, Encoding\r\n"
    b"Style: Default,Arial,18,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,1\r\n\r\n[Events]\r\n"
    b"Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text\r\n"
)
"""What FFmpeg's text encoders want to be told before anything is encoded; players bring their own style."""


def encode_film(
    timeline: Timeline,
    samples: NDArray[np.floating],
    path: Path,
    style: FilmStyle | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> None:
    """Draw, encode and write a film whose sound is there already, and keep nothing of it.

    Parameters
    ----------
    timeline : Timeline
        What is seen and read.
    samples : array (ticks,) or (ticks, channels) float
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
    with tempfile.TemporaryDirectory() as folder, LocalPool(Store(Path(folder))) as pool:
        shots = picture_jobs(timeline, style or FilmStyle())
        pool.finish([job for job, _ in shots], progress)
        pictures = (packet for job, count in shots for packet in laid_out(pool.result(job), count))
        write_film(timeline, pictures, samples_to_packets(samples), path)


def write_film(timeline: Timeline, pictures: Iterable[bytes], sound: Iterable[bytes], path: Path) -> None:
    """Put pictures, sound, captions and chapters into one file.

    Parameters
    ----------
    timeline : Timeline
        Title, language, captions, chapters and length.
    pictures : iterable of bytes
        H.264 packets, one for each frame.
    sound : iterable of bytes
        AAC packets, one for each 1,024 ticks.
    path : Path
        Where the file goes; it appears there whole or not at all.

    Raises
    ------
    FileError
        If it cannot be written.
    """
    place = path.resolve()
    _clear(place)
    try:
        with tempfile.TemporaryDirectory(prefix=workplace(place, "").name, dir=place.parent) as folder:
            film = Path(folder, "film.mp4")
            _join(timeline, pictures, sound, film)
            with film.open("rb") as file:
                os.fsync(file.fileno())
            film.replace(place)
    except OSError as error:
        if isinstance(error, FileError):
            raise
        raise FileError(
            str(path), f"the film cannot be written ({error.strerror or error})", "Make room, or choose another place."
        ) from error


def _clear(place: Path) -> None:
    """Remove what a killed program left beside a film."""
    for left, _ in leftovers(place):
        shutil.rmtree(left, ignore_errors=True)


def _join(timeline: Timeline, pictures: Iterable[bytes], sound: Iterable[bytes], film: Path) -> None:
    import av  # noqa: PLC0415 - a large library that only films need

    packets = iter(pictures)
    first = next(packets)
    options = {"movflags": "+faststart+negative_cts_offsets", "use_editlist": "0"}
    with (
        # A stream's parameter sets are taken from its first packet, as a demuxer reads them.
        av.open(io.BytesIO(first), format="h264", options={"framerate": str(FRAMES_A_SECOND)}) as head,
        av.open(str(film), "w", format="mp4", options=options) as out,
    ):
        video = out.add_stream_from_template(head.streams.video[0])
        video.time_base = Fraction(1, FRAMES_A_SECOND)
        audio: Any = out.add_stream("aac", rate=TICKS_PER_SECOND, layout="stereo")
        audio.time_base = Fraction(1, TICKS_PER_SECOND)
        text: Any = out.add_stream("mov_text")
        text.codec_context.subtitle_header = ASS_HEADER
        text.codec_context.time_base = text.time_base = Fraction(1, 1000)
        for track in (audio, text):
            track.metadata["language"] = language_of(timeline.language).code
        out.metadata["title"] = timeline.title
        out.set_chapters(_chapters(timeline))
        seen = _timed(itertools.chain([first], packets), video, Fraction(1, FRAMES_A_SECOND), 1)
        heard = _timed(sound, audio, Fraction(1, TICKS_PER_SECOND), AAC_TICKS)
        for _, packet in heapq.merge(seen, heard, _captions(timeline, text), key=operator.itemgetter(0)):
            out.mux(packet)


def _timed(
    contents: Iterable[bytes],
    stream: Any,  # noqa: ANN401 - the library's own type
    unit: Fraction,
    length: int,
) -> Iterator[tuple[float, Any]]:
    """Give packets of one length their times, one after the other."""
    import av  # noqa: PLC0415 - as above

    step = float(unit * length)
    for index, content in enumerate(contents):
        packet: Any = av.Packet(content)
        packet.stream, packet.time_base = stream, unit
        packet.pts = packet.dts = index * length
        packet.duration = length
        packet.is_keyframe = content[4] & 0x1F != 1 if length == 1 else True
        yield index * step, packet


def _chapters(timeline: Timeline) -> Any:  # noqa: ANN401 - the library's own type
    return [
        {
            "id": index,
            "start": start * 1000 // TICKS_PER_SECOND,
            "end": end * 1000 // TICKS_PER_SECOND,
            "time_base": Fraction(1, 1000),
            "metadata": {"title": title},
        }
        for index, (start, end, title) in enumerate(timeline.chapter_spans)
    ]


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
