"""What a platform asks for when a film is uploaded: title, description with chapters and sources, tags.

Conventions: the limits of the largest platform hold (docs/package.md): a title of at most 100 characters, a description
of at most 5,000 bytes in UTF-8, tags of at most 500 characters together, no angle brackets; chapters begin at 0:00, are
at least three, ascend, and last ten seconds each. What does not fit is left out from the end, sources last.

References: figures from the platform's help pages, as the project's notes on standards hold them (partly from memory).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass

from gamutwright.facts.roles import Basic
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.languages import language_of
from gamutwright.phrasing.slots import filled
from gamutwright.publish.told_lesson import Lesson, Sibling, clock_time
from gamutwright.theory.naming import names_of

__all__ = ["Description", "cautions", "description", "plain_text", "publish_page"]

LONGEST_TITLE = 100
LARGEST_DESCRIPTION = 5_000
LONGEST_TAGS = 500
LONGEST_TAG = 100
LEAST_CHAPTERS = 3
LEAST_CHAPTER_S = 10


@dataclass(frozen=True, slots=True)
class Description:
    """What is typed or pasted when a film is uploaded.

    Parameters
    ----------
    title, text : str
        Title and description.
    tags : tuple of str
        Tags.
    chapters : tuple of (str, str)
        Times and titles in the description; () where a platform would not take them.
    """

    title: str
    text: str
    tags: tuple[str, ...]
    chapters: tuple[tuple[str, str], ...]


def plain_text(text: str, longest: int = 0) -> str:
    r"""Make a text harmless for a form: one line, no control signs, no angle brackets.

    Parameters
    ----------
    text : str
        Anything.
    longest : int
        Characters at most; 0 for any number.

    Returns
    -------
    str
        The text, with an ellipsis where it was cut.

    Examples
    --------
    >>> plain_text("A <b>scale</b>\x00 by the\nharbour", 22)
    'A ‹b›scale‹/b› by the…'
    """
    kept = "".join(
        " " if unicodedata.category(c) in {"Zl", "Zp"} or c in "\n\r\t" else c
        for c in text
        if c in "\n\r\t\u200d" or unicodedata.category(c) not in {"Cc", "Cf", "Cs", "Co", "Cn"}
    )
    words = " ".join(kept.replace("<", "‹").replace(">", "›").split())
    return words if not longest or len(words) <= longest else words[: longest - 1].rstrip() + "…"


def cautions(lesson: Lesson) -> tuple[str, ...]:
    """Say what a learner should know before playing a lesson.

    Parameters
    ----------
    lesson : Lesson
        The lesson.

    Returns
    -------
    tuple of str
        Sentences: listening level, flashes, and where a name comes from a tradition that tunes otherwise.
    """
    words = language_of(lesson.language).table("description")
    found = [words["level"], words["flashes"]]
    told = {telling.fact.roles.basic for telling in lesson.tellings}
    names = names_of(lesson.scale) if lesson.scale.divisions == 12 and Basic.NAMES in told else ()
    foreign = sorted({name.tradition for name in names if not name.is_tempered})
    if foreign:
        found.append(filled(words["tradition"], traditions=", ".join(foreign)))
    return tuple(found)


def _chapters(lesson: Lesson) -> tuple[tuple[str, str], ...]:
    """List chapters as platforms take them; a chapter that is too short is joined to the one before."""
    kept: list[tuple[int, str]] = []
    for mark in lesson.timeline.chapters:
        if not kept or mark.start_tick - kept[-1][0] >= LEAST_CHAPTER_S * TICKS_PER_SECOND:
            kept.append((mark.start_tick if kept else 0, plain_text(mark.title, LONGEST_TITLE)))
    while len(kept) > 1 and lesson.timeline.ticks - kept[-1][0] < LEAST_CHAPTER_S * TICKS_PER_SECOND:
        kept.pop()
    return tuple((clock_time(tick), title) for tick, title in kept) if len(kept) >= LEAST_CHAPTERS else ()


def description(lesson: Lesson) -> Description:
    """Write what a platform asks for.

    Parameters
    ----------
    lesson : Lesson
        The lesson.

    Returns
    -------
    Description
        Within the limits.
    """
    words, others = language_of(lesson.language).table("description"), lesson.others
    course, number = plain_text(others.get("course", ""), 200), plain_text(others.get("lesson", ""), 20)
    place = [filled(words["course"], course=course)] if course else []
    place += [filled(words["lesson"], number=number)] if number else []
    facts = ", ".join(telling.title for telling in lesson.tellings)
    chapters = _chapters(lesson)
    is_known = any(sibling.kind == "next" for sibling in lesson.siblings)
    speaker = plain_text(others.get("speaker", ""), 200) if lesson.credits.is_recorded else ""
    upcoming = "" if is_known else plain_text(others.get("next", ""), 200)
    siblings = [_pointed_to(sibling, words) for sibling in lesson.siblings]
    blocks = [
        plain_text(lesson.title, 300),
        " · ".join(place),
        filled(words["tones"], tones=_tones(lesson)),
        filled(words["told"], facts=facts) if facts else "",
        words["checked"],
        "\n".join([words["chapters"], *(f"{time} {title}" for time, title in chapters)]) if chapters else "",
        filled(words["recordings"], speaker=speaker) if speaker else "",
        "\n".join(cautions(lesson)),
        filled(words["next"], title=upcoming) if upcoming else "",
        "\n".join(siblings),
        "\n".join([words["sources"], *lesson.cited]),
    ]
    tags = (*(filled(tag.strip(), name=_tag(lesson.title, 60)) for tag in words["tag"].split(",")), *_names(lesson))
    text = _within("\n\n".join(block for block in blocks if block))
    return Description(plain_text(lesson.title, LONGEST_TITLE), text, _few(tags), chapters)


def _pointed_to(sibling: Sibling, words: Mapping[str, str]) -> str:
    """Name another lesson of the course, and where it is published."""
    said = filled(words[sibling.kind], title=plain_text(sibling.title, 200))
    return f"{said}: {sibling.address}" if sibling.address else said


def _tones(lesson: Lesson) -> str:
    scale = lesson.scale
    if scale.divisions != 12:
        return f"{' '.join(map(str, scale.tones))} ({scale.divisions})"
    return " ".join(lesson.note_names)


def _names(lesson: Lesson) -> list[str]:
    names = names_of(lesson.scale) if lesson.scale.divisions == 12 else ()
    return [_tag(name.name, LONGEST_TAG) for name in names]


def _tag(text: str, longest: int) -> str:
    """Make one tag of a text: platforms part tags at commas, so a dash stands for each."""
    return plain_text(" – ".join(part.strip() for part in text.split(",") if part.strip()), longest)


def _within(text: str) -> str:
    """Leave lines out from the end until the text fits."""
    lines = text.split("\n")
    while len("\n".join(lines).encode()) > LARGEST_DESCRIPTION:
        lines.pop()
    return "\n".join(lines).rstrip()


def _few(tags: tuple[str, ...]) -> tuple[str, ...]:
    kept: list[str] = []
    for tag in dict.fromkeys(tags):
        if tag and len(", ".join([*kept, tag])) <= LONGEST_TAGS:
            kept.append(tag)
    return tuple(kept)


def publish_page(lesson: Lesson) -> str:
    """Write everything that is pasted when a film is uploaded, as Markdown.

    Parameters
    ----------
    lesson : Lesson
        The lesson.

    Returns
    -------
    str
        Title, description and tags, each in a block to copy.
    """
    words, made = language_of(lesson.language).table("description"), description(lesson)
    parts = [f"# {words['heading']}", words["thumbnail"]]
    if not made.chapters:
        parts.append(words["few-chapters"])
    for heading, text in (
        (words["title"], made.title),
        (words["description"], made.text),
        (words["tags"], ", ".join(made.tags)),
    ):
        fence = "`" * max(3, 1 + max((len(run) for run in _runs(text)), default=0))
        parts.append(f"## {heading}\n\n{fence}text\n{text}\n{fence}")
    return "\n\n".join(parts) + "\n"


def _runs(text: str) -> list[str]:
    return [run for run in "".join(c if c == "`" else " " for c in text).split() if run]
