"""The state of a course as a page: what is urgent first, every report readable, nothing typed becomes markup."""

from __future__ import annotations

import copy
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import html

from gamutwright.codec import Plain
from gamutwright.errors import DomainError
from gamutwright.publish.site.state_page import state_page
from publish.courses import report
from publish.markup import sound
from publish.test_site import HOSTILE

LETTERS = st.text(alphabet="ab 3<>\"'&{}%./:-", max_size=12)
SMALL = st.none() | st.booleans() | st.integers() | st.floats() | LETTERS
KEYS = sorted({"lessons", "checks", "totals", "coverage", "title", "made", *report(12)["lessons"][0], "shown", "of"})
ANY = st.recursive(
    SMALL, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner), max_leaves=12
)


def texts(document: html.HtmlElement, path: str) -> list[str]:
    return [" ".join(found.text_content().split()) for found in document.xpath(path)]


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("count", [12, 60])
def test_markup_is_sound(language: str, count: int):
    document = sound(state_page(report(count), language))
    assert document.get("lang") == language
    assert len(document.xpath("//table[1]/tbody/tr")) == count + 3


def test_the_most_urgent_stands_first():
    """What the audience hears wrongly, then what cannot be built, then what only waits."""
    document = html.document_fromstring(state_page(report(24)))
    headings = texts(document, "//section[@id='next']//h3")
    assert [heading.rsplit(" ", 1) for heading in headings] == [
        ["Correct what the audience hears", "1"],
        ["Mend scripts", "1"],
        ["Look at builds that failed", "1"],
        ["Bring lessons into agreement", "1"],
        ["Record again", "1"],
        ["Write scripts", "1"],
        ["Look at changed definitions", "1"],
        ["Build", "1"],
    ]
    assert "8 things to do" in document.get_element_by_id("next").text_content()
    body = state_page(report(24)).index
    assert body('id="next"') < body("<table") < body('id="checks-h"') < body('id="coverage-h"')


def test_particulars_lead_to_the_place():
    said = " ".join(texts(html.document_fromstring(state_page(report(24))), "//section[@id='next']"))
    for told in (
        "line 12, column 4: “three semitones”: there are two, C♯ to D and E to F",
        "line 31, column 9: “the fourth mode”: it is the fifth",
        "at 1:04: said “strictly proper”; now “proper”. Caption: “It is strictly proper.”",
        "line k3f: “Seven of them are here.”",
        "Propriety at 1:23, 2:05",
        "the disk was full while the film was written",
    ):
        assert told in said


def test_the_table_tells_every_lesson_and_the_checks_their_results():
    given_ = report(24)
    document = html.document_fromstring(state_page(given_))
    rows = texts(document, "(//table)[1]/tbody/tr")
    for lesson, row in zip(given_["lessons"], rows, strict=True):
        assert row.startswith(f"{lesson['number']}{lesson['title']}")
        minutes, seconds = divmod(round(lesson["minutes"] * 60), 60)
        assert f"{minutes}:{seconds:02d}" in row
    assert "takes to record again: 1" in rows[6]
    assert "2026-03-04 18:20 UTC+01:00" in rows[3]
    checks = texts(document, "(//table)[2]/tbody/tr/td[1]")
    assert checks == ["broken", "not checked", "holds"]
    (links,) = document.xpath("(//table)[2]/tbody/tr[1]/td[2]")
    assert [link.get("href") for link in links.xpath(".//a")] == ["#lesson-3", "#lesson-9"]
    assert "gone" in links.text_content()
    shares = document.xpath("//dl[@class='coverage']//rect/@width")
    assert [float(share) for share in shares] == pytest.approx([100 * 31 / 88, 100, 0], abs=0.05)


def test_states_differ_by_shape_and_word():
    """WCAG 2.2, 1.4.1: colour alone says nothing."""
    document = html.document_fromstring(state_page(report(24)))
    states = document.xpath("(//table)[1]/tbody/tr/td[contains(@class, 'state')]")
    shapes = {state.text_content(): state.xpath(".//use/@href")[0] for state in states}
    assert len(shapes) == len(set(shapes.values())) == 5


def test_much_is_folded_and_nothing_lost():
    lessons = [{"slug": f"s{k}", "number": k, "title": f"Lesson {k}", "state": "to build"} for k in range(40)]
    document = html.document_fromstring(state_page({"lessons": lessons}))
    (task,) = document.find_class("task")
    assert len(task.xpath("./div/ul/li")) == 5
    assert texts(task, ".//summary") == ["and 35 more"]
    assert len(task.xpath(".//li")) == 40


def test_all_is_done():
    lessons = [{"slug": "s", "title": "S", "state": "built"}]
    assert "Nothing waits." in state_page({"lessons": lessons, "checks": []})
    assert "Nothing waits." not in state_page({"lessons": [{"slug": "s", "title": "S", "state": "asleep"}]})
    assert "asleep" in state_page({"lessons": [{"slug": "s", "title": "S", "state": "asleep"}]})


def test_nothing_typed_becomes_markup():
    def bad(value: Plain) -> Plain:
        if isinstance(value, list):
            return [bad(part) for part in value]
        if isinstance(value, dict):
            return {key: part if key == "state" else bad(part) for key, part in value.items()}
        return HOSTILE[len(str(value)) % len(HOSTILE)] if isinstance(value, str) else value

    text = state_page(bad(report(12)))
    document = sound(text)
    assert [script.get("type") for script in document.iter("script")] == ["module"]
    assert not document.xpath("//img")
    assert not [name for element in document.iter() for name in element.attrib if name.startswith("on")]
    assert "{{ 7*7 }}" in document.text_content()
    assert not re.search("[\u202a-\u202e\u2066-\u2069\x00-\x08]", text)
    assert not re.search(r"""(src|href)=["'](https?:)?//""", text)


def test_whatever_is_missing_is_left_out():
    full = report(12)
    for key in full:
        assert sound(state_page({k: v for k, v in full.items() if k != key})) is not None
    for part in ("lessons", "checks", "coverage"):
        for key in full[part][1]:
            less = copy.deepcopy(full)
            for row in less[part]:
                row.pop(key, None)
            assert sound(state_page(less)) is not None


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(KEYS), ANY))
def test_no_report_breaks_the_page(given_: dict[str, Plain]):
    assert sound(state_page(given_)) is not None


def test_other_languages_are_refused():
    with pytest.raises(DomainError, match="lessons are worded in"):
        state_page({}, "fr")


def test_rules_of_a_check_are_named_in_the_language_of_the_page():
    checks = [{"rule": "titles are unique", "state": "holds"}, {"rule": "a rule of somebody else", "state": "holds"}]
    page = state_page({"checks": checks}, "de")
    assert "Titel sind einmalig" in page
    assert "a rule of somebody else" in page
