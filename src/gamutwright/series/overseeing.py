"""Looking after a course as a whole: what was published is read, held against the rules, and written down as a report.

Conventions: the report lies beside the packages, as a page for the teacher and as data for programs.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Final

from gamutwright.codec import Plain
from gamutwright.facts.registry import default_registry
from gamutwright.files import make_folder, write_text
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.outfolder import put_files
from gamutwright.jobs.run import LocalPool
from gamutwright.series.building import states_of
from gamutwright.series.course import Course
from gamutwright.series.course_checks import Found, check_course
from gamutwright.series.published import Package, films_read, packages_of
from gamutwright.series.reporting import Inquiry, course_report
from gamutwright.series.workshop import Workshop

__all__ = ["STATE_PAGE", "check_all", "report_on", "write_report"]

STATE_PAGE: Final = "state.html"
"""Name of the page of a course's state; its data lie beside it."""

Told = Callable[[str, int, int], None]


def check_all(
    workshop: Workshop, workers: int | None, told: Told, *, with_films: bool = True
) -> tuple[Mapping[str, Package], tuple[Found, ...]]:
    """Read what was published of a course, and check what has to agree between its lessons.

    Parameters
    ----------
    workshop : Workshop
        The course.
    workers : int or None
        How many processes; as many as there are cores without it.
    told : callable
        Told the stage, how much of it is done, and how much there is.
    with_films : bool
        Whether films are read back that were not read yet.

    Returns
    -------
    mapping of str to Package
        What was published, by slug.
    tuple of Found
        How every rule stands.
    """
    course, readings = workshop.course, None
    packages = packages_of(course.out, [member.slug for member in workshop.members])
    if with_films and packages:
        with LocalPool(workshop.store, workers) as pool:
            readings = films_read(
                packages, FileDigests(course.kept / "digests.json"), pool, partial(told, "reading films")
            )
    return packages, check_course(workshop.members, packages, default_registry(), readings)


def report_on(workshop: Workshop, workers: int | None, told: Told) -> tuple[Inquiry, dict[str, Plain]]:
    """Report on a course.

    Parameters
    ----------
    workshop, workers, told
        As for `check_all`.

    Returns
    -------
    Inquiry
        What was found out.
    dict
        The report, as `course_report` gives it.
    """
    states = states_of(workshop.course, workshop.members, workshop.store)
    inquiry = Inquiry(workshop.course, states, *check_all(workshop, workers, told))
    with LocalPool(workshop.store, workers) as pool:
        return inquiry, course_report(inquiry, default_registry(), pool)


def write_report(report: Mapping[str, Plain], course: Course, page: Path | None = None) -> Path:
    """Write a report as a page, with its data beside it.

    Parameters
    ----------
    report : mapping
        The report.
    course : Course
        The course.
    page : Path, optional
        Where the page goes, whatever is there; among what is made of the course without it.

    Returns
    -------
    Path
        The page.

    Raises
    ------
    FileError
        If it cannot be written, or what is there among what is made was not made here.
    """
    from gamutwright.publish.site.state_page import state_page  # noqa: PLC0415 - only who writes the page needs its fonts

    named = page or course.out / STATE_PAGE
    files = {
        named.name: state_page(report),
        named.with_suffix(".json").name: json.dumps(report, ensure_ascii=False, indent=1) + "\n",
    }
    if page is None:
        put_files(course.out, {name: text.encode() for name, text in files.items()}, course.replaced("site"))
        return named
    make_folder(page.parent)
    for name, text in files.items():
        write_text(page.with_name(name), text)
    return page
