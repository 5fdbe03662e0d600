"""Voice and examples in one programme: examples as loud as the voice, the whole at one loudness, no peak above a limit.

Levels are set in this order: every example is brought to the loudness of the voice; everything is added; the programme
is brought to its target, and a limiter that looks ahead lowers the few moments that would pass the ceiling. Where the
limiter took loudness away, the gain is raised until the target is met.

**Conventions.** Targets in LUFS of the signal with the channels it has: a programme in two equal channels gets 3.01 dB
less in each than one in a single channel. What has one channel sits in the middle of what has two. The ceiling before
encoding is -1.5 dBTP, so that -1 dBTP holds after it. A file cannot say how loud it will be played; what can be kept
from the listener is a sudden jump.

References: -16 LUFS with -1 dBTP is usual for spoken programmes on the net (AES TD1004 and TD1008, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from gamutwright.errors import DomainError
from gamutwright.render.instruments import ramp
from gamutwright.render.loudness import (
    HOP_TICKS,
    SILENT_LUFS,
    HopPeaks,
    Meter,
    db_to_gain,
    hop_peaks,
    measured,
)
from gamutwright.render.signal import Signal
from gamutwright.render.synth import BLOCK_TICKS, Samples

__all__ = [
    "CEILING_DBTP",
    "FADE_TICKS",
    "LARGEST_OFFSET_LU",
    "LOUDEST_LUFS",
    "TARGET_LUFS",
    "Clip",
    "channels_lu",
    "levelled",
    "limited",
    "mastered",
    "mixed",
    "programme",
]

TARGET_LUFS = -16.0
CEILING_DBTP = -1.5
LOUDEST_LUFS = -12.0
"""The loudest programme that is made: no lesson needs more, and a careless number should not hurt."""
LARGEST_OFFSET_LU = 3.0
FADE_TICKS = 5 * HOP_TICKS
_LOOK_AHEAD_HOPS = 25
_NEAR_ENOUGH_LU = 0.1
_TRIES = 6


@dataclass(frozen=True, slots=True)
class Clip:
    """A signal at its place in a programme.

    Parameters
    ----------
    start_tick : int >= 0
        Where it begins.
    signal : Signal
        What is heard.
    fade_ticks : int >= 0
        How long it fades in and out; 0 for what fades by itself, as our synthesiser's tones do.

    Raises
    ------
    DomainError
        If it would begin before tick 0.
    """

    start_tick: int
    signal: Signal
    fade_ticks: int = FADE_TICKS

    def __post_init__(self) -> None:
        if self.start_tick < 0 or self.fade_ticks < 0:
            raise DomainError(
                f"a clip from tick {self.start_tick} with fades of {self.fade_ticks}",
                "a clip begins at tick 0 or later, and fades last 0 ticks or more",
                "Give it a later start.",
            )

    @property
    def end_tick(self) -> int:
        """The tick after its last."""
        return self.start_tick + self.signal.ticks


@dataclass(slots=True)
class _Reader:
    """Takes from the blocks of a clip as many samples as are wanted."""

    clip: Clip
    blocks: Iterator[Samples]
    done: int = 0
    left: Samples = field(init=False)

    def __post_init__(self) -> None:
        self.left = np.zeros((0, 2) if self.clip.signal.channels == 2 else 0)

    def take(self, count: int) -> Samples:
        pieces, have = [self.left], len(self.left)
        while have < count:
            block = next(self.blocks, None)
            if block is None:
                block = np.zeros((count - have, *self.left.shape[1:]))
            pieces.append(block)
            have += len(block)
        together = np.concatenate(pieces)
        self.left = together[count:]
        taken = together[:count]
        if self.clip.fade_ticks:
            ticks = np.arange(self.done, self.done + count)
            from_ends = np.minimum(ticks + 1, self.clip.signal.ticks - ticks)
            if from_ends.min() <= self.clip.fade_ticks:
                taken = _scaled(taken, ramp(from_ends, self.clip.fade_ticks + 1))
        self.done += count
        return taken


def _scaled(samples: Samples, gains: Samples) -> Samples:
    """Multiply every sample by a gain of its own, in all channels."""
    return samples * (gains if samples.ndim == 1 else gains[:, None])


def mixed(clips: Sequence[Clip], ticks: int) -> Signal:
    """Add clips up.

    Parameters
    ----------
    clips : sequence of Clip
        In any order; they may overlap.
    ticks : int
        Length of the programme.

    Returns
    -------
    Signal
        Their sum, silence where there is none; in two channels where one of them has two.

    Raises
    ------
    DomainError
        If a clip ends behind the programme.

    Examples
    --------
    >>> one = Clip(1, Signal.of_samples(np.ones(2)), fade_ticks=0)
    >>> mixed([one, one], 4).samples()
    array([0., 2., 2., 0.])
    """
    last = max((clip.end_tick for clip in clips), default=0)
    if last > ticks:
        raise DomainError(
            f"a clip up to tick {last} in a programme of {ticks}",
            "clips end within the programme",
            "Make the programme longer, or begin the clip earlier.",
        )
    ordered = sorted(clips, key=lambda clip: clip.start_tick, reverse=True)
    channels = max((clip.signal.channels for clip in clips), default=1)

    def make() -> Iterator[Samples]:
        waiting = list(ordered)
        sounding: list[_Reader] = []
        for begin in range(0, ticks, BLOCK_TICKS):
            end = min(begin + BLOCK_TICKS, ticks)
            block = np.zeros((end - begin, 2) if channels == 2 else end - begin)
            while waiting and waiting[-1].start_tick < end:
                clip = waiting.pop()
                sounding.append(_Reader(clip, clip.signal.make()))
            for reader in sounding:
                low, high = max(reader.clip.start_tick, begin), min(reader.clip.end_tick, end)
                if high > low:
                    taken = reader.take(high - low)
                    block[low - begin : high - begin] += taken[:, None] if taken.ndim < channels else taken
            sounding = [reader for reader in sounding if reader.clip.end_tick > end]
            yield block

    return Signal(ticks, make, channels)


def channels_lu(channels: int) -> float:
    """Say how much louder the same samples are in some channels than in one.

    Parameters
    ----------
    channels : int, 1 or 2
        In how many.

    Returns
    -------
    float
        Loudness units.

    Examples
    --------
    >>> round(channels_lu(2), 2)
    3.01
    """
    return 10 * math.log10(channels)


def levelled(signal: Signal, target_lufs: float) -> Signal:
    """Bring a signal to a loudness by one gain, peaks left alone.

    Parameters
    ----------
    signal : Signal
        The signal; silence stays silence.
    target_lufs : float
        Integrated loudness wanted.

    Returns
    -------
    Signal
        The louder or softer signal.

    Examples
    --------
    >>> tone = Signal.of_samples(np.sin(2 * np.pi * 1000 * np.arange(48_000) / 48_000))
    >>> round(measured(levelled(tone, -20.0)).integrated_lufs, 1)
    -20.0
    """
    loudness = measured(signal, peaks=False).integrated_lufs
    return signal if loudness <= SILENT_LUFS else signal.amplified(db_to_gain(target_lufs - loudness))


def programme(voices: Sequence[Clip], examples: Sequence[Clip], ticks: int, offset_lu: float = 0.0) -> Signal:
    """Set examples beside a voice, each as loud as it.

    Parameters
    ----------
    voices : sequence of Clip
        What is spoken; where nothing is, examples are brought to the target of a programme.
    examples : sequence of Clip
        What is played.
    ticks : int
        Length of the programme.
    offset_lu : float in [-3, 3]
        How much louder than the voice the examples are.

    Returns
    -------
    Signal
        All of them, before mastering.

    Raises
    ------
    DomainError
        If the offset lies outside its range, or a clip ends behind the programme.

    Examples
    --------
    >>> programme([], [], 96_000).seconds
    2.0
    """
    if not abs(offset_lu) <= LARGEST_OFFSET_LU:
        raise DomainError(
            f"examples {offset_lu:+g} LU from the voice",
            f"they stay within {LARGEST_OFFSET_LU:g} LU of it, so that nobody reaches for the volume",
            "Choose an offset from -3 to 3.",
        )
    voice = mixed(voices, ticks)
    spoken = measured(voice, peaks=False).integrated_lufs
    aim = (spoken if spoken > SILENT_LUFS else TARGET_LUFS) + offset_lu - channels_lu(voice.channels)
    level = [replace(clip, signal=levelled(clip.signal, aim + channels_lu(clip.signal.channels))) for clip in examples]
    return mixed([*voices, *level], ticks)


def _hop_gains(peaks: Samples, ceiling: float) -> Samples:
    """Find for every millisecond a gain that keeps below the ceiling and moves slowly.

    The least gain needed within the look-ahead on either side, averaged twice over half of it: an average of numbers
    none of which is above what is needed here.
    """
    need = np.minimum(1.0, ceiling / np.maximum(peaks, ceiling))
    reach = _LOOK_AHEAD_HOPS
    padded = np.pad(need, reach + 1, constant_values=1.0)
    least = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 3).min(axis=1)
    box = np.ones(reach + 1 - reach % 2) / (reach + 1 - reach % 2)
    wide = np.pad(least, len(box) - 1, mode="edge")
    smooth = np.convolve(np.convolve(wide, box, "valid"), box, "valid")
    gains: Samples = smooth[: len(need)]
    return gains


def _limited(signal: Signal, gain: float, gains: Samples) -> Signal:
    centres = (np.arange(len(gains)) + 0.5) * HOP_TICKS

    def make() -> Iterator[Samples]:
        begin = 0
        for block in signal.make():
            ticks = np.arange(begin, begin + len(block))
            begin += len(block)
            yield _scaled(block, gain * np.interp(ticks, centres, gains))

    return Signal(signal.ticks, make, signal.channels)


def limited(signal: Signal, gain_db: float = 0.0, ceiling_dbtp: float = CEILING_DBTP) -> Signal:
    """Amplify a signal and lower the moments that would pass a ceiling.

    Parameters
    ----------
    signal : Signal
        The signal.
    gain_db : float
        By how much.
    ceiling_dbtp : float
        True peak that is not passed.

    Returns
    -------
    Signal
        The signal, the same but for the gain where nothing passes the ceiling.

    Examples
    --------
    >>> tone = Signal.of_samples(np.sin(2 * np.pi * 1000 * np.arange(48_000) / 48_000))
    >>> round(measured(limited(tone)).true_peak_dbtp, 1)
    -1.5
    """
    gain = db_to_gain(gain_db)
    gains = _hop_gains(hop_peaks(signal) * gain, db_to_gain(ceiling_dbtp))
    return signal.amplified(gain) if gains.min(initial=1.0) >= 1.0 else _limited(signal, gain, gains)


def mastered(signal: Signal, target_lufs: float = TARGET_LUFS, ceiling_dbtp: float = CEILING_DBTP) -> Signal:
    """Bring a programme to its loudness, with no true peak above the ceiling.

    Parameters
    ----------
    signal : Signal
        The programme; silence stays silence.
    target_lufs : float in [-40, -12]
        Integrated loudness of the file.
    ceiling_dbtp : float in [-12, -1]
        True peak that is not passed.

    Returns
    -------
    Signal
        The programme, limited where needed; it has been made twice or more on the way.

    Raises
    ------
    DomainError
        If a parameter lies outside its range.

    Examples
    --------
    >>> tone = Signal.of_samples(np.sin(2 * np.pi * 1000 * np.arange(48_000) / 48_000))
    >>> round(measured(mastered(tone)).integrated_lufs, 1)
    -16.0
    """
    if not -40 <= target_lufs <= LOUDEST_LUFS or not -12 <= ceiling_dbtp <= -1:
        raise DomainError(
            f"{target_lufs:g} LUFS under {ceiling_dbtp:g} dBTP",
            f"programmes have -40 to {LOUDEST_LUFS:g} LUFS and a ceiling of -12 to -1 dBTP",
            f"Leave the target at {TARGET_LUFS:g} LUFS, which suits ears and networks.",
        )
    meter, hops = Meter(signal.channels, peaks=False), HopPeaks(signal.channels)
    for block in signal.make():
        meter.add(block)
        hops.add(block)
    loudness, peaks = meter.result().integrated_lufs, hops.result()
    if loudness <= SILENT_LUFS:
        return signal
    gain = db_to_gain(target_lufs - loudness)
    for _ in range(_TRIES):
        gains = _hop_gains(peaks * gain, db_to_gain(ceiling_dbtp))
        limited = _limited(signal, gain, gains)
        if gains.min() >= 1.0:
            return limited
        missing = target_lufs - measured(limited, peaks=False).integrated_lufs
        if abs(missing) <= _NEAR_ENOUGH_LU:
            return limited
        gain *= db_to_gain(missing)
    return limited
