"""A recorded line made fit for the lesson: decoded, trimmed, levelled, and its faults said.

**Conventions.** Samples are mono float32 at 48,000 a second. Levels are decibels of full scale; loudness is in LUFS by
ITU-R BS.1770. Limits are our own unless a source is named; a fault is said, never mended in silence.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

from gamutwright.codec import Plain
from gamutwright.errors import FileError, InputError
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.jobs.confined import Limits, confined
from gamutwright.render.loudness import db_to_gain, measured
from gamutwright.render.mix import CEILING_DBTP, TARGET_LUFS
from gamutwright.render.signal import Signal, true_runs
from gamutwright.render.voice import Samples, word_spans

__all__ = ["LONGEST_SECONDS", "TAKE_LUFS", "TAKE_PEAK_DBTP", "Fault", "Prepared", "Recording", "decode", "prepare"]

LONGEST_SECONDS = 300
TAKE_LUFS = TARGET_LUFS
TAKE_PEAK_DBTP = CEILING_DBTP
"""Takes have the loudness and the highest peak of the programme they go into."""
_SILENT_DBFS = -55.0
_QUIET_DBFS = -38.0
_CLIPPED = 0.998
_CLIPPED_RUN = 3
_NOISE_BELOW_SPEECH_DB = 30.0
_FASTEST_RATE = 180.0
"""Words a minute: BBC Subtitle Guidelines 1.2.3, section 4.1, gives 160 to 180 for captions."""
_LOWEST_RATE_HZ = 16_000
_HOP = TICKS_PER_SECOND // 100
_CONTAINERS = "aac,aiff,caf,flac,matroska,webm,mov,mp4,m4a,mp3,ogg,w64,wav"
"""Files that hold their own sound. Playlists, which name other files and addresses, are not followed."""
HIGHEST_DBFS = 40.0
MOST_CHANNELS = 64
_LIMITS = Limits(memory_bytes=1 << 30, processor_seconds=60, silent_seconds=120)
_NEXT_STEP = "Give a recording: WAV, FLAC, WebM, MP3 or M4A."
_BEFORE, _AFTER, _FADE = TICKS_PER_SECOND // 20, TICKS_PER_SECOND // 10, TICKS_PER_SECOND // 200


class Fault(StrEnum):
    """What may be wrong with a recording; silence, with which nothing can be done, is an error instead."""

    CLIPPED = "clipped"
    QUIET = "quiet"
    NOISY = "noisy"
    TOO_FAST = "too fast"
    CUT_IN = "cut in"
    CUT_OFF = "cut off"
    TRUNCATED = "truncated"
    LOW_RATE = "low rate"

    @property
    def advice(self) -> str:
        """What it means, and what to do."""
        return _ADVICE[self]


_ADVICE = {
    Fault.CLIPPED: "It was louder than the recorder could take. Turn the level down and record again.",
    Fault.QUIET: "It was recorded very quietly, and noise grows when it is raised. Turn the level up.",
    Fault.NOISY: "The room is heard: speech is less than 30 dB above it. Go nearer to the microphone.",
    Fault.TOO_FAST: "It is above 180 words a minute, faster than captions can be read. Speak more slowly.",
    Fault.CUT_IN: "Sound begins with the very first sample. Start the recorder before you speak.",
    Fault.CUT_OFF: "Sound lasts until the very last sample. Let the recorder run on after the line.",
    Fault.TRUNCATED: "The file ends before the length it states. Copy or export it again.",
    Fault.LOW_RATE: "It has fewer than 16,000 samples a second and sounds like a telephone. Record at 48,000.",
}


@dataclass(frozen=True, slots=True, eq=False)
class Recording:
    """A decoded file.

    Parameters
    ----------
    samples : ndarray of float32
        Mono, 48,000 a second.
    rate_hz, channels : int
        Of the file.
    clipped_runs : int
        How often three samples or more in a row stand at full scale.
    is_truncated : bool
        Whether the file ends before the length it states, or cannot be decoded to its end.
    """

    samples: Samples
    rate_hz: int
    channels: int
    clipped_runs: int = 0
    is_truncated: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Prepared:
    """A recording fit for a lesson.

    Parameters
    ----------
    samples : ndarray of float32
        Trimmed and levelled.
    faults : tuple of Fault
        What is wrong with it.
    loudness_lufs, peak_dbtp : float
        After levelling.
    noise_dbfs : float
        Root mean square of the quietest tenth, after levelling.
    words_per_minute : float
        Rate of speaking, over the trimmed recording.
    """

    samples: Samples
    faults: tuple[Fault, ...]
    loudness_lufs: float
    peak_dbtp: float
    noise_dbfs: float
    words_per_minute: float


def decode(path: Path) -> Recording:
    """Read a recording: WAV, FLAC, Ogg, WebM, MP3, M4A, AIFF and their kin, with any codec FFmpeg decodes.

    Parameters
    ----------
    path : Path
        The file. It is decoded in a process of its own, which may die of it.

    Returns
    -------
    Recording
        Its sound; several channels are averaged, or the loudest is taken where they cancel one another.

    Raises
    ------
    FileError
        If it cannot be read, holds no sound or levels that no recording has, or lasts longer than five minutes.
    """
    call = "gamutwright.render.recording:_read"
    # The process may have been started in another folder.
    asked: list[Plain] = [str(path.absolute()), str(path)]
    (rate_hz, channels, clipped, is_truncated), data = confined(call, asked, _LIMITS, (str(path), _NEXT_STEP))
    samples = np.frombuffer(data, np.float32)
    return Recording(samples, int(rate_hz), int(channels), int(clipped), bool(is_truncated))


def _read(_tell: object, place: str, name: str) -> tuple[list[Plain], bytes]:
    """Decode a file, in the process that may die of it."""
    try:
        found = _heard(place, name, None)
        # Channels of opposite sign cancel out; then one of them says more than their mean.
        if found.mean_power < 0.05 * max(found.powers):
            found.samples = _heard(place, name, found.powers.index(max(found.powers))).samples
    except (av.error.FFmpegError, OSError, ValueError) as error:
        if isinstance(error, FileError):
            raise
        reason = getattr(error, "strerror", None) or error
        raise FileError(name, f"it cannot be read as sound ({reason})", _NEXT_STEP) from error
    samples = np.concatenate(found.samples)
    is_short = len(samples) < (found.stated_s - 0.25) * 0.95 * TICKS_PER_SECOND
    is_truncated = not found.is_whole or is_short or _is_cut_wave(Path(place))
    return [found.rate_hz, len(found.powers), found.clipped_runs, is_truncated], samples.tobytes()


def _is_cut_wave(path: Path) -> bool:
    """Whether a WAV file is shorter than its head states; FFmpeg takes the length from the file instead."""
    with path.open("rb") as file:
        head = file.read(8)
    size = int.from_bytes(head[4:], "little")
    # Recorders that never went back to the head leave the largest number there.
    return head[:4] == b"RIFF" and size != 2**32 - 1 and size + 8 > path.stat().st_size


@dataclass(slots=True)
class _Found:
    """What is kept of a file while it is decoded: the mean of its channels or one of them, and of each its power."""

    rate_hz: int
    stated_s: float
    channel: int | None
    powers: list[float]
    runs: list[int]
    """In each channel, how many samples in a row stand at full scale where the last block ended."""
    samples: list[Samples] = field(default_factory=list)
    mean_power: float = 0.0
    clipped_runs: int = 0
    is_whole: bool = True

    def add(self, sound: NDArray[np.float32]) -> None:
        """Take in a block, one column a channel."""
        kept = sound.mean(axis=1) if self.channel is None else sound[:, self.channel]
        self.samples.append(np.ascontiguousarray(kept, np.float32))
        self.mean_power += float((kept.astype(np.float64) ** 2).sum())
        for channel, power in enumerate((sound.astype(np.float64) ** 2).sum(axis=0)):
            self.powers[channel] += float(power)
            clipped, self.runs[channel] = _clipped_runs(sound[:, channel], self.runs[channel])
            self.clipped_runs += clipped


def _heard(place: str, name: str, channel: int | None) -> _Found:
    """Decode at 48,000 a second."""
    # With its scheme, a name that looks like an address is a name.
    with av.open(f"file:{place}", options={"format_whitelist": _CONTAINERS, "protocol_whitelist": "file"}) as container:
        if not container.streams.audio:
            raise FileError(name, "it holds no sound", _NEXT_STEP)
        stream = container.streams.audio[0]
        if stream.codec_context is None:
            raise FileError(name, "its sound is coded in a way that is unknown here", _NEXT_STEP)
        if not 1 <= stream.channels <= MOST_CHANNELS:
            step = "Export the channel of your microphone alone."
            raise FileError(name, f"it has {stream.channels} channels, and 1 to {MOST_CHANNELS} are read", step)
        stated = float(container.duration / av.time_base) if container.duration else 0.0
        found = _Found(stream.rate, stated, channel, [0.0] * stream.channels, [0] * stream.channels)
        ticks = 0
        try:
            for block in _blocks(container, len(found.powers)):
                _refuse(name, block, ticks := ticks + len(block))
                found.add(block)
        except av.error.FFmpegError:
            if not found.samples:
                raise
            found.is_whole = False
    if not found.samples:
        raise FileError(name, "it holds no samples", "Record the line again.")
    return found


def _blocks(container: av.container.InputContainer, channels: int) -> Iterator[NDArray[np.float32]]:
    """Give what is heard, at 48,000 a second, a second or more at a time; what stands before an error comes too."""
    resampler: av.AudioResampler | None = None
    waiting: list[NDArray[np.float32]] = []
    try:
        for frame in container.decode(container.streams.audio[0]):
            # All channels in one plane: the library reads no more than eight planes of a frame.
            resampler = resampler or av.AudioResampler(format="flt", layout=frame.layout, rate=TICKS_PER_SECOND)
            waiting += _rows(resampler.resample(frame), channels)
            if sum(map(len, waiting)) >= TICKS_PER_SECOND:
                yield np.concatenate(waiting)
                waiting = []
        if resampler is not None:
            waiting += _rows(resampler.resample(None), channels)
    except av.error.FFmpegError:
        if waiting:
            yield np.concatenate(waiting)
        raise
    if waiting:
        yield np.concatenate(waiting)


def _rows(frames: Iterable[av.AudioFrame], channels: int) -> list[NDArray[np.float32]]:
    return [np.asarray(frame.to_ndarray(), np.float32).reshape(-1, channels) for frame in frames]


def _refuse(name: str, block: NDArray[np.float32], ticks: int) -> None:
    """Refuse what lasts too long for a line, and levels that no recording has."""
    if ticks > LONGEST_SECONDS * TICKS_PER_SECOND:
        raise FileError(
            name,
            f"it lasts longer than {LONGEST_SECONDS // 60} minutes, and a take is of one line",
            "Cut it into one file for each line.",
        )
    # A sample that is no number makes the highest none either.
    highest = float(np.abs(block).max(initial=0))
    if not highest <= db_to_gain(HIGHEST_DBFS):
        how = f"{highest:.3g} times full scale" if np.isfinite(highest) else "no number"
        raise FileError(
            name,
            f"a sample of it is {how}, and no recording is more than {HIGHEST_DBFS:g} dB above full scale",
            "Export it as WAV or FLAC of 16 or 24 bits; as numbers with a point, full scale is 1.",
        )


def _clipped_runs(channel: NDArray[np.float32], before: int) -> tuple[int, int]:
    """Count the runs at full scale that are long by the end of a block, and tell how long the last is at its end."""
    runs = true_runs(np.abs(channel) >= _CLIPPED)
    if not len(runs):
        return 0, 0
    lengths = runs[:, 1] - runs[:, 0]
    counted = 0
    if runs[0, 0] == 0:
        lengths[0] += before
        counted = before >= _CLIPPED_RUN
    at_end = int(lengths[-1]) if runs[-1, 1] == len(channel) else 0
    return int(np.count_nonzero(lengths >= _CLIPPED_RUN)) - counted, at_end


def prepare(recording: Recording, line: str) -> Prepared:
    """Trim a recording to its speech, bring it to the loudness of takes, and say what is wrong with it.

    Parameters
    ----------
    recording : Recording
        The recording.
    line : str
        What is spoken in it.

    Returns
    -------
    Prepared
        50 ms before the first sound and 100 ms behind the last are kept. The loudness is `TAKE_LUFS`, or less where the
        true peak would pass `TAKE_PEAK_DBTP`.

    Raises
    ------
    InputError
        If nothing is heard in it.
    """
    samples = recording.samples - recording.samples.mean()
    levels = _levels(samples)
    loud = float(np.percentile(levels, 95)) if len(levels) else -np.inf
    if loud < _SILENT_DBFS:
        raise InputError(
            "the recording",
            f"it is silent (no sound above {_SILENT_DBFS:g} dBFS)",
            "Check the microphone, and record again.",
        )
    noise = float(np.percentile(levels, 10))
    first, last = _speech_hops(levels, noise, loud)
    start, end = max(0, first * _HOP - _BEFORE), min(len(samples), (last + 1) * _HOP + _AFTER)
    trimmed = samples[start:end].copy()
    fade = np.linspace(0, 1, min(_FADE, len(trimmed)), dtype=np.float32)
    trimmed[: len(fade)] *= fade
    trimmed[len(trimmed) - len(fade) :] *= fade[::-1]
    before = measured(Signal.of_samples(trimmed))
    gain_db = min(TAKE_LUFS - before.integrated_lufs, TAKE_PEAK_DBTP - before.true_peak_dbtp)
    rate = 60 * len(word_spans(line)) / max(0.1, (last + 1 - first) * _HOP / TICKS_PER_SECOND)
    is_found = {
        Fault.CLIPPED: recording.clipped_runs > 0,
        Fault.QUIET: loud < _QUIET_DBFS,
        Fault.NOISY: loud - noise < _NOISE_BELOW_SPEECH_DB and len(levels) > last - first + 10,
        Fault.TOO_FAST: rate > _FASTEST_RATE,
        Fault.CUT_IN: first == 0,
        Fault.CUT_OFF: last >= len(levels) - 1 and not recording.is_truncated,
        Fault.TRUNCATED: recording.is_truncated,
        Fault.LOW_RATE: recording.rate_hz < _LOWEST_RATE_HZ,
    }
    return Prepared(
        np.asarray(trimmed * db_to_gain(gain_db), np.float32),
        tuple(itertools.compress(is_found, is_found.values())),
        before.integrated_lufs + gain_db,
        before.true_peak_dbtp + gain_db,
        noise + gain_db,
        rate,
    )


def _levels(samples: Samples) -> NDArray[np.float64]:
    """Give the level of every 10 ms in dBFS."""
    whole = len(samples) // _HOP * _HOP
    power = (samples[:whole].reshape(-1, _HOP).astype(np.float64) ** 2).mean(axis=1)
    return np.asarray(10 * np.log10(power + 1e-12))


def _speech_hops(levels: NDArray[np.float64], noise: float, loud: float) -> tuple[int, int]:
    """Find the first and the last 10 ms of speech: loud enough, and for at least 30 ms in a row, so no click."""
    threshold = max(loud - 40, noise + min(8.0, 0.4 * (loud - noise)))
    runs = true_runs(levels > threshold)
    long = runs[runs[:, 1] - runs[:, 0] >= 3]
    return (int(long[0, 0]), int(long[-1, 1]) - 1) if len(long) else (0, len(levels) - 1)
