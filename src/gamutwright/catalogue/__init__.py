"""The catalogue: every scale of a division with every fact as a column.

`frame` gives it as an Arrow table, or as a Polars or pandas frame.
"""

from gamutwright.catalogue.frames import frame

__all__ = ["frame"]
