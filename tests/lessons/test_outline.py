"""Rows of texts that cannot be read: nothing is left out, and where a script can be read, both agree on its lines."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import ScriptError
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.draft import draft
from gamutwright.lessons.outline import outline
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish

BROKEN = """---
scale: C D E
---
# Steps

It has [three tones.
{play=scale}

- A list.

## More
The end. {#end}
"""


@pytest.mark.parametrize(("name", "language"), [("G acoustic", "en"), ("C melodic minor", "de")])
def test_it_agrees_with_the_parser_where_a_sentence_has_its_row(name: str, language: str):
    source = draft(read_scale(name).scale, Wish(minutes=6.0), language).source
    script, found = parse(source), outline(source)
    assert [(start, end) for start, end, _ in found.lines] == [line.span for line in script.lines]
    assert list(found.headings) == [chapter.heading for chapter in script.chapters if chapter.title]
    passages = [place for place, passage in enumerate(script.passages) for _ in passage.lines]
    assert [place for _, _, place in found.lines] == passages


def test_a_text_that_cannot_be_read_keeps_its_rows():
    with pytest.raises(ScriptError):
        parse(BROKEN)
    found = outline(BROKEN)
    assert [BROKEN[start:end] for start, end in found.headings] == ["Steps", "More"]
    assert [(BROKEN[start:end], place) for start, end, place in found.lines] == [
        ("It has [three tones.", 0), ("{play=scale}", 0), ("- A list.", 1), ("The end. {#end}", 2),
    ]  # fmt: skip


def test_front_matter_that_is_not_closed_is_rows():
    assert len(outline("---\nscale: C D E\n").lines) == 2
    assert outline("---\n---\n").lines == ()
    assert outline("").lines == ()


@given(st.text(st.sampled_from("ab#- \t\r\n[]{}𝄪"), max_size=120))
def test_nothing_is_left_out_and_nothing_stands_twice(text: str):
    found = outline("\n" + text)  # front matter stands at the very beginning only
    spans = sorted([*found.headings, *((start, end) for start, end, _ in found.lines)])
    assert all(start < end for start, end in spans)
    assert all(one[1] <= other[0] for one, other in itertools.pairwise(spans))
    rows = ["".join(("\n" + text)[start:end].split()) for start, end in spans]
    written = ["".join(row.split()) for row in text.split("\n")]
    assert [row.lstrip("#") for row in rows] == [row.lstrip("#") for row in written if row]
