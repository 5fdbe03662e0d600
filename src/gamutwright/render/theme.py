"""The one look of all pictures: roles become colours, weights, dashes and hatches.

Conventions: colours are `#RRGGBB`; widths and dashes are in the units of a figure.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType

from gamutwright.errors import DomainError
from gamutwright.ir.figure import Role

__all__ = ["THEMES", "Look", "Theme", "contrast", "load_theme", "relative_luminance"]

THEMES = ("light", "night", "print")


@dataclass(frozen=True, slots=True)
class Look:
    """How one role looks.

    Parameters
    ----------
    mark, text : str
        Colours of shapes and of words.
    weight : float
        Factor on line widths.
    dash : tuple of float
        Lengths of line and gap; () for an unbroken line.
    hatch : int or None
        Angle of the lines that stand for a tint, degrees from the horizontal; None for a real tint.
    """

    mark: str
    text: str
    weight: float = 1.0
    dash: tuple[float, ...] = ()
    hatch: int | None = None


@dataclass(frozen=True, slots=True)
class Theme:
    """The looks of all roles.

    Parameters
    ----------
    name : str
        One of `THEMES`.
    looks : mapping of Role to Look
        Every role has one.
    """

    name: str
    looks: Mapping[Role, Look]


@cache
def load_theme(name: str = "light") -> Theme:
    """Read a theme.

    Parameters
    ----------
    name : str
        light, night or print.

    Returns
    -------
    Theme
        The theme.

    Raises
    ------
    DomainError
        If there is none of this name.

    Examples
    --------
    >>> load_theme("night").looks[Role.NOW].mark
    '#F2A65A'
    """
    if name not in THEMES:
        raise DomainError(f"theme {name!r}", "there is no theme of this name", f"Choose one of: {', '.join(THEMES)}.")
    text = resources.files("gamutwright.render").joinpath("theme.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)[name]
    looks = {
        role: Look(
            table[role]["mark"],
            table[role]["text"],
            table[role].get("weight", 1.0),
            tuple(table[role].get("dash", ())),
            table[role].get("hatch"),
        )
        for role in Role
    }
    return Theme(name, MappingProxyType(looks))


def relative_luminance(colour: str) -> float:
    """Compute the relative luminance of a colour as WCAG 2.2 defines it.

    Parameters
    ----------
    colour : str
        `#RRGGBB`, sRGB.

    Returns
    -------
    float in [0, 1]
        0 black, 1 white.

    Examples
    --------
    >>> relative_luminance("#FFFFFF"), relative_luminance("#000000")
    (1.0, 0.0)
    """
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Compute the contrast ratio of two colours as WCAG 2.2 defines it.

    Parameters
    ----------
    one, other : str
        `#RRGGBB`.

    Returns
    -------
    float in [1, 21]
        The ratio.

    Examples
    --------
    >>> contrast("#000000", "#FFFFFF")
    21.0
    """
    dark, bright = sorted((relative_luminance(one), relative_luminance(other)))
    return (bright + 0.05) / (dark + 0.05)
