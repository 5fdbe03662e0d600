"""How many scales of the same size share a value, for every value of a division at once.

`rarity` answers for one scale and asks the catalogue each time; here the whole division is counted in one go and
kept, in memory and in the store, so that thousands of lessons can ask.

Conventions: facts that depend on spelling, and facts whose values are lists or have decimals, are not counted. Counts
are of rooted scales and of transposition classes with equally many tones, as in `rarity`.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import log2

from gamutwright.catalogue.family import Family, family_of
from gamutwright.codec import digest
from gamutwright.errors import FileError
from gamutwright.facts.model import Dtype, Fact, Group, Scope, Value
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.jobs.model import sources_digest
from gamutwright.jobs.store import Parcel, store_for
from gamutwright.theory.scale import Scale

__all__ = ["LARGEST_AT_ONCE", "Share", "Shares", "is_counted", "shares_of"]

LARGEST_AT_ONCE = 19
"""Largest division that is counted without being asked to: its catalogue takes about a second."""


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
        packs = [[pack.name, pack.version] for pack in registry.packs]
        key = digest(["shares", divisions, packs, sources_digest("catalogue", "facts", "kernels", "theory")])
        store = store_for()
        kept = store.get(key)
        if kept is None:
            kept = Parcel(_counted(divisions, registry))  # type: ignore[arg-type]  # lists of plain values
            with suppress(FileError):
                store.put(key, kept)
        rows: list[tuple[str, int, str, int, int]] = kept.data  # type: ignore[assignment]  # as _counted gives them
        self._counts = {(fact, size, value): (scales, classes) for fact, size, value, scales, classes in rows}

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


def _counted(divisions: int, registry: Registry) -> list[list[str | int]]:
    """Count every value of every fact that is counted, by number of tones."""
    from gamutwright.catalogue.columns import CLASS, coverage  # noqa: PLC0415 - loads the database's libraries
    from gamutwright.catalogue.query import Catalogue  # noqa: PLC0415 - as above

    weight = "1" if coverage(divisions).is_rooted else "mode_count"
    rows = []
    with Catalogue(divisions, registry=registry) as catalogue:
        for fact in catalogue.facts:
            if is_counted(fact):
                answer = catalogue.ask(
                    f"SELECT cardinality AS size, CAST({fact.id} AS VARCHAR) AS value, "  # noqa: S608 - a fact's id
                    f"sum({weight})::BIGINT AS scales, count(DISTINCT {CLASS}) AS classes "
                    f"FROM scales WHERE {fact.id} IS NOT NULL GROUP BY ALL"
                )
                rows += [[fact.id, row["size"], row["value"], row["scales"], row["classes"]] for row in answer]
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
        None for divisions whose catalogue is too large to build without being asked.
    """
    return _kept(divisions, id(default_registry())) if 2 <= divisions <= LARGEST_AT_ONCE else None
