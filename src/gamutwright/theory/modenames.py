"""Modes by name: of which named scale a scale is a mode, and what each of its own modes is called.

Conventions: tones are steps above the root; twelve divisions, as all names here. Familiar scales come before the other
names of the table; melakartas without another name and the chromatic scale are left out. What has a name itself is told
as a mode of a familiar scale or of one that stands before it: phrygian dominant is a mode of harmonic minor, not the
other way round.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.theory.character import FAMILIAR
from gamutwright.theory.naming import landmarks
from gamutwright.theory.scale import Scale
from gamutwright.theory.systematic import systematic_name

__all__ = ["NamedMode", "mode_of_named", "named_modes"]


@dataclass(frozen=True, slots=True)
class NamedMode:
    """Which mode of a named scale another scale is.

    Parameters
    ----------
    name : str
        Name of the scale whose mode it is.
    root : int
        Where that scale starts, in steps above the root of the mode.
    ordinal : int >= 2
        Which of its modes.
    """

    name: str
    root: int
    ordinal: int


@lru_cache(maxsize=1)
def _named() -> dict[int, str]:
    """Names by set, the most familiar first."""
    familiar = {sum(1 << tone for tone in scale.tones): scale.name for scale in FAMILIAR}
    return familiar | {mask: record.name for mask, record in landmarks().items() if mask not in familiar}


def mode_of_named(scale: Scale) -> NamedMode | None:
    """Find the first named scale that has the same tones with another home.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    NamedMode or None
        None outside twelve divisions, without the root, and where no other mode has a name that comes first.

    Examples
    --------
    >>> mode_of_named(Scale.of(4, 5, 8, 9, 11, 0, 2))
    NamedMode(name='harmonic minor', root=5, ordinal=5)
    """
    if scale.divisions != 12 or not scale.is_rooted:
        return None
    size, turned = scale.cardinality, {}
    for degree in range(2, size + 1):
        # The higher the degree the other scale starts on, the lower the ordinal of this one among its modes.
        turned[scale.mode(degree).mask] = scale.tones[degree - 1], size - degree + 2
    names = list(_named().items())
    own = next((place for place, (mask, _) in enumerate(names) if mask == scale.mask), len(names))
    for mask, name in names[: max(own, len(FAMILIAR))]:
        if mask in turned and mask != scale.mask:
            return NamedMode(name, *turned[mask])
    return None


def named_modes(scale: Scale) -> tuple[tuple[int, str], ...]:
    """Name each mode of a scale.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of (int, str)
        Where it starts, in steps above the root, and its first traditional or else its systematic name; each mode once.

    Examples
    --------
    >>> named_modes(Scale.of(0, 2, 4, 6, 7, 9, 10))[:2]
    ((0, 'acoustic'), (2, 'aeolian natural 3'))
    """
    return tuple(_each_mode(scale))


def _each_mode(scale: Scale) -> Iterator[tuple[int, str]]:
    seen = set()
    for degree, tone in enumerate(scale.tones, 1):
        mode = scale.mode(degree)
        if mode.mask in seen:
            return
        seen.add(mode.mask)
        record = landmarks().get(mode.mask)
        yield tone, record.name if record else systematic_name(mode)
