"""Music in a film, measured: that every part plays, that notes begin when they should, and that each belongs.

An onset among other sounds is found in the band of the tone's own fundamental: a Hann window slides over the samples,
turned back by that frequency, and where a tone begins the level in it passes the middle between before and after. Tones
that were sounding already, or whose fundamental is a partial of something that sounds, do not rise and are left out. A
stroke is found in the same way in what lies above the partials that count.

A part is heard if most of its tones that could be measured are there; drums are, if most strokes that rise are on time.
A tone belongs if it is one of the pitches that the ledger names for its moment, octaves aside.

Conventions: ticks; late is positive.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from statistics import median

import numpy as np

from gamutwright.ir.evidence import Example, Tone
from gamutwright.ir.playing import Drum, Part
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.render.instruments import ramp
from gamutwright.render.readback.film_report import Check, Group, broken, held, nothing
from gamutwright.render.synth import Samples

__all__ = [
    "BELONGS_CENTS",
    "MARGIN_TICKS",
    "Onset",
    "Playing",
    "knock_late_ticks",
    "music_checks",
    "onsets_of",
    "strangers_in",
    "tone_late_ticks",
]

MARGIN_TICKS = 200 * 48
"""How far around a note is listened."""
BELONGS_CENTS = 1.0
MOST_HEARD = 0.9
MOST_STRUCK = 0.6
"""Strokes hide behind louder ones; a part of drums is heard if so many are."""
MOST_LATE_TICKS = 60 * 48
"""Tones that beat with a neighbour seem to begin later than they do, up to about 40 ms in undamaged films."""
_STEP = "Render the film again; somebody changed its sound, or the sound is not what the ledger says."
_HOP = 96
_WINDOW = 30 * 48
_RISE = 2.5
_NEAR = 100 * 48
_BANDS_HZ = {Drum.BRUSH.value: (11_000.0, 15_000.0), Drum.WOOD_BLOCK.value: (500.0, 4_000.0)}
"""Where strokes are looked for: a brush above the partials of tones, a wood block where it is loudest."""
_LEAST_SHARE = 10 ** (-58 / 20)
"""The level that a stroke has in its band, as a share of all: what tones leave there is 70 dB below them and less."""


@dataclass(frozen=True, slots=True)
class Onset:
    """A moment at which something begins.

    Parameters
    ----------
    tick : int
        When.
    tone : Tone or None
        The tone; None for a stroke.
    drum : str
        What is struck; "" for a tone.
    """

    tick: int
    tone: Tone | None
    drum: str = ""


def onsets_of(example: Example) -> tuple[Onset, ...]:
    """List what begins in an example, but the first of all, which is heard out of silence.

    Parameters
    ----------
    example : Example
        The example.

    Returns
    -------
    tuple of Onset
        By time; none for a chain of single tones, whose pitches say as much.
    """
    if not example.belongings:
        return ()
    found = [Onset(tone.start_tick, tone) for tone in example.tones]
    found += [Onset(knock.start_tick, None, knock.drum) for knock in example.knocks]
    found.sort(key=lambda onset: onset.tick)
    return tuple(onset for onset in found if onset.tick >= found[0].tick + MARGIN_TICKS)


def _level(samples: Samples, freq_hz: float) -> Samples:
    """Follow the level near a frequency, a value a hop, each of the window around it."""
    length = max(_WINDOW, round(4 * TICKS_PER_SECOND / freq_hz))
    window = np.hanning(length)
    turned = samples * np.exp(-2j * np.pi * freq_hz / TICKS_PER_SECOND * np.arange(len(samples)))
    sums = np.convolve(turned, window, mode="same")
    level: Samples = np.abs(sums[::_HOP])
    return level


def tone_late_ticks(samples: Samples, freq_hz: float) -> float | None:
    """Say how late a tone begins that should begin in the middle.

    Parameters
    ----------
    samples : ndarray of float64
        From `MARGIN_TICKS` before to as much behind.
    freq_hz : float
        Its fundamental.

    Returns
    -------
    float or None
        Ticks; None where nothing rises enough to be told.

    Examples
    --------
    >>> tone = np.sin(2 * np.pi * 440 * np.arange(9_600) / 48_000)
    >>> abs(tone_late_ticks(np.r_[np.zeros(9_600), tone], 440.0)) < 200
    True
    >>> tone_late_ticks(np.r_[tone, tone], 440.0) is None
    True
    """
    return _risen(_level(samples, freq_hz))


def knock_late_ticks(samples: Samples, drum: str) -> float | None:
    """Say how late a stroke on a drum begins that should begin in the middle.

    Parameters
    ----------
    samples : ndarray of float64
        From `MARGIN_TICKS` before to as much behind.
    drum : str
        What is struck.

    Returns
    -------
    float or None
        Ticks; None where nothing rises enough to be told.
    """
    low, high = (round(freq_hz * len(samples) / TICKS_PER_SECOND) for freq_hz in _BANDS_HZ[drum])
    # Faded at both ends, or where the samples are cut off would sound like a stroke.
    ticks = np.arange(len(samples))
    spectrum = np.fft.rfft(samples * ramp(np.minimum(ticks, ticks[::-1]), MARGIN_TICKS // 4))
    spectrum[:low] = 0
    spectrum[high:] = 0
    band = np.abs(np.fft.irfft(spectrum, len(samples)))
    if band.max(initial=0.0) < _LEAST_SHARE * np.abs(samples).max(initial=0.0):
        return None
    return _risen(np.convolve(band, np.hanning(480), mode="same")[::_HOP])


def _risen(level: Samples) -> float | None:
    middle, near = MARGIN_TICKS // _HOP, _NEAR // _HOP
    if len(level) < middle + near:
        return None
    before = float(np.median(level[middle - near : middle - near // 3]))
    after = float(level[middle - near // 3 : middle + near].max())
    if after < 1e-6 or after < _RISE * before:
        return None
    stretch = level[middle - near : middle + near]
    above = stretch >= (before + after) / 2
    # What was let go just before may be louder than that at first, and then is not the beginning.
    rising = np.flatnonzero(above[1:] & ~above[:-1]) + 1
    return float((int(rising[0]) - near) * _HOP) if len(rising) else None


def strangers_in(example: Example) -> tuple[Tone, ...]:
    """List the tones of an example that do not belong.

    Parameters
    ----------
    example : Example
        The example.

    Returns
    -------
    tuple of Tone
        By time; none where nothing is promised.
    """
    return tuple(_strangers(example)) if example.belongings else ()


def _strangers(example: Example) -> Iterator[Tone]:
    for tone in example.tones:
        begun = [one for one in example.belongings if one.start_tick <= tone.start_tick]
        freqs = np.array(begun[-1].freqs_hz if begun else example.belongings[0].freqs_hz)
        octaves = np.log2(tone.freq_hz / freqs)
        if not len(freqs) or 1200 * float(np.abs(octaves - np.round(octaves)).min()) > BELONGS_CENTS:
            yield tone


@dataclass(slots=True)
class Playing:
    """What was heard of an example that is music.

    Parameters
    ----------
    example : Example
        What should be heard.
    """

    example: Example
    measured: set[Tone] = field(default_factory=set)
    missed: set[Tone] = field(default_factory=set)
    late: list[tuple[Onset, float]] = field(default_factory=list)
    knocks: int = 0

    def hear(self, onset: Onset, samples: Samples) -> None:
        """Listen to the beginning of a tone or a stroke.

        Parameters
        ----------
        onset : Onset
            What should begin.
        samples : ndarray of float64
            From `MARGIN_TICKS` before to as much behind.
        """
        tone = onset.tone
        self.knocks += tone is None
        late = knock_late_ticks(samples, onset.drum) if tone is None else tone_late_ticks(samples, tone.freq_hz)
        if late is not None:
            self.late.append((onset, late))

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts that were heard, from the top of a score to its bottom."""
        found = []
        for part in self.example.parts:
            own = {tone for tone in self.measured if tone.part == part}
            knocks = [late for onset, late in self.late if onset.tone is None]
            on_time = sum(abs(late) <= MOST_LATE_TICKS for late in knocks)
            is_drum = part == Part.DRUM.value
            there, all_there = (on_time, self.knocks) if is_drum else (len(own - self.missed), len(own))
            if all_there and there >= (MOST_STRUCK if is_drum else MOST_HEARD) * all_there:
                found.append(part)
        return tuple(found)


def music_checks(played: Sequence[Playing]) -> Iterator[Check]:
    """Say whether music is played by all its parts, on time, and in its scale.

    Parameters
    ----------
    played : sequence of Playing
        What was heard.

    Yields
    ------
    Check
        For parts, onsets and belonging.
    """
    yield from _part_checks(played)
    yield from _onset_checks(played)
    strangers = [tone for one in played for tone in strangers_in(one.example)]
    expected = "every tone belongs to the scale of its example, or of the relative where that is played"
    tones = sum(len(one.example.tones) for one in played)
    if strangers:
        first = strangers[0]
        yield broken(
            Group.SOUND, "belonging", expected, f"{len(strangers)} do not, the first {first.label}", _STEP,
            first.start_tick,
        )  # fmt: skip
    elif tones:
        yield held(Group.SOUND, "belonging", expected, f"all {tones} do")
    else:
        yield nothing(Group.SOUND, "belonging", expected)


def _part_checks(played: Sequence[Playing]) -> Iterator[Check]:
    expected = "every part is heard"
    count = sum(len(one.example.parts) for one in played)
    silent = [one for one in played if one.parts != one.example.parts]
    for one in silent:
        lost = ", ".join(part for part in one.example.parts if part not in one.parts)
        yield broken(
            Group.SOUND, "parts", f"{one.example.key}: {', '.join(one.example.parts)}", f"no {lost}", _STEP,
            one.example.start_tick,
        )  # fmt: skip
    if not played:
        yield nothing(Group.SOUND, "parts", expected)
    elif not silent:
        yield held(Group.SOUND, "parts", expected, f"{count} parts in {len(played)} examples")


def _onset_checks(played: Sequence[Playing]) -> Iterator[Check]:
    expected = f"notes among others begin when the ledger says, to {MOST_LATE_TICKS // 48} ms"
    found = [one for each in played for one in each.late]
    if not found:
        yield nothing(Group.SOUND, "onsets", expected)
        return
    onset, worst = max(found, key=lambda one: abs(one[1]))
    if abs(worst) <= MOST_LATE_TICKS:
        middle = median(abs(late) for _, late in found)
        yield held(Group.SOUND, "onsets", expected, f"{len(found)} of them, half within {middle / 48:.0f} ms")
    else:
        what = onset.tone.label if onset.tone else "a stroke"
        yield broken(Group.SOUND, "onsets", expected, f"{what} {worst / 48:+.0f} ms", _STEP, onset.tick)
