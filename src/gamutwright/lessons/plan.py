"""What a lesson tells, and in which order, before a word of it is written.

A lesson is a story, and around the story there is room for facts: how the scale is built, one or two remarkable things
in depth, its harmony, its relatives. Each chapter has facts that come first, early ones that come before what is
remarkable, and facts it may take. The remarkable ones are those that surprise: few scales of the same size share the
value (Shannon's measure, counted in the catalogue). Whatever a fact needs explained first comes before it.

What the story of the lesson says anyway is neither told nor explained again.

Conventions: a *cost* is in seconds of the lesson, words at the teaching rate and sounds counted; a plan never exceeds
the time it is given. Equal choices are settled by the seed, so a plan is repeatable.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Collection
from dataclasses import dataclass
from enum import StrEnum

from gamutwright.catalogue.shares import Shares
from gamutwright.facts.model import Dtype, Fact, Group, Level
from gamutwright.facts.profile import Finding, Profile
from gamutwright.facts.registry import Registry
from gamutwright.facts.roles import Basic, Part
from gamutwright.theory.scale import Scale

__all__ = [
    "LEVELS",
    "ChapterKind",
    "Item",
    "Plan",
    "PlannedChapter",
    "Wish",
    "early",
    "make_plan",
    "most_explained",
    "plain_ideas",
    "wanted",
]

LEVELS = tuple(Level)
MOST_EXPLAINED = {Level.FOUNDATION: 3, Level.FURTHER: 5, Level.RESEARCH: 12}
"""How many ideas a lesson explains at most, for each five minutes that it has for facts."""
EXPLAINING_SECONDS = 300.0
DEEP_MINUTES = 4.0
"""A lesson of this length or more has a second thing in depth."""


class ChapterKind(StrEnum):
    """The chapters of a lesson, in their order."""

    HEAR = "hear"
    BUILD = "build"
    COMPARE = "compare"
    REMARKABLE = "remarkable"
    HARMONY = "harmony"
    RELATIVES = "relatives"


_PLAIN = frozenset({Basic.SIZE, Basic.TONES, Basic.STEPS})
UNREMARKABLE = frozenset({Group.NAMES, Group.TONES, Group.HARMONY, Group.RELATIVES, Group.TUNING, Group.CLASSES})


@dataclass(frozen=True, slots=True)
class Item:
    """A fact that is told.

    Parameters
    ----------
    finding : Finding
        The fact with its value and witnesses.
    is_defined : bool
        Whether its definition is given here.
    bits : float
        Surprise of the value, in bits.
    is_deep : bool
        Whether it is one of the things told in depth.
    """

    finding: Finding
    is_defined: bool
    bits: float = 0.0
    is_deep: bool = False

    @property
    def fact(self) -> Fact:
        """The fact."""
        return self.finding.fact


@dataclass(frozen=True, slots=True)
class PlannedChapter:
    """A chapter and what it tells."""

    kind: ChapterKind
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A lesson's plan.

    Parameters
    ----------
    profile : Profile
        The scale and its findings.
    level : Level
        Who it is for.
    minutes : float
        Length asked for.
    chapters : tuple of PlannedChapter
        In teaching order; a chapter without anything to tell is left out.
    seconds : float
        Estimated length of what is told.
    """

    profile: Profile
    level: Level
    minutes: float
    chapters: tuple[PlannedChapter, ...]
    seconds: float


@dataclass(slots=True)
class _Chooser:
    """Takes facts as long as they are tellable, not yet told, and within the budget."""

    scale: Scale
    findings: dict[str, Finding]
    registry: Registry
    level: Level
    budget: float
    cost: Callable[[Finding, bool], float]
    known: set[str]
    told: set[str]
    spent: float = 0.0
    explained: int = 0

    def is_tellable(self, fact_id: str) -> bool:
        finding = self.findings.get(fact_id)
        if finding is None or finding.value is None or fact_id in self.told:
            return False
        return LEVELS.index(finding.fact.level) <= LEVELS.index(self.level)

    def chain(self, fact_id: str) -> list[str]:
        """List the fact with everything it needs explained first that was not, needs first."""
        needed: list[str] = []
        for need in self.registry.fact(fact_id).needs:
            for earlier in self.chain(need):
                if earlier not in needed and self.is_tellable(earlier) and earlier not in self.known:
                    needed.append(earlier)
        return [*needed, fact_id]

    def take(self, fact_id: str, *, bits: float = 0.0, is_deep: bool = False) -> list[Item]:
        """Take a fact, and before it what it needs; nothing where it is not tellable or too long."""
        if not self.is_tellable(fact_id):
            return []
        chain = self.chain(fact_id)
        price = sum(self.cost(self.findings[name], name not in self.known) for name in chain)
        new = sum(name not in self.known for name in chain)
        if self.spent + price > self.budget or self.explained + new > most_explained(self.level, self.budget):
            return []
        self.spent += price
        self.explained += new
        items = []
        for name in chain:
            is_last = name == fact_id
            items.append(
                Item(self.findings[name], name not in self.known, bits if is_last else 0.0, is_deep and is_last)
            )
            self.told.add(name)
            self.known.add(name)
        return items


@dataclass(frozen=True, slots=True)
class Wish:
    """What a teacher asks of a lesson.

    Parameters
    ----------
    level : Level
        Who it is for; facts above it are left out.
    minutes : float > 0
        Length aimed at.
    known : collection of str
        Facts that earlier lessons have explained.
    seed : int
        Settles equal choices.
    story : str
        The story to tell; "" for the one that fits best.
    """

    level: Level = Level.FURTHER
    minutes: float = 6.0
    known: Collection[str] = ()
    seed: int = 0
    story: str = ""


def most_explained(level: Level, seconds: float) -> int:
    """Say how many ideas a lesson may explain.

    Parameters
    ----------
    level : Level
        Who it is for.
    seconds : float
        Its time for facts.

    Returns
    -------
    int
        So many.

    Examples
    --------
    >>> most_explained(Level.FOUNDATION, 120.0), most_explained(Level.FURTHER, 900.0)
    (3, 15)
    """
    return int(MOST_EXPLAINED[level] * max(1.0, seconds / EXPLAINING_SECONDS))


def plain_ideas(registry: Registry) -> frozenset[str]:
    """List the facts that need no explanation, because everybody who hears of a scale knows what is meant.

    Parameters
    ----------
    registry : Registry
        The facts on offer.

    Returns
    -------
    frozenset of str
        How many tones it has, which, and in what steps.
    """
    return frozenset(fact.id for fact in registry.facts.values() if fact.roles.basic in _PLAIN)


def wanted(registry: Registry, *, is_needed: bool) -> list[tuple[ChapterKind, str]]:
    """List the facts that come first in the parts of a lesson, or that they have room for, in the order they are taken.

    Parameters
    ----------
    registry : Registry
        The facts on offer.
    is_needed : bool
        Whether those are asked for that come first.

    Returns
    -------
    list of (ChapterKind, str)
        Chapter and id: what is needed part by part; of the others one for each part in turn, so that a short lesson is
        thin everywhere rather than cut off.
    """
    parts = list(Part)
    found = [
        (fact.roles.rank, parts.index(fact.roles.part), fact.id)
        for fact in registry.facts.values()
        if fact.roles.part and fact.roles.is_needed is is_needed
    ]
    found.sort(key=lambda entry: (entry[1], entry[0]) if is_needed else entry)
    return [(ChapterKind(parts[part].value), fact_id) for _, part, fact_id in found]


def early(registry: Registry) -> list[tuple[ChapterKind, str]]:
    """List the facts that are taken before what is remarkable, in the order they are taken.

    Parameters
    ----------
    registry : Registry
        The facts on offer.

    Returns
    -------
    list of (ChapterKind, str)
        Chapter and id.
    """
    offered = wanted(registry, is_needed=False)
    return [(kind, fact_id) for kind, fact_id in offered if registry.fact(fact_id).roles.is_early]


def make_plan(
    profile: Profile,
    registry: Registry,
    wish: Wish,
    cost: Callable[[Finding, bool], float],
    shares: Shares | None = None,
    told: Collection[str] = (),
) -> Plan:
    """Choose what a lesson tells besides its story, chapter by chapter.

    Parameters
    ----------
    profile : Profile
        The scale with all its findings.
    registry : Registry
        The facts on offer.
    wish : Wish
        Level, length, what is known already, and the seed.
    cost : callable
        Seconds that telling a finding takes, with its definition or without.
    shares : Shares, optional
        Counts of values in the division; without them nothing counts as surprising.
    told : collection of str
        The facts that the story states; they need no explanation either.

    Returns
    -------
    Plan
        What is told, and in which order.
    """
    findings = {finding.fact.id: finding for finding in profile.findings}
    chooser = _Chooser(
        profile.scale,
        findings,
        registry,
        wish.level,
        wish.minutes * 60.0,
        cost,
        {*wish.known, *told, *plain_ideas(registry)},
        set(told),
    )
    chapters: dict[ChapterKind, list[Item]] = {kind: [] for kind in ChapterKind}
    for kind, fact_id in wanted(registry, is_needed=True):
        chapters[kind] += chooser.take(fact_id)
    for kind, fact_id in early(registry):
        chapters[kind] += chooser.take(fact_id)
    _take_remarkable(chooser, chapters[ChapterKind.REMARKABLE], shares, wish.seed)
    for kind, fact_id in wanted(registry, is_needed=False):
        chapters[kind] += chooser.take(fact_id)
    _take_remarkable(chooser, chapters[ChapterKind.REMARKABLE], shares, wish.seed + 1, is_last=True)
    _put_after_needs(chapters)
    kept = tuple(PlannedChapter(kind, tuple(items)) for kind, items in chapters.items() if items)
    return Plan(profile, wish.level, wish.minutes, kept, chooser.spent)


def _put_after_needs(chapters: dict[ChapterKind, list[Item]]) -> None:
    """Move what needs an idea of a later chapter to where that idea has been told."""
    order = list(chapters)
    home = {item.fact.id: kind for kind, items in chapters.items() for item in items}
    for kind in order:
        for item in list(chapters[kind]):
            latest = max((order.index(home[need]) for need in item.fact.needs if need in home), default=0)
            if latest > order.index(kind):
                chapters[kind].remove(item)
                chapters[order[latest]].append(item)
                home[item.fact.id] = order[latest]


def _take_remarkable(
    chooser: _Chooser, items: list[Item], shares: Shares | None, seed: int, *, is_last: bool = False
) -> None:
    """Take the most surprising facts.

    Each is from a group of its own, until a third of the budget is spent on them; at the end of the plan, when there is
    time for more, any there are.
    """
    source = random.Random(seed)  # noqa: S311 - a repeatable choice, no secret
    scale_findings = [finding for finding in chooser.findings.values() if chooser.is_tellable(finding.fact.id)]
    ranked = sorted(
        (
            (_bits(chooser, finding, shares), source.random(), finding)
            for finding in scale_findings
            if _may_surprise(finding)
        ),
        key=lambda entry: (-entry[0], entry[1]),
    )
    allowed = chooser.budget if is_last else chooser.spent + chooser.budget / 3
    deep = 0 if is_last else 2 if chooser.budget >= DEEP_MINUTES * 60 else 1
    groups: set[Group] = set()
    for bits, _, finding in ranked:
        if (finding.fact.group in groups and not is_last) or chooser.spent > allowed:
            continue
        taken = chooser.take(finding.fact.id, bits=bits, is_deep=len(groups) < deep)
        if taken:
            items += taken
            groups.add(finding.fact.group)


def _may_surprise(finding: Finding) -> bool:
    fact = finding.fact
    return (
        fact.group not in UNREMARKABLE and fact.dtype in {Dtype.BOOL, Dtype.INT, Dtype.TEXT} and bool(fact.definition)
    )


def _bits(chooser: _Chooser, finding: Finding, shares: Shares | None) -> float:
    share = shares.of(finding.fact, chooser.scale, finding.value) if shares else None
    return share.bits if share else 0.0
