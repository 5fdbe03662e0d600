"""Sensory roughness of sounding partials: the models of Sethares and of Hutchinson and Knopoff.

Both add up the roughness of every pair of partials that sound together; they differ in the curve, in the weight of a
pair and in what the sum is divided by. Sums grow with the number of tones: compare sounds of equally many.

Conventions: a sound is a list of partials (frequency in Hz, amplitude); any tuning and any timbre can be given.

Sethares: the curve is 5 (exp(-3.51 s x) - exp(-5.75 s x)) with s = 0.24 / (0.0207 f + 18.96), where x is the distance
of the two frequencies in Hz and f the lower of them. A pair weighs as its *smaller* amplitude, as in the program that
Sethares published; his paper has the product of amplitudes instead, and constants rounded to 3.5, 5.75, 0.021 and 19.

Hutchinson and Knopoff: the curve is ((y / 0.25) exp(1 - y / 0.25))**2, where y is the distance in critical bandwidths
of 1.72 times the mean frequency to the power 0.65; beyond 1.2 it is zero. A pair weighs as the product of amplitudes,
and the sum is divided by the sum of their squares. Partials of exactly equal frequency are merged first, into one of
amplitude sqrt(a**2 + b**2); nothing is moved onto a grid.

References: Sethares, Journal of the Acoustical Society of America 94 (1993) and 96 (1994); Hutchinson and Knopoff,
Interface 7 (1978), both as transcribed in open programs that test themselves on published values.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

__all__ = [
    "CRITICAL_CUTOFF",
    "HUTCHINSON_KNOPOFF_HARMONICS",
    "SETHARES_DECAY",
    "SETHARES_HARMONICS",
    "Partial",
    "critical_bandwidth_hz",
    "hutchinson_knopoff_curve",
    "hutchinson_knopoff_roughness",
    "inverse_harmonics",
    "sethares_between",
    "sethares_pair",
    "sethares_roughness",
    "with_harmonics",
]

Partial = tuple[float, float]
"""Frequency in Hz and amplitude."""

SETHARES_HARMONICS = 6
SETHARES_DECAY = 0.88
HUTCHINSON_KNOPOFF_HARMONICS = 11
CRITICAL_CUTOFF = 1.2

# Two frequencies are one partial if they agree to this relative accuracy: more than rounding, less than any tuning.
_COINCIDENCE = 1e-12
# exp(-40) is below the rounding of any sum it could be added to.
_INAUDIBLE = 40.0


def with_harmonics(freqs_hz: Iterable[float], amplitudes: Sequence[float]) -> list[Partial]:
    """Give each tone a series of harmonics.

    Parameters
    ----------
    freqs_hz : iterable of float > 0
        Fundamental frequencies, hertz.
    amplitudes : sequence of float > 0
        Amplitude of the fundamental, of the octave above it, and so on.

    Returns
    -------
    list of (float, float)
        Frequency and amplitude of every partial, tone by tone.

    Examples
    --------
    >>> with_harmonics([100.0], [1.0, 0.5])
    [(100.0, 1.0), (200.0, 0.5)]
    """
    return [(freq_hz * place, amplitude) for freq_hz in freqs_hz for place, amplitude in enumerate(amplitudes, 1)]


def inverse_harmonics(count: int) -> tuple[float, ...]:
    """Give the amplitudes 1, 1/2, 1/3 and so on.

    Parameters
    ----------
    count : int >= 0
        How many.

    Returns
    -------
    tuple of float
        The amplitudes.

    Examples
    --------
    >>> inverse_harmonics(4)
    (1.0, 0.5, 0.3333333333333333, 0.25)
    """
    return tuple(1 / place for place in range(1, count + 1))


def sethares_pair(one: Partial, other: Partial) -> float:
    """Give the roughness of two partials by Sethares's program.

    Parameters
    ----------
    one, other : (float, float)
        Frequency in Hz and amplitude.

    Returns
    -------
    float >= 0
        The roughness; 0 at equal frequency.

    Examples
    --------
    >>> round(sethares_pair((440.0, 1.0), (460.0, 1.0)), 4)
    0.873
    """
    return sethares_roughness((one, other))


def sethares_roughness(partials: Iterable[Partial]) -> float:
    """Add up the roughness of all pairs of partials by Sethares's program.

    Parameters
    ----------
    partials : iterable of (float, float)
        Frequency in Hz and amplitude of each partial.

    Returns
    -------
    float >= 0
        The sum.

    Examples
    --------
    >>> pair = sethares_roughness([(440.0, 1.0), (460.0, 1.0)])
    >>> round(sethares_roughness([(440.0, 1.0), (460.0, 1.0), (480.0, 1.0)]) / pair, 4)
    2.9194
    """
    rising = sorted(partials)
    total = 0.0
    exp = math.exp
    for place, (low_hz, amplitude) in enumerate(rising):
        narrowing = 0.24 / (0.0207 * low_hz + 18.96)
        slow, fast = -3.51 * narrowing, -5.75 * narrowing
        limit_hz = low_hz - _INAUDIBLE / slow
        for high_hz, other in rising[place + 1 :]:
            if high_hz > limit_hz:
                break
            apart = high_hz - low_hz
            total += min(amplitude, other) * (exp(slow * apart) - exp(fast * apart))
    return 5 * total


def sethares_between(one: Iterable[Partial], other: Iterable[Partial]) -> float:
    """Add up the roughness that arises between two sounds, leaving out what each has in itself.

    Parameters
    ----------
    one, other : iterable of (float, float)
        Partials of the two sounds.

    Returns
    -------
    float >= 0
        The sum over pairs of a partial of each.

    Examples
    --------
    >>> fifth = sethares_between(with_harmonics([264.0], [1.0] * 6), with_harmonics([396.0], [1.0] * 6))
    >>> tritone = sethares_between(with_harmonics([264.0], [1.0] * 6), with_harmonics([373.4], [1.0] * 6))
    >>> fifth < tritone
    True
    """
    others = list(other)
    return sum(sethares_pair(partial, second) for partial in one for second in others)


def critical_bandwidth_hz(low_hz: float, high_hz: float) -> float:
    """Give the critical bandwidth at the mean of two frequencies, as Hutchinson and Knopoff fitted it.

    Parameters
    ----------
    low_hz, high_hz : float > 0
        The frequencies, hertz.

    Returns
    -------
    float, Hz
        1.72 times the mean to the power 0.65.

    Examples
    --------
    >>> round(critical_bandwidth_hz(400, 440), 3)
    87.225
    """
    return float(1.72 * ((low_hz + high_hz) / 2) ** 0.65)


def hutchinson_knopoff_curve(bandwidths: float, cutoff: float | None = CRITICAL_CUTOFF) -> float:
    """Give the roughness of two equal partials by their distance in critical bandwidths.

    Parameters
    ----------
    bandwidths : float >= 0
        The distance.
    cutoff : float or None
        Distance beyond which there is no roughness; None for no limit.

    Returns
    -------
    float in [0, 1]
        The roughness; 1 at a quarter of a bandwidth.

    Examples
    --------
    >>> hutchinson_knopoff_curve(0.25), round(hutchinson_knopoff_curve(1.0), 4), hutchinson_knopoff_curve(1.5)
    (1.0, 0.0397, 0.0)
    """
    if cutoff is not None and bandwidths > cutoff:
        return 0.0
    quarter = bandwidths / 0.25
    return (quarter * math.exp(1 - quarter)) ** 2


def hutchinson_knopoff_roughness(partials: Iterable[Partial]) -> float:
    """Give the roughness of a sound by Hutchinson and Knopoff.

    Parameters
    ----------
    partials : iterable of (float, float)
        Frequency in Hz and amplitude of each partial.

    Returns
    -------
    float >= 0
        The weighted mean roughness; 0 for silence.

    Examples
    --------
    >>> major = with_harmonics((440 * 2 ** ((key - 69) / 12) for key in (60, 64, 67)), inverse_harmonics(11))
    >>> round(hutchinson_knopoff_roughness(major), 7)
    0.1202426
    """
    merged = _merged(partials)
    total = 0.0
    for place, (low_hz, amplitude) in enumerate(merged):
        for high_hz, other in merged[place + 1 :]:
            bandwidths = (high_hz - low_hz) / critical_bandwidth_hz(low_hz, high_hz)
            if bandwidths > CRITICAL_CUTOFF:
                break
            total += amplitude * other * hutchinson_knopoff_curve(bandwidths)
    power = sum(amplitude * amplitude for _, amplitude in merged)
    return total / power if power else 0.0


def _merged(partials: Iterable[Partial]) -> list[Partial]:
    merged: list[Partial] = []
    for freq_hz, amplitude in sorted(partials):
        if merged and freq_hz - merged[-1][0] <= _COINCIDENCE * freq_hz:
            merged[-1] = (merged[-1][0], math.hypot(merged[-1][1], amplitude))
        else:
            merged.append((freq_hz, amplitude))
    return merged
