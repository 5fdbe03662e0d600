"""The catalogue: every scale of a division with every fact as a column.

`catalogue.frame()` gives it as an Arrow table, or as a Polars or pandas frame.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gamutwright.catalogue.data_frames import frame

__all__ = ["frame"]


def __getattr__(name: str) -> object:
    """Import `frame`, and the large libraries behind it, when it is first asked for."""
    if name == "frame":
        from gamutwright.catalogue.data_frames import frame  # noqa: PLC0415 - see above

        return frame
    message = f"module {__name__!r} has no attribute {name!r}"
    raise AttributeError(message)
