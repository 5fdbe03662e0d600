"""The facts on offer: packs found by entry point, taken in, checked against each other and put in order.

The built-in library comes through the same door as anybody else's: an entry point of the group `gamutwright.facts`
names a package, and each module in it offers one `FACT`. Nothing is lost silently: a pack that fails to import, an id
offered twice, a source key that stands for two publications, a need nobody offers, each stops the load.

Conventions: the environment variable `GAMUTWRIGHT_FACT_PACKS`, a comma-separated list of pack names, pins which packs
are taken in, for builds that must be repeatable. Facts are ordered by group, and within it by need, level and id.
"""

from __future__ import annotations

import difflib
import graphlib
import importlib
import os
import pkgutil
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import metadata

from gamutwright.errors import PackError, UnknownFactError, told
from gamutwright.facts.model import Citation, Fact, Group, Level, Source
from gamutwright.facts.roles import Basic
from gamutwright.jobs.packs import ENTRY_POINT_GROUP, PACKS_VARIABLE

__all__ = ["Pack", "Registry", "default_registry", "load_pack", "load_registry"]


@dataclass(frozen=True, slots=True)
class Pack:
    """A pack of facts, as its distribution offers it.

    Parameters
    ----------
    name : str
        Name of the entry point.
    distribution : str
        Name of the distribution that offers it.
    version : str
        Version of that distribution.
    facts : tuple of Fact
        Its facts, by id.
    package : str
        Dotted name of the package it was imported from; "" for facts made by hand.
    """

    name: str
    distribution: str
    version: str
    facts: tuple[Fact, ...]
    package: str = ""


@dataclass(frozen=True, slots=True)
class Registry:
    """Facts of several packs, in order.

    Parameters
    ----------
    packs : tuple of Pack
        The packs taken in.
    facts : mapping of str to Fact
        Every fact by id, in reading order.
    """

    packs: tuple[Pack, ...]
    facts: Mapping[str, Fact]

    def fact(self, fact_id: str) -> Fact:
        """Find a fact by its id.

        Parameters
        ----------
        fact_id : str
            The id; hyphens count as underscores.

        Returns
        -------
        Fact
            The fact.

        Raises
        ------
        UnknownFactError
            If no pack offers it; the nearest ids are named.
        """
        wanted = fact_id.strip().lower().replace("-", "_")
        if wanted in self.facts:
            return self.facts[wanted]
        near = difflib.get_close_matches(wanted, self.facts, n=3, cutoff=0.5)
        hint = (
            told("Did you mean {list}?", list=" / ".join(near))
            if near
            else told("See the list with: gamutwright facts")
        )
        raise UnknownFactError(told("fact '{id}'", id=fact_id), told("no installed pack offers it"), hint)

    def basic(self, kind: Basic) -> Fact:
        """Find the fact that states one of the basic things.

        Parameters
        ----------
        kind : Basic
            Which.

        Returns
        -------
        Fact
            The fact.

        Raises
        ------
        PackError
            If no pack offers it.
        """
        found = next((fact for fact in self.facts.values() if fact.roles.basic is kind), None)
        if found is None:
            packs = ", ".join(pack.name for pack in self.packs) or "none"
            raise PackError(f"packs {packs}", f"no fact in them states the {kind}", "Take the pack builtin in too.")
        return found

    def sources(self) -> dict[str, Source]:
        """Collect the bibliography: every source cited, by key."""
        cited = {c.source.key: c.source for fact in self.facts.values() for c in _citations(fact)}
        return dict(sorted(cited.items()))


def _citations(fact: Fact) -> Iterator[Citation]:
    yield from fact.sources
    yield from (example.citation for example in fact.worked)


def load_pack(name: str, package: str, distribution: str, version: str) -> Pack:
    """Import every module of a package and take its facts.

    Parameters
    ----------
    name : str
        Name of the pack.
    package : str
        Dotted name of the package.
    distribution, version : str
        Where it comes from.

    Returns
    -------
    Pack
        The pack.

    Raises
    ------
    PackError
        If the package or one of its modules fails to import, or a module offers no fact under its own name.
    """
    where = f"pack '{name}' of {distribution} {version}"
    offered: dict[str, object] = {}
    try:
        home = importlib.import_module(package)
        for info in pkgutil.iter_modules(home.__path__):
            if not info.name.startswith("_"):
                module = importlib.import_module(f"{package}.{info.name}")
                offered[info.name] = getattr(module, "FACT", None)
    except Exception as error:
        raise PackError(
            where,
            f"it fails to import ({type(error).__name__}: {error})",
            f"Mend or remove it, or pin the packs you want in {PACKS_VARIABLE}.",
        ) from error
    facts = []
    for module_name, record in sorted(offered.items()):
        if not isinstance(record, Fact) or record.id != module_name:
            raise PackError(
                f"{where}, module {module_name}",
                "each module of a pack ends with a record FACT whose id is the module's name",
                "Rename the module or its fact, or start the name of a helper module with an underscore.",
            )
        facts.append(record)
    return Pack(name, distribution, version, tuple(facts), package)


def _installed_packs() -> list[Pack]:
    points = sorted(metadata.entry_points(group=ENTRY_POINT_GROUP), key=lambda point: point.name)
    wanted = [name.strip() for name in os.environ.get(PACKS_VARIABLE, "").split(",") if name.strip()]
    missing = sorted(set(wanted) - {point.name for point in points})
    if missing:
        raise PackError(
            f"{PACKS_VARIABLE}={','.join(wanted)}",
            f"no installed distribution offers the pack {missing[0]}",
            f"Install it, or choose from: {', '.join(point.name for point in points) or 'none installed'}.",
        )
    chosen = [point for point in points if not wanted or point.name in wanted]
    return [
        load_pack(
            point.name,
            point.value,
            point.dist.name if point.dist else "an unknown distribution",
            point.dist.version if point.dist else "",
        )
        for point in chosen
    ]


def load_registry(packs: Iterable[Pack] | None = None) -> Registry:
    """Take in packs of facts and put their facts in order.

    Parameters
    ----------
    packs : iterable of Pack, optional
        The packs; without them those that are installed, as far as `GAMUTWRIGHT_FACT_PACKS` allows.

    Returns
    -------
    Registry
        The facts, ordered.

    Raises
    ------
    PackError
        If two packs clash, or a fact needs one that nobody offers.
    """
    taken = tuple(_installed_packs() if packs is None else packs)
    offered: dict[str, tuple[Fact, Pack]] = {}
    sources: dict[str, tuple[Source, Pack]] = {}
    for pack in taken:
        for fact in pack.facts:
            if fact.id in offered:
                raise PackError(
                    f"fact '{fact.id}'",
                    f"it is offered twice, by {_origin(offered[fact.id][1])} and by {_origin(pack)}",
                    f"Remove one of them, or pin the packs you want in {PACKS_VARIABLE}.",
                )
            offered[fact.id] = (fact, pack)
            _take_basic(fact, pack, offered)
            for citation in _citations(fact):
                _take_source(citation, pack, sources)
    return Registry(taken, _ordered({fact_id: fact for fact_id, (fact, _) in offered.items()}))


def _origin(pack: Pack) -> str:
    return f"pack '{pack.name}' of {pack.distribution} {pack.version}"


def _take_basic(fact: Fact, pack: Pack, offered: Mapping[str, tuple[Fact, Pack]]) -> None:
    kind = fact.roles.basic
    twins = [other for other, _ in offered.values() if kind and other.roles.basic is kind]
    if len(twins) > 1:
        raise PackError(
            f"facts {twins[0].id} and {fact.id}",
            f"both are the basic fact of the {kind}, the first by {_origin(offered[twins[0].id][1])}",
            f"Take the role from the one in {_origin(pack)}.",
        )


def _take_source(citation: Citation, pack: Pack, sources: dict[str, tuple[Source, Pack]]) -> None:
    source = citation.source
    known, owner = sources.setdefault(source.key, (source, pack))
    if known != source:
        raise PackError(
            f"source '{source.key}'",
            f"it stands for two publications, one in {_origin(owner)} and one in {_origin(pack)}",
            "Give one of them another key.",
        )


def _ordered(facts: dict[str, Fact]) -> dict[str, Fact]:
    for fact in facts.values():
        unknown = sorted(set(fact.needs) - facts.keys())
        if unknown:
            raise PackError(
                f"fact '{fact.id}'", f"it needs '{unknown[0]}', which no pack offers", "Install or correct the need."
            )
    groups, levels = list(Group), list(Level)
    sorter = graphlib.TopologicalSorter({fact.id: fact.needs for fact in facts.values()})
    try:
        sorter.prepare()
    except graphlib.CycleError as error:
        raise PackError(
            f"facts {' -> '.join(error.args[1])}", "they need each other in a circle", "Break the circle."
        ) from error
    depth: dict[str, int] = {}
    while sorter.is_active():
        for fact_id in sorter.get_ready():
            depth[fact_id] = 1 + max((depth[need] for need in facts[fact_id].needs), default=0)
            sorter.done(fact_id)
    return dict(
        sorted(
            facts.items(),
            key=lambda item: (
                groups.index(item[1].group),
                levels.index(item[1].level),
                depth[item[0]],
                item[0],
            ),
        )
    )


@lru_cache(maxsize=1)
def default_registry() -> Registry:
    """Load the installed packs once and keep them for the life of the process.

    Returns
    -------
    Registry
        The installed facts.

    Examples
    --------
    >>> default_registry().fact("step-pattern").title
    'Step pattern'
    """
    return load_registry()
