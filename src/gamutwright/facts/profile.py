"""The profile of a scale: every fact that applies, with value and witnesses, and why the others are silent."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gamutwright.errors import told
from gamutwright.facts.model import Fact, Value, Witness
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.theory.scale import Scale

__all__ = ["Finding", "Profile", "find", "profile"]


@dataclass(frozen=True, slots=True)
class Finding:
    """What one fact says about one scale.

    Parameters
    ----------
    fact : Fact
        The fact.
    value : Value or None
        Its exact value; None where the notion does not apply.
    witnesses : tuple of Witness
        The places that make it true.
    reason : str
        Why there is no value; "" where there is one.
    """

    fact: Fact
    value: Value | None
    witnesses: tuple[Witness, ...]
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Profile:
    """All findings about one scale, in the registry's order.

    Parameters
    ----------
    scale : Scale
        The scale.
    findings : tuple of Finding
        One for each fact asked for.
    """

    scale: Scale
    findings: tuple[Finding, ...]


def profile(scale: Scale, fact_ids: Iterable[str] | None = None, registry: Registry | None = None) -> Profile:
    """Compute facts about a scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    fact_ids : iterable of str, optional
        Ids of the facts wanted; all without it.
    registry : Registry, optional
        The facts on offer; those installed without it.

    Returns
    -------
    Profile
        Values and witnesses.

    Raises
    ------
    UnknownFactError
        If an id is offered by no pack.

    Examples
    --------
    >>> [finding.value for finding in profile(Scale.of(0, 4, 7), ["step_pattern"]).findings]
    [(4, 3, 5)]
    """
    offered = registry or default_registry()
    facts = offered.facts.values() if fact_ids is None else [offered.fact(fact_id) for fact_id in fact_ids]
    return Profile(scale, tuple(find(fact, scale) for fact in facts))


def find(fact: Fact, scale: Scale) -> Finding:
    """Compute one fact about a scale.

    Parameters
    ----------
    fact : Fact
        The fact.
    scale : Scale
        The scale.

    Returns
    -------
    Finding
        Value and witnesses, or the reason why there are none.
    """
    outside = fact.domain.reason(scale)
    if outside:
        return Finding(fact, None, (), outside)
    value = fact.value(scale)
    if value is None:
        return Finding(fact, None, (), told(fact.none_when))
    return Finding(fact, value, fact.witnesses(scale))
