"""Building the catalogues of large divisions: the facts that have a kernel, compiled by numba and written by pyarrow.

Two threads (or as many as there are cores) compute and one writes, chunk by chunk, so that memory does not grow with
the number of scales. Both libraries are an optional part.

Conventions: as in `build`.
"""

from __future__ import annotations

import importlib
import os
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from gamutwright.catalogue.fact_columns import CLASS, MASK, coverage, fact_columns
from gamutwright.errors import MissingPartError
from gamutwright.facts.model import Dtype, Fact
from gamutwright.facts.registry import Registry
from gamutwright.theory.counting import necklace_counts

try:
    import pyarrow as pa
    import pyarrow.parquet as pq

    from gamutwright.kernels.necklaces import necklace_chunks, rooted_members
except ModuleNotFoundError as error:
    if error.name not in {"pyarrow", "numba", "llvmlite"}:
        raise
    raise MissingPartError(
        "catalogues of more than 12 divisions",
        f"they are built by numba and pyarrow, and {error.name} is not installed",
        "Install them with: pip install 'gamutwright[catalogues]'",
    ) from error

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["write_compiled"]

ROOTED_CHUNK = 1 << 14
CLASS_CHUNK = 1 << 18
_KINDS = {
    Dtype.BOOL: pa.bool_(),
    Dtype.INT: pa.int32(),
    Dtype.FLOAT: pa.float64(),
    Dtype.FRACTION: pa.float64(),
    Dtype.TEXT: pa.dictionary(pa.uint8(), pa.string()),
    Dtype.INTS: pa.list_(pa.int32()),
}

Chunk = tuple[int, pa.Table]
"""How many classes, and their rows."""


def write_compiled(
    path: Path, divisions: int, registry: Registry, progress: Callable[[int, int], None] | None = None
) -> int:
    """Compute the columns of a division that have a kernel and write them as Parquet.

    Parameters
    ----------
    path : Path
        The file.
    divisions : int in [2, 36]
        Equal divisions of the octave.
    registry : Registry
        The facts on offer.
    progress : callable, optional
        Told the classes done and the classes in all.

    Returns
    -------
    int
        How many rows there are.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    total, done, rows = sum(necklace_counts(divisions)) - 1, 0, 0
    with pq.ParquetWriter(path, _schema(registry, divisions), compression="lz4") as writer:
        for classes, table in _chunks(divisions, registry):
            writer.write_table(table)
            rows += table.num_rows
            done += classes
            if progress:
                progress(done, total)
    return rows


def _schema(registry: Registry, divisions: int) -> pa.Schema:
    keys = [pa.field(name, pa.uint64(), nullable=False) for name in (MASK, CLASS)]
    return pa.schema([*keys, *(pa.field(fact.id, _KINDS[fact.dtype]) for fact in fact_columns(registry, divisions))])


def _kernel_columns(classes: NDArray[np.uint64], divisions: int, facts: tuple[Fact, ...]) -> dict[str, NDArray[Any]]:
    """Compute the columns that have a kernel, for each class once."""
    found: dict[str, NDArray[Any]] = {}
    for name in sorted({fact.kernel for fact in facts}):
        found |= importlib.import_module(name).columns(classes, divisions)
    return found


def _array(fact: Fact, values: NDArray[Any], sizes: NDArray[np.uint8], kind: pa.DataType) -> pa.Array:
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


def _chunks(divisions: int, registry: Registry) -> Iterator[Chunk]:
    """Compute several chunks at a time, and give them in order."""
    facts, fields = fact_columns(registry, divisions), _schema(registry, divisions)
    is_rooted = coverage(divisions).is_rooted

    def work(classes: NDArray[np.uint64]) -> Chunk:
        found = _kernel_columns(classes, divisions, facts)
        members, owners = rooted_members(classes, divisions) if is_rooted else (classes, None)
        arrays = [pa.array(members), pa.array(classes if owners is None else classes[owners])]
        for fact in facts:
            values, sizes = found[fact.id], found["cardinality"]
            if owners is not None:
                values, sizes = values[owners], sizes[owners]
            arrays.append(_array(fact, values, sizes, fields.field(fact.id).type))
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
