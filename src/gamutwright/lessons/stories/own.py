"""A course's own stories, and its own words: what it greets and takes leave with, its formulas, its definitions.

A course keeps them beside its plan: `stories/<name>.toml`, `stories/parts/<name>.toml` and `wording/<language>.ftl`,
in the same form as ours. What has the name of one of ours stands in its place.

**Conventions.** All of it is text, so that a job can carry it and a digest can tell when it changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from gamutwright.errors import DomainError, FileError, InputError
from gamutwright.lessons.stories.story import Story, built_in_stories, read_story
from gamutwright.phrasing.engine import Wording, wording_for

__all__ = ["Own", "read_own"]


@dataclass(frozen=True, slots=True)
class Own:
    """What a course has of its own.

    Parameters
    ----------
    stories, parts, wording : tuple of (str, str)
        Names, or language tags, with the texts of their files.
    """

    stories: tuple[tuple[str, str], ...] = ()
    parts: tuple[tuple[str, str], ...] = ()
    wording: tuple[tuple[str, str], ...] = ()

    def told(self) -> tuple[Story, ...]:
        r"""Give all stories on offer: ours, and the course's before those of ours with the same names.

        Returns
        -------
        tuple of Story
            In the order of their names.

        Raises
        ------
        InputError
            If one of the course's cannot be read.

        Examples
        --------
        >>> mine = Own((("tide", 'title = "walk-ask"\n[[scene]]\nlines = [{ say = "walk-answer" }]'),))
        >>> "tide" in [story.id for story in mine.told()]
        True
        """
        if not self.stories and not self.parts:
            return built_in_stories()
        parts = dict(self.parts)
        found = {story.id: story for story in built_in_stories()}
        found |= {name: read_story(name, text, parts) for name, text in self.stories}
        return tuple(found[name] for name in sorted(found))

    def wording_for(self, language: str) -> Wording:
        """Give the wording of a language with the course's own words.

        Parameters
        ----------
        language : str
            Language tag.

        Returns
        -------
        Wording
            The wording.

        Raises
        ------
        InputError
            If the course's file does not parse.
        """
        own = dict(self.wording).get(language, "")
        try:
            return wording_for(language, own)
        except DomainError as error:
            if not own:
                raise
            raise InputError(f"wording/{language}.ftl: {error.value}", error.rule, error.next_step) from error


def read_own(folder: Path) -> Own:
    """Read what a course has of its own.

    Parameters
    ----------
    folder : Path
        The course.

    Returns
    -------
    Own
        Empty where it has nothing.

    Raises
    ------
    FileError
        If a file cannot be read.
    """
    stories = folder / "stories"
    return Own(_texts(stories, ".toml"), _texts(stories / "parts", ".toml"), _texts(folder / "wording", ".ftl"))


def _texts(folder: Path, ending: str) -> tuple[tuple[str, str], ...]:
    found: dict[str, str] = {}
    for path in sorted(folder.glob(f"*{ending}")) if folder.is_dir() else ():
        try:
            found[path.name.removesuffix(ending)] = path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            raise FileError(str(path), f"it cannot be read: {error}", "Save it as UTF-8 text.") from error
    return tuple(found.items())
