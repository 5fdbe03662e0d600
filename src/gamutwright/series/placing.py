"""Lessons that want a place, the places they get, and what is weighed when one is chosen.

Conventions: the figures here are choices of ours; they are in one place so that they can be seen and argued about.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from gamutwright.series.kinship import Kin, Kinship
from gamutwright.theory.naming import all_names, names_of
from gamutwright.theory.scale import Scale

__all__ = ["APART", "LONGEST", "MOST_KIN", "SLACK", "WITHIN_CLASS", "Candidate", "Place", "familiarity"]

APART = {
    Kinship.SAME: (4, 12),
    Kinship.TRANSPOSITION: (4, 4),
    Kinship.MODE: (4, 3),
    Kinship.CLASS_MODE: (4, 3),
    Kinship.INVERSION: (3, 2),
    Kinship.ONE_STEP: (1, 1),
    Kinship.ONE_STEP_SETS: (1, 1),
}
"""By kind: for how many places after a relative a lesson is close to it, and how many new ideas that counts as.

The figures are a choice of ours: three lessons between two modes of a class, two between inversions, one between
scales a step apart, as far as that costs no more than three, two and one new ideas at once.
"""
LONGEST = max(places for places, _ in APART.values())
SLACK = 2
"""Lessons with so few new ideas more than the fewest count as equal, since a forecast is hardly surer than that."""
MOST_KIN = 12


WITHIN_CLASS = frozenset({Kinship.SAME, Kinship.TRANSPOSITION, Kinship.MODE, Kinship.CLASS_MODE})
"""The kinds of relatives that belong to one transposition class."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A lesson that wants a place.

    Parameters
    ----------
    slug : str
        Its name, unique in its language.
    scale : Scale
        Its scale, with root.
    language : str
        Language tag.
    number : int > 0 or None
        The place it has already, which it keeps.
    explained : frozenset of str or None
        Ids of the facts that its script explains; None where it has no script yet.
    level : str
        `foundation`, `further` or `research`; "" where the path of levels decides.
    minutes : float
        Its length; 0 for the course's.
    story : str
        What its script tells; "" where there is none yet.
    """

    slug: str
    scale: Scale
    language: str = "en"
    number: int | None = None
    explained: frozenset[str] | None = None
    level: str = ""
    minutes: float = 0.0
    story: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """A lesson's place in the course.

    Parameters
    ----------
    candidate : Candidate
        The lesson.
    number : int
        Its number, from 1 in each language.
    level : str
        Who it is for.
    explains : tuple of str
        Ids of the facts explained here for the first time in its language; a forecast where there is no script.
    known : frozenset of str
        Ids of the facts that earlier lessons of its language explain.
    kin : tuple of Kin
        Near relatives among the earlier lessons of its language, the nearest first, twelve at most.
    reason : str
        Why it stands here, in a sentence.
    repeats : tuple of str
        Ids of the facts that its script explains although an earlier lesson has.
    story : str
        The story that it tells, or would tell.
    """

    candidate: Candidate
    number: int
    level: str
    explains: tuple[str, ...]
    known: frozenset[str]
    kin: tuple[Kin, ...]
    reason: str
    repeats: tuple[str, ...] = ()
    story: str = ""


@lru_cache(maxsize=1)
def _entries() -> dict[int, int]:
    """Say where in the table of names a scale is first named."""
    found: dict[int, int] = {}
    for place, record in enumerate(all_names()):
        found.setdefault(record.mask, place)
    return found


def familiarity(scale: Scale) -> tuple[int, ...]:
    """Give a key that orders scales by familiarity, the most familiar first.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int
        Whether it has a name in equal temperament, another name or none; how far it is from seven tones and from twelve
        divisions; its place in the table of names; the scale.

    Examples
    --------
    >>> sorted((Scale.of(0, 1, 2), Scale.of(0, 2, 4, 7, 9), Scale.of(0, 2, 4, 5, 7, 9, 11)), key=familiarity)[0].tones
    (0, 2, 4, 5, 7, 9, 11)
    """
    names, n = names_of(scale), scale.divisions
    called = 0 if any(name.is_tempered for name in names) else 1 if names else 2
    entry = _entries().get(scale.mask, 0) if names else 0
    return (called, abs(scale.cardinality - 7), abs(n - 12), n, entry, scale.mask, scale.root)
