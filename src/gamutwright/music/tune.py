"""A plain tune from a scale: found by a seeded search, and kept only if it breaks no rule of `music.rules`.

The idea: a rhythm is drawn, then notes are pinned down: the first, the one on which the first half rests, the climax,
the tones of colour on strong beats, the last. Between pins go all the ways that step and leap as the rules have it. How
many of them there are from each note on, weighed by how often one leaps, is counted from the end; so a way is drawn at
random without ever running into a corner. Of the few melodies that break no rule the best is taken: one that keeps the
rules in the nearest relative too, where it is going to be played again; whose second half takes up the first and begins
near where that has ended, but not on the same note; whose climax comes late; that turns and leaps now and then.

**Conventions.** The same scale, metre, length and version give the same tune on any root. Time as in `music.piece`.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import accumulate, pairwise

from gamutwright.errors import DomainError, told
from gamutwright.ir.playing import Metre
from gamutwright.music.piece import QUARTER, bar_length, degree_of, step_of
from gamutwright.music.rules import MOST_HEARD, TENTH, Melody, broken_rules, is_strong, is_sung_leap
from gamutwright.theory.character import Relation, colour_tones, nearest_relative
from gamutwright.theory.scale import Scale

__all__ = ["BARS", "FEWEST_TONES", "METRES", "plain_tune", "played_in", "tuneful_colour"]

METRES = {"4/4": Metre(4, 4), "3/4": Metre(3, 4), "6/8": Metre(6, 8)}
"""The metres there are rhythms for, by their names."""
BARS = (4, 8)
"""How long a tune may be."""
FEWEST_TONES = 3

_OPEN: Mapping[str, tuple[tuple[int, ...], ...]] = {
    "4/4": (
        (12, 12, 12, 12), (12, 6, 6, 12, 12), (18, 6, 12, 12), (12, 12, 12, 6, 6), (24, 12, 12), (12, 6, 6, 12, 6, 6),
        (18, 6, 12, 6, 6),
    ),
    "3/4": ((12, 12, 12), (12, 6, 6, 12), (18, 6, 12), (24, 12), (12, 6, 6, 6, 6), (12, 12, 6, 6)),
    "6/8": ((12, 6, 12, 6), (18, 12, 6), (12, 6, 6, 6, 6), (18, 6, 6, 6), (12, 6, 18)),
}  # fmt: skip
"""Bars of a rhythm that goes on, by metre, in twelfths of a quarter note."""
_REST: Mapping[str, tuple[tuple[int, ...], ...]] = {
    "4/4": ((12, 12, 24), (12, 6, 6, 24), (18, 6, 24)),
    "3/4": ((12, 24), (6, 6, 24), (36,)),
    "6/8": ((12, 6, 18), (6, 6, 6, 18), (36,)),
}
"""Bars on which the first half rests."""
_END: Mapping[str, tuple[tuple[int, ...], ...]] = {
    "4/4": ((12, 12, 24), (12, 6, 6, 24), (18, 6, 24), (48,)),
    "3/4": ((36,),),
    "6/8": ((12, 6, 18), (6, 6, 6, 18), (36,)),
}
"""Bars on which it ends; the last note falls on a strong beat."""
_WEIGHTS = {1: 1.0, 2: 0.22, 3: 0.08, 4: 0.05}
"""How often a move by so many degrees is taken."""
_TRIES = 2_000
_MOST_COLOUR = 3
_KEPT = 4
_MOST_FOUND = 10
"""So many tunes are looked at before it is given up to find one that keeps the rules in the relative."""
_NEAR = 2
_WAYS = 6


def tuneful_colour(scale: Scale, metre: Metre, bars: int) -> tuple[int, ...]:
    """Give the tones of colour that a tune has to bring out.

    Parameters
    ----------
    scale : Scale
        The scale.
    metre : Metre
        Its metre.
    bars : int
        Its length.

    Returns
    -------
    tuple of int
        Those of `theory.character`, as many as there is room for: one for every two strong beats, and three at most.

    Examples
    --------
    >>> tuneful_colour(Scale.of(2, 4, 5, 7, 9, 11, 0), Metre(4, 4), 4)
    (9,)
    """
    strong = sum(is_strong(metre, start) for start in range(0, bar_length(metre), 6))
    return colour_tones(scale)[: min(_MOST_COLOUR, max(1, (strong * bars - 1) // 2))]


@lru_cache(maxsize=256)
def plain_tune(
    scale: Scale,
    metre: Metre = METRES["4/4"],
    bars: int = 4,
    version: int = 1,
    colour: tuple[int, ...] | None = None,
    again: Scale | None = None,
) -> Melody:
    """Find a tune.

    Parameters
    ----------
    scale : Scale, at least three tones
        The scale.
    metre : Metre
        One of `METRES`.
    bars : int
        One of `BARS`.
    version : int
        Another number gives another tune.
    colour : tuple of int, optional
        The tones it has to bring out; those of `tuneful_colour` without it.
    again : Scale, optional
        In which scale it is played again; in the nearest relative without it, where that has no more tones.

    Returns
    -------
    Melody
        It breaks none of `music.rules`, nor does it in the other scale, where such a tune was found.

    Raises
    ------
    DomainError
        If the scale has fewer than three tones, or there are no rhythms for the metre or the length.

    Examples
    --------
    >>> from gamutwright.music.rules import broken_rules
    >>> dorian = plain_tune(Scale.of(2, 4, 5, 7, 9, 11, 0))
    >>> broken_rules(dorian), dorian.degrees[-1], 9 in dorian.tones
    ((), 0, True)
    """
    if scale.cardinality < FEWEST_TONES:
        raise DomainError(
            told("a tune from {cardinality} tones", cardinality=scale.cardinality)
            if scale.cardinality != 1
            else told("a tune from a single tone"),
            told("a tune moves by step and by leap, which takes three tones or more"),
            told("Give the scale another tone, or play it up and down: scale."),
        )
    if str(metre) not in METRES or bars not in BARS:
        raise DomainError(
            told("a tune of {bars} bars of {metre}", bars=bars, metre=metre),
            told("tunes have {list} bars of {list2}", list=" or ".join(map(str, BARS)), list2=", ".join(METRES)),
            told("Choose one of these."),
        )
    rootless = Scale(scale.mask, scale.divisions)
    if colour is None:
        colour = tuneful_colour(rootless, metre, bars)
    again = again and Scale(again.mask, again.divisions)
    if again is None and (relative := nearest_relative(rootless)) and relative.relation is not Relation.LEFT_OUT:
        again = relative.scale
    found: list[tuple[int, Melody]] = []
    for number in range(_TRIES):
        # A seed made of text is digested, and so alike everywhere.
        chance = random.Random(f"{scale.bits} {metre} {bars} {version} {number}")  # noqa: S311 - repeatable, no secret
        tried = _tried(_Search(rootless, metre, bars, colour, chance), scale)
        found += [(len(broken_rules(played_in(melody, again))) if again else 0, melody) for melody in tried]
        if len(found) >= _MOST_FOUND or sum(not broken for broken, _ in found) >= _KEPT:
            break
    if not found:
        raise DomainError(
            told("a tune of {bars} bars of {metre}", bars=bars, metre=metre),
            told("none was found in this scale that keeps every rule, among {tries} tries", tries=_TRIES),
            told("Choose 8 bars, or another version or another metre.")
            if bars == 4
            else told("Choose another version or another metre."),
        )
    return max(found, key=lambda one: (-one[0], _worth(one[1])))[1]


def played_in(melody: Melody, other: Scale) -> Melody:
    """Play a tune in another scale: degree for degree, or on the nearest tones where there are more or fewer.

    Parameters
    ----------
    melody : Melody
        The tune.
    other : Scale
        The other scale.

    Returns
    -------
    Melody
        With the same rhythm, and no tones to bring out.

    Examples
    --------
    >>> dorian = plain_tune(Scale.of(2, 4, 5, 7, 9, 11, 0))
    >>> minor = played_in(dorian, Scale.of(2, 4, 5, 7, 9, 10, 0))
    >>> {(one, other) for one, other in zip(dorian.tones, minor.tones) if one != other}
    {(9, 8)}
    """
    degrees = melody.degrees
    if other.cardinality != melody.scale.cardinality:
        degrees = tuple(degree_of(other, step_of(melody.scale, degree)) for degree in degrees)
    return replace(melody, scale=other, degrees=degrees, colour=())


@dataclass(frozen=True, slots=True)
class _Search:
    scale: Scale
    metre: Metre
    bars: int
    colour: tuple[int, ...]
    chance: random.Random

    @property
    def tones(self) -> int:
        return self.scale.cardinality


def _rhythm(search: _Search) -> list[int]:
    """Draw the lengths of all notes; both halves begin alike."""
    name, chance = str(search.metre), search.chance
    half = search.bars // 2
    # Many tones need many notes.
    dense = sorted(_OPEN[name], key=len, reverse=True)[:4] if search.tones > 7 else _OPEN[name]
    first = chance.choice(dense)
    between = [chance.choice(dense) for _ in range(half - 2)]
    others = between if chance.random() < 0.5 else [chance.choice(dense) for _ in range(half - 2)]
    rows = [first, *between, chance.choice(_REST[name]), first, *others, chance.choice(_END[name])]
    return [length for row in rows for length in row]


def _window(search: _Search) -> tuple[int, int]:
    """Draw the lowest and the highest degree, at most a tenth apart."""
    chance = search.chance
    low = -chance.choice((0, 0, 1, 1, 2, 3))
    return low, chance.choice(_tops(search.scale, low))


@lru_cache(maxsize=256)
def _tops(scale: Scale, low: int) -> Sequence[int]:
    """List up to four highest degrees over a lowest one, the nearest first."""
    least = min(MOST_HEARD, scale.cardinality) - 1
    wide = [
        high
        for high in range(max(1, low + least), low + 18)
        if 12 * (step_of(scale, high) - step_of(scale, low)) <= TENTH * scale.divisions
    ]
    return wide[:4] or [low + least]


def _tried(search: _Search, scale: Scale) -> list[Melody]:
    """Draw a rhythm, a compass and pins, and melodies between them; give those that break no rule."""
    lengths = _rhythm(search)
    starts = [0, *accumulate(lengths)][:-1]
    melody = Melody(scale, search.metre, search.bars, tuple(starts), tuple(lengths), (0,) * len(starts), search.colour)
    middle, count = melody.middle, len(starts)
    low, high = _window(search)
    pins = _pinned(search, melody, low, high)
    if pins is None:
        return []
    first = _Way(search.scale, {k: pins[k] for k in pins if k < middle}, middle, low, high)
    found: list[Melody] = []
    for _ in range(_WAYS):
        one = first.drawn(search.chance)
        if one is None:
            return found
        repeats = sum(start < bar_length(search.metre) for start in starts)
        later = {k - middle: pins[k] for k in pins if k >= middle}
        if not later.keys() & set(range(repeats)) and high not in one[:repeats] and search.chance.random() < 0.7:
            later |= dict(enumerate(one[:repeats]))
        two = _Way(search.scale, later, count - middle, low, high).drawn(search.chance)
        if two is None:
            continue
        tune = Melody(
            scale, search.metre, search.bars, tuple(starts), tuple(lengths), (*one, *two), search.colour
        )  # fmt: skip
        if not broken_rules(tune):
            found.append(tune)
            break
    return found


def _pinned(search: _Search, melody: Melody, low: int, high: int) -> dict[int, int] | None:
    """Pin down first and last note, the rest in the middle, the climax, and the colour on strong beats."""
    chance, m = search.chance, search.tones
    middle, last = melody.middle, len(melody.starts) - 1
    inside = range(low, high)
    pins = {last: 0}
    opening = [degree for degree in inside if degree % m in {0, 2, 4}]
    resting = [degree for degree in inside if degree % m]
    if not opening or not resting:
        return None
    pins[0] = min(chance.sample(opening, min(2, len(opening))), key=abs)
    pins[middle - 1] = min(chance.sample(resting, min(3, len(resting))), key=abs)
    peaks = [k for k in range(1, last) if k not in pins and low != high]
    if not peaks:
        return None
    pins[chance.choice(peaks)] = high
    strong = [
        k
        for k, start in enumerate(melody.starts)
        if melody.lengths[k] >= QUARTER and is_strong(search.metre, start) and k != last
    ]
    for tone in search.colour:
        place = search.scale.tones.index(tone)
        if any(pins.get(k, place + 1) % m == place for k in strong):
            continue
        degrees = [degree for degree in inside if degree % m == place]
        free = [k for k in strong if k not in pins or (k == middle - 1 and place)]
        if not free or not degrees:
            return None
        pins[chance.choice(free)] = chance.choice(degrees)
    return pins


@lru_cache(maxsize=256)
def _moves_within(scale: Scale, low: int, high: int) -> Mapping[int, Sequence[tuple[int, float, int]]]:
    """List where one may go from each degree, how often, and the step that is owed then."""
    return {
        degree: [
            (to, weight, 0 if abs(to - degree) == 1 else (-1 if to > degree else 1))
            for to in range(max(low, degree - 4), min(high, degree + 4) + 1)
            if (weight := _WEIGHTS.get(abs(to - degree), 0.0))
            and (abs(to - degree) == 1 or is_sung_leap(scale, degree, to))
        ]
        for degree in range(low, high + 1)
    }


class _Way:
    """All ways through the pins of one half, weighed; a state is a degree and the step that is owed to a leap."""

    def __init__(self, scale: Scale, pins: Mapping[int, int], count: int, low: int, high: int) -> None:
        self._low, self._high, self._count = low, high, count
        self._moves = _moves_within(scale, low, high)
        self._allowed = [self._at(pins.get(k)) for k in range(count)]
        self._weights = self._counted()

    def _at(self, pin: int | None) -> Sequence[int]:
        # The highest degree is the climax, heard once, where it is pinned.
        return range(self._low, self._high) if pin is None else (pin,)

    def _counted(self) -> list[dict[tuple[int, int], float]]:
        rows: list[dict[tuple[int, int], float]] = [{} for _ in range(self._count)]
        rows[-1] = {(degree, 0): 1.0 for degree in self._allowed[-1]}
        for k in range(self._count - 2, -1, -1):
            after = rows[k + 1]
            for degree in self._allowed[k]:
                for owed in (-1, 0, 1):
                    total = 0.0
                    for to, weight, owing in self._moves[degree]:
                        if (not owed or to - degree == owed) and (to, owing) in after:
                            total += weight * after[to, owing]
                    if total:
                        rows[k][degree, owed] = total
        return rows

    def drawn(self, chance: random.Random) -> tuple[int, ...] | None:
        """Draw one; None where there is none."""
        open_at = [(state, weight) for state, weight in self._weights[0].items() if state[1] == 0]
        if not open_at:
            return None
        state = chance.choices([one for one, _ in open_at], [weight for _, weight in open_at])[0]
        way = [state[0]]
        for k in range(1, self._count):
            degree, owed = state
            after = [
                ((to, owing), weight * self._weights[k].get((to, owing), 0.0))
                for to, weight, owing in self._moves[degree]
                if not owed or to - degree == owed
            ]
            state = chance.choices([one for one, _ in after], [weight for _, weight in after])[0]
            way.append(state[0])
        return tuple(way)


def _worth(melody: Melody) -> tuple[float, ...]:
    """Weigh a tune: its second half takes up the first and begins near it, it turns, leaps a little, climbs late."""
    one, two = melody.halves
    breath = abs(two[0] - one[-1])
    far = 0.15 * max(0, breath - _NEAR) + (0.6 if breath == 0 else 0.0)
    alike = sum(a == b for a, b in zip(one, two, strict=False)) / max(1, min(len(one), len(two)))
    moves = [high - low for half in melody.halves for low, high in pairwise(half)]
    turns = sum(a * b < 0 for a, b in pairwise(moves)) / max(1, len(moves) - 1)
    leaps = sum(abs(move) > 1 for move in moves)
    peak = melody.starts[melody.degrees.index(max(melody.degrees))]
    late = peak / (melody.bars * bar_length(melody.metre))
    strays = sum(a == c and b == d for a, b, c, d in zip(moves, moves[1:], moves[2:], moves[3:], strict=False))
    return (
        round(alike - abs(turns - 0.4) - 0.3 * abs(leaps - 2) / 2 - 0.5 * abs(late - 0.65) - 0.25 * strays - far, 6),
        *melody.degrees,
    )
