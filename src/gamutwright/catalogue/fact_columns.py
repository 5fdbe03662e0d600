"""The columns of a catalogue: one for each fact, besides those that say which scale a row is.

Conventions: two keys are stored and never shown: the set above the root as a word, bit 0 being the root, and the
smallest word among the modes, the same for all scales that are transpositions of each other. They are shown as `bits`
and `class_bits`, written from left to right, the root first. Facts that depend on the pitch class of the root are given
on C. A fact is computed by its definition in divisions up to 12, and by its kernel, where it has one, in larger
divisions.
"""

from __future__ import annotations

import hashlib
import importlib
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from gamutwright.codec import digest
from gamutwright.errors import DomainError, PackError
from gamutwright.facts.model import Dtype, Fact, Scope, Value
from gamutwright.facts.registry import Registry

__all__ = [
    "CLASS",
    "LARGEST_BY_CLASS",
    "LARGEST_BY_DEFINITION",
    "LARGEST_ROOTED",
    "MASK",
    "SMALLEST",
    "Coverage",
    "column_kinds",
    "columns_digest",
    "coverage",
    "fact_columns",
    "is_class_invariant",
    "to_cell",
]

MASK, CLASS = "_set", "_class"
"""The keys: words that no question, column or file of rows ever shows."""
RESERVED = frozenset({"bits", "class_bits", "name", "names", "distance"})
SMALLEST = 2
LARGEST_BY_DEFINITION = 12
LARGEST_ROOTED = 24
LARGEST_BY_CLASS = 36
FORMAT = "gamutwright.catalogue/2"

_KINDS = {
    Dtype.BOOL: "BOOLEAN",
    Dtype.INT: "INTEGER",
    Dtype.FLOAT: "DOUBLE",
    Dtype.FRACTION: "DOUBLE",
    Dtype.TEXT: "VARCHAR",
    Dtype.INTS: "INTEGER[]",
    Dtype.FLOATS: "DOUBLE[]",
    Dtype.FRACTIONS: "DOUBLE[]",
    Dtype.TEXTS: "VARCHAR[]",
    Dtype.INT_ROWS: "INTEGER[][]",
}

Cell = bool | int | float | str | list["Cell"] | None


@dataclass(frozen=True, slots=True)
class Coverage:
    """What the catalogue of a division holds.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    is_rooted : bool
        A row for each rooted scale; otherwise one for each transposition class.
    by_definition : bool
        Columns computed by the facts themselves; otherwise by kernels.
    """

    divisions: int
    is_rooted: bool
    by_definition: bool


def coverage(divisions: int) -> Coverage:
    """Say what the catalogue of a division holds.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.

    Returns
    -------
    Coverage
        Rows and columns in words.

    Raises
    ------
    DomainError
        If there is no catalogue of that division.

    Examples
    --------
    >>> coverage(19)
    Coverage(divisions=19, is_rooted=True, by_definition=False)
    """
    if not SMALLEST <= divisions <= LARGEST_BY_CLASS:
        raise DomainError(
            f"{divisions} divisions",
            f"there are catalogues of {SMALLEST} to {LARGEST_BY_CLASS} divisions",
            "Choose one of these; `gamutwright describe` takes up to 72.",
        )
    return Coverage(divisions, divisions <= LARGEST_ROOTED, divisions <= LARGEST_BY_DEFINITION)


def is_class_invariant(fact: Fact) -> bool:
    """Whether a fact has the same value for all modes and transpositions of a scale.

    Parameters
    ----------
    fact : Fact
        The fact.

    Returns
    -------
    bool
        True for the scopes Tn and TnI.
    """
    return fact.scope in {Scope.TN, Scope.TNI}


def fact_columns(registry: Registry, divisions: int) -> tuple[Fact, ...]:
    """Choose the facts that are columns of a division's catalogue.

    Parameters
    ----------
    registry : Registry
        The facts on offer.
    divisions : int in [2, 36]
        Equal divisions of the octave.

    Returns
    -------
    tuple of Fact
        In the registry's order; a fact that can say nothing about this division is left out.

    Raises
    ------
    PackError
        If a pack's fact has the name of a column that is no fact.
    """
    held = coverage(divisions)
    for name in sorted(RESERVED & registry.facts.keys()):
        raise PackError(
            f"fact '{name}'", "a catalogue has a column of that name which is no fact", "Give the fact another id."
        )
    return tuple(
        fact
        for fact in registry.facts.values()
        if fact.domain.divisions[0] <= divisions <= fact.domain.divisions[1]
        and (held.by_definition or (fact.kernel and is_class_invariant(fact)))
    )


def _code_digest(packages: tuple[str, ...]) -> str:
    """Digest the code and tables that values are computed from, so that a correction makes old catalogues stale."""
    total = hashlib.sha256()
    for package in packages:
        for folder in importlib.import_module(package).__path__:
            for path in sorted(Path(folder).rglob("*")):
                if path.suffix in {".py", ".csv"}:
                    total.update(f"{package}/{path.relative_to(folder)}\0".encode() + path.read_bytes())
    return total.hexdigest()


def columns_digest(registry: Registry, divisions: int) -> str:
    """Digest everything the content of a catalogue depends on: packs, columns, and the code that computes them.

    Parameters
    ----------
    registry : Registry
        The facts on offer.
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    packs = [(pack.name, pack.distribution, pack.version) for pack in registry.packs]
    packages = {pack.package for pack in registry.packs if pack.package}
    own = {"gamutwright.theory", "gamutwright.facts", "gamutwright.kernels", "gamutwright.catalogue"}
    code = _code_digest(tuple(sorted(packages | own)))
    return digest((FORMAT, divisions, packs, [fact.id for fact in fact_columns(registry, divisions)], code))


def column_kinds(registry: Registry, divisions: int) -> dict[str, str]:
    """Give the columns of a catalogue as they are stored.

    Parameters
    ----------
    registry : Registry
        The facts on offer.
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    dict of str to str
        The two keys and a column for each fact, with their types as DuckDB calls them.
    """
    facts = fact_columns(registry, divisions)
    return {MASK: "UBIGINT", CLASS: "UBIGINT"} | {fact.id: _KINDS[fact.dtype] for fact in facts}


def to_cell(value: Value | None) -> Cell:
    """Turn a fact's value into a cell of its column.

    Parameters
    ----------
    value : Value or None
        The value; None is an empty cell.

    Returns
    -------
    bool, int, float, str, list or None
        Fractions become floats, tuples lists.

    Examples
    --------
    >>> to_cell((Fraction(1, 2), Fraction(1, 4)))
    [0.5, 0.25]
    """
    if isinstance(value, tuple):
        return [to_cell(item) for item in value]
    return float(value) if isinstance(value, Fraction) else value
