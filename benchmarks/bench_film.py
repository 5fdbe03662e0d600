"""A film from a drafted script as the command line makes it: cold, unchanged, with one sentence changed.

The picture is also made with moviepy, from the same drawings of the same stretch with the same encoder settings; a
picture that holds is drawn once for it. Below stands what nothing can beat: copying finished packets, and the encoder
alone on a held picture.
"""

from __future__ import annotations

import os
import re
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
from measure import Row, Run, quick, seconds, timed, watched

from gamutwright.catalogue.shares import shares_of
from gamutwright.files import CACHE_VARIABLE
from gamutwright.inputs.text import read_scale
from gamutwright.ir.timeline import FRAME_TICKS, Timeline
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.render.frames import FramePainter, runs_of
from gamutwright.render.pictures import FRAMES_A_SECOND, FilmStyle, laid_out, picture_jobs
from gamutwright.stages import make_film

MINUTES = 6
"""Asked of the draft; with cards and definitions the film is about eight minutes long."""
STRETCH_S = 60
MEMORY_GIB = 1.5


def render(folder: Path) -> Run:
    """Run the command as a user does, and watch the memory of all its processes."""
    words = [sys.executable, "-m", "gamutwright", "render", "lesson.md", "-o", "film", "--store", "store"]
    return watched(words, folder, {CACHE_VARIABLE: str(folder / "cache"), "COLUMNS": "200"})


def rows() -> Iterator[Row]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ[CACHE_VARIABLE] = str(folder / "cache")
        wish = Wish(minutes=MINUTES)
        source = draft(read_scale("G acoustic").scale, wish, "en", shares=shares_of(12)).source
        (folder / "lesson.md").write_text(source, encoding="utf-8")
        yield from whole(folder, source)
        yield from pictures(folder, source)


def whole(folder: Path, source: str) -> Iterator[Row]:
    """Time the command: cold, again, and after each of three changes of a sentence."""
    cold = render(folder)
    minutes, rest = re.search(r"(\d+) min (\d+) s of film", cold.told).groups()
    heard_s = int(minutes) * 60 + int(rest)
    what = f"film of {heard_s / 60:.1f} minutes, 1080p, sound, captions, chapters, cold, {cold.seconds:.1f} s"
    yield quick(what, heard_s / cold.seconds, "x real time", 20)
    yield Row(
        "memory of all its processes", f"{cold.peak_gib:.2f} GiB", f"≤ {MEMORY_GIB} GiB",
        is_missed=cold.peak_gib > MEMORY_GIB,
    )  # fmt: skip
    size = (folder / "film" / "film.mp4").stat().st_size
    yield Row("file", f"{size / 1e6 / (heard_s / 60):.1f} MB a minute")
    yield timed("the same command again, nothing changed", min(render(folder).seconds for _ in range(3)), 0.7)
    sentences = [line for line in source.partition("\n# ")[2].splitlines() if re.match(r"(It|The|There|This) ", line)]
    took = []
    for sentence in sentences[:: len(sentences) // 3][:3]:
        changed = "At the harbour, " + sentence[0].lower() + sentence[1:]
        (folder / "lesson.md").write_text(source.replace(sentence, changed), encoding="utf-8")
        took.append(render(folder).seconds)
    yield timed("one sentence changed, median of three", sorted(took)[1], 1.5)


def pictures(folder: Path, source: str) -> Iterator[Row]:
    """Time the picture of a stretch, drawn by the same code, with moviepy and with ours."""
    timeline = make_film(parse(source), folder / "again", store=Store(folder / "store")).timeline
    stretch = first(timeline, STRETCH_S)
    style = FilmStyle()
    ours = seconds(lambda: encode_ours(stretch, style, folder / "ours"))
    theirs = seconds(lambda: encode_with_moviepy(stretch, style, folder / "theirs.mp4"))
    length_s = stretch.ticks / 48_000
    yield Row(
        f"picture alone, {length_s:.0f} s of film, from nothing",
        f"{ours:.2f} s, {length_s / ours:.0f} x real time",
        "≥ 6 x moviepy",
        is_missed=theirs < 6 * ours,
        against=f"moviepy {theirs:.1f} s",
        ratio=f"{theirs / ours:.1f} x",
    )
    copy = seconds(lambda: copy_packets(folder / "film" / "film.mp4", folder / "copy.mp4"))
    whole_s = timeline.ticks / 48_000
    yield Row("limit: packets of the whole film copied", f"{copy:.2f} s, {whole_s / copy:.0f} x real time")
    frames = 300
    took = seconds(lambda: encode_hold(timeline, style, frames))
    yield Row("limit: encoder on a held picture, one core", f"{frames / FRAMES_A_SECOND / took:.0f} x real time")


def first(timeline: Timeline, length_s: float) -> Timeline:
    """Keep the whole shots within a length."""
    shots = tuple(shot for shot in timeline.shots if shot.end_tick <= length_s * 48_000)
    ticks = shots[-1].end_tick
    return replace(timeline, ticks=ticks, shots=shots, clips=(), captions=(), lines=())


def encode_ours(timeline: Timeline, style: FilmStyle, place: Path) -> None:
    with LocalPool(Store(place)) as pool:
        jobs = picture_jobs(timeline, style)
        pool.finish(job for job, _ in jobs)
        packets = sum(1 for job, count in jobs for _ in laid_out(pool.result(job), count))
    assert packets * FRAME_TICKS == timeline.ticks


def encode_with_moviepy(timeline: Timeline, style: FilmStyle, path: Path) -> None:
    from moviepy import VideoClip  # noqa: PLC0415 - only this comparison needs it

    painter = FramePainter(timeline, style.width, style.height, style.theme, "")
    runs = [run for run in runs_of(timeline) for _ in range(run.count)]
    kept: dict[int, np.ndarray] = {}

    def frame_at(time_s: float) -> np.ndarray:
        run = runs[min(len(runs) - 1, round(time_s * FRAMES_A_SECOND))]
        if id(run) not in kept:
            kept.clear()
            kept[id(run)] = painter.paint(run)[..., :3]
        return kept[id(run)]

    clip = VideoClip(frame_at, duration=len(runs) / FRAMES_A_SECOND)
    clip.write_videofile(
        str(path), fps=FRAMES_A_SECOND, codec="libx264", preset=style.preset, audio=False, logger=None,
        threads=os.cpu_count(), ffmpeg_params=["-qp", str(style.quantizer), "-bf", "0", "-pix_fmt", "yuv420p"],
    )  # fmt: skip


def copy_packets(source: Path, target: Path) -> None:
    import av  # noqa: PLC0415 - as above

    with av.open(str(source)) as file, av.open(str(target), "w") as out:
        streams = {
            stream.index: out.add_stream_from_template(stream) for stream in (*file.streams.video, *file.streams.audio)
        }
        for packet in file.demux([*file.streams.video, *file.streams.audio]):
            if packet.dts is not None:
                packet.stream = streams[packet.stream.index]
                out.mux(packet)


def encode_hold(timeline: Timeline, style: FilmStyle, frames: int) -> None:
    import av  # noqa: PLC0415 - as above

    run = next(iter(runs_of(timeline)))
    pixels = FramePainter(timeline, style.width, style.height, style.theme, "").paint(run)
    codec = av.CodecContext.create("libx264", "w")
    codec.width, codec.height, codec.pix_fmt = style.width, style.height, "yuv420p"
    codec.time_base, codec.framerate = Fraction(1, FRAMES_A_SECOND), Fraction(FRAMES_A_SECOND)
    codec.options = {"qp": str(style.quantizer), "preset": style.preset, "x264-params": "threads=1:bframes=0"}
    picture = av.VideoFrame.from_numpy_buffer(pixels, format="rgba").reformat(format="yuv420p")
    for number in range(frames):
        picture.pts = number
        codec.encode(picture)
    codec.encode(None)
