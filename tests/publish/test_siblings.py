"""Lessons of a course that point to each other: on the page, in the description, in the ledger."""

from __future__ import annotations

from dataclasses import replace

import pytest
from lxml import html

from gamutwright.lessons.ledger import ledger
from gamutwright.publish.book import with_lesson
from gamutwright.publish.description import description
from gamutwright.publish.page.document import Media, page
from gamutwright.publish.told_lesson import Lesson, Sibling
from publish.lessons import lesson_from

SCRIPT = """---
scale: G A B C D E F
next: Something announced
---
# Steps

It has [seven]{fact=cardinality} tones.
"""
KINDS = ("previous", "next", "translation", "transposition", "mode", "inversion")


@pytest.fixture(scope="module")
def made() -> Lesson:
    siblings = tuple(
        Sibling(f"lesson-{kind}", f"<b>Lesson 12</b> {kind}", kind, "de", f"https://harbour.example/lesson-{kind}/")
        for kind in KINDS
    )
    return replace(lesson_from(SCRIPT), siblings=siblings)


def test_the_page_links_to_every_sibling_and_to_the_course(made: Lesson):
    document = html.fromstring(page(made, media=Media()).html)
    (nav,) = document.xpath("//footer//nav")
    links = {link.get("href"): link for link in nav.iter("a")}
    assert set(links) == {"../index.html", *(f"../lesson-{kind}/index.html" for kind in KINDS)}
    assert links["../lesson-mode/index.html"].text_content() == "<b>Lesson 12</b> mode"
    assert links["../lesson-mode/index.html"].get("hreflang") == "de"
    # The lesson that follows is linked once, and not announced beside it under another title.
    assert not document.xpath("//p[@class='next']")
    assert ("lesson", "<b>Lesson 12</b> mode") in page(made, media=Media()).printed


def test_without_siblings_what_comes_next_is_announced_only():
    document = html.fromstring(page(lesson_from(SCRIPT), media=Media()).html)
    assert not document.xpath("//footer//nav")
    assert "Something announced" in document.xpath("//p[@class='next']")[0].text_content()


def test_the_description_names_them_with_their_addresses(made: Lesson):
    text = description(made).text
    assert "Next lesson: ‹b›Lesson 12‹/b› next: https://harbour.example/lesson-next/" in text
    assert "Something announced" not in text
    assert "Another mode of the same step pattern: ‹b›Lesson 12‹/b› mode: https://harbour.example/lesson-mode/" in text
    german = replace(
        made,
        script=lesson_from(
            SCRIPT.replace("---\n# ", "language: de\n---\n# ")
            .replace("It has [seven]", "Sie hat [sieben]")
            .replace(" tones.", " Töne.")
        ).script,
    )
    assert "Ein anderer Modus desselben Schrittmusters" in description(german).text


def test_the_ledger_lists_them(made: Lesson):
    book = with_lesson(ledger(made.report, made.registry), made, [])
    told = book["lesson"]
    assert isinstance(told, dict)
    assert told["siblings"] == [
        {"slug": f"lesson-{kind}", "kind": kind, "title": f"<b>Lesson 12</b> {kind}"} for kind in KINDS
    ]
