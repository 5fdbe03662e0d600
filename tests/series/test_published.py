"""What is taken as published: ledgers that hold what is read of them; any other counts as none."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from gamutwright.jobs.outfolder import CRATE
from gamutwright.series.published import packages_of

BOOK: dict[str, Any] = {
    "scale": {"divisions": 12, "root": 2, "tones": [0, 2, 3, 5, 7, 9, 10]},
    "lesson": {"title": "Dorian", "facts": [{"id": "cardinality", "title": "Tones", "text": "seven", "value": 7}]},
    "film": {
        "ticks": 48_000,
        "picture": {"width": 1280, "height": 720},
        "loudness": {"target_lufs": -16},
        "colours": [{"role": "ground", "colour": "#10151F"}],
    },
}


@pytest.fixture
def out(tmp_path: Path) -> Path:
    folder = tmp_path / "dorian"
    folder.mkdir()
    (folder / "ledger.json").write_text(json.dumps(BOOK))
    (folder / CRATE).write_text(json.dumps({"@graph": [{"@id": "./", "datePublished": "2026-03-04"}]}))
    return tmp_path


def test_a_ledger_with_what_is_read_of_it_is_taken(out: Path):
    package = packages_of(out, ["dorian", "ionian"])["dorian"]
    assert (package.date, package.scale, package.siblings) == ("2026-03-04", ("101101010110", 2), [])


@pytest.mark.parametrize(
    ("place", "value"),
    [
        ("scale.divisions", "1e999"), ("scale.divisions", "1000000000"), ("scale.divisions", '"12"'),
        ("scale.tones", "[12]"), ("scale.tones", "7"), ("scale.root", "-1"), ("lesson.title", "null"),
        ("lesson.facts", "[3]"), ("lesson.facts", "{}"), ("film.ticks", "NaN"), ("film.colours", '["ground"]'),
        ("film", "[" * 900 + "]" * 900), ("film", "[" * 100_000),
    ],
)  # fmt: skip
def test_any_other_counts_as_none(place: str, value: str, out: Path):
    book = json.loads(json.dumps(BOOK))
    *above, last = place.split(".")
    holder = book[above[0]] if above else book
    holder[last] = "HERE"
    (out / "dorian" / "ledger.json").write_text(json.dumps(book).replace('"HERE"', value))
    assert packages_of(out, ["dorian"]) == {}


@pytest.mark.parametrize("told", ["[" * 100_000, "[]", "{}", '{"@graph": 3}', '{"@graph": [3, {"@id": "./"}]}'])
def test_a_package_without_a_day_counts_as_none(told: str, out: Path):
    (out / "dorian" / CRATE).write_text(told)
    assert packages_of(out, ["dorian"]) == {}
