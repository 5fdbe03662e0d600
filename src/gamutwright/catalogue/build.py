"""Building a catalogue: classes are generated, their columns computed once and spread to their modes.

Up to 12 divisions every fact is computed by its own definition. In larger divisions the facts that have a kernel are
columns; two threads (or as many as there are cores) compute and one writes, chunk by chunk, so that memory does not
grow with the number of scales.

Conventions: rows come class by class; within a class, mode by mode.
"""

from __future__ import annotations

import importlib
import os
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
from numpy.typing import NDArray

from gamutwright.catalogue.columns import (
    columns_digest,
    coverage,
    fact_columns,
    is_class_invariant,
    schema,
    to_cell,
)
from gamutwright.catalogue.store import FILE_NAME, catalogue_folder, is_whole, writing
from gamutwright.facts.model import Dtype, Fact
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.kernels.necklaces import necklace_chunks, rooted_members
from gamutwright.theory.counting import necklace_counts
from gamutwright.theory.scale import Scale

__all__ = ["Progress", "build", "ensure"]

Progress = Callable[[int, int], None]
"""Called with the classes done and the classes in all."""

DEFINITION_CHUNK = 64
ROOTED_CHUNK = 1 << 14
CLASS_CHUNK = 1 << 18


def ensure(divisions: int, registry: Registry | None = None, progress: Progress | None = None) -> Path:
    """Give the folder of a whole catalogue, building it where it is missing, damaged or out of date.

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
        The folder.

    Raises
    ------
    CatalogueError
        If it cannot be written.
    DomainError
        If there is no catalogue of that division.
    """
    offered = registry or default_registry()
    digest = columns_digest(offered, divisions)
    folder = catalogue_folder(divisions, digest)
    if not is_whole(folder, divisions, digest):
        build(divisions, folder, digest, offered, progress)
    return folder


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
    """
    total = sum(necklace_counts(divisions)) - 1
    chunks = (_by_definition if coverage(divisions).by_definition else _by_kernel)(divisions, registry)
    fields = schema(registry, divisions)
    with (
        writing(folder, divisions, digest) as (workplace, rows),
        pq.ParquetWriter(workplace / FILE_NAME, fields, compression="lz4") as writer,
    ):
        done = 0
        for classes, table in chunks:
            writer.write_table(table)
            rows.append(table.num_rows)
            done += classes
            if progress:
                progress(done, total)


Chunk = tuple[int, pa.Table]
"""How many classes, and their rows."""


def _by_definition(divisions: int, registry: Registry) -> Iterator[Chunk]:
    """Compute every fact by its definition, those of a class once for all its modes."""
    facts, fields = fact_columns(registry, divisions), schema(registry, divisions)
    for classes in necklace_chunks(divisions, DEFINITION_CHUNK):
        members, owners = rooted_members(classes, divisions)
        scales = [Scale(int(mask), divisions) for mask in members]
        parents = [Scale(int(mask), divisions) for mask in classes]
        arrays = [pa.array(members), pa.array(classes[owners])]
        for fact in facts:
            if is_class_invariant(fact):
                of_class = [to_cell(fact.evaluate(scale)) for scale in parents]
                cells = [of_class[owner] for owner in owners]
            else:
                cells = [to_cell(fact.evaluate(scale)) for scale in scales]
            arrays.append(pa.array(cells, fields.field(fact.id).type))
        yield classes.size, pa.Table.from_arrays(arrays, schema=fields)


def _kernel_columns(classes: NDArray[np.uint64], divisions: int, facts: tuple[Fact, ...]) -> dict[str, NDArray[Any]]:
    """Compute the columns that have a kernel, for each class once."""
    found: dict[str, NDArray[Any]] = {}
    for name in sorted({fact.kernel for fact in facts}):
        found |= importlib.import_module(name).columns(classes, divisions)
    return found


def _kernel_array(fact: Fact, values: NDArray[Any], sizes: NDArray[np.uint8], kind: pa.DataType) -> pa.Array:
    """Make a column of a kernel's numbers, empty where the notion does not apply."""
    fewest, most = fact.domain.tones
    silent = (sizes < fewest) | (sizes > most)
    if fact.dtype is Dtype.TEXT:
        words = importlib.import_module(fact.kernel).TEXTS[fact.id]
        return pa.DictionaryArray.from_arrays(pa.array(values, pa.uint8(), mask=silent), pa.array(words))
    if values.ndim == 2:
        offsets = np.arange(0, values.size + 1, values.shape[1], dtype=np.int32)
        entries = pa.array(values.ravel().astype(np.int32))
        return pa.ListArray.from_arrays(pa.array(offsets), entries, mask=pa.array(silent))
    return pa.array(values, mask=silent).cast(kind)


def _by_kernel(divisions: int, registry: Registry) -> Iterator[Chunk]:
    """Compute the columns that have a kernel, several chunks at a time, and give them in order."""
    facts, fields = fact_columns(registry, divisions), schema(registry, divisions)
    is_rooted = coverage(divisions).is_rooted

    def work(classes: NDArray[np.uint64]) -> Chunk:
        found = _kernel_columns(classes, divisions, facts)
        members, owners = rooted_members(classes, divisions) if is_rooted else (classes, None)
        arrays = [pa.array(members), pa.array(classes if owners is None else classes[owners])]
        for fact in facts:
            values, sizes = found[fact.id], found["cardinality"]
            if owners is not None:
                values, sizes = values[owners], sizes[owners]
            arrays.append(_kernel_array(fact, values, sizes, fields.field(fact.id).type))
        return classes.size, pa.Table.from_arrays(arrays, schema=fields)

    workers = os.cpu_count() or 1
    waiting: deque[Future[Chunk]] = deque()
    chunk = ROOTED_CHUNK if is_rooted else CLASS_CHUNK
    with ThreadPoolExecutor(workers) as pool:
        try:
            for classes in necklace_chunks(divisions, chunk):
                waiting.append(pool.submit(work, classes))
                if len(waiting) > workers + 1:
                    yield waiting.popleft().result()
            while waiting:
                yield waiting.popleft().result()
        finally:
            pool.shutdown(cancel_futures=True)
