"""Two scales side by side: how they are related, how far apart they are, and which facts differ.

Conventions: relations and distances compare the two sets as they sound, on their own roots; similarity indices compare
their interval content and do not depend on roots. A measure that is not defined for the pair is left out, with the
reason. Sources stand with each measure in `theory.distance` and `theory.voiceleading`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from gamutwright.errors import DomainError
from gamutwright.facts.bibliography import (
    CASTREN_1994,
    FORTE_1973,
    ISAACSON_1990,
    LEWIN_1980,
    MORRIS_1980,
    SCOTT_ISAACSON_1998,
    TYMOCZKO_2011,
)
from gamutwright.facts.model import Citation, Fact, Value
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.facts.vocabulary import Scope
from gamutwright.theory import distance
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.voiceleading import Norm, VoiceLeading, minimal_voice_leading

__all__ = [
    "Comparison",
    "Difference",
    "Measure",
    "can_differ",
    "compare",
    "relations",
]


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure of two scales.

    Parameters
    ----------
    id : str
        Snake case.
    title : str
        What a heading prints.
    value : Value or None
        None where it is not defined for the pair.
    citation : Citation
        Where it is published.
    reason : str
        Why there is no value; "" where there is one.
    """

    id: str
    title: str
    value: Value | None
    citation: Citation
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Difference:
    """A fact whose values differ.

    Parameters
    ----------
    fact : Fact
        The fact.
    one, other : Value or None
        Its value for each scale; None where it says nothing.
    """

    fact: Fact
    one: Value | None
    other: Value | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two scales side by side.

    Parameters
    ----------
    one, other : Scale
        The scales, of one division.
    relations : tuple of str
        In words: the same tones, a mode, a transposition, an inversion, a subset, a superset, the complement.
    common : tuple of int
        Pitch classes they share, upwards from the first root.
    only_one, only_other : tuple of int
        Pitch classes that only one of them has.
    voice_leading : VoiceLeading or None
        A smallest voice leading from the first to the second; None where one is empty.
    measures : tuple of Measure
        Indices of similarity and distance.
    differences : tuple of Difference
        The facts that differ, in the registry's order.
    """

    one: Scale
    other: Scale
    relations: tuple[str, ...]
    common: tuple[int, ...]
    only_one: tuple[int, ...]
    only_other: tuple[int, ...]
    voice_leading: VoiceLeading | None
    measures: tuple[Measure, ...]
    differences: tuple[Difference, ...]


def relations(one: Scale, other: Scale) -> tuple[str, ...]:
    """Say in words how two sets are related.

    Parameters
    ----------
    one, other : Scale
        The scales, of one division.

    Returns
    -------
    tuple of str
        Every relation that holds, the closest first; empty where none does.

    Examples
    --------
    >>> relations(Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(2, 4, 5, 7, 9, 11, 0))
    ('the same pitch classes on another root',)
    """
    n = one.divisions
    first, second = one.pitch_class_mask, other.pitch_class_mask
    found = []
    if first == second:
        found.append("the same scale" if one.root == other.root else "the same pitch classes on another root")
    elif one.mask == other.mask:
        found.append(f"the same scale moved up by {(other.root - one.root) % n}")
    else:
        turns = [k for k in range(1, n) if rotated_mask(first, k, n) == second]
        if turns:
            found.append(f"a mode of the same scale, its tones moved up by {turns[0]}")
        mirrored = Scale(first, n).inverted().mask
        axes = [k for k in range(n) if rotated_mask(mirrored, k, n) == second]
        if axes and not turns:
            found.append(f"an inversion, x to {axes[0]} - x")
    if first == ((1 << n) - 1) ^ second:
        found.append("the complement")
    if first != second and first & second == first:
        found.append("a subset of the other")
    if first != second and first & second == second:
        found.append("a superset of the other")
    return tuple(found)


def can_differ(fact: Fact, one: Scale, other: Scale) -> bool:
    """Whether a fact could tell two scales apart, whatever its value.

    Parameters
    ----------
    fact : Fact
        The fact.
    one, other : Scale
        The scales, of one division.

    Returns
    -------
    bool
        False for what is the same in all modes of a set, where the scales are modes of one set; and for what inversion
        leaves alone, where one is a mode of the other's inversion.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> fact, major = default_registry().fact("semitone_steps"), Scale.of(0, 2, 4, 5, 7, 9, 11)
    >>> can_differ(fact, major, Scale.of(0, 2, 3, 5, 7, 9, 10)), can_differ(fact, major, Scale.of(0, 2, 4, 7, 9))
    (False, True)
    """
    alike = {Scope.TN: (other,), Scope.TNI: (other, other.inverted())}.get(fact.scope, ())
    n = one.divisions
    return not any(rotated_mask(form.mask, turn, n) == one.mask for form in alike for turn in range(n))


def _measure(
    measure_id: str, title: str, citation: Citation, work: Callable[[], Value | None], undefined: str = ""
) -> Measure:
    try:
        value = work()
    except DomainError as error:
        return Measure(measure_id, title, None, citation, error.rule)
    return Measure(measure_id, title, value, citation, "" if value is not None else undefined)


def _measures(one: Scale, other: Scale) -> tuple[Measure, ...]:
    few = "one of the sets has fewer than two tones"
    leading = Citation(TYMOCZKO_2011, "chapter 2")
    first, second = one.pitch_classes, other.pitch_classes

    def size(norm: Norm) -> Callable[[], float | int]:
        return lambda: minimal_voice_leading(first, second, one.divisions, norm).size

    indices: tuple[tuple[str, str, Citation, Callable[[], Value | None]], ...] = (
        ("sim", "SIM", Citation(MORRIS_1980, "definition of SIM"), lambda: distance.sim(one, other)),
        ("asim", "ASIM", Citation(MORRIS_1980, "definition of ASIM"), lambda: distance.asim(one, other)),
        ("icv_sim", "IcVSIM", Citation(ISAACSON_1990, "definition"), lambda: distance.icv_sim(one, other)),
        ("cos_theta", "cos θ", Citation(SCOTT_ISAACSON_1998, "definition"), lambda: distance.cos_theta(one, other)),
        ("percent_rel2", "%REL2", Citation(CASTREN_1994, "definition"), lambda: distance.percent_rel2(one, other)),
        ("rel_tn", "REL, by Tn", Citation(LEWIN_1980, "definition"), lambda: distance.rel_tn(one, other)),
        ("rel_tni", "REL, by Tn/TnI", Citation(LEWIN_1980, "definition"), lambda: distance.rel_tni(one, other)),
    )
    relations_of_forte = Citation(FORTE_1973, "section 1.13")
    return (
        _measure("voice_leading_sum", "Voice leading, all steps", leading, size(Norm.L1)),
        _measure("voice_leading_length", "Voice leading, Euclidean", leading, size(Norm.L2)),
        _measure("voice_leading_largest", "Voice leading, largest", leading, size(Norm.LINF)),
        *(_measure(*index, few) for index in indices),
        _measure(
            "forte_relations", "Forte's relations", relations_of_forte, lambda: distance.forte_relations(one, other)
        ),
    )


def compare(one: Scale, other: Scale, registry: Registry | None = None) -> Comparison:
    """Set two scales side by side.

    Parameters
    ----------
    one, other : Scale
        The scales, of one division.
    registry : Registry, optional
        The facts on offer; those installed without it.

    Returns
    -------
    Comparison
        Relations, shared tones, distances and differing facts.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> compare(Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(7, 9, 11, 0, 2, 4, 6)).only_other
    (6,)
    """
    if one.divisions != other.divisions:
        raise DomainError(
            f"scales of {one.divisions} and {other.divisions} divisions",
            "only scales of one division are compared",
            "Write both in the same division.",
        )
    first, second = one.pitch_classes, other.pitch_classes
    facts = (registry or default_registry()).facts.values()
    evaluated = ((fact, fact.evaluate(one), fact.evaluate(other)) for fact in facts)
    return Comparison(
        one,
        other,
        relations(one, other),
        tuple(pc for pc in first if pc in second),
        tuple(pc for pc in first if pc not in second),
        tuple(pc for pc in second if pc not in first),
        minimal_voice_leading(first, second, one.divisions) if first and second else None,
        _measures(one, other),
        tuple(Difference(fact, a, b) for fact, a, b in evaluated if a != b),
    )
