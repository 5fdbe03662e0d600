"""A story: when it fits a scale, its question, and its scenes in order.

A story is a file, ours or a teacher's own. It has no words: what is said stands in the wording of each language, under
the names that the story gives. So one story is told in every language, and a scale fits it in all of them alike.

    title = "story-one-tone-apart"
    fits = ["relation = changed", "changes <= 2"]
    score = 8

    [[scene]]
    chapter = "chapter-known"
    rank = 1
    lines = [
        { say = "one-beside", show = "comparison", with = "relative" },
        { say = "one-moves" },
        { say = "one-tune", play = "tune-changed" },
    ]

**Conventions.** A scene of rank 1 is always told; the others join in the order of their ranks as long as there is time.
A scene with `tell` is where the facts go that a plan has chosen for a part of the lesson, or all that have no other
place (`rest`). A scene with `use` stands for the scenes of a part that several stories share, none of them of a lower
rank than it says. A condition is a measure of `material`, or a measure with `=`, `!=`, `<`, `<=`, `>` or `>=` and a
number or word; a measure that a scale lacks is 0.
"""

from __future__ import annotations

import operator
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from typing import Any

from gamutwright.errors import InputError
from gamutwright.lessons.stories.material import Material

__all__ = ["LAST_SCORE", "Scene", "Story", "StoryLine", "built_in_stories", "holds", "read_story"]

_CONDITION = re.compile(r"(?P<name>[a-z][\w-]*)(?: *(?P<sign><=|>=|!=|=|<|>) *(?P<value>[\w-]+))?")
_SIGNS = {"=": operator.eq, "!=": operator.ne, "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge}
_CUES = ("show", "mark", "with", "play", "tempo", "metre", "bars", "version", "timbre", "pause")
LAST_RANK = 9
LAST_SCORE = 100


@dataclass(frozen=True, slots=True)
class StoryLine:
    """A sentence, or a silent line, of a scene.

    Parameters
    ----------
    say : str
        Which words of the wording; "" for a line that only sounds or shows.
    cues : mapping of str to str
        What is shown and heard, as attributes of a script; `with` names another scale by its part in the story.
    fits : tuple of str
        Conditions; the line is told where all hold.
    level : str
        The least level at which it is told.
    """

    say: str
    cues: Mapping[str, str]
    fits: tuple[str, ...] = ()
    level: str = "foundation"


@dataclass(frozen=True, slots=True)
class Scene:
    """Some sentences that belong together.

    Parameters
    ----------
    lines : tuple of StoryLine
        Its sentences, in order.
    chapter : str
        The heading that begins with it; "" where it goes on with the chapter before.
    rank : int in [1, 9]
        How soon it joins; 1 is always told.
    fits : tuple of str
        Conditions; the scene is told where all hold.
    tell : str
        The part of a plan that is told here; "" for none, `rest` for what no other scene tells.
    tells : tuple of str
        Facts that it makes plain, besides those that its sentences state.
    facts : tuple of str
        Facts that are stated after its sentences, those that say something of the scale.
    """

    lines: tuple[StoryLine, ...] = ()
    chapter: str = ""
    rank: int = 1
    fits: tuple[str, ...] = ()
    tell: str = ""
    tells: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Story:
    """A question, and how it is answered.

    Parameters
    ----------
    id : str
        Its name.
    question : str
        Which words ask its question, as the lesson does.
    fits : tuple of str
        Conditions; it is offered where all hold.
    score : int
        How well it fits.
    more : mapping of str to int
        What is added where a condition holds.
    scenes : tuple of Scene
        In the order of the lesson.
    is_asked_for : bool
        Whether it is told only where somebody asks for it.
    """

    id: str
    question: str
    fits: tuple[str, ...]
    score: int
    more: Mapping[str, int]
    scenes: tuple[Scene, ...]
    is_asked_for: bool = False

    def score_for(self, material: Material) -> int:
        """Score how well it fits a scale.

        Parameters
        ----------
        material : Material
            What there is to tell of the scale.

        Returns
        -------
        int
            0 where it does not fit.
        """
        if not all(holds(condition, material.measures) for condition in self.fits):
            return 0
        return self.score + sum(
            points for condition, points in self.more.items() if holds(condition, material.measures)
        )


def holds(condition: str, measures: Mapping[str, int | str]) -> bool:
    """Say whether a condition holds.

    Parameters
    ----------
    condition : str
        A measure, alone or with a sign and a value.
    measures : mapping of str to int or str
        Those of the scale's material.

    Returns
    -------
    bool
        Whether it holds; a number against a word never does, except by `!=`.

    Examples
    --------
    >>> about = {"changes": 1, "way": "down"}
    >>> [holds(text, about) for text in ("changes", "changes <= 2", "way = up", "pulls")]
    [True, True, False, False]
    """
    found = _CONDITION.fullmatch(condition.strip())
    if found is None:
        raise _refused(f"condition '{condition}'", "it is a measure, alone or as in 'changes <= 2'", "Mend it.")
    measure = measures.get(found["name"], 0)
    if found["sign"] is None:
        return bool(measure)
    value: int | str = int(found["value"]) if re.fullmatch(r"-?\d+", found["value"]) else found["value"]
    if isinstance(value, int) is not isinstance(measure, int):
        return found["sign"] == "!="
    return bool(_SIGNS[found["sign"]](measure, value))


def _refused(value: str, rule: str, next_step: str) -> InputError:
    return InputError(value, rule, next_step)


def read_story(name: str, text: str, parts: Mapping[str, str] | None = None) -> Story:
    r"""Read a story.

    Parameters
    ----------
    name : str
        Its id: the file's name without its ending.
    text : str
        The file's text, TOML.
    parts : mapping of str to str
        Texts of shared parts by name, before those that come with the program.

    Returns
    -------
    Story
        The story.

    Raises
    ------
    InputError
        If it is no TOML, or holds what no story holds.

    Examples
    --------
    >>> story = read_story("short", 'title = "ask"\n[[scene]]\nlines = [{ say = "hello", play = "scale" }]')
    >>> story.scenes[0].lines[0].cues
    {'play': 'scale'}
    """
    where = f"story '{name}'"
    table = _table(where, text)
    _only(where, table, {"title", "fits", "score", "more", "is_asked_for", "scene"})
    more = table.get("more", {})
    story = Story(
        name,
        _text(where, table, "title"),
        _texts(where, table, "fits"),
        _number(where, table, "score", 5, range(1, LAST_SCORE + 1)),
        {key: int(value) for key, value in more.items()},
        tuple(_scenes(where, table, {**_built_in_parts(), **(parts or {})})),
        table.get("is_asked_for") is True,
    )
    for condition in _conditions(story):
        holds(condition, {})  # only its form is looked at
    return story


def _table(where: str, text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _refused(where, f"its file is no TOML: {error}", "Mend the file there.") from error


def _scenes(where: str, table: Mapping[str, object], parts: Mapping[str, str]) -> Iterator[Scene]:
    """Read scenes, those of a part in the place of what uses it."""
    scenes = table.get("scene", [])
    if not isinstance(scenes, list) or not scenes:
        raise _refused(where, "it has no scene", "Begin one with [[scene]].")
    for number, scene in enumerate(scenes, 1):
        here = f"{where}, scene {number}"
        if not isinstance(scene, dict):
            raise _refused(here, "a scene is a table", "Begin it with [[scene]].")
        if "use" not in scene:
            yield _scene(here, scene)
            continue
        _only(here, scene, {"use", "rank"})
        used = _text(here, scene, "use")
        if used not in parts:
            raise _refused(f"{here}: use = '{used}'", f"there are {', '.join(sorted(parts))}", "Choose one of these.")
        least = _number(here, scene, "rank", 1, range(1, LAST_RANK + 1))
        part = _table(f"part '{used}'", parts[used])
        _only(f"part '{used}'", part, {"scene"})
        others = {name: text for name, text in parts.items() if name != used}  # a part may use others, not itself
        yield from (replace(one, rank=max(one.rank, least)) for one in _scenes(f"part '{used}'", part, others))


def _conditions(story: Story) -> Iterable[str]:
    yield from (*story.fits, *story.more)
    for scene in story.scenes:
        yield from scene.fits
        yield from (condition for line in scene.lines for condition in line.fits)


def _scene(where: str, table: Mapping[str, object]) -> Scene:
    _only(where, table, {"lines", "chapter", "rank", "fits", "tell", "tells", "facts"})
    lines = table.get("lines", [])
    if not isinstance(lines, list) or not (lines or table.get("tell") or table.get("facts")):
        raise _refused(where, "it neither says nor tells anything", 'Give it lines, or tell = "rest".')
    return Scene(
        tuple(_line(where, line) for line in lines),
        _text(where, table, "chapter", ""),
        _number(where, table, "rank", 1, range(1, LAST_RANK + 1)),
        _texts(where, table, "fits"),
        _text(where, table, "tell", ""),
        _texts(where, table, "tells"),
        _texts(where, table, "facts"),
    )


def _line(where: str, table: object) -> StoryLine:
    if not isinstance(table, dict):
        raise _refused(where, "a line is a table", 'Write it as { say = "..." }.')
    _only(where, table, {"say", "fits", "level", *_CUES})
    cues = {key: str(table[key]) for key in _CUES if key in table}
    if not cues and not table.get("say"):
        raise _refused(where, "a line neither says, shows nor plays anything", 'Write it as { say = "..." }.')
    return StoryLine(
        _text(where, table, "say", ""), cues, _texts(where, table, "fits"), _text(where, table, "level", "foundation")
    )


def _only(where: str, table: Mapping[str, object], known: set[str]) -> None:
    strange = sorted(table.keys() - known)
    if strange:
        raise _refused(f"{where}: '{strange[0]}'", f"there are {', '.join(sorted(known))}", "Take it out or rename it.")


def _text(where: str, table: Mapping[str, object], key: str, without: str | None = None) -> str:
    value = table.get(key, without)
    if not isinstance(value, str):
        raise _refused(f"{where}: {key}", "it is a text in quotation marks", f'Write {key} = "...".')
    return value


def _texts(where: str, table: Mapping[str, object], key: str) -> tuple[str, ...]:
    value = table.get(key, [])
    if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
        raise _refused(f"{where}: {key}", "it is a list of texts", f'Write {key} = ["...", "..."].')
    return tuple(value)


def _number(where: str, table: Mapping[str, object], key: str, without: int, allowed: range) -> int:
    value = table.get(key, without)
    if not isinstance(value, int) or value not in allowed:
        raise _refused(
            f"{where}: {key} = {value}", f"it is a number from {allowed[0]} to {allowed[-1]}", "Choose one of these."
        )
    return value


@lru_cache(maxsize=1)
def _built_in_parts() -> Mapping[str, str]:
    folder = resources.files(__package__).joinpath("parts")
    return {
        file.name.removesuffix(".toml"): file.read_text(encoding="utf-8")
        for file in sorted(folder.iterdir(), key=lambda file: file.name)
        if file.name.endswith(".toml")
    }


@lru_cache(maxsize=1)
def built_in_stories() -> tuple[Story, ...]:
    """Read the stories that come with the program.

    Returns
    -------
    tuple of Story
        In the order of their names.

    Examples
    --------
    >>> "one-tone-apart" in [story.id for story in built_in_stories()]
    True
    """
    files = resources.files(__package__)
    found = sorted(file.name for file in files.iterdir() if file.name.endswith(".toml"))
    return tuple(
        read_story(name.removesuffix(".toml"), files.joinpath(name).read_text(encoding="utf-8")) for name in found
    )
