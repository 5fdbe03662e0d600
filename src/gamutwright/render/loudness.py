"""How loud a signal is: loudness of the whole and of its loudest moment, true peak; gains, and peaks for a limiter.

The meter is FFmpeg's, through PyAV; it is tested with the signals of EBU Tech 3341 made in the tests.

**Conventions.** Loudness in LUFS by ITU-R BS.1770 with both gates; momentary is over 400 ms. True peak in dBTP, found
by oversampling four times. Signals are measured with the channels they have: the same samples in two are 3.01 LU
louder than in one. A
signal that stays below the absolute gate has -70 LUFS. One shorter than 400 ms, for which loudness is not defined, is
measured as if it were repeated. What is left of the last tenth of a second counts for peaks alone.

References: ITU-R BS.1770 (K-weighting, gates, true peak) and EBU Tech 3341 (integration times), from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

import av
import numpy as np
from av.filter import Graph

from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.render.signal import Signal
from gamutwright.render.synth import Samples

__all__ = [
    "HOP_TICKS",
    "LAYOUTS",
    "SILENT_LUFS",
    "HopPeaks",
    "Loudness",
    "Meter",
    "db_to_gain",
    "gain_to_db",
    "hop_peaks",
    "measured",
]

SILENT_LUFS = -70.0
HOP_TICKS = TICKS_PER_SECOND // 1000
_TENTH = TICKS_PER_SECOND // 10
_BLOCK_TENTHS = 4
_SHORTEST = 4 * _TENTH
LAYOUTS = {1: "mono", 2: "stereo"}
"""What FFmpeg calls one channel, and two."""


@dataclass(frozen=True, slots=True)
class Loudness:
    """What a meter shows.

    Parameters
    ----------
    integrated_lufs : float
        Loudness of the whole.
    momentary_lufs : float
        Loudness of the loudest 400 ms.
    short_term_lufs : float
        Loudness of the loudest 3 s.
    true_peak_dbtp : float
        True peak; -inf for silence.
    """

    integrated_lufs: float
    momentary_lufs: float
    short_term_lufs: float
    true_peak_dbtp: float


def db_to_gain(level_db: float) -> float:
    """Turn decibels into a factor.

    Parameters
    ----------
    level_db : float
        Decibels.

    Returns
    -------
    float
        The factor for amplitudes.

    Examples
    --------
    >>> db_to_gain(-20.0)
    0.1
    """
    return float(10.0 ** (level_db / 20))


def gain_to_db(gain: float) -> float:
    """Turn a factor into decibels.

    Parameters
    ----------
    gain : float >= 0
        The factor for amplitudes.

    Returns
    -------
    float
        Decibels; -inf for 0.

    Examples
    --------
    >>> gain_to_db(0.1), gain_to_db(0.0)
    (-20.0, -inf)
    """
    return 20 * math.log10(gain) if gain > 0 else -math.inf


class Meter:
    """Measures samples as they come.

    Parameters
    ----------
    channels : int, 1 or 2
        How many channels the blocks have.
    peaks : bool
        Whether to find true peaks too, which takes most of the time; they are -inf without.

    Examples
    --------
    >>> meter = Meter()
    >>> tone = 0.1 * np.sin(2 * np.pi * 1000 * np.arange(96_000) / 48_000)
    >>> meter.add(tone)
    >>> round(meter.result().integrated_lufs, 1)
    -23.0
    >>> [round(block) for block in meter.blocks_lufs]
    [-23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23, -23]
    """

    def __init__(self, channels: int = 1, *, peaks: bool = True) -> None:
        self._channels = channels
        self._graph = Graph()
        self._source = self._graph.add_abuffer(
            sample_rate=TICKS_PER_SECOND,
            format="dbl",
            layout=LAYOUTS[channels],
            time_base=Fraction(1, TICKS_PER_SECOND),
        )
        meter = self._graph.add("ebur128", f"peak={'true' if peaks else 'none'}:metadata=1:framelog=quiet")
        self._sink = self._graph.add("abuffersink")
        self._source.link_to(meter)
        meter.link_to(self._sink)
        self._graph.configure()
        self._ticks = 0
        self._head: list[Samples] = []
        self._momentary = self._short_term = self._integrated = SILENT_LUFS
        self._peak = 0.0
        self._is_over = False
        self._blocks: list[float] = []

    def add(self, block: Samples) -> None:
        """Hear some more.

        Parameters
        ----------
        block : ndarray of float64, shape (m,) or (m, channels)
            Samples.
        """
        if self._ticks < _SHORTEST:
            self._head.append(np.array(block[:_SHORTEST]))
        if len(block):
            self._push(block)

    @property
    def blocks_lufs(self) -> tuple[float, ...]:
        """The loudness of every whole block of 400 ms so far, one each 100 ms."""
        return tuple(self._blocks[_BLOCK_TENTHS - 1 :])

    def result(self) -> Loudness:
        """Say how loud it was; the meter is spent afterwards.

        Returns
        -------
        Loudness
            The measures.
        """
        if 0 < self._ticks < _SHORTEST:
            once = np.concatenate(self._head)
            for _ in range(-(-_SHORTEST // len(once))):
                self._push(once)
        # Peaks need room for the interpolation behind the last sample, and the filter works in tenths of a second; this
        # filling counts for peaks alone.
        self._is_over = True
        rest = -(self._ticks + 64) % _TENTH + 64
        self._push(np.zeros((rest, self._channels)))
        self._source.push(None)
        self._pull()
        return Loudness(self._integrated, self._momentary, self._short_term, gain_to_db(self._peak))

    def _push(self, block: Samples) -> None:
        frame = av.AudioFrame.from_ndarray(
            np.ascontiguousarray(block.reshape(1, -1)), format="dbl", layout=LAYOUTS[self._channels]
        )
        frame.sample_rate = TICKS_PER_SECOND
        frame.time_base = Fraction(1, TICKS_PER_SECOND)
        frame.pts = self._ticks
        self._ticks += len(block)
        self._source.push(frame)
        self._pull()

    def _pull(self) -> None:
        while True:
            try:
                shown = self._sink.pull().metadata
            except (av.error.BlockingIOError, av.error.EOFError):
                return
            if not shown:
                continue
            self._peak = max(self._peak, _number(shown.get("lavfi.r128.true_peak", "0")))
            if not self._is_over:
                self._blocks.append(_number(shown["lavfi.r128.M"]))
                self._momentary = max(self._momentary, self._blocks[-1])
                self._short_term = max(self._short_term, _number(shown["lavfi.r128.S"]))
                self._integrated = max(SILENT_LUFS, _number(shown["lavfi.r128.I"]))


def _number(text: str) -> float:
    """Read a number of the filter, which writes nan where there is nothing to measure."""
    number = float(text)
    return SILENT_LUFS if math.isnan(number) else number


def measured(signal: Signal, *, peaks: bool = True) -> Loudness:
    """Measure a whole signal, with as many channels as it has.

    Parameters
    ----------
    signal : Signal
        The signal.
    peaks : bool
        Whether to find the true peak too.

    Returns
    -------
    Loudness
        The measures.

    Examples
    --------
    >>> measured(Signal.of_samples(np.zeros(48_000)))
    Loudness(integrated_lufs=-70.0, momentary_lufs=-70.0, short_term_lufs=-70.0, true_peak_dbtp=-inf)
    """
    meter = Meter(signal.channels, peaks=peaks)
    for block in signal.make():
        meter.add(block)
    return meter.result()


def _between() -> Samples:
    """Give the weights that interpolate a quarter, a half and three quarters of a sample onwards."""
    place = np.arange(-11, 13)
    shifted = place[None, :] - np.array([[0.25], [0.5], [0.75]])
    weights: Samples = np.sinc(shifted) * np.cos(np.pi * shifted / 26) ** 2
    return np.array(weights / weights.sum(axis=1, keepdims=True))


_WEIGHTS = _between()
_REACH = 12


class HopPeaks:
    """Gathers the true peak of every millisecond as samples come, of the louder channel where there are two.

    Parameters
    ----------
    channels : int, 1 or 2
        How many channels the blocks have.

    Examples
    --------
    >>> peaks = HopPeaks()
    >>> peaks.add(np.ones(4 * HOP_TICKS))
    >>> len(peaks.result())
    4
    """

    def __init__(self, channels: int = 1) -> None:
        self._tail = np.zeros((channels, 2 * _REACH))
        self._early = _REACH
        self._left = np.zeros(0)
        self._found: list[Samples] = []
        self._ticks = 0

    def add(self, block: Samples) -> None:
        """Hear some more.

        Parameters
        ----------
        block : ndarray of float64, shape (m,) or (m, channels)
            Samples.
        """
        self._ticks += len(block)
        self._take(np.atleast_2d(block.T))

    def result(self) -> Samples:
        """Give the peaks; nothing can be added afterwards.

        Returns
        -------
        ndarray of float64, shape (milliseconds,)
            Linear peaks, the last of which may stand for less than a millisecond.
        """
        self._take(np.zeros((len(self._tail), _REACH + HOP_TICKS)))
        peaks = np.concatenate([np.zeros(0), *self._found])
        return peaks[: -(-self._ticks // HOP_TICKS)]

    def _take(self, rows: Samples) -> None:
        around = np.concatenate([self._tail, rows], axis=1)
        self._tail = around[:, -2 * _REACH :]
        here = np.abs(around[:, _REACH:-_REACH]).max(axis=0)
        for row in around:
            for weights in _WEIGHTS:
                np.maximum(here, np.abs(np.convolve(row, weights[::-1], "valid")[1:]), out=here)
        # What comes out lags behind by the reach of the weights.
        self._left = np.concatenate([self._left, here[self._early :]])
        self._early = max(0, self._early - len(here))
        whole = len(self._left) // HOP_TICKS
        self._found.append(self._left[: whole * HOP_TICKS].reshape(-1, HOP_TICKS).max(axis=1, initial=0.0))
        self._left = self._left[whole * HOP_TICKS :]


def hop_peaks(signal: Signal) -> Samples:
    """Find the true peak of every millisecond, by oversampling four times.

    Parameters
    ----------
    signal : Signal
        The signal.

    Returns
    -------
    ndarray of float64, shape (milliseconds,)
        Linear peaks; what lies between the last sample of one millisecond and the first of the next counts for the
        first.

    Examples
    --------
    >>> [round(float(peak), 2) for peak in hop_peaks(Signal.of_samples(np.r_[np.zeros(48), 0.5 * np.ones(48)]))]
    [0.39, 0.57]
    """
    gatherer = HopPeaks(signal.channels)
    for block in signal.make():
        gatherer.add(block)
    return gatherer.result()
