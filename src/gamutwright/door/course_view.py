"""A course: its lessons, their states, what has to agree between them, and its build."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from pathlib import Path

from gamutwright.door.lesson_view import LessonView
from gamutwright.facts.registry import default_registry
from gamutwright.jobs.run import LocalPool
from gamutwright.series.building import Built, State, build, due, settings_of, states_of
from gamutwright.series.course import read_course
from gamutwright.series.course_checks import Found
from gamutwright.series.overseeing import check_all
from gamutwright.series.planning import CoursePlan
from gamutwright.series.workshop import Workshop, open_course, plan_of

__all__ = ["CourseView", "course"]


def _untold(stage: str, done: int, total: int) -> None:
    del stage, done, total


@dataclass(frozen=True, slots=True, repr=False)
class CourseView:
    """A course.

    Parameters
    ----------
    folder : Path
        Its folder; read anew each time.
    """

    folder: Path

    def _opened(self) -> Workshop:
        return open_course(self.folder)

    @property
    def title(self) -> str:
        """What it is called."""
        return read_course(self.folder).title

    @property
    def lessons(self) -> dict[str, LessonView]:
        """Its lessons that have a script, by their folders' names, in order."""
        opened = self._opened()
        settings = settings_of(opened.course)
        paths = ((one.slug, opened.course.folder / "lessons" / one.slug / "script.md") for one in opened.members)
        return {slug: LessonView(path, settings) for slug, path in paths if path.is_file()}

    def states(self) -> tuple[State, ...]:
        """Say of every lesson whether it is built, and what it waits for.

        Returns
        -------
        tuple of State
            In order.
        """
        opened = self._opened()
        return states_of(opened.course, opened.members, opened.store)

    def plan(self) -> CoursePlan:
        """Put the lessons in an order in which every term is explained before it is used.

        Returns
        -------
        CoursePlan
            Every lesson with a scale at its place.
        """
        return plan_of(self._opened(), default_registry())

    def check(self, *, with_films: bool = True) -> tuple[Found, ...]:
        """Check what has to agree between lessons.

        Parameters
        ----------
        with_films : bool
            Whether films are read back that were not read yet.

        Returns
        -------
        tuple of Found
            How every rule stands.
        """
        return check_all(self._opened(), None, _untold, with_films=with_films)[1]

    def build(self, *, ended: Callable[[Built], None] | None = None) -> tuple[Built, ...]:
        """Make the lessons that changed.

        Parameters
        ----------
        ended : callable, optional
            Told what became of each lesson as it ends.

        Returns
        -------
        tuple of Built
            What became of each.
        """
        opened = self._opened()
        todo = due(states_of(opened.course, opened.members, opened.store))
        with LocalPool(opened.store) as pool:
            return build(opened.course, todo, pool, ended=ended)

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<Course: {self.title}, {self.folder}>"

    def _repr_html_(self) -> str:
        rows = "".join(
            f"<tr><td>{escape(one.member.title)}</td><td>{escape(one.condition.value)}</td></tr>"
            for one in self.states()
        )
        return f"<p><strong>{escape(self.title)}</strong></p><table>{rows}</table>"


def course(folder: str | Path) -> CourseView:
    """Open a course.

    Parameters
    ----------
    folder : str or Path
        Its folder, or anything in it.

    Returns
    -------
    CourseView
        The course.

    Raises
    ------
    FileError
        If there is none.
    InputError
        If its plan cannot be read.

    Examples
    --------
    >>> import gamutwright as gw
    >>> from tempfile import TemporaryDirectory
    >>> from gamutwright.series.course import begin_course
    >>> with TemporaryDirectory() as folder:
    ...     _ = begin_course(__import__("pathlib").Path(folder), "An evening course")
    ...     gw.course(folder).title
    'An evening course'
    """
    return CourseView(read_course(Path(folder)).folder)
