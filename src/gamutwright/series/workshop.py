"""A course opened for work: its lessons in order, its store, and what runs its jobs.

Conventions: lessons stand language by language, the course's own first; in each those with a number by number, then the
others as they are listed. Only planning changes that order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.registry import Registry
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store, store_for
from gamutwright.lessons.stories.own import read_own
from gamutwright.series.contents import Member, members_of
from gamutwright.series.course import Course, read_course
from gamutwright.series.planning import Candidate, CoursePlan, plan_course

__all__ = ["Workshop", "in_order", "open_course", "plan_of", "store_of"]

Told = Callable[[str, int, int], None]


@dataclass(frozen=True, slots=True, eq=False)
class Workshop:
    """A course opened for work.

    Parameters
    ----------
    course : Course
        The course.
    members : tuple of Member
        Its lessons, in order.
    store : Store
        Where results are kept.
    """

    course: Course
    members: tuple[Member, ...]
    store: Store


def open_course(place: Path, workers: int | None = None, told: Told | None = None) -> Workshop:
    """Read a course and its scripts.

    Parameters
    ----------
    place : Path
        Its folder, or anything in it.
    workers : int, optional
        How many processes read scripts; as many as there are cores without it.
    told : callable, optional
        Told the stage, how much of it is done, and how much there is.

    Returns
    -------
    Workshop
        The course.

    Raises
    ------
    GamutwrightError
        If it cannot be read.
    """
    course = read_course(place)
    store = store_of(course)
    with LocalPool(store, workers) as pool:
        return Workshop(course, in_order(members_of(course, pool, told), course.language), store)


def store_of(course: Course) -> Store:
    """Give the store of a course.

    Parameters
    ----------
    course : Course
        The course.

    Returns
    -------
    Store
        Where results are kept.
    """
    return store_for(course.folder / "series.toml")


def in_order(members: Sequence[Member], language: str = "en") -> tuple[Member, ...]:
    """Put lessons in order without planning.

    Parameters
    ----------
    members : sequence of Member
        The lessons as they are listed.
    language : str
        The language that comes first; others follow by their tags.

    Returns
    -------
    tuple of Member
        Language by language; by number, then as listed.
    """
    places = {member.slug: place for place, member in enumerate(members)}

    def place(member: Member) -> tuple[bool, str, bool, int, int]:
        number = member.number
        return member.language != language, member.language, number is None, number or 0, places[member.slug]

    return tuple(sorted(members, key=place))


def plan_of(workshop: Workshop, registry: Registry, told: Callable[[int, int], None] | None = None) -> CoursePlan:
    """Plan a course.

    Parameters
    ----------
    workshop : Workshop
        The course.
    registry : Registry
        The facts on offer.
    told : callable, optional
        Told how many lessons have their place, and of how many.

    Returns
    -------
    CoursePlan
        Every lesson with a scale at its place.
    """
    course = workshop.course
    candidates = [
        Candidate(
            member.slug,
            member.scale,
            member.language,
            member.number,
            frozenset(said.fact_id for said in member.summary.defined) if member.summary else None,
            member.level,
            member.minutes,
            dict(member.summary.others).get("story", "") if member.summary else "",
        )
        for member in workshop.members
        if member.scale is not None
    ]
    planned = plan_course(
        candidates,
        registry,
        course.levels,
        course.minutes,
        is_listed=course.is_listed,
        progress=told,
        shares=shares_of,
        own=read_own(course.folder),
    )
    # Strands come by language tag; the course's own language is read first.
    own_first = sorted(planned.places, key=lambda place: place.candidate.language != course.language)
    return replace(planned, places=tuple(own_first))
