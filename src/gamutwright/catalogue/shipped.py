"""What comes with the package: the catalogue of twelve divisions, and how often every value occurs in 2 to 19.

Both are made from the code by `make docs` and held by a test, so that nobody waits for what is the same everywhere.
Facts of further packs are computed beside them where they are installed.

Conventions: the file of counts has a line for each division: fact, number of tones, value, then the rooted scales and
the classes that have it (`shares`).
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from gamutwright.catalogue.fact_columns import fact_columns
from gamutwright.facts.model import Fact
from gamutwright.facts.registry import Registry

__all__ = [
    "COUNTS_FILE",
    "SCALES_FILE",
    "SHIPPED_DIVISIONS",
    "further_facts",
    "shipped_columns",
    "shipped_counts",
    "shipped_file",
]

OWN_LIBRARY = "gamutwright.facts.library"
SHIPPED_DIVISIONS = 12
FEWEST_COUNTED = 2
DATA = Path(__file__).parent / "data"
SCALES_FILE = DATA / "twelve.parquet"
COUNTS_FILE = DATA / "counts.jsonl"

Count = tuple[str, int, str, int, int]
"""Fact, number of tones, value, rooted scales, classes."""


def _own_facts(registry: Registry) -> frozenset[str]:
    return frozenset(fact.id for pack in registry.packs if pack.package == OWN_LIBRARY for fact in pack.facts)


def further_facts(divisions: int, registry: Registry) -> tuple[Fact, ...]:
    """Choose the columns of a division that are not facts of the built-in library.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.

    Returns
    -------
    tuple of Fact
        Those of further packs.
    """
    own = _own_facts(registry)
    return tuple(fact for fact in fact_columns(registry, divisions) if fact.id not in own)


def shipped_file(divisions: int, registry: Registry) -> Path | None:
    """Give the catalogue that comes with the package, where it has all columns.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.

    Returns
    -------
    Path or None
        None for other divisions, and where further packs are installed or the built-in library is left out.
    """
    is_all = divisions == SHIPPED_DIVISIONS and _own_facts(registry) and not further_facts(divisions, registry)
    return SCALES_FILE if is_all else None


def shipped_columns(divisions: int, registry: Registry) -> dict[str, Sequence[Any]]:
    """Read the columns that come with the package, to build a catalogue with further ones.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.

    Returns
    -------
    dict of str to sequence
        Cells by fact, in the order of the rows; none where the package has nothing to give.
    """
    if divisions != SHIPPED_DIVISIONS or not _own_facts(registry):
        return {}
    import duckdb  # noqa: PLC0415 - for those who build

    with duckdb.connect(":memory:") as connection:
        answer = connection.execute(
            "SELECT * EXCLUDE (file_row_number) FROM read_parquet(?, file_row_number = true) ORDER BY file_row_number",
            [str(SCALES_FILE)],
        )
        names = [str(name) for name, *_ in answer.description or ()]
        return dict(zip(names, zip(*answer.fetchall(), strict=True), strict=True))


def shipped_counts(divisions: int, registry: Registry) -> list[Count] | None:
    """Give how often each value of the built-in facts occurs.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.

    Returns
    -------
    list of tuple or None
        None for divisions that are not counted, and where the built-in library is left out.
    """
    if not _own_facts(registry):
        return None
    with COUNTS_FILE.open(encoding="utf-8") as file:
        for line_divisions, line in enumerate(file, FEWEST_COUNTED):
            if line_divisions == divisions:
                return [
                    (fact, int(size), value, scales, classes)
                    for fact, sizes in json.loads(line).items()
                    for size, values in sizes.items()
                    for value, (scales, classes) in values.items()
                ]
    return None
