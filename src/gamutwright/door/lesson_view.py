"""A lesson's script: checked, made into a film, or into everything a lesson is published with."""

from __future__ import annotations

from dataclasses import dataclass, field
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.door.scale_view import ScaleView
from gamutwright.lessons.claims import Claim, Report
from gamutwright.lessons.claims import check as check_script
from gamutwright.lessons.parse import load
from gamutwright.settings import Settings

if TYPE_CHECKING:
    from collections.abc import Callable

    from gamutwright.packaging import Package
    from gamutwright.stages import Made

__all__ = ["LessonCheck", "LessonView", "lesson"]


@dataclass(frozen=True, slots=True, repr=False)
class LessonCheck:
    """What a check of a script found.

    Parameters
    ----------
    report : Report
        Every claim with its verdict.
    """

    report: Report

    @property
    def is_proved(self) -> bool:
        """Whether every statement is proved."""
        return not self.report.faults

    @property
    def faults(self) -> tuple[Claim, ...]:
        """The statements that are not: words, reason, and what to do."""
        return self.report.faults

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<Check: {len(self.report.claims)} statements, {len(self.faults)} not proved>"

    def _repr_html_(self) -> str:
        rows = "".join(
            f"<tr><td>{escape(one.words)}</td><td>{escape(one.reason)}</td><td>{escape(one.mend)}</td></tr>"
            for one in self.faults
        )
        return f"<p>{escape(repr(self)[1:-1])}</p>" + (f"<table>{rows}</table>" if rows else "")


@dataclass(frozen=True, slots=True, repr=False)
class LessonView:
    """A lesson.

    Parameters
    ----------
    path : Path
        Its script; the file stays the teacher's own, and is read anew each time.
    settings : Settings
        Look and voice.
    """

    path: Path
    settings: Settings = field(default_factory=Settings)

    @property
    def text(self) -> str:
        """The script."""
        return self.path.read_text(encoding="utf-8")

    @property
    def scale(self) -> ScaleView:
        """The scale it is about."""
        return ScaleView(self.check().report.scale)

    def check(self) -> LessonCheck:
        """Hold every statement against what is computed.

        Returns
        -------
        LessonCheck
            What was found.

        Raises
        ------
        InputError
            If the script cannot be read.
        """
        return LessonCheck(check_script(load(self.path)))

    def render(self, folder: str | Path, *, progress: Callable[[str, int, int], None] | None = None) -> Made:
        """Make the film, with captions, chapters and ledger.

        Parameters
        ----------
        folder : str or Path
            Where the files go; an empty folder, or one that was made so before.
        progress : callable, optional
            Told the stage, how much of it is done, and how much there is.

        Returns
        -------
        Made
            `.files` and what is in the film.

        Raises
        ------
        UnprovedError
            If a statement is not proved.
        FileError
            If a file cannot be read or written.
        """
        from gamutwright.jobs.store import store_for  # noqa: PLC0415 - only making needs it
        from gamutwright.stages import choices_of, make_film  # noqa: PLC0415 - as above

        script = load(self.path)
        choices = choices_of(self.settings, script, self.path)
        return make_film(script, Path(folder), choices, progress=progress, store=store_for(self.path))

    def package(self, folder: str | Path, *, progress: Callable[[str, int, int], None] | None = None) -> Package:
        """Make everything the lesson is published with.

        Parameters
        ----------
        folder : str or Path
            Where the files go; the container lies beside it.
        progress : callable, optional
            Told the stage, how much of it is done, and how much there is.

        Returns
        -------
        Package
            `.folder`, `.files`, `.bundle`.

        Raises
        ------
        UnprovedError
            If a statement is not proved.
        FileError
            If a file cannot be read or written.
        """
        from gamutwright.jobs.store import store_for  # noqa: PLC0415 - only making needs it
        from gamutwright.packaging import make_package  # noqa: PLC0415 - as above
        from gamutwright.stages import choices_of  # noqa: PLC0415 - as above

        script = load(self.path)
        choices = choices_of(self.settings, script, self.path)
        return make_package(script, Path(folder), choices, progress=progress, store=store_for(self.path))

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<Lesson: {self.path}>"


def lesson(path: str | Path, *, theme: str = "night", rate: float = 1.0) -> LessonView:
    """Open a lesson's script.

    Parameters
    ----------
    path : str or Path
        The script.
    theme : str
        night or light.
    rate : float in [0.5, 2]
        How fast the voice speaks; 1 is the pace of teaching.

    Returns
    -------
    LessonView
        The lesson.

    Raises
    ------
    FileError
        If there is no such file.

    Examples
    --------
    >>> import gamutwright as gw
    >>> from tempfile import TemporaryDirectory
    >>> with TemporaryDirectory() as folder:
    ...     place = gw.scale("D dorian").draft(2).save(f"{folder}/script.md")
    ...     gw.lesson(place).check().is_proved
    True
    """
    place = Path(path)
    load(place)
    return LessonView(place, Settings(theme=theme, rate=rate))
