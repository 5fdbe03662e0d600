"""A job: a piece of work whose result depends on nothing but what it is given.

Conventions: the key is the digest of everything that settles the result, the program's own sources among it
(`sources_digest`); two jobs of one key are the same job. The work is a function at the top level of a module, so that
another process can find it.
"""

from __future__ import annotations

import functools
import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from importlib import resources
from importlib.resources.abc import Traversable
from typing import Any

from gamutwright.jobs.store import Parcel

__all__ = ["Job", "sources_digest"]


@dataclass(frozen=True, slots=True, eq=False)
class Job:
    """A piece of work.

    Parameters
    ----------
    key : str
        Digest of what settles the result.
    work : callable
        A function at the top level of a module; takes the payload and gives a Parcel.
    payload : object
        What it is given; it can be pickled.
    cost_s : float
        About how long it takes, in seconds; the longest are begun first, and little work starts no processes.
    """

    key: str
    work: Callable[[Any], Parcel]
    payload: Any
    cost_s: float = 0.1


@functools.cache
def sources_digest(*packages: str) -> str:
    """Digest the sources of parts of the program, so that a result made by other sources is not taken for one of these.

    Parameters
    ----------
    *packages : str
        Names below `gamutwright`; none for the whole program.

    Returns
    -------
    str
        64 hexadecimal digits.

    Examples
    --------
    >>> sources_digest("ir") == sources_digest("ir"), sources_digest("ir") == sources_digest("render")
    (True, False)
    """
    digest = hashlib.sha256()
    root = resources.files("gamutwright")
    for package in packages or ("",):
        place = root / package if package else root
        for name, file in _files(place, package):
            digest.update(f"{name}\0".encode())
            digest.update(hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()


def _files(place: Traversable, name: str) -> list[tuple[str, Traversable]]:
    if place.is_file():
        return [(name, place)]
    found: list[tuple[str, Traversable]] = []
    for child in sorted(place.iterdir(), key=lambda child: child.name):
        if child.name != "__pycache__" and not child.name.endswith(".pyc"):
            found += _files(child, f"{name}/{child.name}")
    return found
