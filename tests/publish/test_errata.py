"""Corrections of a published lesson: found, placed in time, and put into words.

The changed definitions are made here: a count that another school would make otherwise, and a reworded definition.
"""

from __future__ import annotations

import json
from dataclasses import replace
from importlib import resources
from pathlib import Path

import jsonschema
import pytest

from gamutwright.codec import digest
from gamutwright.errors import FileError
from gamutwright.facts.model import Fact
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.lessons.ledger import ledger
from gamutwright.publish.book import with_lesson
from gamutwright.publish.errata import errata, errata_page
from publish.lessons import lesson_from

SCRIPT = """---
scale: G A B C# D E F
title: The scale of the <quay>
---
# Steps

It has [seven]{fact=cardinality show=keyboard} tones. {#tones}
There are [two]{fact=semitone_steps} semitone steps: [C sharp to D and E to F]{each=semitone_steps}. {#steps}
"""


@pytest.fixture
def package(tmp_path: Path) -> Path:
    made = lesson_from(SCRIPT)
    book = with_lesson(ledger(made.report, made.registry), made, [("fact:cardinality", "7")])
    (tmp_path / "script.md").write_text(SCRIPT, encoding="utf-8")
    (tmp_path / "ledger.json").write_text(json.dumps(book, ensure_ascii=False), encoding="utf-8")
    return tmp_path


def with_fact(fact_id: str, **changes: object) -> Registry:
    registry = default_registry()
    changed: Fact = replace(registry.facts[fact_id], **changes)  # type: ignore[arg-type]  # fields of a fact
    return replace(registry, facts={**registry.facts, fact_id: changed})


def test_where_nothing_changed_nothing_is_corrected(package: Path):
    found = errata(package, default_registry())
    assert (found.corrections, found.redefined) == ((), ())
    assert "still holds" in errata_page(found)


def test_a_changed_value_is_found_with_its_time_and_its_caption(package: Path):
    found = errata(package, with_fact("cardinality", value=lambda scale: scale.cardinality + 1))
    (one,) = found.corrections
    book = json.loads((package / "ledger.json").read_text("utf-8"))
    (line,) = (line for line in book["lesson"]["lines"] if line["id"] == "tones")
    assert (one.fact_id, one.line_id, one.start_ms, one.end_ms) == (
        "cardinality", "tones", line["start_ms"], line["end_ms"],
    )  # fmt: skip
    assert (one.said, one.now) == ("seven", "eight")
    assert one.caption == "It has seven tones."
    assert one.corrected == "It has eight tones."
    page = errata_page(found)
    assert "It has eight tones." in page
    assert f"{line['start_ms'] // 60_000}:{line['start_ms'] // 1000 % 60:02d}" in page
    assert "<quay>" not in page


def test_a_reworded_definition_is_told_though_the_value_stays(package: Path):
    doc = "Another way to put it."
    found = errata(package, with_fact("cardinality", doc=doc))
    (changed,) = found.redefined
    assert changed.title == "Number of tones"
    book = json.loads((package / "ledger.json").read_text("utf-8"))
    (line,) = (line for line in book["lesson"]["lines"] if line["id"] == "tones")
    assert changed.starts_ms == (line["start_ms"],)
    assert found.corrections == ()
    assert "Number of tones" in errata_page(found)


def test_a_fact_that_is_gone_is_a_correction(package: Path):
    registry = default_registry()
    facts = {key: fact for key, fact in registry.facts.items() if key != "cardinality"}
    found = errata(package, replace(registry, facts=facts))
    assert [one.said for one in found.corrections] == ["seven"]
    assert errata_page(found)


@pytest.mark.parametrize(
    "damage",
    ["", "{}", "[]", '{"lesson": 3}', "\x00", '{"claims": [], "tool": {}, "lesson": {}}', "[" * 100_000, '{"a":' * 900],
)
def test_what_is_no_package_is_said(damage: str, package: Path):
    (package / "ledger.json").write_text(damage, encoding="utf-8")
    with pytest.raises(FileError, match="gamutwright package"):
        errata(package, default_registry())


def test_the_ledger_of_a_package_is_as_its_schema_says(package: Path):
    book = json.loads((package / "ledger.json").read_text("utf-8"))
    schema = resources.files("gamutwright.schemas").joinpath("ledger.schema.json").read_text("utf-8")
    jsonschema.validate(book, json.loads(schema))
    assert book["digest"] == digest({key: value for key, value in book.items() if key != "digest"})
