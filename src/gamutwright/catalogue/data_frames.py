"""The catalogue as a table in memory: Arrow, Polars or pandas.

Conventions: columns and conditions are those of `catalogue.query`. Nothing heavy is imported before a frame is asked
for; All three are optional parts.
"""

from __future__ import annotations

import importlib
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal

from gamutwright.errors import DomainError, MissingPartError

if TYPE_CHECKING:
    import pyarrow as pa

__all__ = ["frame"]

LIBRARIES = ("arrow", "polars", "pandas")


def frame(
    divisions: int = 12,
    condition: str = "",
    *,
    columns: Sequence[str] | None = None,
    as_: Literal["arrow", "polars", "pandas"] = "arrow",
) -> Any:  # noqa: ANN401 - the type of an optional library
    """Give the scales of a division, all or those that meet a condition, as a table.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    condition : str
        A condition over the columns, such as `cardinality = 7 AND is_balanced`; all scales without it.
    columns : sequence of str, optional
        The columns wanted; all without it.
    as_ : str
        `arrow`, `polars` or `pandas`.

    Returns
    -------
    pyarrow.Table, polars.DataFrame or pandas.DataFrame
        A row for each scale, by its tones.

    Raises
    ------
    InputError
        If the condition or a column is not understood.
    CatalogueError
        If the catalogue cannot be built or read.
    MissingPartError
        If the library is not installed.
    DomainError
        If there is no catalogue of that division or no such library.
    """
    if as_ not in LIBRARIES:
        raise DomainError(f"'{as_}'", f"a frame is one of {', '.join(LIBRARIES)}", "Choose one of these.")
    library = _library(as_)
    from gamutwright.catalogue.query import Catalogue  # noqa: PLC0415 - it loads a database engine

    with Catalogue(divisions) as catalogue:
        table: pa.Table = catalogue.arrow(condition, columns=columns)
    match as_:
        case "polars":
            return library.from_arrow(table)
        case "pandas":
            return table.to_pandas()
        case _:
            return table


def _library(name: str) -> Any:  # noqa: ANN401 - as above
    """Import what a frame needs before anything is computed: pyarrow, and the library that is asked for."""
    modules = ["pyarrow"] if name == "arrow" else ["pyarrow", name]
    try:
        return [importlib.import_module(module) for module in modules][-1]
    except ModuleNotFoundError as error:
        raise MissingPartError(
            f"frames of {name}", f"{error.name} is not installed", "Install it with: pip install 'gamutwright[frames]'"
        ) from error
