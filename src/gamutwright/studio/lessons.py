"""The lesson that an address names, found in the course and nowhere else.

Conventions: a lesson in an address must be one of the course's, and its script must lie in the course, whatever links
lead out of it; nothing else of an address becomes part of a path.
"""

from __future__ import annotations

import functools
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gamutwright.errors import FileError, told
from gamutwright.languages import source_language
from gamutwright.lessons.outline import front_of
from gamutwright.series.course import Course, is_slug, read_course
from gamutwright.series.examining import summary_of

if TYPE_CHECKING:
    from fastapi import Request

__all__ = ["heading_of", "lesson_course", "lesson_frame", "script_path"]


def lesson_course(request: Request, slug: str) -> Course:
    """Give the course, where it has a lesson.

    Parameters
    ----------
    request : Request
        What was asked.
    slug : str
        The lesson, as the address names it.

    Returns
    -------
    Course
        The course.

    Raises
    ------
    FileError
        If the course has no such lesson, or its script lies elsewhere.
    """
    course = read_course(request.app.state.place.course)
    script_path(course, slug)
    return course


def script_path(course: Course, slug: str) -> Path:
    """Find the script of a lesson.

    Parameters
    ----------
    course : Course
        The course.
    slug : str
        The lesson, as somebody names it.

    Returns
    -------
    Path
        Its script, inside the course.

    Raises
    ------
    FileError
        If the course has no such lesson, or its script lies elsewhere.
    """
    path = course.script_of(slug) if is_slug(slug) else None
    if path is None or not path.is_file() or not path.resolve().is_relative_to(course.folder.resolve()):
        raise FileError(
            told("lesson {slug}", slug=repr(slug[:64])),
            told("the course has no such lesson"),
            told("Open one of the list."),
        )
    return path


@functools.lru_cache(maxsize=256)
def _summed_up(front: str) -> tuple[str, str]:
    summary = summary_of("script.md", f"{front}\n")
    return summary.title, summary.language


def heading_of(source: str) -> tuple[str, str]:
    r"""Give what stands over every screen of a lesson, from the head of its script alone.

    Parameters
    ----------
    source : str
        The script.

    Returns
    -------
    tuple of (str, str)
        What the lesson is called, "" where that cannot be read; and the tag of its language.

    Examples
    --------
    >>> heading_of("---\nscale: D dorian\nlanguage: de\n---\nA line that is never ]read.\n")
    ('D dorisch', 'de')
    """
    front = front_of(source)
    return _summed_up(front) if front else ("", source_language().tag)


def lesson_frame(course: Course, slug: str, source: str, here: str, screen: str) -> dict[str, Any]:
    """Give what the frame of a lesson's screens prints.

    Parameters
    ----------
    course : Course
        The course.
    slug : str
        The lesson.
    source : str
        Its script.
    here : str
        Which screen it is: script, speak, see or make.
    screen : str
        What the screen is called.

    Returns
    -------
    dict
        For the template.
    """
    title, language = heading_of(source)
    called = title or slug
    return {
        "here": here,
        "title": f"{screen} · {called} · {course.title}",
        "course_title": course.title,
        "lesson_title": called,
        "language": language,
        "slug": slug,
    }
