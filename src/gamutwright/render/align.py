"""When the words of a recording are heard: the recording is laid along the same words spoken by the built-in voice.

The idea: nothing has to be recognised, since the words are known. The line is synthesised by several voices, whose word
times are known exactly, and each is matched with the recording by dynamic time warping over cepstra; the middle of what
they say is taken. No model is downloaded.

What makes the difference: pauses are taken out before matching and put back after it, since the match would slide along
them; the background of the recording is added to the references, since cepstra see it; what the microphone colours is
taken out by the mean of each coefficient.

References: S. Davis and P. Mermelstein, Comparison of parametric representations for monosyllabic word recognition,
IEEE Transactions on Acoustics, Speech and Signal Processing 28 (1980), 357-366, for the cepstra; H. Sakoe and S. Chiba,
Dynamic programming algorithm optimization for spoken word recognition, the same 26 (1978), 43-49, for the warping (both
from memory).

**Conventions.** Frames are 25 ms long and 5 ms apart; the time of a frame is its middle. Levels are in decibels of
full scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import DomainError
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.ir.timeline import SpokenWord
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.signal import true_runs
from gamutwright.render.voice import Samples, SpokenLine, fill_times, resample

__all__ = ["REFERENCES", "align", "reference_lines"]

REFERENCES = (("", 50, 1.15), ("f2", 60, 1.25), ("m3", 40, 1.0), ("f4", 50, 1.4))
"""Variant, pitch and rate of the voices a recording is laid along."""

_RATE_HZ = 16_000
_FRAME, _HOP = 400, 160
_HOP_TICKS = _HOP * TICKS_PER_SECOND // _RATE_HZ
_HALF_FRAME_TICKS = _FRAME * TICKS_PER_SECOND // _RATE_HZ // 2
_BANDS, _CEPSTRA = 32, 13
_LOWEST_HZ, _HIGHEST_HZ = 80.0, 7600.0
_QUIET_SHARE = 0.1
_SHORTEST_PAUSE = 12
"""Frames: 120 ms. Shorter gaps are the closures of stops, which belong to words."""
_KEPT_OF_PAUSE = 1
_PAUSE_REACH = 15
"""Frames: a word that seems to begin within 150 ms of a pause begins behind it."""
_STEP_COST = 0.15
"""Extra cost of a step that moves in one of the two only, in units of the mean distance."""

_Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class _Speech:
    """Frames of a recording that hold speech: features, and the number of each among all frames."""

    features: _Floats
    frames: NDArray[np.int64]


def reference_lines(line: str, language: str, notes: Sequence[tuple[int, int]] = ()) -> tuple[SpokenLine, ...]:
    """Speak a line by the voices that recordings are laid along.

    Parameters
    ----------
    line : str
        The line.
    language : str
        Its language.
    notes : sequence of (int, int)
        Places in it known to name notes.

    Returns
    -------
    tuple of SpokenLine
        One for each of `REFERENCES`.
    """
    voices = (EspeakVoice(language, rate, pitch, variant) for variant, pitch, rate in REFERENCES)
    return tuple(voice.speak(line, notes) for voice in voices)


def align(recording: Samples, references: Sequence[SpokenLine]) -> tuple[SpokenWord, ...]:
    """Find when the words of a line are heard in a recording of it.

    Parameters
    ----------
    recording : ndarray of float32
        The recording, mono, 48,000 a second.
    references : sequence of SpokenLine
        The same line by other voices.

    Returns
    -------
    tuple of SpokenWord
        The words of the references, with the times of the recording.

    Raises
    ------
    DomainError
        If there is no reference, the references are not of the same words, or nothing is heard in the recording.
    """
    places = [tuple((word.start_char, word.end_char) for word in line.words) for line in references]
    if not places or len(set(places)) != 1:
        raise DomainError(
            f"{len(places)} references", "they must speak the same words", "Make them with reference_lines."
        )
    if not places[0]:
        return ()
    energies = _energies(resample(recording, TICKS_PER_SECOND, _RATE_HZ))
    noise = _background(energies)
    heard = _speech(energies, noise, noise * 0)
    if len(heard.frames) < 2:
        raise DomainError(
            "the recording", "no speech is heard in it", "Record the line again, nearer to the microphone."
        )
    level = _speech_level(energies, noise)
    found = np.array([_mapped(heard, line, noise, level) for line in references])
    begins, ends = _beside_pauses(heard.frames, *np.rint(np.median(found, axis=0)).astype(int).T)
    starts = heard.frames[begins] * _HOP_TICKS + _HALF_FRAME_TICKS - _HOP_TICKS
    stops = heard.frames[ends] * _HOP_TICKS + _HALF_FRAME_TICKS + _HOP_TICKS // 2
    known = [(int(start), int(max(start, stop))) for start, stop in zip(starts, stops, strict=True)]
    return fill_times(places[0], known, len(recording))


def _mapped(heard: _Speech, line: SpokenLine, noise: _Floats, level: float) -> NDArray[np.int64]:
    """Lead the words of a reference over to the recording: first and last frame of speech of each, shape (words, 2)."""
    energies = _energies(resample(line.samples, TICKS_PER_SECOND, _RATE_HZ))
    own = _background(energies)
    gain = level / max(_speech_level(energies, own), 1e-12)
    spoken = _speech(energies * gain, own * gain, noise)
    first, last = _path(heard.features, spoken.features)
    mapped = []
    for word in line.words:
        begin = (word.start_tick - _HALF_FRAME_TICKS) / _HOP_TICKS
        end = (word.end_tick - _HALF_FRAME_TICKS) / _HOP_TICKS
        inside = np.flatnonzero((spoken.frames >= begin - 0.5) & (spoken.frames <= end + 0.5))
        if len(inside) == 0:
            inside = np.array([int(np.argmin(np.abs(spoken.frames - begin)))])
        mapped.append((first[inside[0]], last[inside[-1]]))
    return np.array(mapped)


def _beside_pauses(
    frames: NDArray[np.int64], begins: NDArray[np.int64], ends: NDArray[np.int64]
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Put the word that begins nearest to a pause behind it, and the end of the one before it in front of it."""
    begins, ends = np.maximum.accumulate(begins), np.maximum(ends, begins)
    for before in np.flatnonzero(np.diff(frames) > 1):
        if len(begins) < 2:
            break
        word = 1 + int(np.argmin(np.abs(begins[1:] - before - 0.5)))
        if abs(begins[word] - before - 0.5) > _PAUSE_REACH:
            continue
        begins[word] = before + 1
        begins[:word] = np.minimum(begins[:word], before)
        begins[word:] = np.maximum(begins[word:], before + 1)
        ends[:word] = np.minimum(ends[:word], before)
    return begins, np.maximum(np.minimum(ends, np.append(begins[1:], len(frames) - 1)), begins)


def _energies(samples: Samples) -> _Floats:
    """Give the energy of every frame in bands of equal width on the mel scale, shape (frames, bands)."""
    padded = np.concatenate([samples, np.zeros(max(0, _FRAME - len(samples)), np.float32)])
    frames = np.lib.stride_tricks.sliding_window_view(padded, _FRAME)[::_HOP]
    emphasised = np.concatenate([frames[:, :1] * 0.03, frames[:, 1:] - 0.97 * frames[:, :-1]], axis=1)
    spectrum = np.abs(np.fft.rfft(emphasised * np.hamming(_FRAME), 512)) ** 2
    return np.asarray(spectrum @ _bands().T)


@lru_cache(maxsize=1)
def _bands() -> _Floats:
    def to_mel(freq_hz: float | _Floats) -> _Floats:
        return np.asarray(2595 * np.log10(1 + np.asarray(freq_hz) / 700))

    edges = np.linspace(to_mel(_LOWEST_HZ), to_mel(_HIGHEST_HZ), _BANDS + 2)
    bins = to_mel(np.arange(257) * _RATE_HZ / 512)
    rising = (bins - edges[:-2, None]) / (edges[1:-1] - edges[:-2])[:, None]
    falling = (edges[2:, None] - bins) / (edges[2:] - edges[1:-1])[:, None]
    return np.clip(np.minimum(rising, falling), 0, None)


def _background(energies: _Floats) -> _Floats:
    """Give the mean energy of the quietest frames in every band, shape (bands,)."""
    total = energies.sum(axis=1)
    count = max(1, round(len(total) * _QUIET_SHARE))
    quietest = np.argpartition(total, count - 1)[:count]
    return np.asarray(energies[quietest].mean(axis=0))


def _speech_level(energies: _Floats, noise: _Floats) -> float:
    return float(max(1e-12, np.percentile(energies.sum(axis=1), 80) - noise.sum()))


def _speech(energies: _Floats, noise: _Floats, added: _Floats) -> _Speech:
    """Take pauses out and make cepstra of the rest; `added` is the background another recording has."""
    # Over five frames, so that noise does not flicker over the threshold.
    smooth = np.convolve(np.pad(energies.sum(axis=1), 2, mode="edge"), np.full(5, 0.2), mode="valid")
    total = 10 * np.log10(smooth + 1e-12)
    floor = 10 * np.log10(noise.sum() + 1e-12)
    loud = np.percentile(total, 90)
    is_loud = total > max(floor + min(6.0, 0.35 * (loud - floor)), loud - 40)
    frames = np.flatnonzero(_with_short_gaps(is_loud))
    if not len(frames):
        return _Speech(np.zeros((0, 2 * _CEPSTRA)), frames)
    floor_energy = 1e-4 * energies.sum(axis=1).max() / _BANDS
    logs = np.log(energies[frames] + added + floor_energy)
    cepstra = logs @ _cosines().T
    slopes = _slopes(cepstra)
    features = np.concatenate([cepstra, slopes], axis=1)
    return _Speech((features - features.mean(axis=0)) / (features.std(axis=0) + 1e-6), frames)


def _with_short_gaps(is_loud: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Close gaps too short for a pause, drop clicks, and keep a little of each pause beside the words."""
    kept = is_loud.copy()
    for start, end in true_runs(~kept):
        if start > 0 and end < len(kept) and end - start < _SHORTEST_PAUSE:
            kept[start:end] = True
    for start, end in true_runs(kept):
        if end - start < 3:
            kept[start:end] = False
    spread = kept.copy()
    for start, end in true_runs(kept):
        spread[max(0, start - _KEPT_OF_PAUSE) : end + _KEPT_OF_PAUSE] = True
    return spread


@lru_cache(maxsize=1)
def _cosines() -> _Floats:
    order, band = np.arange(_CEPSTRA)[:, None], np.arange(_BANDS)[None, :]
    return np.asarray(np.cos(np.pi * order * (band + 0.5) / _BANDS))


def _slopes(cepstra: _Floats) -> _Floats:
    reach = 2
    padded = np.pad(cepstra, ((reach, reach), (0, 0)), mode="edge")
    weights = np.arange(-reach, reach + 1)
    windows = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1, axis=0)
    return np.asarray(windows @ weights / (weights**2).sum())


def _path(heard: _Floats, spoken: _Floats) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Match two rows of features; give the first and the last heard frame for each spoken one."""
    distance = np.sqrt(np.maximum(0, (heard**2).sum(axis=1)[:, None] + (spoken**2).sum(axis=1) - 2 * heard @ spoken.T))
    choices = _choices(distance, _STEP_COST * float(distance.mean()))
    row, column = len(heard) - 1, len(spoken) - 1
    first = np.full(len(spoken), -1)
    last = np.full(len(spoken), -1)
    while True:
        first[column] = row
        if last[column] < 0:
            last[column] = row
        if row == 0 and column == 0:
            return first, last
        move = choices[row, column]
        row -= move != 2
        column -= move != 1


def _choices(distance: _Floats, extra: float) -> NDArray[np.int8]:
    """Fill the table of best ways diagonal by diagonal; 0 came from both, 1 along the heard, 2 along the spoken."""
    rows, columns = distance.shape
    choices = np.zeros((rows, columns), np.int8)
    before, before_that = np.full(rows + 1, np.inf), np.full(rows + 1, np.inf)
    # Costs stand at the row's number plus 1, so that the row above is one place to the left; place 0 is a wall.
    for diagonal in range(rows + columns - 1):
        low, high = max(0, diagonal - columns + 1), min(rows, diagonal + 1)
        row = np.arange(low, high)
        local = distance[row, diagonal - row]
        both, along_heard, along_spoken = before_that[low:high], before[low:high], before[low + 1 : high + 1]
        costs = np.stack([both, along_heard + extra, along_spoken + extra])
        move = costs.argmin(axis=0)
        now = np.full(rows + 1, np.inf)
        now[low + 1 : high + 1] = local + (np.take_along_axis(costs, move[None], axis=0)[0] if diagonal else 0)
        choices[row, diagonal - row] = move
        before_that, before = before, now
    return choices
