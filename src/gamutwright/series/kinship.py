"""How two scales are related: what makes two lessons of a course near-duplicates.

Transposition T_k sends every pitch class x to x + k, inversion T_kI sends it to k - x (Forte 1973; Rahn 1980). Sets
that are transpositions of each other make one transposition class; rooted scales of one such class are modes of each
other, on the same tones or on others. Two sets of equally many tones are one step apart where the minimal voice leading
between them has the size 1: one tone moves by one step of the division (Tymoczko 2011, chapter 2, from memory).

Conventions: kinds stand from the nearest to the farthest, and only the nearest that holds is given. One step is looked
for on a common root first, as scales are compared by ear, then between the pitch classes as they sound. Scales of
different divisions are not related. Indices k lead from the other scale to this one, in steps: from root to root for
transpositions of rooted scales, otherwise the smallest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.voiceleading import one_step_neighbours

__all__ = ["Kin", "KinIndex", "Kinship", "Relation", "kinship", "transposition_class"]


class Kinship(StrEnum):
    """How a scale is related to another, the nearest kind first."""

    SAME = "same scale"
    """Same pitch classes, same root."""
    TRANSPOSITION = "transposition"
    """Same steps from another root."""
    MODE = "mode"
    """Same pitch classes from another root."""
    CLASS_MODE = "mode of a transposition"
    """Same transposition class, neither root nor steps alike."""
    INVERSION = "inversion"
    """Of the transposition class of the inverted set."""
    ONE_STEP = "one step"
    """One tone moved by one step, both scales on one root."""
    ONE_STEP_SETS = "one step between sets"
    """One pitch class moved by one step, whatever the roots."""

    @property
    def words(self) -> str:
        """What two lessons of this kind are, such as `modes of one transposition class`."""
        return _WORDS[self]


_Place = tuple[str, int, int, int]
_WORDS = {
    Kinship.SAME: "the same scale on the same root",
    Kinship.TRANSPOSITION: "transpositions of one another",
    Kinship.MODE: "modes on the same tones",
    Kinship.CLASS_MODE: "modes of one transposition class",
    Kinship.INVERSION: "inversions of one another, as classes",
    Kinship.ONE_STEP: "one tone by one step apart on a common root",
    Kinship.ONE_STEP_SETS: "one pitch class by one step apart",
}


@dataclass(frozen=True, slots=True)
class Relation:
    """How a scale is got from another.

    Parameters
    ----------
    kind : Kinship
        The nearest kind that holds.
    steps : int or None
        The index k of T_k or T_kI that takes the other's pitch classes to this one's; None for one step.
    moved : tuple of int
        For one step the tone moved and where it goes, counted from the common root, or as pitch classes between sets;
        () otherwise.
    """

    kind: Kinship
    steps: int | None = None
    moved: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Kin:
    """A lesson that is close to another.

    Parameters
    ----------
    slug : str
        The near lesson.
    kind : str
        A value of `Kinship`.
    number : int
        Its place in the course.
    steps : int or None
        As in `Relation`, from that lesson's scale to this one's.
    moved : tuple of int
        As in `Relation`.
    """

    slug: str
    kind: str
    number: int
    steps: int | None = None
    moved: tuple[int, ...] = ()


@lru_cache(maxsize=65_536)
def _class_of(mask: int, divisions: int) -> int:
    return min(rotated_mask(mask, turn, divisions) for turn in range(divisions))


def transposition_class(scale: Scale) -> int:
    """Give one mask for all transpositions and modes of a set.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    int
        The lowest of the masks of its transpositions; a key to compare, no name.

    Examples
    --------
    >>> dorian, major = Scale.of(2, 4, 5, 7, 9, 11, 0), Scale.of(3, 5, 7, 8, 10, 0, 2)
    >>> transposition_class(dorian) == transposition_class(major)
    True
    """
    return _class_of(scale.mask, scale.divisions)


def kinship(scale: Scale, other: Scale) -> Relation | None:
    """Say how a scale is related to another.

    Parameters
    ----------
    scale, other : Scale
        The scales, of any divisions.

    Returns
    -------
    Relation or None
        The nearest relation, from the other to the scale; None where none of those told apart here holds.

    Examples
    --------
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> kinship(dorian, Scale.of(0, 2, 4, 5, 7, 9, 11)).kind.value
    'mode'
    >>> kinship(dorian, Scale.of(2, 4, 5, 7, 9, 11, 1))
    Relation(kind=<Kinship.ONE_STEP: 'one step'>, steps=None, moved=(11, 10))
    >>> kinship(dorian, Scale.of(2, 4, 7, 9, 11)) is None
    True
    """
    if scale.divisions != other.divisions or scale.cardinality != other.cardinality:
        return None
    ours, theirs, n = scale.pitch_class_mask, other.pitch_class_mask, scale.divisions
    is_transposed = scale.mask == other.mask
    if is_transposed:
        kind = Kinship.SAME if scale.root == other.root else Kinship.TRANSPOSITION
        return Relation(kind, (scale.root - other.root) % n)
    if ours == theirs:
        return Relation(Kinship.MODE, 0)
    if transposition_class(scale) == transposition_class(other):
        return Relation(Kinship.CLASS_MODE, _index(theirs, ours, n))
    mirrored = rotated_mask(other.inverted().mask, -other.root, n)
    if _class_of(mirrored, n) == transposition_class(scale):
        return Relation(Kinship.INVERSION, _index(mirrored, ours, n))
    for kind, here, there in ((Kinship.ONE_STEP, scale.mask, other.mask), (Kinship.ONE_STEP_SETS, ours, theirs)):
        moved = _moved(there, here, n)
        if moved:
            return Relation(kind, None, moved)
    return None


def _index(start: int, end: int, divisions: int) -> int:
    """Find the smallest transposition that takes a set to another of its class."""
    return next(turn for turn in range(divisions) if rotated_mask(start, turn, divisions) == end)


def _moved(start: int, end: int, divisions: int) -> tuple[int, ...]:
    """Give the tone that moves and its new place, where a set becomes another by one step; () where it does not."""
    gone, come = start & ~end, end & ~start
    if gone.bit_count() != 1 or come.bit_count() != 1:
        return ()
    tone, place = gone.bit_length() - 1, come.bit_length() - 1
    return (tone, place) if (place - tone) % divisions in {1, divisions - 1} else ()


class KinIndex:
    """Scales by what relates them, so that relatives among thousands are found without comparing all with all.

    Examples
    --------
    >>> index = KinIndex()
    >>> for key, scale in enumerate((Scale.of(0, 4, 7), Scale.of(7, 11, 2), Scale.of(0, 3, 6, 9))):
    ...     index.add(key, scale)
    >>> [(key, kind.value) for key, kind in index.near(Scale.of(0, 3, 7))]
    [(1, 'inversion'), (0, 'inversion')]
    """

    def __init__(self) -> None:
        self._by: dict[_Place, list[int]] = {}

    def add(self, key: int, scale: Scale) -> None:
        """Take a scale in.

        Parameters
        ----------
        key : int
            What it is found by; each greater than the one before.
        scale : Scale
            The scale.
        """
        n = scale.divisions
        for place in (
            ("scale", n, scale.mask, scale.root),
            ("steps", n, scale.mask, 0),
            ("tones", n, scale.pitch_class_mask, 0),
            ("class", n, transposition_class(scale), 0),
        ):
            self._by.setdefault(place, []).append(key)

    def near(self, scale: Scale) -> Iterator[tuple[int, Kinship]]:
        """Go through the relatives taken in, the nearest kind first, the greatest key first in each.

        Parameters
        ----------
        scale : Scale
            The scale.

        Yields
        ------
        tuple of (int, Kinship)
            Key and kind, each key once.
        """
        seen: set[int] = set()
        for kind, places in self._places(scale):
            keys = [key for place in places for key in self._by.get(place, ())]
            for key in reversed(keys if len(places) == 1 else sorted(keys)):
                if key not in seen:
                    seen.add(key)
                    yield key, kind

    @staticmethod
    def _places(scale: Scale) -> Iterator[tuple[Kinship, list[_Place]]]:
        n = scale.divisions
        yield Kinship.SAME, [("scale", n, scale.mask, scale.root)]
        yield Kinship.TRANSPOSITION, [("steps", n, scale.mask, 0)]
        yield Kinship.MODE, [("tones", n, scale.pitch_class_mask, 0)]
        yield Kinship.CLASS_MODE, [("class", n, transposition_class(scale), 0)]
        yield Kinship.INVERSION, [("class", n, transposition_class(scale.inverted()), 0)]
        moves = [move.scale for move in one_step_neighbours(scale)]
        yield Kinship.ONE_STEP, [("steps", n, moved.mask, 0) for moved in moves]
        yield Kinship.ONE_STEP_SETS, [("tones", n, moved.pitch_class_mask, 0) for moved in moves]
