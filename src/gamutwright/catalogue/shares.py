"""How many scales of the same size share a value, for every value of a division at once.

`rarity` answers for one scale and asks the catalogue each time; here the whole division is counted in one go, so that
thousands of lessons can ask. The counts of the built-in facts come with the package; those of further packs are counted
once and kept in the store.

Conventions: facts that depend on spelling, and facts whose values are lists or have decimals, are not counted. Counts
are of rooted scales and of transposition classes with equally many tones, as in `rarity`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import log2

from gamutwright.catalogue.fact_columns import CLASS, coverage, fact_columns
from gamutwright.catalogue.family import Family, family_of
from gamutwright.catalogue.shipped import Count, further_facts, shipped_counts
from gamutwright.codec import digest
from gamutwright.errors import FileError
from gamutwright.facts.model import Dtype, Fact, Group, Scope, Value
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.jobs.job import sources_digest
from gamutwright.jobs.store import Parcel, store_for
from gamutwright.theory.scale import Scale

__all__ = ["LARGEST_AT_ONCE", "Share", "Shares", "count_values", "is_at_hand", "is_counted", "shares_of"]

LARGEST_AT_ONCE = 19
"""Largest division that is counted."""


@dataclass(frozen=True, slots=True)
class Share:
    """How many scales of the same size have the same value of a fact.

    Parameters
    ----------
    family : Family
        What it was counted among.
    scales_alike, classes_alike : int
        Rooted scales and classes that have the value, this one among them.
    """

    family: Family
    scales_alike: int
    classes_alike: int

    @property
    def of_scales(self) -> Fraction:
        """Share of the rooted scales."""
        return Fraction(self.scales_alike, self.family.scales)

    @property
    def of_classes(self) -> Fraction:
        """Share of the transposition classes."""
        return Fraction(self.classes_alike, self.family.classes)

    @property
    def bits(self) -> float:
        """Surprise among classes: 0 for what all have, one more for each halving."""
        return -log2(self.of_classes)


def is_counted(fact: Fact) -> bool:
    """Whether the shares of a fact's values are counted.

    Parameters
    ----------
    fact : Fact
        The fact.

    Returns
    -------
    bool
        True for yes or no, whole numbers and single words that neither spelling nor names decide.
    """
    single = fact.dtype in {Dtype.BOOL, Dtype.INT, Dtype.TEXT}
    return single and fact.scope is not Scope.SPELLED and fact.group is not Group.NAMES


class Shares:
    """The shares of all values in a division.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave; the catalogue is built where it is missing.
    registry : Registry, optional
        The facts on offer.
    """

    def __init__(self, divisions: int, registry: Registry | None = None) -> None:
        self.divisions = divisions
        registry = registry or default_registry()
        counts = shipped_counts(divisions, registry)
        further = fact_columns(registry, divisions) if counts is None else further_facts(divisions, registry)
        facts = [fact for fact in further if is_counted(fact)]
        if facts:
            counts = [*(counts or ()), *_kept_counts(divisions, registry, facts)]
        self._counts = {(fact, size, value): (scales, classes) for fact, size, value, scales, classes in counts or ()}

    def of(self, fact: Fact, scale: Scale, value: Value | None = None) -> Share | None:
        """Give the share of scales of the same size with the same value.

        Parameters
        ----------
        fact : Fact
            The fact.
        scale : Scale
            The scale, its root among its tones.
        value : Value, optional
            Its value, where it is known already.

        Returns
        -------
        Share or None
            None where the fact is not counted or says nothing here.
        """
        known = fact.evaluate(scale) if value is None else value
        if known is None:
            return None
        text = str(known).lower() if isinstance(known, bool) else str(known)
        counts = self._counts.get((fact.id, scale.cardinality, text))
        return Share(family_of(scale), *counts) if counts else None


def is_at_hand(divisions: int) -> bool:
    """Whether the shares of a division can be given without building its catalogue.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    bool
        False where further packs have facts to be counted, and for divisions that are not counted.
    """
    registry = default_registry()
    counted = divisions <= LARGEST_AT_ONCE and not any(map(is_counted, further_facts(divisions, registry)))
    return counted and shipped_counts(divisions, registry) is not None


def _kept_counts(divisions: int, registry: Registry, facts: Sequence[Fact]) -> list[Count]:
    """Take the counts of facts from the store, counted there once."""
    packs = [[pack.name, pack.version] for pack in registry.packs]
    ids = [fact.id for fact in facts]
    key = digest(["shares", divisions, packs, ids, sources_digest("catalogue", "facts", "kernels", "theory")])
    store = store_for()
    kept = store.get(key)
    if kept is None:
        kept = Parcel(count_values(divisions, registry, facts))  # type: ignore[arg-type]  # lists of plain values
        with suppress(FileError):
            store.put(key, kept)
    rows: list[Count] = kept.data  # type: ignore[assignment]  # as `count_values` gives them
    return rows


def count_values(divisions: int, registry: Registry, facts: Iterable[Fact]) -> list[list[str | int]]:
    """Count every value of facts, by number of tones.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.
    facts : iterable of Fact
        Columns of the division's catalogue, which is built where it is missing.

    Returns
    -------
    list of list
        Fact, number of tones, value, rooted scales and classes that have it.
    """
    from gamutwright.catalogue.query import Catalogue  # noqa: PLC0415 - it loads the database

    weight = "1" if coverage(divisions).is_rooted else "mode_count"
    rows: list[list[str | int]] = []
    with Catalogue(divisions, registry=registry) as catalogue:
        for fact in facts:
            answer = catalogue.ask(
                f"SELECT cardinality AS size, CAST({fact.id} AS VARCHAR) AS value, "  # noqa: S608 - a fact's id
                f"sum({weight})::BIGINT AS scales, count(DISTINCT {CLASS}) AS classes "
                f"FROM scales WHERE {fact.id} IS NOT NULL GROUP BY ALL ORDER BY ALL"
            )
            rows += [[fact.id, *row] for row in answer.cells]
    return rows


@lru_cache(maxsize=4)
def _kept(divisions: int, registry_key: int) -> Shares:
    del registry_key
    return Shares(divisions)


def shares_of(divisions: int) -> Shares | None:
    """Give the shares of a division, counted once in a process.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    Shares or None
        None for divisions that are not counted.
    """
    return _kept(divisions, id(default_registry())) if 2 <= divisions <= LARGEST_AT_ONCE else None
