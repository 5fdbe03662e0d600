"""Which ideas a lesson would explain, forecast quickly enough to try thousands of lessons at every place of a course.

A draft takes a tenth of a second and `lesson.plan.make_plan` with all it needs a hundredth, mostly for witnesses and
for sentences whose length has to be known. A course of 2,048 lessons asks about a hundred thousand times. So a forecast
makes the very choices of `make_plan`, on bit masks of ideas, and leaves out what is dear: only the facts that
`make_plan` can reach are computed, without witnesses, and the time that telling a fact takes is a figure for the whole
strand of lessons, averaged over some of its scales. Given the same figures it explains exactly what `make_plan` does.

Conventions: an idea is a fact that is explained, one bit of a mask. What the story of a lesson says is told already,
and takes its time from the facts.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache, partial

from gamutwright.catalogue.shares import Shares
from gamutwright.facts.model import Dtype, Fact, Level, Value
from gamutwright.facts.profile import find
from gamutwright.facts.registry import Registry
from gamutwright.lessons.draft import scenes_within
from gamutwright.lessons.plan import LEVELS, UNREMARKABLE, early, most_explained, plain_ideas, wanted
from gamutwright.lessons.stories.telling import ToldScene
from gamutwright.lessons.timing import telling_seconds
from gamutwright.phrasing.engine import wording_for
from gamutwright.theory.scale import Scale

__all__ = ["Forecaster", "IdeaBits", "Sketch", "mean_seconds"]

MOST_SAMPLES = 16
USUAL_SECONDS = (5.0, 15.0)
"""For a fact that none of the sampled scales has: telling it, and explaining it as well."""


class IdeaBits:
    """A bit for each idea.

    Parameters
    ----------
    registry : Registry
        The facts on offer, in order.
    further : iterable of str
        Ids that scripts explain besides, of packs that are not installed.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> ideas = IdeaBits(default_registry())
    >>> ideas.names(ideas.mask(["semitone_steps", "cardinality"]))
    ('cardinality', 'semitone_steps')
    """

    def __init__(self, registry: Registry, further: Iterable[str] = ()) -> None:
        self.ids = (*registry.facts, *sorted(set(further) - registry.facts.keys()))
        self._bits = {fact_id: 1 << place for place, fact_id in enumerate(self.ids)}

    def mask(self, ids: Iterable[str]) -> int:
        """Give the mask of some ideas."""
        mask = 0
        for fact_id in ids:
            mask |= self._bits[fact_id]
        return mask

    def names(self, mask: int) -> tuple[str, ...]:
        """List the ideas of a mask in the registry's order."""
        return tuple(self.ids[place] for place in _places(mask))


def _places(mask: int) -> list[int]:
    found = []
    while mask:
        low = mask & -mask
        found.append(low.bit_length() - 1)
        mask ^= low
    return found


@dataclass(slots=True)
class Sketch:
    """What of a scale matters for a forecast.

    Parameters
    ----------
    has : int
        Mask of the facts that say something about the scale.
    bits : mapping of int to float
        Surprise of the facts that may be told as remarkable, by place in the registry.
    scenes : callable, optional
        Level to the scenes of the lesson's story; without it the whole lesson is facts.
    """

    has: int
    bits: dict[int, float]
    scenes: Callable[[Level], Sequence[ToldScene]] | None = None
    _ranked: dict[tuple[int, int], tuple[int, ...]] = field(default_factory=dict)

    def ranked(self, offered: int, seed: int) -> tuple[int, ...]:
        """Put facts in the order of their surprise, equal ones as the seed has it."""
        key = (offered, seed)
        if key not in self._ranked:
            source = random.Random(seed)  # noqa: S311 - a repeatable choice, no secret
            drawn = [(-self.bits[place], source.random(), place) for place in _places(offered)]
            self._ranked[key] = tuple(place for _, _, place in sorted(drawn))
        return self._ranked[key]


def mean_seconds(
    registry: Registry, scales: Sequence[Scale], language: str, fact_ids: Iterable[str]
) -> dict[str, tuple[float, float]]:
    """Average how long facts take to tell, without and with their definition.

    Parameters
    ----------
    registry : Registry
        The facts on offer.
    scales : sequence of Scale
        Scales of the lessons; of many, sixteen spread evenly are taken.
    language : str
        Language of the lessons.
    fact_ids : iterable of str
        The facts wanted.

    Returns
    -------
    dict of str to (float, float)
        Seconds.
    """
    wording = wording_for(language)
    ordered = sorted(set(scales), key=lambda scale: (scale.divisions, scale.mask, scale.root, scale.names))
    count = min(MOST_SAMPLES, len(ordered))
    samples = [ordered[place * len(ordered) // count] for place in range(count)]
    costs = [(scale, telling_seconds(wording, scale)) for scale in samples]
    found = {}
    for fact_id in fact_ids:
        told = []
        for scale, cost in costs:
            finding = find(registry.fact(fact_id), scale)
            if finding.value is not None:
                told.append(tuple(cost(finding, is_defined) for is_defined in (False, True)))
        plain, full = zip(*told, strict=True) if told else ((USUAL_SECONDS[0],), (USUAL_SECONDS[1],))
        found[fact_id] = (sum(plain) / len(plain), sum(full) / len(full))
    return found


class Forecaster:
    """Forecasts what lessons would explain.

    Parameters
    ----------
    registry : Registry
        The facts on offer.
    seconds : callable
        Fact ids to the seconds of telling each, as `mean_seconds` gives them.
    shares : callable, optional
        Division to the counts of values in it; without them nothing counts as surprising.
    seed : int
        As for drafts.
    scenes : callable, optional
        Scale and level to the scenes of its story.
    """

    def __init__(
        self,
        registry: Registry,
        seconds: Callable[[Iterable[str]], dict[str, tuple[float, float]]],
        shares: Callable[[int], Shares | None] | None = None,
        seed: int = 0,
        scenes: Callable[[Scale, Level], Sequence[ToldScene]] | None = None,
    ) -> None:
        self._scenes = scenes
        self._plain_ideas = sum(
            1 << place for place, name in enumerate(registry.facts) if name in plain_ideas(registry)
        )
        self._ids = list(registry.facts)
        self._surprises: dict[tuple[str, int, int, Value], float] = {}
        self._registry, self._shares, self._seed = registry, shares, seed
        place = self._place = {fact_id: index for index, fact_id in enumerate(self._ids)}
        self._before: list[int] = []
        for fact in registry.facts.values():
            self._before.append(_ancestors(fact, registry, place))
        self._needed = [place[fact_id] for _, fact_id in wanted(registry, is_needed=True)]
        self._early = [place[fact_id] for _, fact_id in early(registry)]
        self._offered = [place[fact_id] for _, fact_id in wanted(registry, is_needed=False)]
        facts = list(registry.facts.values())
        self._groups = [fact.group for fact in facts]
        self._surprising = sum(1 << k for k, fact in enumerate(facts) if _may_surprise(fact))
        self._reached = self._surprising
        for k in (*self._needed, *self._offered):
            self._reached |= 1 << k
        for k in _places(self._reached):
            self._reached |= self._before[k]
        self._levels = {
            level: sum(1 << k for k, fact in enumerate(facts) if LEVELS.index(fact.level) <= rank)
            for rank, level in enumerate(LEVELS)
        }
        measured = seconds(self._ids[k] for k in _places(self._reached))
        self._plain = [measured.get(name, USUAL_SECONDS)[0] for name in self._ids]
        self._full = [measured.get(name, USUAL_SECONDS)[1] for name in self._ids]

    def sketch(self, scale: Scale, most: Level) -> Sketch:
        """Compute what matters of a scale.

        Parameters
        ----------
        scale : Scale
            The scale.
        most : Level
            The highest level it will be asked for.

        Returns
        -------
        Sketch
            For `explained`.
        """
        has, bits = 0, {}
        for k in _places(self._reached & self._levels[most]):
            fact = self._registry.fact(self._ids[k])
            value = fact.evaluate(scale)
            if value is not None:
                has |= 1 << k
                if self._surprising >> k & 1:
                    bits[k] = self._surprise(fact, scale, value) if self._shares else 0.0
        scenes = self._scenes
        return Sketch(has, bits, lru_cache(maxsize=3)(partial(scenes, scale)) if scenes else None)

    def _surprise(self, fact: Fact, scale: Scale, value: Value) -> float:
        """Look up the surprise of a value, which is the same for all scales of a size."""
        key = (fact.id, scale.divisions, scale.cardinality, value)
        if key not in self._surprises:
            shares = self._shares(scale.divisions) if self._shares else None
            share = shares.of(fact, scale, value) if shares else None
            self._surprises[key] = share.bits if share else 0.0
        return self._surprises[key]

    def explained(self, sketch: Sketch, level: Level, minutes: float, known: int) -> int:
        """Forecast what a lesson would explain for the first time.

        Parameters
        ----------
        sketch : Sketch
            Its scale.
        level : Level
            Who it is for.
        minutes : float > 0
            Length of the lesson.
        known : int
            Mask of the ideas explained already.

        Returns
        -------
        int
            Mask of new ideas.
        """
        has = sketch.has & self._levels[level]
        if not has & ~known:
            return 0
        scenes = scenes_within(sketch.scenes(level), minutes * 60.0) if sketch.scenes else []
        budget = max(minutes * 60.0 - sum(scene.seconds for scene in scenes), 0.0)
        told = self._mask(frozenset().union(*(scene.told for scene in scenes)))
        run = _Run(self, has, known | told | self._plain_ideas, told, most_explained(level, budget))
        before = run.known
        for k in (*self._needed, *self._early):
            run.take(k, budget)
        ranked = sketch.ranked(has & self._surprising & ~run.told, self._seed)
        allowed, groups = run.spent + budget / 3, set()
        for k in ranked:
            if run.spent > allowed:
                break
            if self._groups[k] not in groups and run.take(k, budget):
                groups.add(self._groups[k])
        for k in self._offered:
            run.take(k, budget)
        for k in sketch.ranked(has & self._surprising & ~run.told, self._seed + 1):
            run.take(k, budget)
        return run.known & ~before

    def _mask(self, ids: Iterable[str]) -> int:
        return sum(1 << self._place[name] for name in ids if name in self._place)


class _Run:
    """One forecast under way: takes facts as long as they can be told, are not told yet, and there is time."""

    __slots__ = ("_before", "_explained", "_full", "_has", "_most", "_plain", "known", "spent", "told")

    def __init__(self, book: Forecaster, has: int, known: int, told: int, most: int) -> None:
        self._before, self._plain, self._full = book._before, book._plain, book._full  # noqa: SLF001 - one file's pair
        self._has, self.known, self.told, self.spent = has, known, told, 0.0
        self._explained, self._most = 0, most

    def take(self, k: int, budget: float) -> bool:
        bit = 1 << k
        if not self._has & bit or self.told & bit:
            return False
        earlier = self._before[k] & self._has & ~self.known
        price = self._plain[k] if self.known & bit else self._full[k]
        for place in _places(earlier):
            price += self._full[place]
        new = earlier.bit_count() + (not self.known & bit)
        if self.spent + price > budget or self._explained + new > self._most:
            return False
        self.spent += price
        self._explained += new
        self.told |= earlier | bit
        self.known |= earlier | bit
        return True


def _ancestors(fact: Fact, registry: Registry, place: dict[str, int]) -> int:
    """Collect all that is to be explained before a fact, needs of needs included."""
    mask, waiting = 0, list(fact.needs)
    while waiting:
        need = waiting.pop()
        mask |= 1 << place[need]
        waiting.extend(registry.fact(need).needs)
    return mask


def _may_surprise(fact: Fact) -> bool:
    """As `make_plan` has it: a single value that has a definition, of a group that is not told anyway."""
    return (
        fact.group not in UNREMARKABLE and fact.dtype in {Dtype.BOOL, Dtype.INT, Dtype.TEXT} and bool(fact.definition)
    )
