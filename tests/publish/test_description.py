"""What platforms and search engines are given: within their limits, harmless, and as schema.org and RO-Crate ask.

Limits of the largest platform: title of 100 characters, description of 5,000 bytes, tags of 500 characters, no angle
brackets, chapters from 0:00, three at least, ten seconds each (its help pages, as our notes on standards hold them,
partly from memory). ISO 8601 lengths, schema.org types and RO-Crate 1.1's required keys from memory.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.timeline import ChapterMark
from gamutwright.lessons.credits import Credits
from gamutwright.phrasing.engine import wording_for
from gamutwright.publish.description import cautions, description, plain_text, publish_page
from gamutwright.publish.metadata import iso_duration, json_ld, ro_crate
from gamutwright.publish.told_lesson import Lesson
from publish.lessons import lesson, lesson_from, source_of

HOSTILE = (
    "<script>alert(1)</script>",
    'a "quoted" & `ticked` title ```text',
    "שיר \u202eevil\u202c",
    "🎻🎻 fiddles",
    "x" * 300,
    "line\nbreak\x00and\x1bcontrol",
)


def named(title: str) -> Lesson:
    return replace(lesson(), title=title)


def seconds(time: str) -> int:
    total = 0
    for part in time.split(":"):
        total = total * 60 + int(part)
    return total


@pytest.mark.parametrize(
    "made", [lesson(), lesson("D dorian", "de"), lesson("C chromatic")], ids=["en", "de", "chromatic"]
)
def test_a_description_keeps_the_limits(made: Lesson):
    found = description(made)
    assert 0 < len(found.title) <= 100
    assert len(found.text.encode()) <= 5_000
    assert len(", ".join(found.tags)) <= 500
    assert not set("<>") & set(found.title + found.text + "".join(found.tags))
    times = [seconds(time) for time, _ in found.chapters]
    assert times[0] == 0
    assert len(times) >= 3
    assert all(later - earlier >= 10 for earlier, later in pairwise([*times, int(made.seconds)]))
    assert all(f"{time} {title}" in found.text for time, title in found.chapters)


@pytest.mark.parametrize("title", HOSTILE)
def test_hostile_titles_are_harmless(title: str):
    found = description(named(title))
    assert 0 < len(found.title) <= 100
    for text in (found.title, found.text):
        assert not re.search(r"[<>\x00-\x09\x0b-\x1f\u202a-\u202e]", text)
    page = publish_page(named(title))
    assert page.count("\n## ") == 3, "a title cannot end its block"
    assert json.loads(json_ld(named(title)))["name"] == found.title


@pytest.mark.parametrize(
    ("speaker", "is_recorded", "line"),
    [("the built-in voice", True, "Recordings spoken by: the built-in voice"), ("Ada", False, ""), ("", True, "")],
)
def test_who_speaks_the_recordings_is_said_where_it_is_known(speaker: str, is_recorded: bool, line: str):
    source = source_of("G acoustic").replace("scale:", f"speaker: {speaker}\nscale:", 1)
    lines = description(lesson_from(source, Credits(is_recorded=is_recorded))).text.split("\n")
    assert [one for one in lines if one.startswith("Recordings")] == ([line] if line else [])


def test_a_title_with_commas_is_one_tag():
    """Platforms part what is pasted at commas, as the tags of a film are read here."""
    made = named("Lydian, the scale with the window open,")
    tags = publish_page(made).rsplit("```text\n", 1)[1].split("\n")[0].split(", ")
    assert tags[:4] == ["music theory", "scales", "ear training", "Lydian – the scale with the window open"]
    assert tuple(tags) == description(made).tags
    assert not any("," in tag for tag in tags)


@given(st.text(max_size=400), st.integers(2, 120))
def test_any_text_becomes_one_plain_line(text: str, longest: int):
    plain = plain_text(text, longest)
    assert len(plain) <= longest
    assert not re.search(r"[<>\x00-\x1f\x7f-\x9f]", plain)
    assert plain_text(plain, longest) == plain


def test_a_very_long_description_is_cut_at_a_line():
    script = source_of("G acoustic").replace("---\nscale:", f"---\ncourse: {'é' * 190}\nnext: {'é' * 190}\nscale:", 1)
    made = lesson_from(script)
    many = replace(made, tellings=tuple(replace(t, title=t.title + "é" * 300) for t in made.tellings))
    assert len(description(many).text.encode()) <= 5_000


def test_few_or_short_chapters_are_not_listed():
    made = lesson()
    two = replace(made.timeline, chapters=made.timeline.chapters[:2])
    assert description(replace(made, timeline=two)).chapters == ()
    assert "three" in publish_page(replace(made, timeline=two))
    close = tuple(ChapterMark(index * 48_000, f"chapter {index}") for index in range(60))
    kept = description(replace(made, timeline=replace(made.timeline, chapters=close))).chapters
    times = [seconds(time) for time, _ in kept]
    assert all(later - earlier >= 10 for earlier, later in pairwise(times))


def test_the_usual_cautions_are_there_and_a_tradition_is_not_taken_for_its_tuning():
    """Thaats are not tuned by twelve equal steps (common practice, no source)."""
    said = " ".join(cautions(lesson()))
    assert "moderate level" in said
    assert "2.3.1" in said
    source = "---\nscale: C Db Eb F# G Ab B\n---\n# Names\nIt is called [todi]{fact=traditional_names}.\n"
    fact = lesson_from(source.replace("[todi]", "[" + _names() + "]"))
    assert "Hindustani thaats" in " ".join(cautions(fact))
    assert "Hindustani" not in said


def _names() -> str:
    scale, fact = read_scale("C Db Eb F# G Ab B").scale, default_registry().fact("traditional_names")
    value = fact.evaluate(scale)
    assert value is not None
    return wording_for("en").value_in_words(fact, value, scale)


def test_json_ld_names_film_clips_captions_and_transcript():
    made = lesson()
    found = json.loads(json_ld(made))
    assert (found["@context"], found["@type"], found["inLanguage"]) == ("https://schema.org", "LearningResource", "en")
    video = found["video"]
    assert video["@type"] == "VideoObject"
    assert video["caption"]["encodingFormat"] == "text/vtt"
    assert video["transcript"].split() == " ".join(line.text for line in made.timeline.lines).split()
    clips = video["hasPart"]
    assert [clip["name"] for clip in clips] == [mark.title for mark in made.timeline.chapters]
    assert all(clip["@type"] == "Clip" and clip["startOffset"] < clip["endOffset"] for clip in clips)
    assert [one["endOffset"] for one in clips[:-1]] == [one["startOffset"] for one in clips[1:]]
    assert set(found["teaches"]) == {telling.title for telling in made.tellings}
    assert "uploadDate" not in video, "what is not known is not said"
    assert json_ld(made) == json_ld(made)


@pytest.mark.parametrize(("ticks", "text"), [(0, "PT0M0S"), (48_000 * 59, "PT0M59S"), (48_000 * 3_661, "PT61M1S")])
def test_lengths_are_iso_8601(ticks: int, text: str):
    assert iso_duration(ticks) == text


def test_a_crate_has_what_the_specification_requires():
    files = {"film.mp4": (10, "a" * 64), "ledger.json": (3, "b" * 64)}
    graph = {entry["@id"]: entry for entry in json.loads(ro_crate(lesson(), files, "2026-03-01"))["@graph"]}
    descriptor = graph["ro-crate-metadata.json"]
    assert descriptor["about"] == {"@id": "./"}
    assert descriptor["conformsTo"] == {"@id": "https://w3id.org/ro/crate/1.1"}
    root = graph["./"]
    assert all(root[key] for key in ("name", "description", "datePublished", "license"))
    assert {part["@id"] for part in root["hasPart"]} == set(files)
    for name, (size, digest) in files.items():
        assert (graph[name]["contentSize"], graph[name]["sha256"]) == (str(size), digest)
    references = re.findall(r'\{"@id": "([^"]+)"\}', ro_crate(lesson(), files, "2026-03-01").replace("\n", ""))
    assert all(name in graph or name.startswith("https://") for name in references)
