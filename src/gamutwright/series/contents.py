"""Which lessons a course has: those written down, those a question to the catalogue gives, and those with a script.

Conventions: a lesson is known by its slug, the name of its folder. The catalogue gives no lesson about a scale that is
written down. A script is the last word about its lesson's scale, language and level; `series.toml` is asked only for
what has no script yet.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from gamutwright.errors import FileError, InputError
from gamutwright.inputs.text import read_scale
from gamutwright.jobs.run import LocalPool
from gamutwright.lesson.draft import spoken_name
from gamutwright.lesson.wording.engine import wording_for
from gamutwright.series.course import SLUG, Course, LessonWish
from gamutwright.series.examining import Summary, examination_job, parcel_to_summary
from gamutwright.theory.scale import Scale

__all__ = ["Member", "members_of", "slug_of"]

Told = Callable[[str, int, int], None]
"""Told the stage, how much of it is done, and how much there is."""


@dataclass(frozen=True, slots=True)
class Member:
    """A lesson of a course.

    Parameters
    ----------
    slug : str
        Its folder.
    scale : Scale or None
        Its scale; None where its script cannot be read.
    language : str
        Language tag.
    level : str
        As its script or its list entry says; "" where neither does.
    minutes : float
        Length that a draft aims at.
    title : str
        What it is called.
    source : str
        Its script; "" where there is none yet.
    summary : Summary or None
        What the script amounts to; None where there is none.
    """

    slug: str
    scale: Scale | None
    language: str
    level: str
    minutes: float
    title: str
    source: str = ""
    summary: Summary | None = None

    @property
    def number(self) -> int | None:
        """The number that its script gives it."""
        return self.summary.number if self.summary else None

    @property
    def is_sound(self) -> bool:
        """Whether it has a script in which every statement is proved."""
        return self.summary is not None and not self.summary.problem and not self.summary.faults


def slug_of(scale: Scale) -> str:
    """Name the folder of a lesson after its scale.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    str
        Root and name in twelve divisions, divisions and tones elsewhere.

    Examples
    --------
    >>> slug_of(Scale.of(1, 3, 4, 6, 8, 9, 11)), slug_of(Scale.of(0, 5, 11, divisions=19))
    ('c-sharp-aeolian', '19-divisions-0-5-11')
    """
    if scale.divisions != 12:
        return _slugged(f"{scale.divisions} divisions {' '.join(map(str, scale.pitch_classes))}")
    return _slugged(spoken_name(scale, wording_for("en")))


def _slugged(text: str) -> str:
    plain = text.replace("♯", " sharp ").replace("#", " sharp ").replace("♭", " flat ")
    plain = re.sub(r"\bb(?=\d)", " flat ", plain)
    return (
        re.sub(r"[^a-z0-9]+", "-", plain.casefold().encode("ascii", "ignore").decode()).strip("-")[:64].strip("-")
        or "lesson"
    )


def members_of(course: Course, pool: LocalPool, told: Told | None = None) -> tuple[Member, ...]:
    """List the lessons of a course: first as written down, then as the catalogue gives them, then further folders.

    Parameters
    ----------
    course : Course
        The course.
    pool : LocalPool
        Examines scripts, and keeps what was found.
    told : callable, optional
        Told how far it is.

    Returns
    -------
    tuple of Member
        The lessons.

    Raises
    ------
    InputError
        If a scale or the question to the catalogue cannot be understood.
    FileError
        If a folder's name cannot be a slug, or a script cannot be read.
    """
    sources = _scripts(course)
    summaries = _examined(course, sources, pool, told)
    found: dict[str, Member] = {}
    for number, wish in enumerate(course.wishes, 1):
        scale = _scale_of(course, wish, number)
        _take(found, course, wish, wish.slug or slug_of(scale), scale)
    listed = {_tones(member.scale) for member in found.values() if member.scale}
    for scale in _asked(course):
        if _tones(scale) not in listed:
            _take(found, course, LessonWish(scale="-"), slug_of(scale), scale)
    for slug in [*found, *(slug for slug in sources if slug not in found)]:
        if slug in sources:
            found[slug] = _scripted(course, slug, sources[slug], summaries[slug], found.get(slug))
    return tuple(found.values())


def _tones(scale: Scale) -> tuple[int, int, int]:
    """Give what makes a scale the same, however its tones are spelled."""
    return scale.mask, scale.divisions, scale.root


def _scripts(course: Course) -> dict[str, str]:
    """Read the scripts that there are; folders without one are no lessons."""
    found = {}
    for path in sorted(course.lessons.glob("*/script.md")):
        slug = path.parent.name
        if not re.fullmatch(SLUG, slug) or len(slug) > 64:
            rule = "the folder of a lesson is named with small letters, figures and single hyphens, 64 at most"
            raise FileError(str(path.parent), rule, "Rename the folder.")
        try:
            found[slug] = path.read_bytes().decode("utf-8-sig")
        except (OSError, UnicodeDecodeError) as error:
            raise FileError(str(path), f"it cannot be read ({error})", "Scripts are UTF-8 text.") from error
    return found


def _examined(course: Course, sources: Mapping[str, str], pool: LocalPool, told: Told | None) -> dict[str, Summary]:
    jobs = {slug: examination_job(str(course.script_of(slug)), source) for slug, source in sources.items()}
    pool.finish(jobs.values(), functools.partial(told, "reading scripts") if told else None)
    return {slug: parcel_to_summary(pool.result(job)) for slug, job in jobs.items()}


def _scale_of(course: Course, wish: LessonWish, number: int) -> Scale:
    try:
        scale = read_scale(wish.scale, divisions=wish.divisions or course.divisions).scale
    except InputError as error:
        raise InputError(f"series.toml: lesson {number}, {error.value}", error.rule, error.next_step) from error
    if not scale.is_rooted:
        raise InputError(
            f"series.toml: lesson {number}, scale {wish.scale!r}",
            "the root is not one of its tones",
            "Name a root that is, such as 'D E F G A B C on D'.",
        )
    return scale


def _asked(course: Course) -> Sequence[Scale]:
    """Ask the catalogue."""
    if not course.scales.query.strip():
        return ()
    from gamutwright.catalogue.columns import MASK  # noqa: PLC0415 - duckdb is loaded only where it is asked
    from gamutwright.catalogue.query import Catalogue  # noqa: PLC0415 - as above

    root = read_scale(course.scales.root, divisions=course.divisions).scale.root
    with Catalogue(course.divisions) as catalogue:
        table = catalogue.find(course.scales.query, sort=course.scales.sort, limit=course.scales.most, columns=[MASK])
    return [Scale(int(mask), course.divisions, root) for mask in table.column(MASK).to_pylist()]


def _take(found: dict[str, Member], course: Course, wish: LessonWish, slug: str, scale: Scale) -> None:
    language = wish.language or course.language
    if slug in found and not wish.slug:
        slug = next(name for name in (f"{slug[:60]}-{k}" for k in range(2, len(found) + 3)) if name not in found)
    if slug in found:
        raise InputError(f"series.toml: slug {slug!r}", "two lessons have it", "Give one of them another.")
    title = spoken_name(scale, wording_for(language))
    found[slug] = Member(
        slug, scale, language, wish.level, wish.minutes or course.minutes, title[:1].upper() + title[1:]
    )


def _scripted(course: Course, slug: str, source: str, summary: Summary, listed: Member | None) -> Member:
    scale = summary.as_scale if summary.scale else listed.scale if listed else None
    title = summary.title or (listed.title if listed else slug)
    language = summary.language if not summary.problem else listed.language if listed else course.language
    return Member(slug, scale, language, summary.level, summary.minutes, title, source, summary)
