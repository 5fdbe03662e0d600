"""What of the field a course shows: how many of the scales there are, which properties on both sides, which facts.

Scales are counted by number of tones: rooted scales, which are one in each mode; transposition classes, which are the
families of modes as well, since a transposition class holds exactly the modes of its scales on every root; and set
classes under transposition and inversion. How many there are follows from counting formulas (`theory.counting`), so
that nothing is listed and every division can be covered.

A learner has met a property only after a scale that has it and one that has not; what a course shows on one side alone
is told apart from what it never shows.

Conventions: scales are sets with a root among their tones; on which pitch class it stands does not matter. The empty
set is left out: twelve divisions have 351 transposition classes and 223 set classes of one tone or more.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import comb

from gamutwright.facts.model import Dtype
from gamutwright.facts.registry import Registry
from gamutwright.lessons.plan import LEVELS
from gamutwright.series.kinship import transposition_class
from gamutwright.theory.counting import bracelet_counts, necklace_counts
from gamutwright.theory.scale import Scale

__all__ = [
    "Coverage",
    "DivisionCoverage",
    "LevelCoverage",
    "Shown",
    "Sides",
    "SizeCoverage",
    "coverage_of",
    "coverage_rows",
]


@dataclass(frozen=True, slots=True)
class SizeCoverage:
    """What a course shows of the scales of one size, out of how many there are.

    Parameters
    ----------
    tones : int
        How many tones each has.
    lessons : int
        Lessons about scales of this size.
    scales_shown, scales : int
        Rooted scales.
    classes_shown, classes : int
        Transposition classes, that is families of modes.
    set_classes_shown, set_classes : int
        Classes under transposition and inversion.
    """

    tones: int
    lessons: int
    scales_shown: int
    scales: int
    classes_shown: int
    classes: int
    set_classes_shown: int
    set_classes: int


@dataclass(frozen=True, slots=True)
class DivisionCoverage:
    """What a course shows of a division.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    sizes : tuple of SizeCoverage
        For one tone up to all.
    """

    divisions: int
    sizes: tuple[SizeCoverage, ...]

    @property
    def total(self) -> SizeCoverage:
        """All sizes together; its number of tones is 0."""
        size = self.sizes
        return SizeCoverage(
            0,
            sum(row.lessons for row in size),
            sum(row.scales_shown for row in size),
            sum(row.scales for row in size),
            sum(row.classes_shown for row in size),
            sum(row.classes for row in size),
            sum(row.set_classes_shown for row in size),
            sum(row.set_classes for row in size),
        )


class Shown(StrEnum):
    """On which sides a course shows a property."""

    BOTH = "both sides"
    ONLY_YES = "only where it holds"
    ONLY_NO = "only where it fails"
    NEVER = "never"


@dataclass(frozen=True, slots=True)
class Sides:
    """On which sides a course shows a property.

    Parameters
    ----------
    fact_id : str
        A fact that is yes or no.
    yes, no : int
        Lessons about scales that have the property, and that have not.
    silent : int
        Lessons about scales that it does not apply to.
    """

    fact_id: str
    yes: int
    no: int
    silent: int

    @property
    def shown(self) -> str:
        """`both sides`, `only where it holds`, `only where it fails` or `never`."""
        if self.yes and self.no:
            return Shown.BOTH.value
        return Shown.ONLY_YES.value if self.yes else Shown.ONLY_NO.value if self.no else Shown.NEVER.value


@dataclass(frozen=True, slots=True)
class LevelCoverage:
    """How many of the facts of a level a course tells.

    Parameters
    ----------
    level : str
        The level.
    facts : int
        Facts on offer.
    applicable : int
        Those that say something about a scale of the course at least.
    told : int
        Those that its lessons tell.
    untold : tuple of str
        Ids of the applicable ones that no lesson tells, in the registry's order.
    """

    level: str
    facts: int
    applicable: int
    told: int
    untold: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Coverage:
    """What of the field a course shows.

    Parameters
    ----------
    lessons : int
        How many lessons were counted.
    divisions : tuple of DivisionCoverage
        The divisions that occur, the smallest first.
    sides : tuple of Sides
        The facts that are yes or no, in the registry's order.
    levels : tuple of LevelCoverage
        The levels in order.
    """

    lessons: int
    divisions: tuple[DivisionCoverage, ...]
    sides: tuple[Sides, ...]
    levels: tuple[LevelCoverage, ...]


def coverage_of(scales: Sequence[Scale], registry: Registry, told: Collection[str] = ()) -> Coverage:
    """Say what of the field a course shows.

    Parameters
    ----------
    scales : sequence of Scale
        The scale of each lesson; a scale that has two lessons stands twice.
    registry : Registry
        The facts on offer.
    told : collection of str
        Ids of the facts that lessons tell or explain.

    Returns
    -------
    Coverage
        Counts, each with how many there are.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> course = (Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(9, 11, 0, 2, 4, 5, 7), Scale.of(0, 2, 4, 6, 8, 10))
    >>> found = coverage_of(course, default_registry(), ["cardinality"])
    >>> seven = found.divisions[0].sizes[6]
    >>> (seven.lessons, seven.scales_shown, seven.scales, seven.classes_shown, seven.classes)
    (2, 2, 462, 1, 66)
    >>> next(side.shown for side in found.sides if side.fact_id == "is_myhill")
    'both sides'
    """
    divisions = tuple(
        _division(n, [scale for scale in scales if scale.divisions == n])
        for n in sorted({scale.divisions for scale in scales})
    )
    distinct: dict[Scale, int] = {}
    for scale in scales:
        distinct[scale] = distinct.get(scale, 0) + 1
    return Coverage(len(scales), divisions, _sides(distinct, registry), _levels(distinct, registry, set(told)))


def _division(divisions: int, scales: Sequence[Scale]) -> DivisionCoverage:
    necklaces, bracelets = necklace_counts(divisions), bracelet_counts(divisions)
    rows = []
    for tones in range(1, divisions + 1):
        own = [scale for scale in scales if scale.cardinality == tones]
        masks = {scale.mask: scale for scale in own if scale.is_rooted}
        classes = {transposition_class(scale): scale for scale in own}
        both = {min(name, transposition_class(scale.inverted())) for name, scale in classes.items()}
        rows.append(
            SizeCoverage(
                tones, len(own), len(masks), comb(divisions - 1, tones - 1),
                len(classes), necklaces[tones], len(both), bracelets[tones],
            )
        )  # fmt: skip
    return DivisionCoverage(divisions, tuple(rows))


def _sides(scales: dict[Scale, int], registry: Registry) -> tuple[Sides, ...]:
    found = []
    for fact in registry.facts.values():
        if fact.dtype is Dtype.BOOL:
            counts = {True: 0, False: 0, None: 0}
            for scale, lessons in scales.items():
                value = fact.evaluate(scale)
                counts[None if value is None else bool(value)] += lessons
            found.append(Sides(fact.id, counts[True], counts[False], counts[None]))
    return tuple(found)


def _levels(scales: dict[Scale, int], registry: Registry, told: set[str]) -> tuple[LevelCoverage, ...]:
    found = []
    for level in LEVELS:
        facts = [fact for fact in registry.facts.values() if fact.level is level]
        # What was told applies, so only the rest has to be tried, and one scale is enough for each.
        untold = [
            fact.id
            for fact in facts
            if fact.id not in told and any(fact.evaluate(scale) is not None for scale in scales)
        ]
        count = sum(fact.id in told for fact in facts)
        found.append(LevelCoverage(level.value, len(facts), count + len(untold), count, tuple(untold)))
    return tuple(found)


def _out_of(shown: int, there_are: int) -> str:
    return f"{shown:,} of {there_are:,}"


def _percent(share: int, whole: int) -> str:
    """Give a share in percent, less than one and more than ninety-nine told apart from none and all."""
    if not whole:
        return ""
    if 0 < 100 * share < whole:
        return "under 1 %"
    if 99 * whole < 100 * share < 100 * whole:
        return "over 99 %"
    return f"{(200 * share + whole) // (2 * whole)} %"


def _size_row(divisions: int, row: SizeCoverage) -> dict[str, str]:
    return {
        "divisions": str(divisions),
        "tones": str(row.tones) if row.tones else "all",
        "lessons": f"{row.lessons:,}",
        "scales": _out_of(row.scales_shown, row.scales),
        "classes": _out_of(row.classes_shown, row.classes),
        "set classes": _out_of(row.set_classes_shown, row.set_classes),
        "share of classes": _percent(row.classes_shown, row.classes),
    }


def coverage_rows(coverage: Coverage) -> dict[str, list[dict[str, str]]]:
    """Word a coverage as the rows of tables.

    Parameters
    ----------
    coverage : Coverage
        What a course shows.

    Returns
    -------
    dict of str to list of dict of str to str
        Tables `sizes`, `properties` and `levels`; sizes that no lesson is about are left out, and a last row for each
        division counts all sizes together.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> coverage_rows(coverage_of([Scale.of(0, 2, 4, 7, 9)], default_registry()))["sizes"][0]["classes"]
    '1 of 66'
    """
    sizes = [
        _size_row(division.divisions, row)
        for division in coverage.divisions
        for row in (*(row for row in division.sizes if row.lessons), division.total)
    ]
    properties = [
        {
            "fact": side.fact_id, "shown": side.shown,
            "yes": f"{side.yes:,}", "no": f"{side.no:,}", "silent": f"{side.silent:,}",
        }
        for side in coverage.sides
    ]  # fmt: skip
    levels = [
        {
            "level": row.level, "told": _out_of(row.told, row.applicable),
            "share": _percent(row.told, row.applicable), "untold": ", ".join(row.untold),
        }
        for row in coverage.levels
    ]  # fmt: skip
    return {"sizes": sizes, "properties": properties, "levels": levels}
