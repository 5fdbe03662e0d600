"""Which lessons a course has: those written down, those a question to the catalogue gives, and those with a script.

Conventions: a lesson is known by its slug, the name of its folder. The catalogue gives no lesson about a scale that is
written down. A script is the last word about its lesson's scale, language and level; `series.toml` is asked only for
what has no script yet.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from gamutwright.errors import FileError, InputError
from gamutwright.files import is_device
from gamutwright.inputs.text import read_scale
from gamutwright.jobs.run import LocalPool
from gamutwright.languages import source_language
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.engine import wording_for
from gamutwright.series.course import LONGEST_SLUG, Course, LessonWish, is_slug
from gamutwright.series.examining import Summary, examination_job, lesson_title, parcel_to_summary, scale_record
from gamutwright.theory.scale import Scale

__all__ = ["Member", "free_slug", "members_of", "read_rooted_scale", "slug_of"]

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
    ('c-sharp-natural-minor', '19-divisions-0-5-11')
    """
    if scale.divisions != 12:
        return _slugged(f"{scale.divisions} divisions {' '.join(map(str, scale.pitch_classes))}")
    return _slugged(spoken_name(scale, wording_for(source_language().tag)))


def free_slug(slug: str, taken: Collection[str]) -> str:
    """Give a folder's name that is not taken.

    Parameters
    ----------
    slug : str
        The name that is wanted.
    taken : collection of str
        Names that are not free.

    Returns
    -------
    str
        The name, with a number behind it where it is taken.

    Examples
    --------
    >>> free_slug("d-dorian", {"d-dorian", "d-dorian-2"})
    'd-dorian-3'
    """
    numbered = (f"{slug[: LONGEST_SLUG - 4]}-{count}" for count in range(2, len(taken) + 3))
    return slug if slug not in taken else next(name for name in numbered if name not in taken)


def read_rooted_scale(text: str, divisions: int) -> Scale:
    """Read a scale that a lesson can be about.

    Parameters
    ----------
    text : str
        The scale, in any input form.
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    Scale
        The scale, its root among its tones.

    Raises
    ------
    InputError
        If it is no scale, or its root is none of its tones.
    """
    scale = read_scale(text, divisions=divisions).scale
    if not scale.is_rooted:
        raise InputError(
            f"scale {text!r}",
            "the root is not one of its tones",
            "Name a root that is, such as 'D E F G A B C on D'.",
        )
    return scale


def _slugged(text: str) -> str:
    plain = text.replace("♯", " sharp ").replace("#", " sharp ").replace("♭", " flat ")
    plain = re.sub(r"\bb(?=\d)", " flat ", plain)
    joined = re.sub(r"[^a-z0-9]+", "-", plain.casefold().encode("ascii", "ignore").decode()).strip("-")
    slug = joined[:LONGEST_SLUG].strip("-") or "lesson"
    return f"{slug}-lesson" if is_device(slug) else slug


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
    listed = {scale_record(member.scale) for member in found.values() if member.scale}
    for scale in _asked(course):
        if scale_record(scale) not in listed:
            _take(found, course, LessonWish(scale="-"), slug_of(scale), scale)
    for slug in [*found, *(slug for slug in sources if slug not in found)]:
        if slug in sources:
            found[slug] = _scripted(course, slug, sources[slug], summaries[slug], found.get(slug))
    return tuple(found.values())


def _scripts(course: Course) -> dict[str, str]:
    """Read the scripts that there are; folders without one are no lessons."""
    found = {}
    for path in sorted(course.lessons.glob("*/script.md")):
        slug = path.parent.name
        if not is_slug(slug):
            rule = (
                "the folder of a lesson is named with small letters, figures and single hyphens, 64 at most, and not "
                "like a device of Windows (con, nul, com1 ...)"
            )
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
        return read_rooted_scale(wish.scale, wish.divisions or course.divisions)
    except InputError as error:
        raise InputError(f"series.toml: lesson {number}, {error.value}", error.rule, error.next_step) from error


def _asked(course: Course) -> Sequence[Scale]:
    """Ask the catalogue."""
    if not course.scales.query.strip():
        return ()
    from gamutwright.catalogue.query import BITS, Catalogue  # noqa: PLC0415 - duckdb is loaded only where it is asked

    root = read_scale(course.scales.root, divisions=course.divisions).scale.root
    with Catalogue(course.divisions) as catalogue:
        found = catalogue.find(course.scales.query, sort=course.scales.sort, limit=course.scales.most, columns=[BITS])
    return [Scale.from_bits(bits, root) for bits in found.column(BITS)]


def _take(found: dict[str, Member], course: Course, wish: LessonWish, slug: str, scale: Scale) -> None:
    language = wish.language or course.language
    if not wish.slug:
        slug = free_slug(slug, found)
    if slug in found:
        raise InputError(f"series.toml: slug {slug!r}", "two lessons have it", "Give one of them another.")
    title = lesson_title(scale, language)
    found[slug] = Member(slug, scale, language, wish.level, wish.minutes or course.minutes, title)


def _scripted(course: Course, slug: str, source: str, summary: Summary, listed: Member | None) -> Member:
    scale = summary.as_scale if summary.scale else listed.scale if listed else None
    title = summary.title or (listed.title if listed else slug)
    language = summary.language if not summary.problem else listed.language if listed else course.language
    return Member(slug, scale, language, summary.level, summary.minutes, title, source, summary)
