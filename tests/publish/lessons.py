"""Lessons for the tests of publications: drafted or written, checked and laid out with durations that are made up."""

from __future__ import annotations

import re
from functools import cache

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.timeline import TICKS_PER_SECOND, Speech, SpokenWord
from gamutwright.lessons.assemble import assemble
from gamutwright.lessons.claims import check
from gamutwright.lessons.credits import Credits
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.engine import wording_for
from gamutwright.publish.told_lesson import Lesson, lesson_of
from gamutwright.stages import sounds_of

WORD = TICKS_PER_SECOND // 2


def speech_of(text: str) -> Speech:
    """Each word takes half a second."""
    words = [
        SpokenWord(found.start(), found.end(), WORD * index, WORD * (index + 1))
        for index, found in enumerate(re.finditer(r"\S+", text))
    ]
    return Speech(WORD * len(words), tuple(words))


@cache
def source_of(name: str, language: str = "en", minutes: float = 4.0, divisions: int = 12, story: str = "") -> str:
    """Draft the script of a lesson."""
    scale = read_scale(name, divisions=divisions).scale
    shares = shares_of(12) if divisions == 12 else None
    level = Level.RESEARCH if story == "portrait" else Level.FURTHER
    return draft(scale, Wish(level, minutes, story=story), language, shares=shares).source


def lesson_from(source: str, made_by: Credits | None = None) -> Lesson:
    """Check a script and lay it out, as `stages` does, without a voice."""
    script, registry = parse(source), default_registry()
    report = check(script, registry)
    sounds = sounds_of(script, report.scale, registry)
    speeches = {line.id: speech_of(line.text) for line in script.lines if line.text}
    name = spoken_name(report.scale, wording_for(script.front.language))
    title = dict(script.front.others).get("title", "") or name
    timeline = assemble(script, report.scale, registry, speeches, sounds, title=title)
    by_key = {key.id: sound for key, sound in sounds.items()}
    return lesson_of("a-lesson", title, report, registry, timeline, by_key, made_by)


@cache
def lesson(
    name: str = "G acoustic", language: str = "en", minutes: float = 4.0, divisions: int = 12, story: str = ""
) -> Lesson:
    """Draft a lesson and lay it out."""
    return lesson_from(source_of(name, language, minutes, divisions, story))
