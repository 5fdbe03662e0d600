"""What makes a scale sound as it does: the familiar scale beside it, what departs from that, and which tones pull.

A scale is set beside the *familiar* scales on its own root, one of seven tones beside those of seven. With as many
tones, its degrees are compared one by one and those that differ are *changed*; with fewer, the tones of the familiar
scale that it lacks are *left out*; with more, the tones beyond the familiar scale are *added*. The nearest relative
has the fewest tones changed, left out or added, then the smallest total change in steps, then the earliest place in
the list of familiar scales. A familiar scale is never its own relative; the two commonest, major and natural minor,
are compared with one another. The *colour tones* are the tones of the scale that its relative has otherwise or not at
all: they are what the ear must catch to know the scale.

Conventions: tones are steps above the root. Familiar scales, tetrachords and tendency tones are those of twelve
divisions, where a step is a semitone; elsewhere no printed list of familiar scales exists, and there is no relative.
The brightness of any scale in any division is the sum of its tones; only scales of one size in one division can be
compared by it. A tone that pulls lies a semitone from a tone of the major or minor triad on the root and is not in
it.

References: Persichetti, Twentieth-Century Harmony (1961), chapter 2, for the tones that colour the modes and their
order by brightness, from memory; Kostka and Payne, Tonal Harmony, for tendency tones, from memory; Huron, Sweet
Anticipation (2006), from memory; tetrachords are common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.theory.harmony import Chord
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import root_name, spelled_from, with_names

__all__ = [
    "FAMILIAR",
    "Change",
    "FamiliarScale",
    "Relation",
    "Relative",
    "Tendency",
    "Tetrachord",
    "brightness",
    "colour_tones",
    "nearest_relative",
    "tendency_tones",
    "tetrachords",
    "tonic_triad",
]


class Relation(StrEnum):
    """How a scale departs from its relative."""

    CHANGED = "changed"
    LEFT_OUT = "left out"
    ADDED = "added"


@dataclass(frozen=True, slots=True)
class FamiliarScale:
    """A scale that a listener is taken to know.

    Parameters
    ----------
    name : str
        What it is called.
    tones : tuple of int
        Its tones above the root, in twelve divisions.
    """

    name: str
    tones: tuple[int, ...]


FAMILIAR = (
    FamiliarScale("major", (0, 2, 4, 5, 7, 9, 11)),
    FamiliarScale("natural minor", (0, 2, 3, 5, 7, 8, 10)),
    FamiliarScale("harmonic minor", (0, 2, 3, 5, 7, 8, 11)),
    FamiliarScale("melodic minor", (0, 2, 3, 5, 7, 9, 11)),
    FamiliarScale("major pentatonic", (0, 2, 4, 7, 9)),
    FamiliarScale("minor pentatonic", (0, 3, 5, 7, 10)),
)
"""The familiar scales, the most familiar first."""

_TETRACHORDS: Mapping[tuple[int, ...], str] = {
    (2, 2, 1): "major",
    (2, 1, 2): "minor",
    (1, 2, 2): "phrygian",
    (1, 3, 1): "harmonic",
    (2, 2, 2): "whole-tone",
}


@dataclass(frozen=True, slots=True)
class Change:
    """A degree that differs from the relative's.

    Parameters
    ----------
    degree : int >= 1
        Its place, upwards from the root.
    tone, before : int
        Where it lies in the scale and in the relative, in steps above the root.
    """

    degree: int
    tone: int
    before: int

    @property
    def size(self) -> int:
        """How far the degree moves: upwards positive, in steps."""
        return self.tone - self.before


@dataclass(frozen=True, slots=True)
class Relative:
    """The nearest familiar scale on the same root, and what departs from it.

    Parameters
    ----------
    familiar : FamiliarScale
        The familiar scale.
    scale : Scale
        The same on the root of the scale, spelled from the same root name where that works.
    relation : Relation
        How the scale departs from it.
    changes : tuple of Change
        The degrees that differ, upwards; empty unless the relation is CHANGED.
    left_out, added : tuple of int
        Tones of the relative that the scale lacks, or tones of the scale beyond the relative.
    """

    familiar: FamiliarScale
    scale: Scale
    relation: Relation
    changes: tuple[Change, ...] = ()
    left_out: tuple[int, ...] = ()
    added: tuple[int, ...] = ()

    @property
    def distance(self) -> tuple[int, int]:
        """How many tones are changed, left out or added; and the total change in steps."""
        count = len(self.changes) + len(self.left_out) + len(self.added)
        return count, sum(abs(change.size) for change in self.changes)

    @property
    def colour_tones(self) -> tuple[int, ...]:
        """The tones of the scale that the relative has otherwise or not at all."""
        return tuple(change.tone for change in self.changes) + self.added


def _beside(scale: Scale, familiar: FamiliarScale) -> Relative | None:
    """Set a scale beside a familiar one; None where neither holds the other and the sizes differ."""
    mine, theirs = scale.tones, familiar.tones
    on_root = Scale(sum(1 << tone for tone in theirs), 12, scale.root)
    if len(mine) == len(theirs):
        places = enumerate(zip(mine, theirs, strict=True), 1)
        changes = tuple(Change(degree, tone, before) for degree, (tone, before) in places if tone != before)
        return Relative(familiar, on_root, Relation.CHANGED, changes)
    if set(mine) < set(theirs):
        lacking = tuple(tone for tone in theirs if tone not in mine)
        return Relative(familiar, on_root, Relation.LEFT_OUT, left_out=lacking)
    if set(mine) > set(theirs):
        beyond = tuple(tone for tone in mine if tone not in theirs)
        return Relative(familiar, on_root, Relation.ADDED, added=beyond)
    return None


def _spelled_alike(relative: Scale, scale: Scale) -> Scale:
    try:
        return with_names(relative, spelled_from(relative, root_name(scale)))
    except DomainError:
        return relative


@lru_cache(maxsize=128)
def nearest_relative(scale: Scale) -> Relative | None:
    """Find the nearest familiar scale on the same root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Relative or None
        The relative; None outside twelve divisions, without the root, for fewer than three tones, and where the scale
        has another number of tones than each familiar scale and neither holds nor fills any.

    Examples
    --------
    >>> dorian = nearest_relative(Scale.of(2, 4, 5, 7, 9, 11, 0))
    >>> dorian.familiar.name, dorian.changes
    ('natural minor', (Change(degree=6, tone=9, before=8),))
    >>> pentatonic = nearest_relative(Scale.of(0, 2, 4, 7, 9))
    >>> pentatonic.familiar.name, str(pentatonic.relation), pentatonic.left_out
    ('major', 'left out', (5, 11))
    """
    if scale.divisions != 12 or not scale.is_rooted or scale.cardinality < 3:
        return None
    known = list(FAMILIAR)
    if scale.tones in {known[0].tones, known[1].tones}:
        known = known[:2]
    elif scale.cardinality == 7:
        known = [familiar for familiar in known if len(familiar.tones) == 7]
    beside = (_beside(scale, familiar) for familiar in known if familiar.tones != scale.tones)
    nearest = min((found for found in beside if found), key=lambda found: found.distance, default=None)
    return nearest and replace(nearest, scale=_spelled_alike(nearest.scale, scale))


def colour_tones(scale: Scale) -> tuple[int, ...]:
    """Give the tones of a scale that its nearest relative has otherwise or not at all.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        Tones above the root, upwards; empty without a relative, and where tones are only left out.

    Examples
    --------
    >>> colour_tones(Scale.of(2, 4, 5, 7, 9, 11, 0)), colour_tones(Scale.of(0, 2, 4, 6, 7, 9, 10))
    ((9,), (6, 10))
    """
    relative = nearest_relative(scale)
    return relative.colour_tones if relative else ()


def brightness(scale: Scale) -> int:
    """Sum the tones above the root: of two scales of one size, the brighter has the larger sum.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Steps of the division.

    Examples
    --------
    >>> brightness(Scale.of(0, 2, 4, 5, 7, 9, 11)), brightness(Scale.of(0, 2, 3, 5, 7, 8, 10))
    (38, 35)
    """
    return sum(scale.tones)


def tonic_triad(scale: Scale) -> Chord | None:
    """Give the major or else the minor triad on the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Chord or None
        The triad; None outside twelve divisions and where the scale has neither.

    Examples
    --------
    >>> tonic_triad(Scale.of(2, 4, 5, 7, 9, 11, 0)), tonic_triad(Scale.of(0, 2, 4, 6, 8, 10))
    (Chord(root=0, suffix='m'), None)
    """
    if scale.divisions != 12:
        return None
    return next((chord for chord in (Chord(0, ""), Chord(0, "m")) if _holds(scale, chord.tones)), None)


def _holds(scale: Scale, tones: Iterable[int]) -> bool:
    return all(scale.mask >> tone & 1 for tone in tones)


@dataclass(frozen=True, slots=True)
class Tendency:
    """A tone that pulls.

    Parameters
    ----------
    tone : int
        The tone, in steps above the root.
    targets : tuple of int
        The tones of the triad on the root a semitone away, the lower first.
    """

    tone: int
    targets: tuple[int, ...]


def tendency_tones(scale: Scale) -> tuple[Tendency, ...]:
    """Find the tones a semitone from a tone of the triad on the root that are not in it.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Tendency
        Upwards from the root; empty without a major or minor triad on the root.

    Examples
    --------
    >>> [(pull.tone, pull.targets) for pull in tendency_tones(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [(5, (4,)), (11, (0,))]
    """
    triad = tonic_triad(scale)
    if triad is None:
        return ()
    pulls = (
        Tendency(tone, tuple(near % 12 for near in (tone - 1, tone + 1) if near % 12 in triad.tones))
        for tone in scale.tones
        if tone not in triad.tones
    )
    return tuple(pull for pull in pulls if pull.targets)


@dataclass(frozen=True, slots=True)
class Tetrachord:
    """Four neighbouring tones of a scale.

    Parameters
    ----------
    name : str
        major, minor, phrygian, harmonic or whole-tone.
    tones : tuple of int
        From the lowest up, in steps above the root; the octave is 12.
    """

    name: str
    tones: tuple[int, ...]


def tetrachords(scale: Scale) -> tuple[Tetrachord, Tetrachord] | None:
    """Give the lower and the upper tetrachord: degrees one to four, and five to the octave.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Tetrachord or None
        The two; None outside twelve divisions, without seven tones and the root among them, and where either has
        steps that no tetrachord with a name has.

    Examples
    --------
    >>> [half.name for half in tetrachords(Scale.of(2, 4, 5, 7, 9, 11, 0))]
    ['minor', 'minor']
    """
    if scale.divisions != 12 or scale.cardinality != 7 or not scale.is_rooted:
        return None
    steps, tones = scale.step_pattern, (*scale.tones, 12)
    lower, upper = _TETRACHORDS.get(steps[:3]), _TETRACHORDS.get(steps[4:])
    if lower is None or upper is None:
        return None
    return Tetrachord(lower, tones[:4]), Tetrachord(upper, tones[4:])
