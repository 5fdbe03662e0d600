"""Whether a page is sound HTML, by rules written down here: no validator of the standard is asked."""

from __future__ import annotations

import re
from collections import Counter
from html.parser import HTMLParser
from itertools import pairwise

from lxml import html

__all__ = ["sound"]


class _Strict(HTMLParser):
    """Every element is closed where it must be, no attribute stands twice (WHATWG HTML, 13.1, from memory)."""

    VOID = frozenset({"meta", "link", "track", "input", "br"})

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs), (tag, attrs)
        if tag == "p":
            assert "p" not in self.open
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert "svg" in self.open, f"<{tag}/> closes itself only in a picture"

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def sound(text: str) -> html.HtmlElement:
    """Check nesting, ids, the targets of all links and the levels of headings; give the page as a tree."""
    assert text.startswith("<!doctype html>\n")
    checker = _Strict()
    checker.feed(text)
    checker.close()
    assert checker.open == []
    document = html.document_fromstring(text)
    ids = Counter(element.get("id") for element in document.iter() if element.get("id"))
    assert [name for name, count in ids.items() if count > 1] == []
    used = set(re.findall(r'href="#([^"]+)"', text)) | set(re.findall(r"url\(#([^)]+)\)", text))
    labels = re.findall(r'(?:aria-labelledby|aria-describedby|for)="([^"]+)"', text)
    used |= {name for names in labels for name in names.split()}
    assert used <= set(ids)
    levels = [int(heading.tag[1]) for heading in document.iter("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    return document
