"""First versions of the scripts that a course does not have yet, each knowing what the lessons before it explained.

A draft depends on the drafts before it, since a term is explained once. They are written several at a time all the
same: each supposes that those just before it explain what the plan expects of them. Where one did not, the ones after
it are written again. The scripts are exactly those that come of writing one after another.

Conventions: a language has a memory of its own. Scripts that are there are never touched; what they explain is known to
the lessons after them.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from gamutwright.catalogue.shares import shares_of
from gamutwright.codec import digest
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.files import make_folder, write_text
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.stories.own import Own, read_own
from gamutwright.phrasing.values import spoken_scale_name
from gamutwright.series.contents import Member
from gamutwright.series.course import Course
from gamutwright.series.planning import Place
from gamutwright.theory.scale import Scale
from gamutwright.theory.systematic import systematic_name

__all__ = ["Spot", "draft_job", "draft_missing"]

COST_S = 0.15
AHEAD_EACH = 8
"""How many drafts are written at once, for each process."""
_SOURCES = ("languages", "lessons", "phrasing", "facts", "theory", "inputs", "catalogue", "series/course_drafts.py")


@dataclass(frozen=True, slots=True)
class Spot:
    """What a draft is told of the lesson's place in its course.

    Parameters
    ----------
    number : int
        Its number, from 1.
    level : str
        Who it is for.
    story : str
        The story that it tells; "" for the one that fits best.
    """

    number: int
    level: str
    story: str = ""


@dataclass(frozen=True, slots=True)
class _Asked:
    scale: tuple[str, int, tuple[str, ...]]
    level: str
    minutes: float
    language: str
    story: str
    number: int
    known: tuple[str, ...]
    own: Own
    others: tuple[tuple[str, str], ...]


def draft_missing(
    course: Course,
    members: Mapping[str, Member],
    places: Sequence[Place],
    pool: LocalPool,
    told: Callable[[int, int], None] | None = None,
) -> tuple[str, ...]:
    """Write the scripts that are missing, in the order of the plan.

    Parameters
    ----------
    course : Course
        The course.
    members : mapping of str to Member
        Its lessons by slug.
    places : sequence of Place
        The plan.
    pool : LocalPool
        Writes several at once.
    told : callable, optional
        Told the scripts written and those in all.

    Returns
    -------
    tuple of str
        Slugs of the lessons that have a script now, in order.

    Raises
    ------
    FileError
        If a script cannot be written.
    """
    explained = {slug: {said.fact_id for said in m.summary.defined} for slug, m in members.items() if m.summary}
    todo = [place for place in places if place.candidate.slug not in explained]
    titles = _titles(members)
    memory, written = _Memory(places, explained), list[str]()
    while len(written) < len(todo):
        ahead = memory.supposed(pool.workers * AHEAD_EACH)
        jobs = []
        for place, known in ahead:
            slug, spot = place.candidate.slug, Spot(place.number, place.level, place.story)
            jobs.append(draft_job(course, members[slug], spot, known, titles.get(slug, "")))
        pool.finish(jobs)
        for (place, known), job in zip(ahead, jobs, strict=True):
            if known != memory.known_to_next():
                break
            explained[place.candidate.slug] = _written(course, place.candidate.slug, pool, job)
            written.append(place.candidate.slug)
            if told:
                told(len(written), len(todo))
    return tuple(written)


class _Memory:
    """What the lessons up to some place have explained, in each language."""

    def __init__(self, places: Sequence[Place], explained: Mapping[str, set[str]]) -> None:
        self._places, self._explained = places, explained
        self._at = 0
        self._known: dict[str, set[str]] = defaultdict(set)

    def known_to_next(self) -> frozenset[str]:
        """Give what is known to the next lesson without a script."""
        while self._places[self._at].candidate.slug in self._explained:
            candidate = self._places[self._at].candidate
            self._known[candidate.language] |= self._explained[candidate.slug]
            self._at += 1
        return frozenset(self._known[self._places[self._at].candidate.language])

    def supposed(self, most: int) -> list[tuple[Place, frozenset[str]]]:
        """Give the next lessons to write, with what is known to each if the plan is right about those before it."""
        self.known_to_next()
        known = defaultdict(set, {language: set(ids) for language, ids in self._known.items()})
        found: list[tuple[Place, frozenset[str]]] = []
        for place in self._places[self._at :]:
            slug, language = place.candidate.slug, place.candidate.language
            if slug not in self._explained:
                found.append((place, frozenset(known[language])))
                if len(found) == most:
                    break
            known[language] |= self._explained.get(slug, set(place.explains))
        return found


def _written(course: Course, slug: str, pool: LocalPool, job: Job) -> set[str]:
    data = pool.result(job).data
    assert isinstance(data, dict)  # noqa: S101 - `_drafted` wrote it
    path = course.script_of(slug)
    make_folder(path.parent)
    write_text(path, str(data["source"]))
    explains = data["explains"]
    return {str(fact_id) for fact_id in explains} if isinstance(explains, list) else set()


def _titles(members: Mapping[str, Member]) -> dict[str, str]:
    """Give lessons that would be called alike the systematic name in addition: tradition has one name for several."""
    counted = Counter((member.language, member.title) for member in members.values())
    return {
        slug: f"{member.title}, {spoken_scale_name(systematic_name(member.scale), member.language)}"
        for slug, member in members.items()
        if counted[member.language, member.title] > 1 and member.scale is not None and member.scale.divisions == 12
    }


def draft_job(course: Course, member: Member, place: Spot, known: Collection[str], title: str = "") -> Job:
    """Say how the first version of a lesson's script is written.

    Parameters
    ----------
    course : Course
        The course.
    member : Member
        The lesson, with its scale.
    place : Spot
        Its number, its level and its story.
    known : collection of str
        Ids of the facts that lessons before it explain.
    title : str
        What it is called, where its scale's name alone will not do.

    Returns
    -------
    Job
        Its parcel has `source`, the script, and `explains`, the ids of the facts that it explains.
    """
    scale = member.scale
    assert scale is not None  # noqa: S101 - a lesson without a script has the scale it was asked for with
    others = (("course", course.imprint), ("lesson", str(place.number)), ("title", title))
    asked = _Asked(
        (scale.bits, scale.root, scale.names),
        place.level,
        member.minutes,
        member.language,
        place.story,
        place.number,
        tuple(sorted(known)),
        read_own(course.folder),
        tuple((key, value) for key, value in others if value),
    )
    return Job(digest(["draft", sources_digest(*_SOURCES), installed_packs(), asked]), _drafted, asked, COST_S)


def _drafted(asked: _Asked) -> Parcel:
    scale = Scale.from_bits(*asked.scale)
    # The number is the seed: lessons that tell the same story do not choose the same words.
    wish = Wish(Level(asked.level), asked.minutes, frozenset(asked.known), asked.number, asked.story)
    made = draft(
        scale,
        wish,
        asked.language,
        registry=default_registry(),
        shares=shares_of(scale.divisions),
        own=asked.own,
        others=asked.others,
    )
    marks = [mark for line in parse(made.source).lines for mark in line.marks]
    explains = dict.fromkeys(mark.explained for mark in marks if mark.explained)
    return Parcel({"source": made.source, "explains": list(explains)})
