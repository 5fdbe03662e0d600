"""What settles a result beside its job: Python, this program, its packs of facts and the libraries that draw and speak.

A film must not depend on which worker drew it, so workers whose environment differs are refused.

Conventions: versions are text, as their distributions state them; what is not installed has the version "none".
"""

from __future__ import annotations

import functools
import sys
from collections.abc import Mapping
from importlib import metadata

from gamutwright.jobs.job import sources_digest
from gamutwright.jobs.packs import installed_packs

__all__ = ["differences", "snapshot"]

LIBRARIES = ("av", "espeakng-loader", "numpy", "skia-python", "typst", "verovio")
_NONE = "none"


def _version(distribution: str) -> str:
    try:
        return metadata.version(distribution)
    except metadata.PackageNotFoundError:
        return _NONE


@functools.cache
def snapshot() -> Mapping[str, str]:
    """List everything whose version settles results, in this process.

    Returns
    -------
    mapping of str to str
        Version by name.

    Examples
    --------
    >>> snapshot()["Python"] in ("3.11", "3.12", "3.13")
    True
    """
    return {
        "Python": f"{sys.version_info.major}.{sys.version_info.minor}",
        "gamutwright": _version("gamutwright"),
        "its sources": sources_digest()[:12],
        **{f"pack of facts {name}": version for name, version in installed_packs()},
        **{name: _version(name) for name in LIBRARIES},
    }


def differences(here: Mapping[str, str], there: Mapping[str, str]) -> list[str]:
    """Say what differs between two environments.

    Parameters
    ----------
    here, there : mapping of str to str
        As given by `snapshot`.

    Returns
    -------
    list of str
        One text for each difference, in alphabetical order.

    Examples
    --------
    >>> differences({"av": "18.1", "Python": "3.11"}, {"av": "17.0", "Python": "3.11", "pack of facts modes": "2"})
    ['av 17.0 there, 18.1 here', 'pack of facts modes 2 there, none here']
    """
    return [
        f"{name} {there.get(name, _NONE)} there, {here.get(name, _NONE)} here"
        for name in sorted({*here, *there})
        if here.get(name, _NONE) != there.get(name, _NONE)
    ]
