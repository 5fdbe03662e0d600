"""The site of a course, gathered from what was published.

Conventions: a lesson is on the site as long as its package is there, whatever has changed since; what the site says
of it is what its ledger says.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from gamutwright.codec import digest
from gamutwright.jobs.job import sources_digest
from gamutwright.jobs.outfolder import put_files
from gamutwright.jobs.record import recall, remember
from gamutwright.jobs.store import Store
from gamutwright.phrasing.card_words import card_words
from gamutwright.phrasing.values import spoken_scale_name
from gamutwright.publish.site.lesson_cards import Card, Site
from gamutwright.series.building import State
from gamutwright.series.course import Course
from gamutwright.series.examining import scale_of
from gamutwright.series.published import Package, packages_of
from gamutwright.theory.naming import names_of
from gamutwright.theory.spelling import to_symbols, tone_names

__all__ = ["write_site"]

_SUMMARISED = 3
"""Values told in the sentence about a lesson."""


def write_site(course: Course, states: Sequence[State], store: Store) -> tuple[Path, ...]:
    """Write the index, the feeds and the map of a course's site beside its packages, where something has changed.

    Parameters
    ----------
    course : Course
        The course.
    states : sequence of State
        The state of its lessons, in order.
    store : Store
        Where it is remembered what the site was made from.

    Returns
    -------
    tuple of Path
        The files; () where no lesson was ever built. Files that would not change are left alone.
    """
    built = [state for state in states if state.made]
    made_from = [[state.member.slug, state.member.number, state.member.level, state.made] for state in built]
    about = [course.title, course.language, course.imprint, course.address]
    key = digest(
        ["site", sources_digest("publish", "languages", "phrasing", "theory", "series/website.py"), about, made_from]
    )
    told = recall(store, key)
    if isinstance(told, list):
        return tuple(course.out / str(name) for name in told)
    packages = packages_of(course.out, [state.member.slug for state in built])
    cards = tuple(_card(state, packages[state.member.slug]) for state in built if state.member.slug in packages)
    if not cards:
        return ()
    site = Site(course.title, course.language, course.imprint, course.address, cards)
    files = _files(site)
    put_files(course.out, files, course.replaced("site"))
    paths = [course.out / name for name in files]
    remember(store, key, [], paths, [path.name for path in paths])
    return tuple(paths)


def _files(site: Site) -> dict[str, bytes]:
    from gamutwright.publish.site.course_site import site_files  # noqa: PLC0415 - a build without changes does not draw a page

    return site_files(site)


def _card(state: State, package: Package) -> Card:
    member, told = state.member, package.book["lesson"]
    # What is built is the script as it is, its spelling included.
    scale, words = member.scale or scale_of(package.scale), card_words(member.language)
    is_twelve = scale.divisions == 12
    tones = (
        tuple(words.note(to_symbols(name)) for name in tone_names(scale)) if is_twelve else tuple(map(str, scale.tones))
    )
    facts = tuple((fact["title"], fact["text"]) for fact in told["facts"])
    return Card(
        slug=member.slug,
        number=member.number,
        title=told["title"],
        language=member.language,
        level=member.level,
        seconds=package.book["film"]["ticks"] / 48_000,
        date=package.date,
        tones=tones,
        divisions=scale.divisions,
        steps_up=scale.tones,
        names=tuple(spoken_scale_name(name.name, member.language) for name in names_of(scale)) if is_twelve else (),
        facts=facts,
        summary="; ".join(f"{title}: {text}" for title, text in facts[:_SUMMARISED]),
    )
