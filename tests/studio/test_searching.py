"""The catalogue on a screen: what is found by slow definitions and another library, its help, and its building."""

from __future__ import annotations

import itertools
import json
import os
import signal
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import music21
import pytest

from gamutwright.catalogue.build import is_built
from gamutwright.catalogue.query import Catalogue
from gamutwright.errors import CatalogueError, InputError, JobError
from gamutwright.files import CACHE_VARIABLE
from gamutwright.studio import cataloguing
from gamutwright.studio.cataloguing import Catalogues
from gamutwright.studio.searching import A_PAGE, EXAMPLES, columns_for, search
from gamutwright.theory.scale import Scale

DORIAN = Scale.of(2, 4, 5, 7, 9, 11, 0)


@pytest.fixture(scope="module")
def catalogue() -> Iterator[Catalogue]:
    with Catalogue(12) as opened:
        yield opened


def tones_of(row: dict) -> tuple[int, ...]:
    return tuple(tone for tone, sign in enumerate(row["bits"]) if sign == "1")


def all_rows(catalogue: Catalogue, condition: str, **how: object) -> list[dict]:
    first = search(catalogue, condition, DORIAN, **how)
    return [
        row for page in range(first["pages"]) for row in search(catalogue, condition, DORIAN, page=page, **how)["rows"]
    ]


def test_what_is_found_has_the_vector_that_another_library_gives(catalogue: Catalogue):
    rows = all_rows(catalogue, "interval_class_vector = [2, 5, 4, 3, 6, 1]")
    # The diatonic set, 7-35 (Forte 1973), has seven modes.
    assert len(rows) == 7
    for row in rows:
        chord = music21.chord.Chord([60 + row["root"] + tone for tone in tones_of(row)])
        assert chord.intervalVector == [2, 5, 4, 3, 6, 1]
        assert chord.forteClassTn.startswith("7-35")
        assert row["values"] == ["2 5 4 3 6 1"]


def test_melakartas_are_found_by_their_rule(catalogue: Catalogue):
    # Seven tones with the fifth and one of the two fourths: 72 of them (Govindacharya's scheme, from memory).
    shape = "cardinality = 7 AND list_contains(pitch_classes, 7) AND len(names) > 0"
    rows = all_rows(catalogue, shape)
    melas = [row for row in rows if sum(tone in {5, 6} for tone in tones_of(row)) == 1
             and sum(0 < tone < 5 for tone in tones_of(row)) == 2]  # fmt: skip
    assert len(melas) == 72
    assert all("mela" in row["names"] or "more" in row["names"] for row in melas)


def test_pages_follow_one_another_without_gap(catalogue: Catalogue):
    rows = all_rows(catalogue, "cardinality = 6")
    # Every set of five tones above the root.
    assert sorted(tones_of(row) for row in rows) == [(0, *rest) for rest in itertools.combinations(range(1, 12), 5)]
    with pytest.raises(InputError, match="page"):
        search(catalogue, "cardinality = 6", DORIAN, page=len(rows) // A_PAGE + 1)


def test_scales_that_contain_the_one_shown_or_lie_within_it(catalogue: Catalogue):
    around = all_rows(catalogue, "cardinality = 8", relation="contain")
    assert {frozenset(tones_of(row)) for row in around} == {
        frozenset((*DORIAN.tones, tone)) for tone in range(12) if tone not in DORIAN.tones
    }
    inside = all_rows(catalogue, "cardinality = 6", relation="within")
    assert {frozenset(tones_of(row)) for row in inside} == {
        frozenset(DORIAN.tones) - {tone} for tone in DORIAN.tones if tone
    }
    assert {row["root"] for row in inside} == {2}


def test_results_are_sorted_by_a_column(catalogue: Catalogue):
    found = search(catalogue, "cardinality = 7", DORIAN, sort="-evenness")
    # The diatonic scale is the most even of seven tones in twelve (Clough & Douthett 1991, from memory).
    assert {tuple(row["steps"].split()).count("1") for row in found["rows"][:7]} == {2}
    assert [column["id"] for column in found["columns"]] == ["cardinality", "evenness"]
    values = [float(row["values"][1]) for row in found["rows"]]
    assert values == sorted(values, reverse=True)


def test_no_set_is_told_by_its_number(catalogue: Catalogue):
    found = search(catalogue, "bits = '101101010110'", DORIAN, sort="bits")
    assert found["total"] == 1
    assert str(DORIAN.mask) not in json.dumps(found, ensure_ascii=False)
    for condition in (f"mask = {DORIAN.mask}", "class > 0"):
        with pytest.raises(InputError, match="no column"):
            search(catalogue, condition, DORIAN)
    assert not {"mask", "class", "bit_string"} & {column["id"] for column in columns_for(DORIAN)["columns"]}


@pytest.mark.parametrize(
    ("condition", "said"),
    [
        ("cardinality = = 7", "character 15"),
        ("tritone = 2", "tritones"),
        ("SELECT * FROM scales", "condition"),
        ("cardinality = 7; DROP TABLE named", "condition"),
        ("cardinality", "compared"),
        ("read_text('/etc/passwd') = ''", "read_text"),
    ],
)
def test_a_condition_that_is_none_is_told_in_words(catalogue: Catalogue, condition: str, said: str):
    with pytest.raises(InputError, match=said):
        search(catalogue, condition, DORIAN)


@pytest.mark.parametrize("scale", [DORIAN, Scale.of(0, 4, 7), Scale(0b111111111111), Scale(1)], ids=str)
def test_every_condition_that_the_help_offers_holds_of_the_scale_shown(catalogue: Catalogue, scale: Scale):
    plain = "".join("1" if scale.mask >> step & 1 else "0" for step in range(12))
    for column in columns_for(scale)["columns"]:
        found = catalogue.count(f"({column['try']}) AND bits = '{plain}'")
        assert found == 1, column["try"]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example[0])
def test_every_example_finds_something(catalogue: Catalogue, example: tuple[str, str]):
    assert search(catalogue, example[1], DORIAN)["total"] > 0


def test_examples_of_columns_that_a_division_has_not_are_left_out():
    offered = columns_for(Scale.of(0, 3, 8, divisions=19))
    ids = {column["id"] for column in offered["columns"]}
    assert offered["examples"]
    assert not any("hemitonic_word" in example["condition"] for example in offered["examples"])
    assert "hemitonic_word" not in ids


# --- building ---------------------------------------------------------------------------------------------------------


@pytest.fixture
def empty(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Catalogues]:
    """Catalogues with an empty cache; what it builds is of few divisions, so that it takes no time."""
    monkeypatch.setenv(CACHE_VARIABLE, str(tmp_path))
    kept = Catalogues()
    yield kept
    kept.end()


def wait_for(kept: Catalogues, divisions: int, state: str) -> dict:
    deadline = time.monotonic() + 60
    while (told := kept.state(divisions))["state"] != state:
        assert time.monotonic() < deadline, told
        time.sleep(0.02)
    return told


def test_a_catalogue_is_built_by_a_process_of_its_own(empty: Catalogues, monkeypatch: pytest.MonkeyPatch):
    assert empty.state(5)["state"] == "missing"
    assert empty.shares(5) is not None  # how often values occur comes with the package
    with pytest.raises(CatalogueError, match="built first"), empty.opened(5):
        pass
    here = os.getpid()
    monkeypatch.setattr("gamutwright.catalogue.build.build", lambda *_: pytest.fail(f"built in {here}"))
    assert empty.ensure(5) == "building"
    assert empty.ensure(6) == "waiting"
    with pytest.raises(JobError, match="another"):
        empty.begin(6)
    wait_for(empty, 5, "ready")
    assert is_built(5)
    with empty.opened(5) as opened:
        # Every set of five places that has the root.
        assert opened.count() == 2**4


def test_what_comes_with_the_package_is_ready(empty: Catalogues):
    assert empty.ensure(12) == "ready"
    assert empty.shares(19) is not None
    assert empty.shares(20) is None


def test_large_catalogues_are_built_when_they_are_asked_for(empty: Catalogues):
    assert empty.ensure(20) == "missing"


def test_a_building_that_is_cancelled_leaves_nothing(empty: Catalogues, tmp_path: Path):
    empty.begin(24)
    building = empty._building
    assert building
    deadline = time.monotonic() + 60
    while not list(tmp_path.glob("catalogue/24/*")):
        assert time.monotonic() < deadline
        time.sleep(0.02)
    empty.cancel(24)
    assert building.process.poll() is not None
    told = empty.state(24)
    assert (told["state"], told["message"]) == ("failed", cataloguing.CANCELLED)
    # It is not begun again by whoever only looks.
    assert empty.ensure(24) == "failed"
    assert not is_built(24)


def test_a_process_that_dies_is_told_and_can_be_begun_again(empty: Catalogues):
    empty.begin(11)
    assert empty._building
    os.killpg(empty._building.process.pid, signal.SIGKILL)
    assert "exit code -9" in wait_for(empty, 11, "failed")["message"]
    empty.begin(4)
    wait_for(empty, 4, "ready")


def test_the_end_of_the_studio_ends_the_building(empty: Catalogues):
    empty.begin(24)
    building = empty._building
    assert building
    empty.end()
    assert building.process.poll() is not None
    with pytest.raises(JobError):
        empty.begin(4)


def test_questions_at_once_are_answered_one_after_another(catalogue: Catalogue):
    del catalogue  # it is built
    kept, totals = Catalogues(), []

    def ask() -> None:
        with kept.opened(12) as opened:
            totals.append(search(opened, "cardinality = 7", DORIAN)["total"])

    threads = [threading.Thread(target=ask) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(30)
    kept.end()
    assert totals == 8 * [462]  # 11 choose 6
