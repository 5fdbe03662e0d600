from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from itertools import combinations
from math import comb
from pathlib import Path

import duckdb
import pytest

from gamutwright.catalogue import query
from gamutwright.catalogue.conditions import FUNCTIONS, LONGEST, place_of
from gamutwright.catalogue.names import Names, ScaleName
from gamutwright.catalogue.query import Catalogue, Terms
from gamutwright.errors import CatalogueError, InputError
from gamutwright.theory.scale import Scale

ROOTED = [(0, *rest) for size in range(12) for rest in combinations(range(1, 12), size)]
# Transposition classes by size, the empty set left out: On-Line Encyclopedia of Integer Sequences, A035495.
CLASSES = (1, 6, 19, 43, 66, 80, 66, 43, 19, 6, 1, 1)


def tones_of(bits: str) -> tuple[int, ...]:
    return tuple(step for step, bit in enumerate(bits) if bit == "1")


def found(catalogue: Catalogue, condition: str) -> set[tuple[int, ...]]:
    return {tones_of(bits) for bits in catalogue.find(condition, columns=["bits"]).column("bits")}


def tritones(tones: tuple[int, ...]) -> int:
    return sum(high - low == 6 for low, high in combinations(tones, 2))


def is_own_mirror(tones: tuple[int, ...]) -> bool:
    return any({(k - tone) % 12 for tone in tones} == set(tones) for k in range(12))


@pytest.mark.parametrize("size", range(1, 13))
def test_sizes_hold_as_many_scales_and_classes_as_combinatorics_says(twelve: Catalogue, size: int):
    # A rooted scale of k tones chooses k - 1 of the other eleven.
    assert twelve.count(f"cardinality = {size}") == comb(11, size - 1)
    assert twelve.count(f"cardinality = {size} AND bits = class_bits") == CLASSES[size - 1]


@pytest.mark.parametrize(
    ("condition", "slow"),
    [
        ("cardinality = 7 AND tritones = 2", lambda t: len(t) == 7 and tritones(t) == 2),
        ("tritones BETWEEN 3 AND 4 AND NOT is_chiral", lambda t: 3 <= tritones(t) <= 4 and is_own_mirror(t)),
        ("tritones IN (0, 6) or cardinality*2 >= 22", lambda t: tritones(t) in {0, 6} or len(t) >= 11),
        ("interval_class_vector[6] = 1 AND bits LIKE '1_1_1%'", lambda t: tritones(t) == 1 and {0, 2, 4} <= set(t)),
        ("bits SIMILAR TO '11.*1' AND greatest(tritones, 2) > 2", lambda t: {1, 11} <= set(t) and tritones(t) > 2),
        ("is_chiral IS FALSE AND list_contains(step_pattern, 5)", lambda t: is_own_mirror(t) and 5 in steps(t)),
        ("step_pattern = [2, 2, 1, 2, 2, 2, 1]", lambda t: t == (0, 2, 4, 5, 7, 9, 11)),
        ("1 in step_pattern is not true", lambda t: 1 not in steps(t)),
    ],
)
def test_conditions_find_what_a_slow_search_finds(
    twelve: Catalogue, condition: str, slow: Callable[[tuple[int, ...]], bool]
):
    assert found(twelve, condition) == {tones for tones in ROOTED if slow(tones)}


def steps(tones: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(high - low for low, high in zip(tones, (*tones[1:], 12), strict=True))


def test_one_class_of_each_size_is_maximally_even(twelve: Catalogue):
    # Clough and Douthett, "Maximally Even Sets", Journal of Music Theory 35 (1991), theorem 1.2: from memory.
    counted = "SELECT cardinality, count(DISTINCT class_bits) AS classes FROM scales WHERE is_maximally_even"
    rows = twelve.ask(f"{counted} GROUP BY ALL ORDER BY 1")
    assert rows.column("classes") == [1] * 12


def test_one_class_of_seven_tones_is_coherent_in_the_sense_of_balzano(twelve: Catalogue):
    # Carey 2002 as quoted in the collection of published values: one of the 66 classes.
    assert twelve.count("cardinality = 7 AND is_balzano_coherent AND bits = class_bits") == 1
    assert (0, 2, 4, 5, 7, 9, 11) in found(twelve, "cardinality = 7 AND is_balzano_coherent")


def test_classes_with_translational_symmetry_are_the_periodic_necklaces(twelve: Catalogue):
    # Aperiodic binary necklaces of length 12 are 335 (OEIS A001037), all are 352, one of them the empty set.
    assert twelve.count("has_limited_transpositions AND bits = class_bits") == 352 - 335 - 1


def test_larger_divisions_are_asked_alike(nineteen: Catalogue):
    assert nineteen.count("cardinality = 7") == comb(18, 6)
    bits = nineteen.find("cardinality = 3 AND is_maximally_even", columns=["bits"]).column("bits")
    assert sorted(bits) == ["1000000100000100000", "1000001000000100000", "1000001000001000000"]  # 6 + 6 + 7 and turns


def test_computed_columns_name_the_scale(twelve: Catalogue):
    rows = twelve.find("bits = '101101010110'", columns=["name", "NAMES", "class-bits"])
    (row,) = rows
    assert row["name"] == "dorian"
    assert row["names"][0] == "dorian"
    # The mode with the widest spread of tones at the top left out: C D E F G A B's tones from B, common practice.
    assert tones_of(row["class_bits"]) == (0, 1, 3, 5, 6, 8, 10)
    assert found(twelve, "list_contains(names, 'whole-tone')") == {(0, 2, 4, 6, 8, 10)}


def test_a_teachers_names_can_be_searched(catalogue_cache: Path):
    own = Names((ScaleName("harbour's five", Scale.of(0, 1, 5, 6, 10), "evening course", "the teacher"),))
    with Catalogue(12, names=own) as catalogue:
        assert found(catalogue, "list_contains(names, 'harbour''s five')") == {(0, 1, 5, 6, 10)}
        assert catalogue.count("len(names) = 0") == 2047


def test_sorting_and_limits(twelve: Catalogue):
    rows = twelve.find("cardinality = 7", sort=["-evenness", "tritones"], limit=8, columns=["evenness", "bits"])
    values = rows.column("evenness")
    assert values == sorted(values, reverse=True)
    assert len(rows) == 8
    assert twelve.find("cardinality = 7", limit=0).cells == []
    # Propriety needs three tones: scales of fewer have no value and come last, either way.
    for key in ("propriety", "-propriety"):
        assert twelve.find("cardinality < 4", sort=[key], columns=["propriety"]).column("propriety")[-1] is None


@pytest.mark.parametrize("name", ["mask", "class", "_set", "_class"])
def test_no_column_gives_a_scale_as_a_number(twelve: Catalogue, name: str):
    with pytest.raises(InputError, match=f"no column {name}"):
        twelve.find(f"{name} = 2741")
    with pytest.raises(InputError, match=f"no column {name}"):
        twelve.find(columns=[name])
    with pytest.raises(InputError, match=f"no column {name}"):
        twelve.find(sort=[name])
    assert name not in twelve.kinds


def test_no_cell_of_any_scale_is_its_word_as_a_number(twelve: Catalogue):
    for row in twelve.find("cardinality > 4", limit=100):
        word = int(row["bits"][::-1], 2)
        assert word not in {cell for cell in row.values() if isinstance(cell, int)}


def test_an_answer_that_is_too_large_is_refused(twelve: Catalogue, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(query, "MOST_CELLS", 100)
    with pytest.raises(CatalogueError, match="fewer columns"):
        twelve.find()
    assert len(twelve.find(limit=20, columns=["bits"])) == 20


def test_all_stored_columns_come_without_a_choice(twelve: Catalogue):
    names = twelve.find("cardinality = 12").columns
    assert names[:2] == ("bits", "class_bits")
    assert {"coherence_quotient", "forte_label"} <= set(names)
    assert "names" not in names


@pytest.mark.parametrize(
    ("condition", "told"),
    [
        ("is_blanced", "is_balanced"),
        ("coherence-quotient > 0.9", "coherence_quotient"),
        ("tritone = 1", "tritones"),
        ('propriety = "proper"', "single quotation marks"),
        ("cardinality", "compared with something"),
        ("is_deep AND tritones", "tritones"),
        ("NOT cardinality", "compared with something"),
        ("7", "no condition"),
        ("cardinality = 'seven'", "seven"),
        ("interval_class_vector = 7", "character 25"),
        ("cardinality = = 7", "'= 7' at character 15"),
        ("(cardinality = 7", "cannot be read"),
        ("squrt(evenness) > 0.9", "sqrt"),
        ("s.cardinality = 7", "no column s.cardinality"),
        ("", "nothing to look for"),
    ],
)
def test_mistakes_are_pointed_at(twelve: Catalogue, condition: str, told: str):
    with pytest.raises(InputError) as caught:  # noqa: PT012 - some are found on reading, some on answering
        twelve.read(condition)
        twelve.find(condition)
    assert told in str(caught.value)


def test_places_count_characters_not_bytes():
    assert place_of("names = '♯♯' )", len("names = '♯♯' ".encode())) == "')' at character 14 of the condition"


@pytest.mark.parametrize(
    ("column", "told"),
    [("tritones", "defined for 12 divisions, not for 19"), ("spectra", "up to 12 divisions only"), ("name", "12")],
)
def test_columns_of_smaller_divisions_are_explained(nineteen: Catalogue, column: str, told: str):
    with pytest.raises(InputError, match=told):
        nineteen.find(f"{column} IS NOT NULL")
    with pytest.raises(InputError, match=told):
        nineteen.find(columns=[column])


ATTACKS = (
    "1=1; DROP TABLE named",
    "1=1); DROP TABLE named; --",
    "1=1) UNION SELECT * FROM duckdb_settings() --",
    "1=1 UNION SELECT 1",
    "1=1) OR (1=1",
    "1=1 /* ",
    "is_deep WINDOW w AS ()",
    "is_deep ORDER BY mask",
    "is_deep LIMIT 3",
    "is_deep GROUP BY ALL",
    "is_deep QUALIFY true",
    "is_deep USING SAMPLE 3",
    "(SELECT count(*) FROM scales) > 1",
    "bits IN (SELECT bits FROM scales)",
    "EXISTS (FROM read_csv('/etc/passwd'))",
    "EXISTS (FROM read_text('/etc/passwd'))",
    "(SELECT content FROM read_text('/etc/passwd')) LIKE '%root%'",
    "read_text('/etc/passwd') = ''",
    "read_csv('/etc/passwd') = ''",
    "glob('/etc/*') = ''",
    "getenv('HOME') = ''",
    "current_setting('memory_limit') = ''",
    "query('SELECT 1') = 1",
    "nextval('x') = 1",
    "error('x') = 1",
    "count(*) > 1",
    "sum(cardinality) OVER () > 1",
    "COLUMNS(*) > 1",
    "* LIKE 'a'",
    "cardinality = ?",
    "cardinality = $1",
    "CAST(bits AS STRUCT(a INTEGER)) IS NULL",
    "CAST(bits AS JSON) IS NULL",
    "list_filter(step_pattern, lambda x: x > 1) = [2]",
    "list_transform(range(1000000000), lambda x: x) = [1]",
    "len(repeat('a', 4000000000)) > 1",
    "len(range(9000000000)) > 1",
    "COPY scales TO 'stolen.csv'",
    "PRAGMA version",
    "SET threads = 9",
    "ATTACH 'stolen.db'",
    "INSTALL httpfs",
    "LOAD httpfs",
    "EXPORT DATABASE 'stolen'",
    "regexp_matches(bits, '" + "(" * 500 + "a" + "){99}" * 500 + "')",
    "regexp_matches(bits, '((1{1,1000}){1,1000}){1,1000}')",
    "(" * 2000 + "is_deep" + ")" * 2000,
    "NOT " * 1200 + "is_deep",
    "is_deep AND " * LONGEST + "is_deep",
)


@pytest.mark.parametrize("condition", ATTACKS, ids=lambda text: text[:40])
def test_nothing_but_a_condition_gets_through(
    twelve: Catalogue, condition: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputError):
        twelve.find(condition, limit=1)
    assert not list(tmp_path.iterdir())
    assert twelve.count() == 2048


@pytest.mark.parametrize("name", ["bits; DROP TABLE named", 'bits" FROM scales --', "*", "count(*)", "-", ""])
def test_nothing_but_column_names_gets_through(twelve: Catalogue, name: str):
    with pytest.raises(InputError):
        twelve.find(columns=[name])
    with pytest.raises(InputError):
        twelve.find(sort=[f"-{name}"])


@pytest.mark.parametrize(
    "statement",
    [
        "SELECT * FROM read_text('/etc/passwd')",
        "SELECT * FROM read_csv('/etc/passwd')",
        "SELECT * FROM read_parquet('/etc/passwd')",
        "SELECT * FROM glob('/etc/*')",
        "SELECT * FROM read_json('https://example.org/x.json')",
        "COPY scales TO 'stolen.csv'",
        "ATTACH 'stolen.db'",
        "INSTALL httpfs",
        "SET enable_external_access = true",
        "SET allowed_paths = ['/etc/passwd']",
        "SET memory_limit = '100GiB'",
        "SELECT * FROM secret",
    ],
)
def test_the_database_itself_is_locked(
    twelve: Catalogue, statement: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    # Even a statement that never passes the check of conditions finds no file, no network and no setting to change.
    monkeypatch.chdir(tmp_path)
    secret = [1, 2, 3]
    assert secret
    with pytest.raises(duckdb.Error):
        twelve._connection.execute(statement).fetchall()
    assert not list(tmp_path.iterdir())


def test_what_takes_too_long_is_stopped(twelve: Catalogue, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(query, "TIME_LIMIT_S", 0.2)
    with pytest.raises(CatalogueError, match=r"took more than 0\.2 seconds"):
        twelve.ask(
            "SELECT count(*) FROM scales a, scales b, scales c, scales d WHERE a._set + b._set + c._set = d._set"
        )
    assert twelve.count("cardinality = 12") == 1


def test_every_function_allowed_is_one_of_the_database(twelve: Catalogue):
    known = {name for (name,) in twelve._connection.execute("SELECT function_name FROM duckdb_functions()").fetchall()}
    assert known >= FUNCTIONS


def test_added_terms_narrow_and_sort(twelve: Catalogue):
    added = Terms(("bits IN ('110100000000', '111000000000', '101100000000')",), "interval_class_vector[1]", ("bits",))
    assert list(twelve.find("cardinality = 3", columns=["bits"], terms=added)) == [
        {"distance": 1, "bits": "101100000000"},
        {"distance": 1, "bits": "110100000000"},
        {"distance": 2, "bits": "111000000000"},
    ]


def test_a_damaged_catalogue_is_built_anew(catalogue_cache: Path):
    with Catalogue(5) as catalogue:
        assert catalogue.count() == 16
    for file in (catalogue_cache / "catalogue" / "5").rglob("*.parquet"):
        file.write_bytes(file.read_bytes()[:-40])
    seen: list[tuple[int, int]] = []
    with Catalogue(5, progress=lambda done, total: seen.append((done, total))) as catalogue:
        assert catalogue.count() == 16
    assert seen[-1] == (7, 7)  # necklaces of five beads without the empty one


@pytest.mark.parametrize(
    "condition",
    [
        "cardinality" + " ** 2" * 500 + " = 1",
        "NOT " * 700 + "is_balanced",
        "(cardinality + " * 300 + "1" + ")" * 300 + " = 1",
        "[" * 600 + "]" * 600 + " = 1",
        "-" + " -" * 2_000 + "1 = 1",
        "CASE WHEN is_balanced THEN " * 180 + "1",
    ],
    ids=["powers", "not", "sums", "lists", "minus", "cases"],
)
def test_what_is_nested_beyond_reading_is_refused_in_words(twelve: Catalogue, condition: str):
    with pytest.raises(InputError) as told:
        twelve.find(condition)
    assert told.value.next_step


def test_what_is_nested_somewhat_is_read(twelve: Catalogue):
    assert twelve.count("cardinality" + " + 1" * 100 + " = 107") == twelve.count("cardinality = 7")
    assert twelve.count("(" * 400 + "cardinality = 7" + ")" * 400) == twelve.count("cardinality = 7")
    assert twelve.count("cardinality = 7 " + "AND tritones = 3 " * 200) == twelve.count(
        "cardinality = 7 AND tritones = 3"
    )


def test_a_catalogue_that_nobody_closes_ends_with_the_process(catalogue_cache: Path):
    code = "from gamutwright.catalogue.query import Catalogue; print(len(Catalogue(12).find()))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)  # noqa: S603
    assert (done.returncode, done.stdout, done.stderr) == (0, "2048\n", "")
