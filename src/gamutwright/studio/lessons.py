"""The lesson that an address names, found in the course and nowhere else.

Conventions: a lesson in an address must be one of the course's, and its script must lie in the course, whatever links
lead out of it; nothing else of an address becomes part of a path.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.errors import FileError
from gamutwright.series.course import Course, is_slug, read_course

if TYPE_CHECKING:
    from fastapi import Request

__all__ = ["lesson_course", "script_path"]


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
        raise FileError(f"lesson {slug[:64]!r}", "the course has no such lesson", "Open one of the list.")
    return path
