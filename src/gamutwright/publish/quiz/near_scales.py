"""Scales near a scale: what a learner may take it for, so that a wrong answer is right for one of them.

**Conventions.** All lie on the root of the scale but its modes, which begin on its other tones. One tone is moved by a
step of the division, left out or added, never the root; in twelve divisions familiar scales of nearly as many tones
follow. Tones that are kept keep their names where the spelling policy allows it. The order is fixed: moved, left out,
added, modes, familiar.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.music.pitches import names_of_steps
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import root_name, spelled_from, tone_name_map, with_names
from gamutwright.theory.systematic import FAMILIAR

__all__ = ["NearScale", "Nearness", "near_scales"]

_MOST_MODES = 12


class Nearness(StrEnum):
    """How a scale differs from the one it is near to."""

    MOVED = "moved"
    LEFT_OUT = "left-out"
    ADDED = "added"
    MODE = "mode"
    FAMILIAR = "familiar"


@dataclass(frozen=True, slots=True)
class NearScale:
    """A scale that is near to another one.

    Parameters
    ----------
    scale : Scale
        The scale.
    nearness : Nearness
        How it differs.
    old, new : str
        The tone of the other scale that it lacks, and its own that the other lacks, or on which it begins; with signs,
        in twelve divisions, else its number of steps above the root. "" for none.
    familiar : str
        The familiar scale that it is, "" for none.
    respelled : int
        How many tones of both have another name in it.
    """

    scale: Scale
    nearness: Nearness
    old: str = ""
    new: str = ""
    familiar: str = ""
    respelled: int = 0


def _spelled(scale: Scale, near: Scale) -> tuple[Scale, int]:
    """Spell a near scale from the name of the same root, with the names that the teacher fixed."""
    if scale.divisions != 12:
        return near, 0
    own = tone_name_map(scale)
    try:
        names = dict(zip(near.tones, spelled_from(near, root_name(scale)), strict=True))
        if scale.names:
            names |= {tone: name for tone, name in own.items() if tone in names}
        found = with_names(near, [names[tone] for tone in near.tones])
    except DomainError:
        found = near
    there = tone_name_map(found)
    return found, sum(own[tone] != there[tone] for tone in own.keys() & there.keys())


def _changed(scale: Scale) -> Iterator[tuple[Nearness, int | None, int | None]]:
    """List one-tone changes: which, the tone lost, the tone gained."""
    n, tones = scale.divisions, set(scale.tones)
    for tone in sorted(tones - {0}):
        for moved in (tone - 1, tone + 1):
            if 0 < moved < n and moved not in tones:
                yield Nearness.MOVED, tone, moved
    if len(tones) > 1:
        for tone in sorted(tones - {0}):
            yield Nearness.LEFT_OUT, tone, None
    for tone in sorted(set(range(1, n)) - tones):
        yield Nearness.ADDED, None, tone


def _names(scale: Scale) -> tuple[str, ...]:
    return names_of_steps(scale) if scale.divisions == 12 else tuple(str(step) for step in range(scale.divisions))


def _modes(scale: Scale) -> Iterator[NearScale]:
    names, masks = _names(scale), {scale.mask}
    for degree, tone in list(enumerate(scale.tones, 1))[:_MOST_MODES]:
        mode = scale.mode(degree)
        if mode.mask not in masks:
            masks.add(mode.mask)
            yield NearScale(mode, Nearness.MODE, new=names[tone])


@lru_cache(maxsize=64)
def near_scales(scale: Scale) -> tuple[NearScale, ...]:
    """List the scales near a scale.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of NearScale
        None of them is the scale itself, none of them twice.

    Examples
    --------
    >>> near = near_scales(Scale.of(7, 9, 11, 1, 2, 4, 5))
    >>> [(found.old, found.new) for found in near if found.familiar == "mixolydian"]
    [('C♯', 'C')]
    """
    names = _names(scale)
    familiar = {sum(1 << tone for tone in tones): name for name, tones in FAMILIAR.items()}
    found: dict[tuple[int, int], NearScale] = {(scale.mask, scale.root): NearScale(scale, Nearness.MODE)}
    for nearness, lost, gained in _changed(scale):
        mask = scale.mask ^ (1 << lost if lost is not None else 0) ^ (1 << gained if gained is not None else 0)
        near, respelled = _spelled(scale, replace(scale, mask=mask, names=()))
        there = _names(near)
        found[mask, scale.root] = NearScale(
            near,
            nearness,
            names[lost] if lost is not None else "",
            there[gained] if gained is not None else "",
            familiar.get(mask, "") if scale.divisions == 12 else "",
            respelled,
        )
    for mode in _modes(scale):
        found[mode.scale.mask, mode.scale.root] = mode
    for mask, name in familiar.items() if scale.divisions == 12 else ():
        if abs(mask.bit_count() - scale.cardinality) <= 1 and (mask, scale.root) not in found:
            near, respelled = _spelled(scale, replace(scale, mask=mask, names=()))
            found[mask, scale.root] = NearScale(near, Nearness.FAMILIAR, familiar=name, respelled=respelled)
    return tuple(found.values())[1:]
