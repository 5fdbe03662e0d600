"""Audio files: WAV, FLAC, AAC and MP3 out, whatever FFmpeg reads in, and a measured true peak after lossy coding.

Lossy coders change the waveform and with it the peaks. So a lossy file is decoded again and measured before it takes
its name; where its peak lies too high, the programme is limited a little lower and coded once more.

**Conventions.** 48,000 samples a second. WAV has 16 bits, which every program reads, with triangular dither where there
is sound; FLAC has 24, where none is needed. A signal of one channel is the same in both of two, one of two is mixed
down to one. The ending says the format. Files are written through `files.replace_file`: whole or not at all.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO, cast

import av
import numpy as np
from av.audio.stream import AudioStream

from gamutwright.errors import DomainError, FileError
from gamutwright.files import replace_file
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.render.loudness import LAYOUTS, SILENT_LUFS, Loudness, Meter
from gamutwright.render.mix import CEILING_DBTP, LOUDEST_LUFS, TARGET_LUFS, mastered
from gamutwright.render.signal import Signal
from gamutwright.render.synth import Samples

__all__ = ["FORMATS", "HIGHEST_DBTP", "Written", "audio_signal", "export", "write_audio"]

HIGHEST_DBTP = -1.0
"""No file that is exported has a true peak above this, measured on what a player decodes."""
_TRIES = 4
_NEAR_ENOUGH_LU = 0.2


@dataclass(frozen=True, slots=True)
class _Format:
    container: str
    codec: str
    sample_format: str
    bits: int = 0
    bit_rate: int = 0

    @property
    def is_lossy(self) -> bool:
        return self.bit_rate > 0


FORMATS = {
    ".wav": _Format("wav", "pcm_s16le", "s16", bits=16),
    ".flac": _Format("flac", "flac", "s32", bits=24),
    ".m4a": _Format("ipod", "aac", "fltp", bit_rate=128_000),
    ".mp3": _Format("mp3", "libmp3lame", "fltp", bit_rate=192_000),
}
"""Ending of a file to how it is written."""


@dataclass(frozen=True, slots=True)
class Written:
    """A file and what a meter says of it.

    Parameters
    ----------
    path : Path
        Where it is.
    seconds : float
        Length of what was put in.
    loudness : Loudness
        Measured on the file, decoded.
    """

    path: Path
    seconds: float
    loudness: Loudness


def _format(path: Path) -> _Format:
    found = FORMATS.get(path.suffix.lower())
    if found is None:
        raise DomainError(
            f"the ending '{path.suffix}'",
            f"sound is written as {', '.join(FORMATS)}",
            "Give the file one of these endings.",
        )
    return found


def _encode(file: IO[bytes], signal: Signal, form: _Format) -> None:
    channels = signal.channels
    with av.open(file, "w", format=form.container) as container:
        stream = cast("AudioStream", container.add_stream(form.codec, rate=TICKS_PER_SECOND))
        stream.layout = LAYOUTS[channels]
        stream.format = form.sample_format
        if form.bit_rate:
            stream.bit_rate = form.bit_rate * channels // 2 if form.codec == "aac" else form.bit_rate
        ticks = 0
        noise = np.random.default_rng(0)
        for block in signal.make():
            frame = _frame(_dithered(block, noise) if form.bits == 16 else block, form)
            frame.pts = ticks
            ticks += len(block)
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


def _dithered(block: Samples, noise: np.random.Generator) -> Samples:
    """Add triangular noise of one step either way, so that what is soft fades without graininess; silence stays so."""
    steps = noise.random(block.shape) - noise.random(block.shape)
    dithered: Samples = np.where(block == 0, 0.0, block + steps / (1 << 15))
    return dithered


def _frame(block: Samples, form: _Format) -> av.AudioFrame:
    rows = np.atleast_2d(block.T)
    layout = LAYOUTS[len(rows)]
    if form.bits:
        top = 1 << form.bits - 1
        whole = np.clip(np.rint(rows.T * top), -top, top - 1).astype(np.int32)
        # The 24 bits that FLAC keeps stand at the top of the 32 that are handed over.
        packed = whole.astype(np.int16) if form.bits == 16 else whole << 8
        frame = av.AudioFrame.from_ndarray(packed.reshape(1, -1), format=form.sample_format, layout=layout)
    else:
        planes = np.ascontiguousarray(rows.astype(np.float32))
        frame = av.AudioFrame.from_ndarray(planes, format=form.sample_format, layout=layout)
    frame.sample_rate = TICKS_PER_SECOND
    return frame


def _decoded(file: IO[bytes] | str, channels: int) -> Iterator[Samples]:
    """Read audio as blocks of shape (m, channels), at 48,000 samples a second."""
    with av.open(file, "r") as container:
        resampler = av.AudioResampler(format="dblp", layout=LAYOUTS[channels], rate=TICKS_PER_SECOND)
        stream = container.streams.audio[0]
        for decoded in container.decode(stream):
            for frame in resampler.resample(decoded):
                yield np.ascontiguousarray(frame.to_ndarray().T)
        for frame in resampler.resample(None):
            yield np.ascontiguousarray(frame.to_ndarray().T)


def _loudness(file: IO[bytes] | str, channels: int) -> Loudness:
    meter = Meter(channels)
    for block in _decoded(file, channels):
        meter.add(block)
    return meter.result()


def write_audio(path: Path, signal: Signal) -> Written:
    """Write a signal as it is, without changing its level.

    Parameters
    ----------
    path : Path
        The file; its ending says the format.
    signal : Signal
        What is written, with the channels it has; samples beyond full scale are cut off in WAV and FLAC.

    Returns
    -------
    Written
        The file and its loudness, measured by decoding it.

    Raises
    ------
    DomainError
        If the ending is none of `FORMATS`, or there are no samples.
    FileError
        If it cannot be written.
    """
    form = _checked(path, signal)
    with tempfile.TemporaryFile() as file:
        loudness = _coded(file, path, signal, form)
        replace_file(path, lambda place: _copy(file, place))
    return Written(path, signal.seconds, loudness)


def export(
    path: Path,
    signal: Signal,
    target_lufs: float = TARGET_LUFS,
    channels: int | None = None,
) -> Written:
    """Write a programme at its loudness, with no true peak above -1 dBTP in what a player decodes.

    Parameters
    ----------
    path : Path
        The file; its ending says the format.
    signal : Signal
        The programme.
    target_lufs : float in [-40, -12]
        Integrated loudness of the file.
    channels : int, 1 or 2, optional
        Channels of the file; those of the signal without it.

    Returns
    -------
    Written
        The file and its loudness, measured by decoding it.

    Raises
    ------
    DomainError
        If the ending, the target or the number of channels is outside its range, or there are no samples.
    FileError
        If it cannot be written.
    """
    form = _checked(path, signal, channels)
    signal = signal.in_channels(channels or signal.channels)
    ceiling, aim = CEILING_DBTP, target_lufs
    with tempfile.TemporaryFile() as file:
        for _ in range(_TRIES):
            master = mastered(signal, aim, ceiling)
            loudness = _coded(file, path, master, form)
            excess = loudness.true_peak_dbtp - HIGHEST_DBTP
            missing = target_lufs - loudness.integrated_lufs
            is_off = form.is_lossy and loudness.integrated_lufs > SILENT_LUFS and abs(missing) > _NEAR_ENOUGH_LU
            if excess <= 0 and not is_off:
                break
            # Coders also take a little loudness away with what they leave out.
            aim = min(max(aim + missing, target_lufs - 1), target_lufs + 1, LOUDEST_LUFS) if is_off else aim
            ceiling -= excess + 0.1 if excess > 0 else 0.0
        if excess > 0:
            raise FileError(
                str(path),
                f"its true peak stays at {loudness.true_peak_dbtp:.1f} dBTP after coding",
                "Write it as .flac, or choose a lower target.",
            )
        replace_file(path, lambda place: _copy(file, place))
    return Written(path, signal.seconds, loudness)


def _checked(path: Path, signal: Signal, channels: int | None = None) -> _Format:
    if (channels or signal.channels) not in LAYOUTS or signal.ticks == 0:
        raise DomainError(
            f"{signal.ticks} samples in {channels or signal.channels} channels",
            "a file has a sample or more, in 1 or 2 channels",
            "Choose 1 channel, or 2.",
        )
    return _format(path)


def _coded(file: IO[bytes], path: Path, signal: Signal, form: _Format) -> Loudness:
    """Code into an empty file and measure what comes out of it."""
    file.seek(0)
    file.truncate()
    try:
        _encode(file, signal, form)
        file.seek(0)
        return _loudness(file, signal.channels)
    except (av.error.FFmpegError, OSError) as error:
        raise FileError(str(path), f"it cannot be coded ({error})", "Make room, or choose another format.") from error


def _copy(file: IO[bytes], place: IO[bytes]) -> None:
    file.seek(0, os.SEEK_SET)
    shutil.copyfileobj(file, place)


def audio_signal(path: Path) -> Signal:
    """Read an audio file, as one channel at 48,000 samples a second.

    Parameters
    ----------
    path : Path
        The file, in any format FFmpeg decodes.

    Returns
    -------
    Signal
        Its samples, decoded anew each time they are asked for; several channels are mixed down.

    Raises
    ------
    FileError
        If it cannot be read or holds no audio.
    """
    try:
        ticks = sum(len(block) for block in _decoded(str(path), 1))
    except (av.error.FFmpegError, OSError, IndexError) as error:
        raise FileError(
            str(path), f"it cannot be read as audio ({error})", "Give a WAV, FLAC, AAC or MP3 file."
        ) from error
    return Signal(ticks, lambda: (block[:, 0] for block in _decoded(str(path), 1)))
