"""What an audit hands over: the page, the data, the command; and drafted lessons read as plain text."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

from gamutwright.cli import audit_command
from gamutwright.errors import FileError, InputError
from gamutwright.facts.vocabulary import Level
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.audit import audit
from gamutwright.lessons.auditing.audit_report import audit_to_markdown, audit_to_plain
from gamutwright.lessons.claims import Verdict
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.script import Script
from thinning import thinned

TALK = """1
00:00:01,000 --> 00:00:04,000
The G acoustic scale has three semitones: here, here

2
00:00:04,000 --> 00:00:06,000
and here. The try tone | is *rare*.

3
00:00:06,500 --> 00:00:08,000
It has seven notes. Eight people came. How nice.
"""


def test_the_page_says_what_is_wrong_first_with_time_and_correction():
    page = audit_to_markdown(audit(TALK, name="talk.srt"))
    headings = [line for line in page.splitlines() if line.startswith("## ")]
    assert headings == [
        "## What is wrong",
        "## Words that sound like a term",
        "## Not understood",
        "## Confirmed",
        "## Plain prose",
    ]
    wrong = page[page.index("## What is wrong") : page.index("## Words that")]
    assert "### 0:01.0: Semitone steps" in wrong
    assert "It says: three. What is so: two." in wrong
    assert "C sharp to D and E to F" in wrong
    assert "Eight people came." in page[page.index("## Not understood") :]
    assert "How nice." in page[page.index("## Plain prose") :]


def test_words_of_the_text_cannot_break_the_page():
    page = audit_to_markdown(
        audit("# The C major scale\n\nIt has | nine notes | and <b> `x` *y* [z](w).", name="a|b*.md")
    )
    html = MarkdownIt("commonmark").enable("table").render(page)
    assert "<b>" not in html
    assert "<em>" not in html
    assert html.count("<h1>") == 1


def test_the_data_counts_what_it_lists():
    data = audit_to_plain(audit(TALK, name="talk.srt"))
    assert json.loads(json.dumps(data)) == data
    assert data["format"] == "gamutwright.audit/1"
    verdicts = [statement["verdict"] for statement in data["statements"]]
    assert data["counts"]["contradicted"] == verdicts.count("contradicted") == 2
    assert data["counts"]["confirmed"] == verdicts.count("confirmed") == 1
    assert data["counts"]["not_understood"] == len(data["not_understood"])
    assert data["counts"]["plain"] == len(data["plain"]) == 1
    assert data["statements"][0]["time_s"] == 1.0
    assert data["statements"][0]["witnesses"]


def test_the_command_exits_with_one_where_something_is_wrong(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    file = tmp_path / "talk.srt"
    file.write_bytes(TALK.encode("utf-16"))
    assert audit_command.run(file, as_json=True) == 1
    data = json.loads(capsys.readouterr().out)
    assert data["name"] == "talk.srt"
    assert any("UTF-16" in remark["message"] for remark in data["remarks"])
    right = tmp_path / "right.txt"
    right.write_text("It has seven notes.", encoding="utf-8")
    report = tmp_path / "report.md"
    assert audit_command.run(right, scale="C major", output=report) == 0
    assert report.read_text(encoding="utf-8").startswith("# Audit of right.txt")
    assert capsys.readouterr().out == ""


def test_the_command_says_what_it_cannot_read_or_write(tmp_path: Path):
    with pytest.raises(InputError, match="cannot be read"):
        audit_command.run(tmp_path / "none.txt")
    file = tmp_path / "talk.txt"
    file.write_text("It has seven notes.", encoding="utf-8")
    with pytest.raises(FileError, match="cannot be written"):
        audit_command.run(file, scale="C major", output=tmp_path / "no" / "report.md")


def spoken(script: Script) -> str:
    """What is said, under its headings."""
    chapters = [
        "\n\n".join(
            [f"# {chapter.title}", *(" ".join(line.text for line in passage.lines) for passage in chapter.passages)]
        )
        for chapter in script.chapters
    ]
    return "\n\n".join(chapters)


@pytest.mark.parametrize(
    ("scale", "language"),
    thinned(
        itertools.product(
            ["C major", "G acoustic", "A harmonic minor", "D dorian", "pcs: 9 0 2 3 4 7", "C whole-tone"], ["en", "de"]
        ),
        0.25,
    ),
)
def test_drafted_lessons_without_their_bindings_are_not_contradicted(scale: str, language: str):
    # The check of scripts proves each claim of these lessons, and knows nothing of the patterns used here.
    for level in (Level.FURTHER, Level.RESEARCH):
        script = parse(draft(read_scale(scale).scale, Wish(level=level, minutes=6.0), language).source)
        found = audit(spoken(script), scale=script.front.scale, language=language)
        wrong = [(s.words, s.reason) for s in found.of(Verdict.CONTRADICTED)]
        assert wrong == []
        assert len(found.of(Verdict.CONFIRMED)) >= 5
