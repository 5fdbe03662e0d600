"""The tones of a film, measured: each at the pitch that was promised, and nothing louder beside them.

A frequency is measured twice over: the strongest line of a spectrum near the tone, then how far its phase turns
between two windows, which does not depend on the resolution of the spectrum (the phase vocoder; Flanagan and Golden
1966, from memory).

A single tone may be off by 2 cents. That is well below the smallest difference trained ears hear between tones one
after another (about 5 cents, from memory) and several times what coding leaves: undamaged films stay below 0.1 cents.
In chords partials of one tone lie near those of others and pull a little, so a tone may be off by 5; where two lines
cannot be told apart in the time there is, that there is a line is all that is asked.

Conventions: hertz and cents; samples are ticks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from gamutwright.ir.evidence import Example, Tone
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.render.synth import Samples

__all__ = ["CHORD_CENTS", "SINGLE_CENTS", "Finding", "Moment", "measured_hz", "moments_of", "read_moment"]

SINGLE_CENTS = 2.0
CHORD_CENTS = 5.0
RING_TICKS = 160 * 48
"""How long a tone that was let go may still ring."""
DRUM_TICKS = 400 * 48
"""How long a stroke on a drum may ring."""
ATTACK_TICKS = 40 * 48
LEAST_TICKS = 100 * 48
MOST_TICKS = TICKS_PER_SECOND
WEAKEST = 0.03
"""A tone is there if its fundamental has this share of the strongest line."""
_LINE = 2.5
"""Half the width of a line in a Hann window's spectrum, in bins of the window's own length."""
_PADDED = 1 << 17


@dataclass(frozen=True, slots=True)
class Moment:
    """A stretch in which the same tones sound.

    Parameters
    ----------
    start_tick, end_tick : int
        From when to when they are measured.
    tones : tuple of Tone
        The tones.
    ringing : tuple of Tone
        Tones that were let go so shortly before that they may still be heard.
    is_drummed : bool
        Whether a drum may still be heard, which has no pitch of its own.
    """

    start_tick: int
    end_tick: int
    tones: tuple[Tone, ...]
    ringing: tuple[Tone, ...] = ()
    is_drummed: bool = False


@dataclass(frozen=True, slots=True)
class Finding:
    """What is wrong with a tone.

    Parameters
    ----------
    tone : Tone or None
        Which was expected; None for one that was not.
    freq_hz : float
        What was heard; 0 where nothing was.
    cents : float
        How far it is off.
    """

    tone: Tone | None
    freq_hz: float
    cents: float


def moments_of(example: Example) -> tuple[tuple[Moment, ...], int]:
    """Cut an example where its tones change.

    Parameters
    ----------
    example : Example
        The example.

    Returns
    -------
    tuple of Moment
        Those long enough to be measured.
    int
        How many tones sound in none of them.
    """
    edges = sorted({tick for tone in example.tones for tick in (tone.start_tick, tone.start_tick + tone.ticks)})
    found, measured = [], set()
    for start, end in pairwise(edges):
        sounding = tuple(tone for tone in example.tones if tone.start_tick <= start < tone.start_tick + tone.ticks)
        if not sounding:
            continue
        is_first = start == edges[0]
        begin = start + (ATTACK_TICKS if is_first else RING_TICKS)
        begin = max(start + ATTACK_TICKS, min(begin, end - LEAST_TICKS))
        stop = min(end, begin + MOST_TICKS)
        if stop - begin >= LEAST_TICKS:
            ringing = tuple(
                tone for tone in example.tones if begin - RING_TICKS < tone.start_tick + tone.ticks <= start
            )
            is_drummed = any(begin - DRUM_TICKS < knock.start_tick < stop for knock in example.knocks)
            found.append(Moment(begin, stop, sounding, ringing, is_drummed))
            measured |= set(sounding)
    return tuple(found), len(set(example.tones) - measured)


def measured_hz(samples: Samples, near_hz: float, reach_cents: float = 150.0) -> float:
    """Measure the frequency of the strongest line near another.

    Parameters
    ----------
    samples : ndarray of float64
        At least 100 ms.
    near_hz : float
        Where to look.
    reach_cents : float
        How far around.

    Returns
    -------
    float
        The frequency; 0 where there is silence.

    Examples
    --------
    >>> tone = np.sin(2 * np.pi * 440.5 * np.arange(14_400) / 48_000)
    >>> round(measured_hz(tone, 440.0), 3)
    440.5
    """
    length = len(samples) * 2 // 3
    hop = len(samples) - length
    ticks = np.arange(length)
    window = np.hanning(length)
    spectrum = np.abs(np.fft.rfft(samples[:length] * window, _PADDED))
    low, high = (round(near_hz * 2 ** (side * reach_cents / 1200) * _PADDED / TICKS_PER_SECOND) for side in (-1, 1))
    band = spectrum[low : high + 1]
    if not len(band) or band.max() <= 1e-9:
        return 0.0
    freq_hz = float((low + int(band.argmax())) * TICKS_PER_SECOND / _PADDED)
    for _ in range(3):
        turned = np.exp(-2j * np.pi * freq_hz * ticks / TICKS_PER_SECOND)
        first = np.sum(samples[:length] * window * turned)
        second = np.sum(samples[hop : hop + length] * window * turned)
        second *= np.exp(-2j * np.pi * freq_hz * hop / TICKS_PER_SECOND)
        freq_hz += float(np.angle(second / first)) * TICKS_PER_SECOND / (2 * np.pi * hop)
    return freq_hz


def _cents(freq_hz: float, than_hz: float) -> float:
    return float(1200 * np.log2(freq_hz / than_hz)) if freq_hz > 0 else float("inf")


def read_moment(samples: Samples, moment: Moment) -> tuple[list[Finding], float]:
    """Measure the tones of a moment.

    Parameters
    ----------
    samples : ndarray of float64
        What is heard.
    moment : Moment
        What should be heard.

    Returns
    -------
    list of Finding
        What is wrong.
    float
        How far the worst tone that could be measured is off, in cents.
    """
    if len(samples) < LEAST_TICKS // 2:
        return [Finding(tone, 0.0, 0.0) for tone in moment.tones], 0.0
    wanted = sorted({tone.freq_hz: tone for tone in moment.tones}.values(), key=lambda tone: tone.freq_hz)
    beside = [*wanted, *moment.ringing]
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples)), _PADDED))
    bin_hz = TICKS_PER_SECOND / _PADDED
    line_hz = _LINE * TICKS_PER_SECOND / len(samples)
    # The strongest line that is low enough to be heard as a pitch.
    top = float(spectrum[int(25 / bin_hz) : int(9_000 / bin_hz)].max(initial=0.0))
    allowed = SINGLE_CENTS if len(beside) == 1 else CHORD_CENTS
    wrong, worst, levels = [], 0.0, []
    for tone in wanted:
        near = spectrum[int((tone.freq_hz - line_hz / 2) / bin_hz) : int((tone.freq_hz + line_hz / 2) / bin_hz) + 2]
        levels.append(float(near.max(initial=0.0)))
        if top <= 1e-6 or levels[-1] < WEAKEST * top:
            heard = measured_hz(samples, tone.freq_hz) if top > 1e-6 else 0.0
            wrong.append(Finding(tone, heard, _cents(heard, tone.freq_hz) if heard else 0.0))
            continue
        if not _stands_alone(tone, beside, line_hz):
            continue
        reach = 150.0 if len(wanted) == 1 else min(150.0, 1200 * np.log2(1 + line_hz / tone.freq_hz))
        heard = measured_hz(samples, tone.freq_hz, reach)
        off = _cents(heard, tone.freq_hz)
        worst = max(worst, abs(off))
        if abs(off) > allowed:
            wrong.append(Finding(tone, heard, off))
    if not wrong and levels and not moment.is_drummed:
        wrong += _strangers(spectrum, [tone.freq_hz for tone in beside], min(levels), line_hz)
    return wrong, worst


def _stands_alone(own: Tone, wanted: Sequence[Tone], line_hz: float) -> bool:
    """Say whether no partial of another tone lies so near that two lines become one, unless one part plays them.

    Tones of one part fade alike, so that lines of theirs which fall together are one line. A line of another part, or
    of a tone that was let go, fades otherwise and pulls.
    """
    freq_hz = own.freq_hz
    for tone in wanted:
        number = round(freq_hz / tone.freq_hz)
        is_like = tone.part == own.part and tone.start_tick + tone.ticks > own.start_tick
        if tone is own or (tone.freq_hz == freq_hz and is_like) or number < 1:
            continue
        for partial in (number - 1, number, number + 1):
            apart = abs(partial * tone.freq_hz - freq_hz)
            near_hz = line_hz * (1.6 if tone.part == own.part else 2.4)  # another part may be much louder
            if partial >= 1 and apart < near_hz and (apart > 1e-6 * freq_hz or not is_like):
                return False
    return True


def _strangers(spectrum: Samples, wanted: Sequence[float], level: float, line_hz: float) -> list[Finding]:
    """Find lines louder than the softest tone that are no partial of any."""
    bin_hz = TICKS_PER_SECOND / _PADDED
    rest = spectrum.copy()
    rest[: int(25 / bin_hz)] = 0
    rest[int(9_000 / bin_hz) :] = 0
    for freq_hz in wanted:
        for partial in range(1, int(9_000 / freq_hz) + 2):
            low = max(0, int((partial * freq_hz - line_hz) / bin_hz))
            rest[low : int((partial * freq_hz + line_hz) / bin_hz) + 2] = 0
    place = int(rest.argmax())
    return [Finding(None, place * bin_hz, 0.0)] if rest[place] > level else []
