"""Which packs of facts are installed: what settles a result, beside the program's own sources.

Conventions: a pack is known by name and version, so that one under development gets a new version with each change that
is to be seen, or the store is deleted.
"""

from __future__ import annotations

import functools
import os
from importlib import metadata

__all__ = ["ENTRY_POINT_GROUP", "PACKS_VARIABLE", "installed_packs"]

ENTRY_POINT_GROUP = "gamutwright.facts"
PACKS_VARIABLE = "GAMUTWRIGHT_FACT_PACKS"


@functools.cache
def installed_packs() -> tuple[tuple[str, str], ...]:
    """List the packs of facts that are offered to this program.

    Returns
    -------
    tuple of (str, str)
        Name and version of each, sorted; those that the environment variable `GAMUTWRIGHT_FACT_PACKS` leaves out are
        not among them.

    Examples
    --------
    >>> [name for name, _ in installed_packs()][:1]
    ['builtin']
    """
    wanted = {name.strip() for name in os.environ.get(PACKS_VARIABLE, "").split(",") if name.strip()}
    points = metadata.entry_points(group=ENTRY_POINT_GROUP)
    return tuple(
        sorted(
            (point.name, point.dist.version if point.dist else "")
            for point in points
            if not wanted or point.name in wanted
        )
    )
