"""Make a lesson in the language that nobody speaks, and print what a person would read of it: film, page, quiz.

Run with the language's folder on Python's path: `python leaks.py`.
"""

from __future__ import annotations

import dataclasses
import json
import re
import sys
from collections.abc import Iterator
from html.parser import HTMLParser

sys.path.insert(0, str(__import__("pathlib").Path(__file__).parents[1]))

from gamutwright.errors import ScriptError
from gamutwright.ir.cards import Entry
from gamutwright.ir.figure import Text
from gamutwright.ir.timeline import Panel
from gamutwright.lessons.claims import check
from gamutwright.lessons.language_checks import language_complaints
from gamutwright.lessons.parse import parse
from gamutwright.publish.description import publish_page
from gamutwright.publish.handout.sheets import handout
from gamutwright.publish.page.document import Media, page
from gamutwright.publish.quiz.selection import quiz
from gamutwright.publish.score.musicxml_score import score
from languages.pseudo import TAG
from publish.lessons import lesson_from, source_of

FAULTY = f"""---
scale: D dorian
language: {TAG}
---
# Faults
It has [nine]{{fact=cardinality}} tones and three more.
It is [not]{{fact=is_chiral}} so.
It lies [here]{{each=semitone_steps}}, and F sharp too.
[Two]{{fact=tritons}} of them, [two]{{fact=stability}} and [three]{{fact=cardinality at=9}}.
It is [something]{{define=tritones}}, and the [fifth]{{mode-of="C major"}}. {{show=lader}}
Hear it. {{play=skale}} And again. {{play=tune metre=9/8}}
"""
UNREADABLE = f"""---
scale: D dorian
language: {TAG}
minutes: 900
---
# One
- a list
It has [two]{{fact=}} and [three]{{fakt=x}} and [] and {{quote}} and * }} and `x` and <b>.
{{pause=99}} {{at=3}} ![a](b.png) [x]
"""


def complaints_of(source: str) -> list[str]:
    """What the check, or the reader, of a script says."""
    try:
        return [text for claim in check(parse(source)).faults for text in (claim.reason, claim.mend)]
    except ScriptError as error:
        return [problem.message for problem in error.problems]


class Texts(HTMLParser):
    """What a page shows: texts and attributes for people, with the classes around them."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._hidden += tag in {"script", "style"}
        self.found += [
            value for name, value in attrs if name in {"aria-label", "title", "alt", "placeholder"} and value
        ]

    def handle_endtag(self, tag: str) -> None:
        self._hidden -= tag in {"script", "style"}

    def handle_data(self, data: str) -> None:
        if not self._hidden and data.strip():
            self.found.append(data.strip())


def shown(record: object) -> Iterator[str]:
    """What the pictures and cards of a film show, wherever it stands in their records."""
    if isinstance(record, Text):
        yield record.text
    elif isinstance(record, Entry):
        yield from (record.text, record.value)
    elif isinstance(record, Panel):
        yield from (record.heading, record.value, record.sentence, record.above, *shown(record.entries))
        yield from shown(record.inset)
    elif dataclasses.is_dataclass(record):
        for field in dataclasses.fields(record):
            yield from shown(getattr(record, field.name))
    elif isinstance(record, tuple | list):
        for entry in record:
            yield from shown(entry)


def main() -> None:
    source = source_of("G acoustic", TAG, 6.0)
    told = lesson_from(source)
    asked = quiz(told, 10)
    media = Media("film.mp4", "poster.png", "", "captions.vtt", 1920, 1080, ())
    reader = Texts()
    reader.feed(page(told, (), media=media).html)
    spoken = [re.sub(r"\{[^}]*\}|[\[\]]", "", line) for line in source.partition("\n---\n")[2].splitlines() if line]
    sheets = handout(told, asked.questions)
    sys.stdout.write(
        json.dumps(
            {
                "complaints": language_complaints(TAG),
                "said of faults": [*complaints_of(FAULTY), *complaints_of(UNREADABLE)],
                "faults": [
                    f"{fault.reason}: {source[max(0, fault.span[0] - 60) : fault.span[1] + 30]}"
                    for fault in check(parse(source)).faults
                ],
                "script": spoken,
                "film": sorted({*shown(told.timeline.shots), *(mark.title for mark in told.timeline.chapters)}),
                "page": reader.found,
                "sheet": [text for _, text in sheets.printed],
                "quiz": [
                    text
                    for question in asked.questions
                    for text in (question.prompt, *(choice.why for choice in question.choices))
                ],
                "publish": publish_page(told).splitlines(),
                "score": re.findall(r"<words[^>]*>([^<]+)<", score(told)),
            },
            ensure_ascii=False,
        )
    )


if __name__ == "__main__":
    main()
