"""What is special about a scale: for each fact, how many scales of the same size have the same value.

A share is a count over a count, and two families are counted apart. Among *rooted scales* every mode is one of its own;
among *classes* all transpositions and modes of a set are one, and a class counts as alike where at least one of its
modes has the value. The surprise is the number of bits -log2(share): 0 for what all have, one more for each halving
(Shannon, "A Mathematical Theory of Communication", Bell System Technical Journal 27, 1948, from memory).

Conventions: scales are compared with those of equally many tones in the same division. Facts that depend on the pitch
class of the root or on the spelling are left out, and so are names. Facts that merely identify a scale, because nearly
every family has a value of its own or because they list names, say nothing about it and are marked. Numbers with
decimals are the same where they agree to nine decimals. A share says how common something is among scales that can be
built, not among those in use.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from gamutwright.catalogue.fact_columns import CLASS, MASK, is_class_invariant
from gamutwright.catalogue.family import Family, family_of
from gamutwright.catalogue.query import Catalogue
from gamutwright.errors import InputError
from gamutwright.facts.model import Dtype, Fact, Group, Scope, Value
from gamutwright.theory.counting import bracelet_counts
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = ["Rarity", "rarity"]

DECIMALS = 9
NEARLY_EVERY = Fraction(3, 4)
"""Different values for each family; they are counted by HyperLogLog, which is near enough for this one decision."""
NAMED_GROUPS = frozenset({Group.NAMES})


@dataclass(frozen=True, slots=True)
class Rarity:
    """How common a scale's value of one fact is.

    Parameters
    ----------
    fact : Fact
        The fact.
    value : Value
        The scale's exact value.
    family : Family
        What it was counted among.
    scales_alike, classes_alike : int
        How many rooted scales and how many classes have the value, this one among them.
    identifies : bool
        Whether nearly every family has a value of its own, so that being rare means nothing.
    """

    fact: Fact
    value: Value
    family: Family
    scales_alike: int
    classes_alike: int
    identifies: bool

    @property
    def share_of_scales(self) -> Fraction:
        """Share of the rooted scales that have the value."""
        return Fraction(self.scales_alike, self.family.scales)

    @property
    def share_of_classes(self) -> Fraction:
        """Share of the classes that have the value."""
        return Fraction(self.classes_alike, self.family.classes)

    @property
    def bits_among_scales(self) -> float:
        """Surprise among rooted scales, in bits."""
        return _bits(self.share_of_scales)

    @property
    def bits_among_classes(self) -> float:
        """Surprise among classes, in bits."""
        return _bits(self.share_of_classes)


def _bits(share: Fraction) -> float:
    return math.log2(share.denominator) - math.log2(share.numerator)


def rarity(catalogue: Catalogue, scale: Scale) -> tuple[Rarity, ...]:
    """Say for each fact how many scales of the same size share its value.

    Parameters
    ----------
    catalogue : Catalogue
        The catalogue of the scale's division.
    scale : Scale
        The scale, its root among its tones.

    Returns
    -------
    tuple of Rarity
        The most surprising among rooted scales first, those that merely identify the scale last; facts without a
        value for this scale are left out.

    Raises
    ------
    InputError
        If the scale lacks its root or belongs to another division.
    CatalogueError
        If the catalogue cannot be asked.
    """
    if scale.divisions != catalogue.divisions or not scale.is_rooted:
        raise InputError(
            f"a scale of {scale.divisions} divisions" if scale.is_rooted else "a set without its root",
            f"this catalogue holds scales of {catalogue.divisions} divisions with their root",
            "Open the catalogue of the scale's division, and give the scale with its root.",
        )
    family = family_of(scale)
    plain = Scale(scale.mask, scale.divisions)
    values = {fact: fact.evaluate(plain) for fact in _suitable(catalogue)}
    asked = [fact for fact, value in values.items() if value is not None]
    counts = _counted(catalogue, scale, asked)
    found = []
    for fact, (scales_alike, classes_alike, different, silent) in zip(asked, counts, strict=True):
        value = values[fact]
        if value is not None:
            identifies = _identifies(fact, family, different, silent)
            found.append(Rarity(fact, value, family, scales_alike, classes_alike, identifies))
    return tuple(sorted(found, key=lambda r: (r.identifies, -r.bits_among_scales, -r.bits_among_classes)))


def _suitable(catalogue: Catalogue) -> list[Fact]:
    return [fact for fact in catalogue.facts if fact.scope is not Scope.SPELLED and fact.group not in NAMED_GROUPS]


def _identifies(fact: Fact, family: Family, different: int, silent: int) -> bool:
    """Whether there are nearly as many values as families that the fact tells apart, or it only lists names."""
    families = {
        Scope.ROOTED: family.scales,
        Scope.TN: family.classes,
        Scope.TNI: bracelet_counts(family.divisions)[family.tones],
    }[fact.scope]
    speaking = families * Fraction(family.classes - silent, family.classes)
    return fact.dtype is Dtype.TEXTS or (different > 1 and different >= NEARLY_EVERY * speaking)


def _rounded(fact: Fact, row: str) -> str:
    """Write a column so that equal numbers compare equal."""
    column = f'{row}."{fact.id}"'
    match fact.dtype:
        case Dtype.FLOAT | Dtype.FRACTION:
            return f"round({column}, {DECIMALS})"
        case Dtype.FLOATS | Dtype.FRACTIONS:
            return f"list_transform({column}, lambda x: round(x, {DECIMALS}))"
        case _:
            return column


def _counted(catalogue: Catalogue, scale: Scale, facts: list[Fact]) -> list[tuple[int, int, int, int]]:
    """Count rooted scales and classes with the same value, different values, and classes without one, for each fact."""
    is_rooted = catalogue.coverage.is_rooted
    masks = [rotated_mask(scale.mask, -tone, scale.divisions) for tone in scale.tones]
    own = scale.mask if is_rooted else min(masks)
    # Every row stands for one rooted scale, or in a catalogue of classes for all distinct modes of the class.
    weight = "1" if is_rooted else "p.mode_count"
    parts = []
    for place, fact in enumerate(facts):
        value = _rounded(fact, "p")
        alike = f"{value} IS NOT DISTINCT FROM {_rounded(fact, 'm')}"
        # A class is counted by its first mode where all modes agree.
        whole = f"p.{MASK} = p.{CLASS}"
        classes = f"count(*) FILTER ({alike} AND {whole})"
        different = f"approx_count_distinct({value}) FILTER ({whole})"
        silent = f"count(*) FILTER ({value} IS NULL AND {whole})"
        if not is_class_invariant(fact):
            classes, different = f"count(DISTINCT p.{CLASS}) FILTER ({alike})", f"approx_count_distinct({value})"
        parts += [f"sum({weight}) FILTER ({alike})::BIGINT AS a{place}", f"{classes} AS b{place}"]
        parts += [f"{different} AS c{place}", f"{silent} AS d{place}"]
    own_row = f"(SELECT * FROM scales WHERE {MASK} = {own}) m"  # noqa: S608 - a number
    peers = f"scales p, {own_row} WHERE p.cardinality = {scale.cardinality}"
    statement = f"SELECT {', '.join(parts)} FROM {peers}"  # noqa: S608 - column names and numbers
    row = next(iter(catalogue.ask(statement))) if facts else {}
    return [(row[f"a{n}"], row[f"b{n}"], row[f"c{n}"], row[f"d{n}"]) for n in range(len(facts))]
