"""The instruments: which partials a tone has, how long they last, and the noise of the hand that starts them.

Each tone is a sum of modes, exponentials of exact frequencies, so that a model of a string cannot be out of tune. What
an instrument is known by is in their weights:

* *plucked*, a string stopped two elevenths along on a wooden box whose air and plate resonate; *struck*, soft keys,
  felt on doubled strings that fade first quickly, then slowly; *sustained*, an even pipe;
* *bass*, a long string plucked with the flesh of a finger; *pad*, for drones, which swells, and whose partials come and
  go slowly as those of many players do;
* *brush* and *wood block*, noise through filters.

Loudly struck tones are brighter. Each tone differs a little in weight and brightness from the one before, by a hash of
its place and pitch: the same sound is the same samples wherever it stands, and no two strokes are one recording.

**Conventions.** Modes of a tone have whole multiples of its fundamental, but for two sidebands to either side of a
pad's partials, 0.9 cents away and of one weight, which change loudness and not pitch. The knock of a body is below a
tenth of a tone and 14 dB weaker after 40 ms. Decays are per second, levels those of amplitudes.

References: Fletcher and Rossing, The Physics of Musical Instruments, 1998 (plucked strings and air and plate modes of
guitars near 100, 200 and 400 Hz; two-stage decay of doubled strings), from memory. The figures are ours, by
measurement.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import TICKS_PER_SECOND, Note, Timbre

__all__ = [
    "INSTRUMENTS",
    "Instrument",
    "Modes",
    "Samples",
    "Tone",
    "instrument_of",
    "ramp",
    "stroke_samples",
    "tone_of",
]

Samples = NDArray[np.float64]

_MS = TICKS_PER_SECOND // 1000
_TOP_HZ = 14_000.0
_MOST_PARTIALS = 32
_SIDE_CENTS = 0.9
_USUAL_FORCE = 0.7


@dataclass(frozen=True, slots=True)
class Modes:
    """The modes of a tone.

    Parameters
    ----------
    freq_hz, amplitude, decay : ndarray of float64, shape (m,)
        Frequency, amplitude at the beginning, and decay a second of each.
    phase : ndarray of float64, shape (m,)
        Radians at the beginning.
    """

    freq_hz: Samples
    amplitude: Samples
    decay: Samples
    phase: Samples


@dataclass(frozen=True, slots=True)
class Instrument:
    """What makes tones.

    Parameters
    ----------
    name : str
        What it is called.
    attack_ticks : int
        How long it fades in.
    swell_ticks : int
        How long it then takes to its full loudness; 0 for at once.
    release_ticks : int
        How long it fades once it was let go.
    modes : callable
        Gives the modes of a tone from its fundamental and its brightness, 1 being the usual one.
    knock : float
        Amplitude of its body when a tone begins, of that of the tone.
    breath : float
        The same of the noise of finger or felt.
    """

    name: str
    attack_ticks: int
    swell_ticks: int
    release_ticks: int
    modes: Callable[[float, float], Modes]
    knock: float = 0.0
    breath: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Tone:
    """A note on an instrument, ready to be sounded.

    Parameters
    ----------
    instrument : Instrument
        What plays.
    weight, power : ndarray of complex128, shape (m,)
        Of each mode, at its first tick; and its exponent a tick.
    burst : ndarray of float64
        Noise from its first tick on.
    """

    instrument: Instrument
    weight: NDArray[np.complex128]
    power: NDArray[np.complex128]
    burst: Samples


def _numbers(freq_hz: float, most: int = _MOST_PARTIALS) -> Samples:
    return np.arange(1.0, 1 + max(1, min(most, int(_TOP_HZ / freq_hz))))


def _spread(number: Samples) -> Samples:
    """Give phases that grow with the square of the number: a low peak for its energy (Schroeder 1970, from memory)."""
    phases: Samples = np.pi * number * (number - 1) / number.max() - np.pi / 2
    return phases


_BOX = ((104.0, 14.0, 1.1), (208.0, 16.0, 0.9), (415.0, 20.0, 0.7), (620.0, 22.0, 0.5), (980.0, 18.0, 0.4))
"""Resonances of a box: hertz, quality, height over what lies between them."""


def _box_gain(freq_hz: Samples) -> Samples:
    """Say how much louder a box makes each frequency."""
    gain = np.ones(len(freq_hz), complex)
    for centre, quality, height in _BOX:
        gain += height / (1 + 1j * quality * (freq_hz / centre - centre / freq_hz))
    found: Samples = np.abs(gain) / np.sqrt(1 + (freq_hz / 5_200) ** 2)
    return found


def _plucked(freq_hz: float, brightness: float) -> Modes:
    k = _numbers(freq_hz)
    point = 2 / 11 * (1 + 0.08 * (brightness - 1))
    soft = np.exp(-k * freq_hz / (4_200 * brightness))
    amplitude = np.abs(np.sin(np.pi * k * point)) / k**0.7 * soft * _box_gain(k * freq_hz)
    # A fundamental that a box hardly carries is still the one that is heard as the pitch.
    amplitude[0] = max(amplitude[0], 0.5 * amplitude.max())
    decay = 1.0 + freq_hz / 420 + 0.3 * (k - 1) + (k * freq_hz / 2_000) ** 2
    return Modes(k * freq_hz, amplitude, decay, _spread(k))


def _keys(freq_hz: float, brightness: float) -> Modes:
    k = _numbers(freq_hz, 20)
    amplitude = np.abs(np.sin(np.pi * k / 8)) / k**1.2 * np.exp(-((k * freq_hz / (2_600 * brightness)) ** 2))
    amplitude[0] = max(amplitude[0], 0.6 * amplitude.max())
    slow = 0.45 + freq_hz / 1_000 + 0.14 * (k - 1)
    both = np.r_[0.66 * amplitude, 0.34 * amplitude]
    return Modes(np.r_[k, k] * freq_hz, both, np.r_[6.5 * slow, slow], np.tile(_spread(k), 2))


def _pipe(freq_hz: float, brightness: float) -> Modes:
    k = _numbers(freq_hz, 16)
    amplitude = np.where(k % 2 == 0, 0.6, 1.0) / k**1.4 * np.exp(-k * freq_hz / (7_000 * brightness))
    return Modes(k * freq_hz, amplitude, np.zeros_like(k), _spread(k))


def _bass(freq_hz: float, brightness: float) -> Modes:
    k = _numbers(freq_hz, 24)
    # Short of the middle of the string, so that small loudspeakers have second and third partials to play.
    amplitude = np.abs(np.sin(np.pi * k * 0.23)) / k**0.5 * np.exp(-k * freq_hz / (420 * brightness))
    amplitude[0] = max(amplitude[0], 0.7 * amplitude.max())
    decay = 1.1 + freq_hz / 300 + 0.5 * (k - 1) + (k * freq_hz / 800) ** 2
    return Modes(k * freq_hz, amplitude, decay, _spread(k))


def _pad(freq_hz: float, brightness: float) -> Modes:
    k = _numbers(freq_hz, 12)
    amplitude = 1 / k**1.25 * np.exp(-((k * freq_hz / (1_900 * brightness)) ** 1.5))
    amplitude[0] = max(amplitude[0], 0.5 * amplitude.max())
    # Whole numbers times the golden section are spread evenly: no two partials swell together.
    turn = 2 * np.pi * ((k * 0.6180339887) % 1)
    # The lowest partials would come and go too slowly to be heard, and are left alone.
    ratio = 2 ** (_SIDE_CENTS / 1200) - 1
    phase = _spread(k)
    side = np.where(k * freq_hz * ratio < 0.05, 0.0, 0.16) * amplitude
    return Modes(
        np.r_[k, k * (1 + ratio), k * (1 - ratio)] * freq_hz,
        np.r_[amplitude - side, side, side],
        np.zeros(3 * len(k)),
        np.r_[phase, phase + turn, phase - turn],
    )


PLUCKED = Instrument("plucked", 5 * _MS, 0, 120 * _MS, _plucked, knock=0.09, breath=0.035)
KEYS = Instrument("struck", 6 * _MS, 0, 150 * _MS, _keys, knock=0.05, breath=0.012)
PIPE = Instrument("sustained", 25 * _MS, 0, 80 * _MS, _pipe)
BASS = Instrument("bass", 7 * _MS, 0, 110 * _MS, _bass, breath=0.03)
PAD = Instrument("pad", 12 * _MS, 450 * _MS, 150 * _MS, _pad)

INSTRUMENTS: Mapping[str, Instrument] = {one.name: one for one in (PLUCKED, KEYS, PIPE, BASS, PAD)}
"""The instruments that play tones, by name."""


def instrument_of(part: Part, timbre: Timbre) -> Instrument:
    """Say what a part is played on.

    Parameters
    ----------
    part : Part
        Who plays.
    timbre : Timbre
        How the tune sounds.

    Returns
    -------
    Instrument
        The tune's is that of the timbre; chords have keys, or strings where the tune has the keys.

    Examples
    --------
    >>> instrument_of(Part.CHORD, Timbre.PLUCKED).name, instrument_of(Part.DRONE, Timbre.PLUCKED).name
    ('struck', 'pad')
    """
    if part is Part.TUNE:
        return INSTRUMENTS[timbre.value]
    if part is Part.CHORD:
        return PLUCKED if timbre is Timbre.STRUCK else KEYS
    return BASS if part is Part.BASS else PAD


def _chances(*numbers: int) -> tuple[float, float, int]:
    """Turn numbers into two from -1 to 1 and a whole one, by the steps of splitmix64 (Steele and others 2014)."""
    state = 0
    for number in numbers:
        state = (state ^ number) & 0xFFFFFFFFFFFFFFFF
        state = (state + 0x9E3779B97F4A7C15) & 0xFFFFFFFFFFFFFFFF
        state = ((state ^ (state >> 30)) * 0xBF58476D1CE4E5B9) & 0xFFFFFFFFFFFFFFFF
        state = ((state ^ (state >> 27)) * 0x94D049BB133111EB) & 0xFFFFFFFFFFFFFFFF
        state ^= state >> 31
    level, shade = (((state >> shift) & 0xFFFFF) / 0x80000 - 1 for shift in (0, 21))
    return level, shade, state >> 42


@lru_cache(maxsize=8)
def _noise(low_hz: float, high_hz: float) -> Samples:
    """Make two seconds of noise between two frequencies, of unit power, its ends joined."""
    count = 2 * TICKS_PER_SECOND
    freqs = np.fft.rfftfreq(count, 1 / TICKS_PER_SECOND)
    with np.errstate(divide="ignore"):
        gain = 1 / np.sqrt(1 + (low_hz / freqs) ** 4) / np.sqrt(1 + (freqs / high_hz) ** 8)
    gain[freqs > 15_000] = 0
    noise = np.fft.irfft(np.fft.rfft(np.random.default_rng(1).standard_normal(count)) * gain)
    unit: Samples = noise / np.sqrt(np.mean(noise**2))
    return unit


def _cut(noise: Samples, place: int, count: int) -> Samples:
    first = place % (len(noise) - count)
    return noise[first : first + count]


@lru_cache(maxsize=8)
def _hump(count: int, rise: int) -> Samples:
    """Rise along half a cosine, and fall along a longer one."""
    ticks = np.arange(count, dtype=np.float64)
    hump: Samples = np.where(ticks < rise, ramp(ticks, rise), 1 - ramp(ticks - rise, count - rise))
    return hump


def ramp(ticks: NDArray[np.integer[Any] | np.floating[Any]], length: int) -> Samples:
    """Rise from 0 to 1 along half a cosine.

    Parameters
    ----------
    ticks : ndarray of int or float
        How far along; what lies before 0 is 0, what lies beyond the length 1.
    length : int > 0
        How long it rises.

    Returns
    -------
    ndarray of float64, of the same shape
        Gains.

    Examples
    --------
    >>> ramp(np.array([-1.0, 0.0, 5.0, 10.0, 11.0]), 10).round(3).tolist()
    [0.0, 0.0, 0.5, 1.0, 1.0]
    """
    rising: Samples = 0.5 - 0.5 * np.cos(np.pi * np.clip(ticks / length, 0.0, 1.0))
    return rising


_BURST_TICKS = 28 * _MS


@lru_cache(maxsize=1)
def _burst_shape() -> Samples:
    return _hump(_BURST_TICKS, 6 * _MS) ** 2


def tone_of(instrument: Instrument, note: Note) -> Tone:
    """Make a note ready to be sounded.

    Parameters
    ----------
    instrument : Instrument
        What plays it.
    note : Note
        The note.

    Returns
    -------
    Tone
        Of the loudness of the note's velocity at its beginning, give or take 0.3 dB.
    """
    level, shade, place = _chances(note.start_tick, int(note.freq_hz * 1_000), len(note.part))
    force = note.velocity * (1 + 0.035 * level)
    modes = instrument.modes(note.freq_hz, 1 + 0.7 * (note.velocity - _USUAL_FORCE) + 0.06 * shade)
    scale = force / math.sqrt(float(np.sum(modes.amplitude**2)) / 2)
    freq, amplitude, decay, phase = modes.freq_hz, scale * modes.amplitude, modes.decay, modes.phase
    if instrument.knock:
        centre = np.array([row[0] for row in _BOX[:4]])
        knock = instrument.knock * force * np.array([1.0, 0.8, 0.5, 0.35])
        freq, amplitude = np.r_[freq, centre], np.r_[amplitude, knock]
        decay, phase = np.r_[decay, 42 + 0.06 * centre], np.r_[phase, np.full(4, -np.pi / 2)]
    burst = np.zeros(0)
    if instrument.breath:
        cut = _cut(_noise(300.0, 3_500.0), place, _BURST_TICKS)
        burst = (instrument.breath * force * (1 + 0.2 * shade)) * _burst_shape() * cut
    power = (2j * np.pi * freq - decay) / TICKS_PER_SECOND
    weight = (amplitude * np.exp(1j * phase)).astype(np.complex128)
    return Tone(instrument, weight, power.astype(np.complex128), burst)


def stroke_samples(stroke: Stroke) -> Samples:
    """Make the samples of a stroke on a drum.

    Parameters
    ----------
    stroke : Stroke
        The stroke.

    Returns
    -------
    ndarray of float64
        From its first tick to where it has faded.

    Examples
    --------
    >>> len(stroke_samples(Stroke(0, Drum.WOOD_BLOCK))) / TICKS_PER_SECOND
    0.16
    """
    level, shade, place = _chances(stroke.start_tick, len(stroke.drum))
    force = stroke.velocity * (1 + 0.05 * level)
    if stroke.drum is Drum.BRUSH:
        count = 260 * _MS
        ticks = np.arange(count)
        swish = np.exp(-ticks / (52 * _MS)) * _hump(count, 9 * _MS)
        dark, bright = _cut(_noise(900.0, 4_500.0), place, count), _cut(_noise(3_000.0, 9_000.0), place, count)
        share = min(0.8, max(0.2, 0.5 * stroke.velocity + 0.1 + 0.1 * shade))
        brush: Samples = 0.55 * force * swish * ((1 - share) * dark + share * bright)
        return brush
    count = 160 * _MS
    ticks = np.arange(count)
    freq = np.array([835.0, 1_290.0, 2_140.0]) * (1 + 0.004 * shade)
    decay = np.array([62.0, 80.0, 150.0])
    ring = np.exp(np.outer((2j * np.pi * freq - decay) / TICKS_PER_SECOND, ticks))
    tone = np.array([0.9, 0.55, 0.3]) @ ring.imag
    tick = _cut(_noise(800.0, 5_000.0), place, count) * np.exp(-ticks / (3 * _MS)) * 0.4
    block: Samples = 1.3 * force * (tone + tick) * _hump(count, 2 * _MS)
    return block
