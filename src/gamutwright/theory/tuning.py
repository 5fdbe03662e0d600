"""Equal divisions and the historical tunings of a keyboard, as exact rules from which cents and frequencies follow.

A pitch is written exactly as 2**x * 3**y * 5**z with fractional exponents: a pure fifth is (-1, 1, 0), and a fifth
narrowed by a quarter of the syntonic comma has its exponents moved by a quarter of the comma's. Cents and frequencies
are computed from the exponents once, at the end.

Conventions: a tuning has C as its home and one key for each pitch class, so F sharp and G flat share a key. Chains of
fifths run Eb Bb F C G D A E B F# C# G#; the fifth from G# back to Eb takes what is left over. Cents are counted upwards
from a stated tone within one octave. A4 is 440 Hz (ISO 16), and C, pitch class 0, is nine semitones of twelve
below A4 in every equal division, so that middle C is always 261.626 Hz.

References: Barbour, Tuning and Temperament (1951), chapters 2, 5 and 7, from memory. Werckmeister's treatise does not
say which comma he divides; a quarter of the Pythagorean one is the modern reading. The five-limit scale is one of
several in use: 16/9 for 9/5, 25/24 for 16/15 and 64/45 for 45/32 are common alternatives.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale

__all__ = [
    "A4_HZ",
    "FIVE_LIMIT",
    "KIRNBERGER_III",
    "PYTHAGOREAN",
    "PYTHAGOREAN_COMMA",
    "QUARTER_COMMA_MEANTONE",
    "SYNTONIC_COMMA",
    "TUNINGS",
    "VALLOTTI",
    "WERCKMEISTER_III",
    "Exponents",
    "Tuning",
    "exponents_to_cents",
    "tone_cents",
    "tone_frequencies",
    "tone_semitones",
    "tuned_cents",
]

A4_HZ = 440.0

Exponents = tuple[Fraction, Fraction, Fraction]
"""Exponents of 2, 3 and 5."""

_LOG2 = (1.0, math.log2(3), math.log2(5))
_OCTAVE: Exponents = (Fraction(1), Fraction(0), Fraction(0))
_FIFTH: Exponents = (Fraction(-1), Fraction(1), Fraction(0))
PYTHAGOREAN_COMMA: Exponents = (Fraction(-19), Fraction(12), Fraction(0))
SYNTONIC_COMMA: Exponents = (Fraction(-4), Fraction(4), Fraction(-1))
_CHAIN = ("Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#")
_HOME = _CHAIN.index("C")


def _moved(pitch: Exponents, times: Fraction | int, by: Exponents) -> Exponents:
    return (pitch[0] + times * by[0], pitch[1] + times * by[1], pitch[2] + times * by[2])


def exponents_to_cents(exponents: Exponents) -> float:
    """Give the size of an interval written as exponents of 2, 3 and 5.

    Parameters
    ----------
    exponents : tuple of three Fraction
        The interval.

    Returns
    -------
    float, cents
        Its size.

    Examples
    --------
    >>> round(exponents_to_cents(PYTHAGOREAN_COMMA), 5), round(exponents_to_cents(SYNTONIC_COMMA), 5)
    (23.46001, 21.50629)
    """
    return 1200 * math.fsum(float(power) * size for power, size in zip(exponents, _LOG2, strict=True))


@dataclass(frozen=True, slots=True)
class Tuning:
    """How the twelve keys of an octave are tuned.

    Parameters
    ----------
    id : str
        Snake case.
    title : str
        What a heading prints.
    rule : str
        How a tuner would lay it, in words.
    pitches : tuple of tuple of Fraction
        Exponents of 2, 3 and 5 of each pitch class above C, within one octave.

    Examples
    --------
    >>> PYTHAGOREAN.pitches[7]
    (Fraction(-1, 1), Fraction(1, 1), Fraction(0, 1))
    """

    id: str
    title: str
    rule: str
    pitches: tuple[Exponents, ...]

    def cents(self, pitch_class: int, above: int = 0) -> float:
        """Give the interval from one key up to another.

        Parameters
        ----------
        pitch_class : int in [0, 12)
            The upper key.
        above : int in [0, 12)
            The lower key, C unless stated.

        Returns
        -------
        float in [0, 1200), cents
            The size of the interval.

        Examples
        --------
        >>> round(WERCKMEISTER_III.cents(7), 2), round(PYTHAGOREAN.cents(3, above=8), 2)
        (696.09, 678.49)
        """
        interval = _moved(self.pitches[pitch_class % 12], -1, self.pitches[above % 12])
        if pitch_class % 12 < above % 12:
            interval = _moved(interval, 1, _OCTAVE)
        return exponents_to_cents(interval)

    def frequency_hz(self, pitch_class: int, octave: int = 4, a4_hz: float = A4_HZ) -> float:
        """Give the frequency of a key when A is tuned to a fork.

        Parameters
        ----------
        pitch_class : int in [0, 12)
            The key.
        octave : int
            The octave from C up to B that holds it; 4 starts at middle C.
        a4_hz : float > 0
            The fork, hertz.

        Returns
        -------
        float, Hz
            The frequency.

        Examples
        --------
        >>> WERCKMEISTER_III.frequency_hz(9, octave=3), round(WERCKMEISTER_III.frequency_hz(4, octave=3), 4)
        (220.0, 165.0)
        """
        interval = _moved(self.pitches[pitch_class % 12], -1, self.pitches[9])
        return a4_hz * math.exp2(exponents_to_cents(interval) / 1200 + octave - 4)


def _chain(id_: str, title: str, rule: str, narrowed: dict[str, Exponents]) -> Tuning:
    """Lay a chain of fifths; `narrowed` says by what the fifth above a key is smaller than pure."""
    pitches: list[Exponents] = [(Fraction(0),) * 3] * 12
    for place, name in enumerate(_CHAIN):
        pitch: Exponents = (Fraction(0),) * 3
        for lower in range(min(place, _HOME), max(place, _HOME)):
            tempered = _moved(_FIFTH, -1, narrowed.get(_CHAIN[lower], (Fraction(0),) * 3))
            pitch = _moved(pitch, 1 if place > _HOME else -1, tempered)
        octaves = math.floor(exponents_to_cents(pitch) / 1200)
        pitches[_pitch_class(name)] = _moved(pitch, -octaves, _OCTAVE)
    return Tuning(id_, title, rule, tuple(pitches))


def _pitch_class(name: str) -> int:
    return (7 * (_CHAIN.index(name) - _HOME)) % 12


def _part(comma: Exponents, share: Fraction) -> Exponents:
    return (comma[0] * share, comma[1] * share, comma[2] * share)


_SCHISMA = _moved(PYTHAGOREAN_COMMA, -1, SYNTONIC_COMMA)

PYTHAGOREAN = _chain("pythagorean", "Pythagorean tuning", "eleven pure fifths from E flat up to G sharp", {})
QUARTER_COMMA_MEANTONE = _chain(
    "quarter_comma_meantone",
    "Quarter-comma meantone",
    "eleven fifths from E flat up to G sharp, each a quarter of the syntonic comma narrow: their major thirds are pure",
    dict.fromkeys(_CHAIN[:-1], _part(SYNTONIC_COMMA, Fraction(1, 4))),
)
WERCKMEISTER_III = _chain(
    "werckmeister_iii",
    "Werckmeister III",
    "the fifths above C, G, D and B a quarter of the Pythagorean comma narrow, the others pure",
    dict.fromkeys(("C", "G", "D", "B"), _part(PYTHAGOREAN_COMMA, Fraction(1, 4))),
)
KIRNBERGER_III = _chain(
    "kirnberger_iii",
    "Kirnberger III",
    "the fifths above C, G, D and A a quarter of the syntonic comma narrow, the fifth above F sharp a schisma narrow, "
    "the others pure",
    {**dict.fromkeys(("C", "G", "D", "A"), _part(SYNTONIC_COMMA, Fraction(1, 4))), "F#": _SCHISMA},
)
VALLOTTI = _chain(
    "vallotti",
    "Vallotti",
    "the six fifths from F up to B a sixth of the Pythagorean comma narrow, the other six pure",
    dict.fromkeys(("F", "C", "G", "D", "A", "E"), _part(PYTHAGOREAN_COMMA, Fraction(1, 6))),
)


def _ratio_exponents(ratio: Fraction) -> Exponents:
    powers = []
    for prime in (2, 3, 5):
        power, upper, lower = 0, ratio.numerator, ratio.denominator
        while upper % prime == 0:
            upper, power = upper // prime, power + 1
        while lower % prime == 0:
            lower, power = lower // prime, power - 1
        powers.append(Fraction(power))
    return (powers[0], powers[1], powers[2])


FIVE_LIMIT = Tuning(
    "five_limit",
    "Five-limit just intonation",
    "the ratios 1/1 16/15 9/8 6/5 5/4 4/3 45/32 3/2 8/5 5/3 9/5 15/8 above C",
    tuple(
        _ratio_exponents(Fraction(text))
        for text in ("1", "16/15", "9/8", "6/5", "5/4", "4/3", "45/32", "3/2", "8/5", "5/3", "9/5", "15/8")
    ),
)
TUNINGS: tuple[Tuning, ...] = (
    PYTHAGOREAN,
    QUARTER_COMMA_MEANTONE,
    WERCKMEISTER_III,
    KIRNBERGER_III,
    VALLOTTI,
    FIVE_LIMIT,
)
"""The tunings on offer, in historical order, just intonation last."""


@lru_cache(maxsize=1024)
def _cents_table(tuning: Tuning, root: int) -> tuple[float, ...]:
    return tuple(tuning.cents((root + tone) % 12, root) for tone in range(12))


def tuned_cents(scale: Scale, tuning: Tuning) -> tuple[float, ...]:
    """Give the tones of a scale as a keyboard in some tuning sounds them.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.
    tuning : Tuning
        The tuning, with C as its home.

    Returns
    -------
    tuple of float, cents
        Each tone above the root, upwards.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [round(cents, 3) for cents in tuned_cents(Scale.of(0, 4, 7), QUARTER_COMMA_MEANTONE)]
    [0.0, 386.314, 696.578]
    """
    if scale.divisions != 12:
        raise DomainError(
            f"a scale of {scale.divisions} divisions", "these tunings have twelve keys", "Choose twelve divisions."
        )
    table = _cents_table(tuning, scale.root)
    return tuple(table[tone] for tone in scale.tones)


def tone_cents(scale: Scale) -> tuple[float, ...]:
    """Give the tones in the equal division.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of float, cents
        Each tone above the root, upwards.

    Examples
    --------
    >>> tone_cents(Scale.of(0, 3, 6, 11, divisions=24))
    (0.0, 150.0, 300.0, 550.0)
    """
    return tuple(1200 * tone / scale.divisions for tone in scale.tones)


def tone_semitones(scale: Scale) -> tuple[Fraction, ...]:
    """Give the pitch of each tone on the MIDI scale, where middle C is 60 and 1 is an equal semitone.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Fraction, semitones
        One octave upwards from the root at or above middle C.

    Examples
    --------
    >>> tone_semitones(Scale.of(9, 0, 4))
    (Fraction(69, 1), Fraction(72, 1), Fraction(76, 1))
    """
    return tuple(60 + Fraction(12 * (scale.root + tone), scale.divisions) for tone in scale.tones)


def tone_frequencies(scale: Scale) -> tuple[float, ...]:
    """Give the frequency of each tone in the equal division, with A4 at 440 Hz.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of float, Hz
        One octave upwards from the root at or above middle C.

    Examples
    --------
    >>> [round(freq_hz, 3) for freq_hz in tone_frequencies(Scale.of(0, 9))]
    [261.626, 440.0]
    """
    divisions = scale.divisions
    return tuple(A4_HZ * math.exp2((scale.root + tone) / divisions - 0.75) for tone in scale.tones)
