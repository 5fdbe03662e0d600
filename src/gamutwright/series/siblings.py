"""Which lessons of a course point to each other: the one before, the one after, and those of related scales.

Conventions: every relation of scales points both ways. Lessons point to lessons of their own language, and to the same
scale in another. The order is that of the course.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from gamutwright.publish.told_lesson import Sibling
from gamutwright.series.contents import Member
from gamutwright.series.kinship import Kinship, kinship, transposition_class
from gamutwright.theory.scale import Scale

__all__ = ["MOST_RELATED", "related_kind", "siblings_of"]

MOST_RELATED: Final = 24
"""Where more lessons than this are of one class and its inversion, they do not point to each other."""

_KINDS: Final = {
    Kinship.SAME: "same",
    Kinship.TRANSPOSITION: "transposition",
    Kinship.MODE: "mode",
    Kinship.CLASS_MODE: "mode",
    Kinship.INVERSION: "inversion",
}


def related_kind(scale: Scale, other: Scale) -> str:
    """Say how two scales of a course are related.

    Parameters
    ----------
    scale, other : Scale
        The scales.

    Returns
    -------
    str
        same, transposition, mode or inversion; "" where they are none of these.

    Examples
    --------
    >>> dorian, aeolian = Scale.of(2, 4, 5, 7, 9, 11, 0), Scale.of(9, 11, 0, 2, 4, 5, 7)
    >>> related_kind(dorian, aeolian), related_kind(Scale.of(0, 4, 7), Scale.of(0, 3, 7))
    ('mode', 'inversion')
    """
    relation = kinship(scale, other)
    return _KINDS.get(relation.kind, "") if relation else ""


def siblings_of(members: Sequence[Member], address: str = "") -> dict[str, tuple[Sibling, ...]]:
    """Say for every lesson which others it points to.

    Parameters
    ----------
    members : sequence of Member
        The lessons in the order of the course.
    address : str
        Where the course is published; "" where that is not known.

    Returns
    -------
    dict of str to tuple of Sibling
        By slug: the lesson before, the lesson after, then related ones.
    """
    found: dict[str, list[Sibling]] = {member.slug: [] for member in members}
    strands: dict[str, list[Member]] = defaultdict(list)
    for member in members:
        strands[member.language].append(member)
    for strand in strands.values():
        for before, after in itertools.pairwise(strand):
            found[after.slug].insert(0, _sibling(before, "previous", address))
            found[before.slug].append(_sibling(after, "next", address))
    for member, others in _circles(members):
        if len(others) <= MOST_RELATED:
            kinds = [(other, _kind(member, other)) for other in others]
            found[member.slug] += [_sibling(other, kind, address) for other, kind in kinds if kind]
    return {slug: tuple(siblings) for slug, siblings in found.items()}


def _circles(members: Sequence[Member]) -> Iterator[tuple[Member, Sequence[Member]]]:
    """Give every lesson with those that may be related to it: of one class and its inversion."""
    circles: Mapping[tuple[int, int], list[Member]] = defaultdict(list)
    keys = {}
    for member in members:
        if member.scale is not None:
            classes = (transposition_class(member.scale), transposition_class(member.scale.inverted()))
            keys[member.slug] = (member.scale.divisions, min(classes))
            circles[keys[member.slug]].append(member)
    for member in members:
        if member.slug in keys:
            yield member, [other for other in circles[keys[member.slug]] if other.slug != member.slug]


def _kind(member: Member, other: Member) -> str:
    assert member.scale is not None  # noqa: S101 - `_circles` gives lessons with a scale
    assert other.scale is not None  # noqa: S101 - as above
    kind = related_kind(member.scale, other.scale)
    if member.language != other.language:
        return "translation" if kind == "same" else ""
    return "" if kind == "same" else kind


def _sibling(member: Member, kind: str, address: str) -> Sibling:
    place = f"{address.rstrip('/')}/{member.slug}/" if address else ""
    return Sibling(member.slug, member.title, kind, member.language, place)
