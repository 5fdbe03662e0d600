"""Small courses for the tests: an evening course at the harbour's music school."""

from __future__ import annotations

from pathlib import Path

from gamutwright.series.contents import Member
from gamutwright.series.examining import summary_of

HEAD = """title = "Scales by the harbour"
imprint = "Harbour Music School, evening course"
minutes = 1
level = "foundation"

[film]
size = "720p"
"""
SHORT = """---
scale: {scale}
level: foundation
minutes: 1
language: en
title: {title}
lesson: {number}
---
# Steps

[We count the tones of a scale from the root up to the last tone below the octave]{{define=cardinality}}. {{#count}}
It has [{count}]{{fact=cardinality}} tones. {{#tones}}
"""


def script(scale: str = "D E F G A B C", title: str = "Dorian on D", number: int = 1, count: str = "seven") -> str:
    """A lesson of two lines, so short that its film is made in a second or two."""
    return SHORT.format(scale=scale, title=title, number=number, count=count)


def course_in(folder: Path, scripts: dict[str, str], head: str = HEAD) -> Path:
    """Write a course down."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "series.toml").write_text(head, encoding="utf-8")
    for slug, text in scripts.items():
        place = folder / "lessons" / slug / "script.md"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(text, encoding="utf-8")
    return folder


def member(slug: str, source: str) -> Member:
    """A lesson with its script examined."""
    summary = summary_of(f"{slug}/script.md", source)
    scale = summary.as_scale if summary.scale else None
    return Member(slug, scale, summary.language, summary.level, summary.minutes, summary.title or slug, source, summary)
