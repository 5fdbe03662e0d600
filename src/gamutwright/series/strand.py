"""The lessons of one language while they get their places, one after another.

Conventions: lessons are named by their index, `key`, in the order given; the order chosen does not depend on it. A
lesson counts as close to those a few places before it by their order, whatever their numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import NamedTuple

from gamutwright.facts.model import Level
from gamutwright.facts.registry import Registry
from gamutwright.lessons.plan import LEVELS
from gamutwright.series.ideas import Forecaster, IdeaBits, Sketch
from gamutwright.series.kinship import Kin, KinIndex, Kinship, kinship, transposition_class
from gamutwright.series.placing import (
    APART,
    LONGEST,
    MOST_KIN,
    SLACK,
    WITHIN_CLASS,
    Candidate,
    Place,
    familiarity,
)

__all__ = ["Strand"]


@dataclass(slots=True)
class _Lesson:
    """A lesson with what is found out of it once."""

    candidate: Candidate
    familiarity: tuple[int, ...]
    family: tuple[int, int]
    scripted: int | None
    leans: int
    sketch: Sketch | None = None
    forecast: tuple[Level, int, int] | None = None


class _Dues(NamedTuple):
    """What speaks against a lesson being next: levels above the path's, needs unmet, new ideas."""

    above: int
    unmet: int
    new: int


@dataclass(slots=True)
class _Close:
    """A lesson placed just before that a lesson is close to."""

    extra: int
    kind: Kinship
    number: int


@dataclass(slots=True)
class Strand:
    """The lessons of one language, some of them placed.

    Parameters
    ----------
    candidates : sequence of Candidate
        The lessons, each slug once.
    registry : Registry
        The facts on offer.
    ideas : IdeaBits
        A bit for each idea, those of the scripts among them.
    book : Forecaster
        Forecasts for this language.
    path : sequence of Level
        The levels, spread evenly over the places.
    minutes : float > 0
        Length of lessons that do not say their own.
    defined : callable or None
        What a lesson without a script will really explain, where it can be told.
    """

    candidates: Sequence[Candidate]
    registry: Registry
    ideas: IdeaBits
    book: Forecaster
    path: Sequence[Level]
    minutes: float
    defined: Callable[[Candidate, Level, frozenset[str]], Collection[str]] | None = None
    places: list[Place] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    _lessons: list[_Lesson] = field(default_factory=list)
    _known: int = 0
    _known_ids: frozenset[str] = frozenset()
    _order: list[int] = field(default_factory=list)
    _near: list[list[tuple[int, Kinship]]] = field(default_factory=list)
    _all: KinIndex = field(default_factory=KinIndex)
    _placed: KinIndex = field(default_factory=KinIndex)

    def __post_init__(self) -> None:
        for key, candidate in enumerate(self.candidates):
            explained = candidate.explained
            scripted = None if explained is None else self.ideas.mask(explained)
            family = candidate.scale.divisions, transposition_class(candidate.scale)
            standing = familiarity(candidate.scale)
            self._lessons.append(_Lesson(candidate, standing, family, scripted, self._leans_on(candidate)))
            self._all.add(key, candidate.scale)

    def _leans_on(self, candidate: Candidate) -> int:
        """Collect what a script's explanations need, the script lacks, and can be said of the scale."""
        explained = candidate.explained or frozenset()
        facts = [self.registry.facts[name] for name in explained if name in self.registry.facts]
        needs = {need for fact in facts for need in fact.needs} - explained
        return self.ideas.mask(n for n in needs if self.registry.fact(n).evaluate(candidate.scale) is not None)

    def _path_level(self) -> Level:
        return self.path[len(self.places) * len(self.path) // len(self.candidates)]

    def _new_ideas(self, lesson: _Lesson, level: Level) -> int:
        """Give the mask of what a lesson would explain for the first time, were it next."""
        if lesson.scripted is not None:
            return lesson.scripted & ~self._known
        candidate = lesson.candidate
        if lesson.sketch is None:
            most = Level(candidate.level) if candidate.level else max(self.path, key=LEVELS.index)
            lesson.sketch = self.book.sketch(candidate.scale, most)
        known = self._known & lesson.sketch.has
        if lesson.forecast is None or lesson.forecast[:2] != (level, known):
            minutes = candidate.minutes or self.minutes
            lesson.forecast = (level, known, self.book.explained(lesson.sketch, level, minutes, known))
        return lesson.forecast[2]

    def put(self, key: int, number: int, reason: str) -> None:
        """Give a lesson its place.

        Parameters
        ----------
        key : int
            The lesson.
        number : int
            Its number.
        reason : str
            Why, in a sentence.
        """
        lesson = self._lessons[key]
        candidate = lesson.candidate
        level = Level(candidate.level) if candidate.level else self._path_level()
        if lesson.scripted is None and self.defined is not None:
            new = self.ideas.mask(self.defined(candidate, level, self._known_ids)) & ~self._known
        else:
            new = self._new_ideas(lesson, level)
        repeats = self.ideas.names((lesson.scripted or 0) & self._known)
        explains = self.ideas.names(new)
        self.places.append(
            Place(candidate, number, level.value, explains, self._known_ids, self._kin(candidate), reason, repeats)
        )
        missing = lesson.leans & ~self._known
        if missing:
            self.faults.append(self._missing(candidate, number, missing))
        if new:
            self._known |= new
            self._known_ids |= frozenset(explains)
        self._placed.add(len(self._order), candidate.scale)
        self._order.append(key)
        self._near = [*self._near[1 - LONGEST :], list(self._all.near(candidate.scale))]

    def _kin(self, candidate: Candidate) -> tuple[Kin, ...]:
        found = []
        for place, _ in islice(self._placed.near(candidate.scale), MOST_KIN):
            earlier = self.places[place]
            relation = kinship(candidate.scale, earlier.candidate.scale)
            assert relation is not None  # noqa: S101 - the index finds what the definition has
            found.append(
                Kin(earlier.candidate.slug, relation.kind.value, earlier.number, relation.steps, relation.moved)
            )
        return tuple(found)

    def _missing(self, candidate: Candidate, number: int, missing: int) -> str:
        facts = self.registry.facts
        explained = sorted(
            facts[name].title
            for name in candidate.explained or ()
            if name in facts and self.ideas.mask(facts[name].needs) & missing
        )
        needed = [facts[name].title for name in self.ideas.names(missing)]
        return (
            f"'{candidate.slug}' (lesson {number}) explains {_listed(explained)} before {_listed(needed)} "
            f"{'has' if len(needed) == 1 else 'have'} been explained."
        )

    def choose_all(self, keys: Iterable[int], start: int, told: Callable[[], None]) -> None:
        """Give lessons the places that follow, the best one at a time.

        Parameters
        ----------
        keys : iterable of int
            The lessons.
        start : int
            The first number.
        told : callable
            Called after each.
        """
        left = set(keys)
        rows: dict[_Dues, list[int]] = {}
        stamp: tuple[int, Level] | None = None
        for number in range(start, start + len(left)):
            if stamp != (self._known, self._path_level()):
                stamp = (self._known, self._path_level())
                rows = self._rows(left)
            families = self._families(left)
            close = self._close_ones(left, families)
            crowded = {key for keys in families.values() if _is_crowded(len(keys), len(left)) for key in keys}
            # Of each row the most familiar lesson can be next, and those that are close or of a crowded class.
            firsts = {key: dues for dues, row in rows.items() for key in islice(_open(row, left, close), 1)}
            if special := close.keys() | crowded:
                firsts |= {key: dues for dues, row in rows.items() for key in row if key in special and key in left}
            chosen = self._best(firsts, close, crowded)
            self.put(chosen, number, self._reason(chosen, firsts, close, crowded if len(left) > 1 else None))
            left.remove(chosen)
            told()

    def _families(self, left: Iterable[int]) -> dict[tuple[int, int], list[int]]:
        """Put the lessons of a transposition class together."""
        families: dict[tuple[int, int], list[int]] = {}
        for key in left:
            families.setdefault(self._lessons[key].family, []).append(key)
        return families

    def _rows(self, left: set[int]) -> dict[_Dues, list[int]]:
        """Put lessons together of which the same is to be said, the more familiar first."""
        rows: dict[_Dues, list[int]] = {}
        for key in sorted(left, key=self._familiar):
            rows.setdefault(self._dues(key), []).append(key)
        return rows

    def _dues(self, key: int) -> _Dues:
        lesson, here = self._lessons[key], self._path_level()
        own = lesson.candidate.level
        level = Level(own) if own else here
        above = max(0, LEVELS.index(level) - LEVELS.index(here))
        return _Dues(above, (lesson.leans & ~self._known).bit_count(), self._new_ideas(lesson, level).bit_count())

    def _familiar(self, key: int) -> tuple[object, ...]:
        lesson = self._lessons[key]
        return (*lesson.familiarity, lesson.candidate.scale.names, lesson.candidate.slug)

    def _best(self, firsts: dict[int, _Dues], close: dict[int, _Close], crowded: set[int]) -> int:
        """Choose from those with about the fewest new ideas: far from relatives, of a crowded class, familiar."""

        def counted(key: int) -> tuple[int, int, int]:
            dues = firsts[key]
            return dues.above, dues.unmet, dues.new + (close[key].extra if key in close else 0)

        above, unmet, fewest = min(map(counted, firsts))
        even = [key for key in firsts if (above, unmet) == counted(key)[:2] and counted(key)[2] <= fewest + SLACK]
        return min(
            even, key=lambda key: (close[key].extra if key in close else 0, key not in crowded, *self._familiar(key))
        )

    def _close_ones(self, left: set[int], families: dict[tuple[int, int], list[int]]) -> dict[int, _Close]:
        """Find the lessons that are close to one placed just before."""
        found: dict[int, _Close] = {}
        for back, near in enumerate(reversed(self._near), 1):
            for key, kind in near:
                places, extra = APART[kind]
                if key not in left:
                    continue
                if kind in WITHIN_CLASS:
                    places = min(places, _reach(len(families[self._lessons[key].family]), len(left)))
                if back <= places and (key not in found or found[key].extra < extra):
                    found[key] = _Close(extra, kind, self.places[-back].number)
        return found

    def _reason(self, chosen: int, firsts: dict[int, _Dues], close: dict[int, _Close], crowded: set[int] | None) -> str:
        """Say why a lesson is next: none left brings fewer new ideas, or why those that do must wait."""
        dues = firsts[chosen]
        if crowded is None:
            return f"It is the last one left, with {_ideas(dues.new)}."
        best = min(firsts, key=lambda key: (firsts[key].new, *self._familiar(key)))
        other, fewer = self._lessons[best].candidate, firsts[best]
        if fewer.new == dues.new:
            return f"No lesson left is expected to bring fewer new ideas than this one ({_ideas(dues.new)})."
        if fewer.above > dues.above:
            why = f"but it is for a later level ({other.level})"
        elif fewer.unmet > dues.unmet:
            why = "but it leans on what has not been explained yet"
        elif best in close and close[best].extra > (close[chosen].extra if chosen in close else 0):
            why = f"but it and lesson {close[best].number} are {close[best].kind.words}"
        elif chosen in crowded and best not in crowded:
            why = "but the many modes and transpositions of this one's class take turns with the others"
        else:
            why = "but is less familiar"
        return f"It brings {_ideas(dues.new)}; '{other.slug}' would bring {fewer.new or 'none'}, {why}."


def _reach(members: int, left: int) -> int:
    """Say for how many places lessons of a class can stay apart, where so many of those left belong to it."""
    return max(1, -(-left // members) - 1)


def _is_crowded(members: int, left: int) -> bool:
    """Whether a class has so many of the lessons left that it must begin now for them to stay apart."""
    apart = min(LONGEST, _reach(members, left))
    return members > 1 and (members - 1) * (apart + 1) + 1 >= left


def _open(row: list[int], left: set[int], close: dict[int, _Close]) -> Iterator[int]:
    """Go through the lessons of a row that are left and close to nothing; those that are gone are dropped."""
    while row and row[0] not in left:
        row.pop(0)
    return (key for key in row if key in left and key not in close)


def _ideas(count: int) -> str:
    return "no new idea" if count == 0 else "one new idea" if count == 1 else f"{count} new ideas"


def _listed(words: Sequence[str]) -> str:
    """Join titles with commas and a last `and`."""
    quoted = [f"'{word}'" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} and {quoted[-1]}"
