"""Building a catalogue: the columns of each class are computed once and spread to its modes.

Up to 12 divisions every fact is computed by its own definition, and what comes with the package is taken from there; in
larger divisions the facts that have a kernel are columns (`compiled`, an optional part).

Conventions: rows come class by class; within a class, mode by mode.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import duckdb

from gamutwright.catalogue.catalogue_folders import FILE_NAME, catalogue_folder, is_whole, writing
from gamutwright.catalogue.database import told
from gamutwright.catalogue.fact_columns import (
    column_kinds,
    columns_digest,
    coverage,
    fact_columns,
    is_class_invariant,
    to_cell,
)
from gamutwright.catalogue.parquet import write_parquet
from gamutwright.catalogue.shipped import further_facts, shipped_columns, shipped_file
from gamutwright.errors import CatalogueError
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.theory.counting import necklace_counts
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = ["Progress", "build", "classes_and_modes", "definition_rows", "ensure", "is_built"]

Progress = Callable[[int, int], None]
"""Called with the classes done and the classes in all."""


def is_built(divisions: int, registry: Registry | None = None) -> bool:
    """Whether the catalogue of a division is there, so that opening it takes no time.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry, optional
        The facts on offer; those installed without it.

    Returns
    -------
    bool
        False where it would have to be built first.

    Raises
    ------
    DomainError
        If there is no catalogue of that division.
    """
    offered = registry or default_registry()
    if shipped_file(divisions, offered):
        return True
    digest = columns_digest(offered, divisions)
    return is_whole(catalogue_folder(divisions, digest), divisions, digest)


def ensure(divisions: int, registry: Registry | None = None, progress: Progress | None = None) -> Path:
    """Give the file of a whole catalogue, building it where it is missing, damaged or out of date.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry, optional
        The facts on offer; those installed without it.
    progress : callable, optional
        Told how far the building is.

    Returns
    -------
    Path
        The Parquet file.

    Raises
    ------
    CatalogueError
        If it cannot be written.
    DomainError
        If there is no catalogue of that division.
    MissingPartError
        If what builds so large a division is not installed.
    """
    offered = registry or default_registry()
    shipped = shipped_file(divisions, offered)
    if shipped:
        return shipped
    digest = columns_digest(offered, divisions)
    folder = catalogue_folder(divisions, digest)
    if not is_whole(folder, divisions, digest):
        build(divisions, folder, digest, offered, progress)
    return folder / FILE_NAME


def build(divisions: int, folder: Path, digest: str, registry: Registry, progress: Progress | None = None) -> None:
    """Build a catalogue and put it in its place.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    folder : Path
        Where it goes.
    digest : str
        Digest of its columns.
    registry : Registry
        The facts on offer.
    progress : callable, optional
        Told how far the building is.

    Raises
    ------
    CatalogueError
        If it cannot be written.
    MissingPartError
        If what builds so large a division is not installed.
    """
    if not coverage(divisions).by_definition:
        from gamutwright.catalogue.compiled import write_compiled  # noqa: PLC0415 - an optional part, and a compiler

        with writing(folder, divisions, digest) as (workplace, rows):
            rows.append(write_compiled(workplace / FILE_NAME, divisions, registry, progress))
        return
    known = shipped_columns(divisions, registry)
    cells = definition_rows(divisions, registry, progress, known)
    with writing(folder, divisions, digest) as (workplace, rows):
        try:
            rows.append(write_parquet(workplace / FILE_NAME, column_kinds(registry, divisions), cells))
        except duckdb.Error as error:
            offered = ", ".join(fact.id for fact in further_facts(divisions, registry)) or "none"
            raise CatalogueError(
                f"the catalogue of {divisions} divisions",
                f"its rows cannot be written ({told(error)})",
                f"Check what the facts of further packs give ({offered}).",
            ) from error


def classes_and_modes(divisions: int) -> Iterator[tuple[int, list[int]]]:
    """List the transposition classes of a division, each with its distinct modes.

    Parameters
    ----------
    divisions : int in [2, 12]
        Equal divisions of the octave.

    Yields
    ------
    int
        The smallest word among the modes, ascending; bit 0 is the root.
    list of int
        The modes, the smallest first, then by the step that becomes the root.

    Examples
    --------
    >>> list(classes_and_modes(3))
    [(1, [1]), (3, [3, 5]), (7, [7])]
    """
    for word in range(1, 1 << divisions, 2):
        turned = [rotated_mask(word, -step, divisions) for step in range(divisions)]
        if word == min(turned):
            yield word, list(dict.fromkeys(mode for mode in turned if mode & 1))


def definition_rows(
    divisions: int,
    registry: Registry,
    progress: Progress | None = None,
    known: Mapping[str, Sequence[Any]] | None = None,
) -> Iterator[tuple[Any, ...]]:
    """Compute every fact by its definition, those of a class once for all its modes.

    Parameters
    ----------
    divisions : int in [2, 12]
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.
    progress : callable, optional
        Told how far it is.
    known : mapping of str to sequence, optional
        Columns that need not be computed, in the order of the rows.

    Yields
    ------
    tuple
        The two keys of a scale and a cell for each fact, as `column_kinds` orders them.
    """
    total = sum(necklace_counts(divisions)) - 1
    given = known or {}
    facts = fact_columns(registry, divisions)
    row = 0
    for done, (word, modes) in enumerate(classes_and_modes(divisions), 1):
        of_class = {
            fact.id: to_cell(fact.evaluate(Scale(word, divisions)))
            for fact in facts
            if fact.id not in given and is_class_invariant(fact)
        }
        for mode in modes:
            scale = Scale(mode, divisions)
            cells = [
                given[fact.id][row]
                if fact.id in given
                else of_class[fact.id]
                if fact.id in of_class
                else to_cell(fact.evaluate(scale))
                for fact in facts
            ]
            yield (mode, word, *cells)
            row += 1
        if progress:
            progress(done, total)
