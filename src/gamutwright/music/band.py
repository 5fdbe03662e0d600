"""What goes under a tune: a drone, or the two chords of a vamp with bass, chord and brush; and a cadence.

Bars of a vamp take the chord of the two that holds more of the tune; the first and the last are home, the bar on which
the first half of a tune rests leans away, and at least one bar is. Without a tune they alternate.

**Conventions.** The bass lies in the octave below the root, chords in the octave around it, the drone beneath
everything. Bass falls on the beat, chords on what is not (common practice, no source); in compound metres they are
broken.
"""

from __future__ import annotations

from collections.abc import Sequence

from gamutwright.errors import DomainError, told
from gamutwright.ir.playing import Drum, Metre, Part
from gamutwright.music.piece import QUARTER, Harmony, Tap, Tone, bar_length, degree_of
from gamutwright.music.rules import Melody, is_strong
from gamutwright.theory.harmonyroles import Sonority, Vamp, tonic, vamp
from gamutwright.theory.scale import Scale

__all__ = ["counting", "drone_under", "harmonies", "played_vamp", "struck_chords", "two_chords", "vamp_plan"]

_BACK_BEAT, _BEAT = 0.46, 0.3


def two_chords(scale: Scale) -> Vamp:
    """Give the chords of the vamp.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Vamp
        Those of `theory.harmonyroles`.

    Raises
    ------
    DomainError
        If the scale has none.
    """
    found = vamp(scale)
    if found is None:
        raise DomainError(
            told("a vamp in this scale"),
            told("a vamp takes a scale of three tones or more with its root among them"),
            told("Choose another scale, or play it up and down: scale."),
        )
    return found


def vamp_plan(scale: Scale, bars: int, melody: Melody | None = None) -> tuple[Sonority, ...]:
    """Choose a chord for every bar.

    Parameters
    ----------
    scale : Scale
        The scale.
    bars : int
        How many.
    melody : Melody, optional
        The tune over it, of as many bars.

    Returns
    -------
    tuple of Sonority
        One a bar.
    """
    two = two_chords(scale)
    if melody is None:
        return tuple(two.away if bar % 2 else two.home for bar in range(bars))
    length = bar_length(melody.metre)
    plan = []
    for bar in range(bars):
        if bar in {0, bars - 1}:
            plan.append(two.home)
            continue
        fits = {chord: _fit(melody, bar * length, chord) for chord in (two.home, two.away)}
        # The half that rests leans away from home; elsewhere a change is worth a little.
        fits[two.away] += QUARTER if bar == bars // 2 - 1 else 0
        fits[two.home if plan[-1] is two.away else two.away] += 1
        plan.append(two.away if fits[two.away] > fits[two.home] else two.home)
    if two.away not in plan:
        plan[bars // 2 - 1] = two.away
    return tuple(plan)


def _fit(melody: Melody, start: int, chord: Sonority) -> int:
    """Count how long the tune stands on tones of a chord in a bar, strong beats twice."""
    end = start + bar_length(melody.metre)
    return sum(
        length * (2 if is_strong(melody.metre, begin) else 1)
        for begin, length, tone in zip(melody.starts, melody.lengths, melody.tones, strict=True)
        if start <= begin < end and tone in chord.tones
    )


def harmonies(scale: Scale, plan: Sequence[Sonority], metre: Metre, first: int = 0) -> tuple[Harmony, ...]:
    """Write the chords over their bars, each where it changes.

    Parameters
    ----------
    scale : Scale
        The scale.
    plan : sequence of Sonority
        One a bar.
    metre : Metre
        The metre.
    first : int
        The number of the first bar.

    Returns
    -------
    tuple of Harmony
        By start.
    """
    length = bar_length(metre)
    return tuple(
        Harmony((first + bar) * length, chord.tones, chord.name(scale))
        for bar, chord in enumerate(plan)
        if bar == 0 or chord != plan[bar - 1]
    )


def _around(scale: Scale, tones: Sequence[int]) -> tuple[int, ...]:
    """Voice a chord in the octave around the root, as degrees upwards."""
    n = scale.divisions
    low = -(5 * n // 12)
    return tuple(degree_of(scale, step) for step in sorted(low + (tone - low) % n for tone in tones))


def _below(scale: Scale, tone: int) -> int:
    return degree_of(scale, tone % scale.divisions - scale.divisions)


def played_vamp(scale: Scale, plan: Sequence[Sonority], metre: Metre, first: int = 0) -> tuple[list[Tone], list[Tap]]:
    """Play a vamp: bass on the strong beats, chords between them, a soft brush.

    Parameters
    ----------
    scale, plan, metre, first
        As for `harmonies`.

    Returns
    -------
    list of Tone
        Bass and chords.
    list of Tap
        The brush.
    """
    length = bar_length(metre)
    beat = length // metre.beats
    tones: list[Tone] = []
    taps: list[Tap] = []
    for bar, chord in enumerate(plan, first):
        strong = [start for start in range(0, length, beat) if is_strong(metre, start)]
        basses = (chord.tones[0], chord.tones[2 if len(chord.tones) > 2 else -1])
        voices = _around(scale, chord.tones)
        for number, start in enumerate(strong):
            begin = bar * length + start
            held = length // len(strong)
            tones.append(Tone(begin, held, _below(scale, basses[number % 2]), Part.BASS))
            if metre.is_compound:
                # Broken upwards: what follows the bass in thirds of a beat.
                for place in (1, 2):
                    tone = voices[(place - 1 + number) % len(voices)]
                    tones.append(Tone(begin + place * beat // 3, beat // 3, tone, Part.CHORD))
        for start in range(0, length, beat):
            is_back = start not in strong
            taps.append(Tap(bar * length + start, Drum.BRUSH, _BACK_BEAT if is_back else _BEAT))
            if is_back:
                tones += [Tone(bar * length + start, beat, degree, Part.CHORD) for degree in voices]
    return tones, taps


def struck_chords(scale: Scale, plan: Sequence[Sonority], metre: Metre) -> list[Tone]:
    """Strike each chord once, for as long as it lasts, over its root.

    Parameters
    ----------
    scale, plan, metre
        As for `harmonies`.

    Returns
    -------
    list of Tone
        Bass and chords.
    """
    length = bar_length(metre)
    tones = []
    for bar, chord in enumerate(plan):
        tones.append(Tone(bar * length, length, _below(scale, chord.tones[0]), Part.BASS))
        tones += [Tone(bar * length, length, degree, Part.CHORD) for degree in _around(scale, chord.tones)]
    return tones


def drone_under(scale: Scale, metre: Metre, bars: int) -> list[Tone]:
    """Hold the lowest tone under everything, and the tonic's fifth where there is one.

    Parameters
    ----------
    scale : Scale
        The scale.
    metre : Metre
        The metre.
    bars : int, even
        For how long; it is taken up again in the middle.

    Returns
    -------
    list of Tone
        The drone.
    """
    home = tonic(scale) if scale.divisions == 12 else None
    held = [scale.tones[0]] + ([7] if home and 7 in home.tones else [])
    half = bars * bar_length(metre) // 2
    return [Tone(start, half, _below(scale, tone), Part.DRONE) for start in (0, half) for tone in held]


def counting(metre: Metre, bars: range, loud: float = 0.6, soft: float = 0.42) -> list[Tap]:
    """Count on a wood block, one stroke a beat.

    Parameters
    ----------
    metre : Metre
        The metre.
    bars : range
        The bars in which is counted.
    loud, soft : float in (0, 1]
        Force of the first beat of a bar, and of the others.

    Returns
    -------
    list of Tap
        By start.
    """
    length = bar_length(metre)
    starts = range(bars.start * length, bars.stop * length, length // metre.beats)
    return [Tap(start, Drum.WOOD_BLOCK, soft if start % length else loud) for start in starts]
