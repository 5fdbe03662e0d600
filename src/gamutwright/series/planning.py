"""The order of the lessons of a course: few new ideas at a time, what an idea needs before it, relatives apart.

A place is given to one lesson after another. Of those that are left, the next is one that explains the fewest new
ideas, or hardly more; a lesson that is close to one just before counts as if it had a few more. Of equal ones it is the
most familiar: a scale with a traditional name before one without, then one nearer to seven tones; but a transposition
class to which many of those left belong takes turns with the others, or it would be left for the end. What a lesson
would explain is forecast as its draft would choose it (`series.ideas`); where a script exists, what it explains is
known.

Conventions: lessons in one language are a strand of their own, with its own numbers from 1 and its own memory; strands
follow each other in the order of their language tags. A number that a script states is kept; lessons without one come
after the last number. Levels are spread over the places of a strand, the first over the first places; a lesson's own
level wins, and such a lesson waits until the strand has come to its level. The order depends on the lessons alone, not
on the order in which they are given, unless that is to be kept.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from functools import partial
from math import isfinite

from gamutwright.catalogue.shares import Shares
from gamutwright.errors import DomainError, InputError
from gamutwright.facts.model import Level
from gamutwright.facts.registry import Registry
from gamutwright.lessons.draft import outline
from gamutwright.lessons.plan import LEVELS, Wish
from gamutwright.lessons.stories.choosing import fitting_stories
from gamutwright.lessons.stories.material import material_of
from gamutwright.lessons.stories.own import Own
from gamutwright.lessons.stories.spreading import spread_stories
from gamutwright.lessons.stories.story import LAST_SCORE
from gamutwright.lessons.stories.telling import ToldScene
from gamutwright.series.ideas import Forecaster, IdeaBits, mean_seconds
from gamutwright.series.kinship import Kin, Kinship
from gamutwright.series.placing import APART, Candidate, Place
from gamutwright.series.strand import Strand
from gamutwright.theory.scale import Scale

__all__ = ["Candidate", "CoursePlan", "Kin", "Place", "plan_course", "plan_rows"]


@dataclass(frozen=True, slots=True)
class CoursePlan:
    """A course in order.

    Parameters
    ----------
    places : tuple of Place
        Language by language, by number.
    warnings : tuple of str
        What the teacher should look at: a number or a scale twice, ideas before their needs, relatives close together.
    """

    places: tuple[Place, ...]
    warnings: tuple[str, ...] = ()


def _scenes(registry: Registry, language: str, seed: int, own: Own, scale: Scale, level: Level) -> Sequence[ToldScene]:
    """Tell the story that a lesson would tell."""
    return outline(scale, Wish(level, seed=seed), language, registry=registry, own=own)[1]


def _offers(place: Place, registry: Registry, own: Own) -> list[tuple[str, int]]:
    """List the stories that fit a lesson, with their scores; the one its script tells, alone, where it says so."""
    lesson = place.candidate
    if lesson.explained is not None:
        return [(lesson.story, LAST_SCORE)]
    material = material_of(lesson.scale, {}, registry, own.wording_for(lesson.language), Level(place.level))
    fitting = fitting_stories(own.told(), material)
    return [(story.id, story.score_for(material)) for story in fitting]


def plan_course(  # noqa: PLR0913 - each is a setting of the course with a default, or asked of another part
    candidates: Sequence[Candidate],
    registry: Registry,
    levels: Sequence[str] = ("further",),
    minutes: float = 6.0,
    *,
    is_listed: bool = False,
    seed: int = 0,
    progress: Callable[[int, int], None] | None = None,
    shares: Callable[[int], Shares | None] | None = None,
    defined: Callable[[Candidate, Level, frozenset[str]], Collection[str]] | None = None,
    own: Own | None = None,
) -> CoursePlan:
    """Put lessons in order.

    Parameters
    ----------
    candidates : sequence of Candidate
        The lessons, in any number of languages.
    registry : Registry
        The facts on offer.
    levels : sequence of str
        The path of levels, spread evenly over the places of each language.
    minutes : float > 0
        Length of lessons that do not say their own.
    is_listed : bool
        Whether lessons without a number keep the order given.
    seed : int
        The seed of the drafts, which settles their equal choices.
    progress : callable, optional
        Told how many lessons have their place, and of how many.
    shares : callable, optional
        Division to the counts of values in it, such as `catalogue.shares.shares_of`; without it forecasts take no
        value for surprising, as drafts without counts do.
    defined : callable, optional
        What a lesson without a script will really explain, given its level and what is known, for instance from its
        draft; asked once for each place. Without it the forecast stands.
    own : Own, optional
        The course's own stories and words.

    Returns
    -------
    CoursePlan
        Every lesson at its place.

    Raises
    ------
    DomainError
        If a level, a length or a number is none.
    InputError
        If two lessons of one language have the same name.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> from gamutwright.theory.scale import Scale
    >>> major, minor = Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(9, 11, 0, 2, 4, 5, 7)
    >>> plan = plan_course([Candidate("major", major), Candidate("minor", minor, number=1)], default_registry())
    >>> [(place.number, place.candidate.slug) for place in plan.places]
    [(1, 'minor'), (2, 'major')]
    >>> plan.warnings
    ("'major' (lesson 2) and 'minor' (lesson 1) stand close together and are modes on the same tones.",)
    """
    _check(candidates, levels, minutes)
    own = own or Own()
    ideas = IdeaBits(registry, {fact_id for candidate in candidates for fact_id in candidate.explained or ()})
    path = tuple(Level(level) for level in levels)
    places: list[Place] = []
    warnings: list[str] = []
    for language in sorted({candidate.language for candidate in candidates}):
        lessons = [candidate for candidate in candidates if candidate.language == language]
        seconds = partial(mean_seconds, registry, [candidate.scale for candidate in lessons], language)
        scenes = partial(_scenes, registry, language, seed, own)
        book = Forecaster(registry, seconds, shares, seed, scenes)
        strand = Strand(lessons, registry, ideas, book, path, minutes, defined)

        def told(strand: Strand = strand, done: int = len(places)) -> None:
            if progress is not None:
                progress(done + len(strand.places), len(candidates))

        _fill(strand, told, is_listed=is_listed)
        told_in = spread_stories([_offers(place, registry, own) for place in strand.places])
        places += [replace(place, story=story) for place, story in zip(strand.places, told_in, strict=True)]
        warnings += _warnings(strand)
    return CoursePlan(tuple(places), tuple(warnings))


def _check(candidates: Sequence[Candidate], levels: Sequence[str], minutes: float) -> None:
    known = ", ".join(LEVELS)
    if not levels:
        raise DomainError("no level", "a path of levels has one at least", f"Choose from {known}.")
    for level in (*levels, *(candidate.level for candidate in candidates if candidate.level)):
        if level not in set(LEVELS):
            raise DomainError(f"level '{level}'", f"levels are {known}", "Choose one of these.")
    for length in (minutes, *(candidate.minutes for candidate in candidates if candidate.minutes)):
        if not isfinite(length) or length <= 0:
            raise DomainError(f"{length} minutes", "a lesson has a length above 0", "Give another length.")
    seen: set[tuple[str, str]] = set()
    for candidate in candidates:
        if candidate.number is not None and candidate.number < 1:
            raise DomainError(
                f"lesson {candidate.number} ('{candidate.slug}')", "lessons count from 1", "Give it another number."
            )
        if (candidate.slug, candidate.language) in seen:
            raise InputError(f"'{candidate.slug}'", "two lessons have this name", "Give one of them another.")
        seen.add((candidate.slug, candidate.language))


def _fill(strand: Strand, told: Callable[[], None], *, is_listed: bool) -> None:
    """Give the numbered lessons their places, then the others."""
    fixed = [(lesson.number, lesson.slug, key) for key, lesson in enumerate(strand.candidates) if lesson.number]
    for number, _, key in sorted(fixed):
        strand.put(key, number, f"Its script says that it is lesson {number}.")
        told()
    free = [key for key, lesson in enumerate(strand.candidates) if lesson.number is None]
    start = max((number for number, _, _ in fixed), default=0) + 1
    if not is_listed:
        strand.choose_all(free, start, told)
        return
    for number, key in enumerate(free, start):
        strand.put(key, number, "It stands in the order given.")
        told()


def _warnings(strand: Strand) -> list[str]:
    """Find what the teacher should look at, the gravest first."""
    by_number: dict[int, list[str]] = {}
    for place in strand.places:
        by_number.setdefault(place.number, []).append(f"'{place.candidate.slug}'")
    found = [
        f"Number {number} is used {'twice' if len(slugs) == 2 else f'{len(slugs)} times'}: {', '.join(slugs)}."
        for number, slugs in by_number.items()
        if len(slugs) > 1
    ]
    order = {place.candidate.slug: position for position, place in enumerate(strand.places)}
    twice, close = [], []
    for position, place in enumerate(strand.places):
        for kin in place.kin:
            both = f"'{place.candidate.slug}' (lesson {place.number}) and '{kin.slug}' (lesson {kin.number})"
            kind = Kinship(kin.kind)
            if kind is Kinship.SAME:
                twice.append(f"{both} are about {kind.words}.")
            elif position - order[kin.slug] <= APART[kind][0]:
                close.append(f"{both} stand close together and are {kind.words}.")
    return [*found, *twice, *strand.faults, *close]


def plan_rows(plan: CoursePlan, titles: Callable[[str], str] = str) -> list[dict[str, str]]:
    """Word a plan as the rows of a table.

    Parameters
    ----------
    plan : CoursePlan
        The plan.
    titles : callable
        Id of a fact to what it is called; the id itself without it.

    Returns
    -------
    list of dict of str to str
        For each place: number, language, lesson, level, new ideas, near lessons, story, reason.
    """
    return [
        {
            "number": str(place.number),
            "language": place.candidate.language,
            "lesson": place.candidate.slug,
            "level": place.level,
            "new ideas": ", ".join(titles(fact_id) for fact_id in place.explains),
            "near": "; ".join(f"{kin.kind}: {kin.slug} ({kin.number})" for kin in place.kin),
            "story": place.story,
            "reason": place.reason,
        }
        for place in plan.places
    ]
