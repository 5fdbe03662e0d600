from __future__ import annotations

import csv
import json
import os
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path
from typing import Any

import pyarrow.parquet as pq
import pytest

from gamutwright.catalogue.names import NAMES_VARIABLE
from gamutwright.catalogue.rows import Rows
from gamutwright.cli import find_command, rare_command
from gamutwright.cli.options import NoteNames
from gamutwright.cli.row_files import write_rows
from gamutwright.errors import FileError, InputError
from gamutwright.files import CACHE_VARIABLE

BETWEEN: dict[str, Any] = {
    "divisions": 12, "names": NoteNames.ENGLISH, "limit": None, "own_names": None, "as_json": False,
    "csv_file": None, "parquet_file": None,
}  # fmt: skip


@pytest.fixture(scope="module", autouse=True)
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        if CACHE_VARIABLE not in os.environ:
            patch.setenv(CACHE_VARIABLE, str(tmp_path_factory.mktemp("cache")))
        patch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.mktemp("configuration")))
        patch.setenv("COLUMNS", "80")
        patch.delenv(NAMES_VARIABLE, raising=False)
        yield


def find(condition: str = "", **options: Any) -> None:  # noqa: ANN401 - options of any type
    find_command.run(condition, find_command.FindOptions(**options))


def rows(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    return json.loads(capsys.readouterr().out)


def balanced_sixes() -> set[str]:
    """Sets of six holding the root with three tritones, perfectly balanced, by summing unit vectors in sixths.

    The twelfth roots of unity have the coordinates 1, 1/2 and sqrt(3)/2 alone, so the sum vanishes exactly if the
    rational and the irrational part of both coordinates do.
    """
    cosines = [(2, 0), (0, 1), (1, 0), (0, 0), (-1, 0), (0, -1), (-2, 0), (0, -1), (-1, 0), (0, 0), (1, 0), (0, 1)]
    found = set()
    for rest in combinations(range(1, 12), 5):
        tones = (0, *rest)
        across = [sum(cosines[tone][part] for tone in tones) for part in (0, 1)]
        along = [sum(cosines[(tone - 3) % 12][part] for tone in tones) for part in (0, 1)]
        if not any(across + along) and sum((tone + 6) % 12 in tones for tone in tones) == 6:
            found.add("".join("1" if step in tones else "0" for step in range(12)))
    return found


def test_the_condition_of_the_manual_finds_what_a_slow_search_finds(capsys: pytest.CaptureFixture[str]):
    find("cardinality = 6 AND tritones = 3 AND is_balanced", as_json=True)
    found = rows(capsys)
    assert {row["bits"] for row in found} == balanced_sixes()
    assert list(found[0]) == ["bits", "name", "names", "cardinality", "tritones", "is_balanced"]


def test_the_table_fits_eighty_columns_and_says_how_many_there_are(capsys: pytest.CaptureFixture[str]):
    find("cardinality = 7 AND NOT is_chiral", sort=["-evenness"])
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= 80
    assert out.startswith("70 scales; 20 shown")
    assert "C D E F G A B" in out
    assert "dorian" in out
    find("cardinality = 7 AND NOT is_chiral", limit=0)
    assert capsys.readouterr().out.startswith("70 scales\n")
    find("cardinality = 13")
    assert capsys.readouterr().out == "No scale meets this.\n"


def test_the_nearest_stand_on_the_root_that_was_given(capsys: pytest.CaptureFixture[str]):
    # Common practice: D mixolydian and D aeolian differ from D dorian by one accidental.
    find("is_myhill", nearest_to="D dorian", limit=2)
    out = capsys.readouterr().out
    assert "D E F♯ G A B C" in out
    assert "D E F G A B♭ C" in out
    find(nearest_to="D dorian", by="common tones", as_json=True, limit=1)
    assert rows(capsys)[0]["distance"] == 1


def test_contains_and_within(capsys: pytest.CaptureFixture[str]):
    find(contains="C E G", within_scale="C major", as_json=True, limit=0)
    assert len(rows(capsys)) == 2**4  # D, F, A and B may be there or not
    find(contains="C E G", within_scale="C E G", any_root=True, as_json=True)
    assert {row["bits"] for row in rows(capsys)} == {"100010010000", "100100001000", "100001000100"}


def test_rows_in_files_are_those_of_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    wanted = {
        "condition": "cardinality = 5",
        "columns": "bits,names,is_deep,spectra,evenness,propriety",
        "sort": ["-bits"],
    }
    find(**wanted, as_json=True, limit=0)
    expected = rows(capsys)
    find(**wanted, csv_file=str(tmp_path / "fives.csv"))
    find(**wanted, parquet_file=str(tmp_path / "fives.parquet"))
    assert pq.read_table(tmp_path / "fives.parquet").to_pylist() == expected
    with (tmp_path / "fives.csv").open(encoding="utf-8", newline="") as file:
        read = list(csv.DictReader(file))
    assert len(read) == 330  # C(11, 4)
    assert [row["bits"] for row in read] == [row["bits"] for row in expected]
    assert [row["is_deep"] for row in read] == ["true" if row["is_deep"] else "false" for row in expected]
    assert [[[int(n) for n in part.split()] for part in row["spectra"].split("|")] for row in read] == [
        row["spectra"] for row in expected
    ]
    assert [float(row["evenness"]) for row in read] == [row["evenness"] for row in expected]
    assert {path.name for path in tmp_path.iterdir()} == {"fives.csv", "fives.parquet"}
    assert "330 rows written" in capsys.readouterr().err


def test_json_says_apart_what_is_left_out(capsys: pytest.CaptureFixture[str]):
    find("cardinality = 7", as_json=True)
    captured = capsys.readouterr()
    assert len(json.loads(captured.out)) == 20
    assert "20 of 462 scales" in captured.err


def test_a_file_that_cannot_be_written_stays_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    target = tmp_path / "scales.csv"
    target.write_text("before", encoding="utf-8")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(FileError, match="No space left"):
        find("cardinality = 3", csv_file=str(target))
    assert target.read_text(encoding="utf-8") == "before"
    assert [path.name for path in tmp_path.iterdir()] == ["scales.csv"]
    with pytest.raises(FileError, match="cannot be written"):
        find("cardinality = 3", csv_file=str(tmp_path / "missing" / "scales.csv"))


def test_own_names_are_shown_beside_those_held(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    path = tmp_path / "names.csv"
    path.write_text(
        "name,pitch_classes,tradition,source\nquay,0 2 4 7 9,evening course,the teacher\n", encoding="utf-8"
    )
    find("list_contains(names, 'quay')", own_names=str(path), as_json=True)
    (row,) = rows(capsys)
    assert row["names"][-1] == "quay"
    assert "major pentatonic" in row["names"]


def test_other_divisions(capsys: pytest.CaptureFixture[str]):
    find("cardinality = 3 AND is_maximally_even", divisions=7)
    out = capsys.readouterr().out
    assert "0 2 4" in out  # the triad as a maximally even set of seven: Clough and Douthett 1991, from memory
    with pytest.raises(InputError, match="--any-root"):
        find(divisions=25, contains="0 8 15")


@pytest.mark.parametrize(
    ("options", "told"),
    [
        ({"as_json": True, "csv_file": "x.csv"}, "one form of output"),
        ({"nearest_to": "C major", "sort": ["evenness"]}, "--like and --sort"),
        ({"nearest_to": "C major", "by": "colour"}, "voice-leading, common-tones"),
        ({"limit": -1}, "--limit -1"),
        ({"columns": "evennes"}, "evenness"),
        ({"sort": ["-tritone"]}, "tritones"),
        ({"condition": "tritone = 1"}, "tritones"),
    ],
)
def test_options_that_make_no_sense_are_explained(options: dict[str, Any], told: str):
    with pytest.raises(InputError) as caught:
        find(**options)
    assert told in str(caught.value)


def test_chains_are_printed_tone_by_tone(capsys: pytest.CaptureFixture[str]):
    # Common practice: from C major to G major only F is raised.
    find_command.run_between("C major", "G major", **BETWEEN)
    out = capsys.readouterr().out
    assert out.startswith("1 one-step change,")
    assert "F → F♯" in out
    assert max(map(len, out.splitlines())) <= 80
    find_command.run_between("C major", "A minor", **BETWEEN)
    assert "nothing has to change" in capsys.readouterr().out


def test_chains_as_rows(capsys: pytest.CaptureFixture[str]):
    find_command.run_between("C major", "D major", **{**BETWEEN, "as_json": True, "limit": 1})
    found = rows(capsys)
    assert [row["place"] for row in found] == [0, 1, 2]
    assert found[1]["names"][0] == "lydian"
    assert found[-1]["root"] == 2
    find_command.run_between("0 5 11", "0 6 10", **{**BETWEEN, "divisions": 19, "as_json": True, "limit": 1})
    assert [row["name"] for row in rows(capsys)] == [None] * 3


def test_what_is_special_is_printed_and_given_as_rows(capsys: pytest.CaptureFixture[str]):
    rare_command.run("D dorian", divisions=12, names=NoteNames.ENGLISH, root=None, as_json=False)
    out = capsys.readouterr().out
    assert "the 462 rooted scales of seven tones in twelve divisions" in out
    assert "66 transposition classes" in out
    assert max(map(len, out.splitlines())) <= 80
    rare_command.run("D dorian", divisions=12, names=NoteNames.ENGLISH, root=None, as_json=True)
    by_fact = {row["fact"]: row for row in rows(capsys)}
    even = by_fact["is_maximally_even"]
    assert (even["scales_alike"], even["scales"], even["classes_alike"], even["classes"]) == (7, 462, 1, 66)
    assert even["share_of_scales"] == pytest.approx(7 / 462)


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "＝"])
def test_no_cell_of_csv_is_a_formula(tmp_path: Path, start: str):
    # OWASP, "CSV Injection" (from memory): spreadsheets run a cell that begins so, quoted or not.
    evil = f'{start}HYPERLINK("https://example.org";"quay")'
    kinds = {"names": "VARCHAR[]", "name": "VARCHAR", "by": "INTEGER", "tones": "INTEGER[]", "size": "DOUBLE"}
    made = tmp_path / "scales.csv"
    write_rows(Rows(kinds, [([evil, "quay"], evil, -1, [-1, 2], -0.5)]), made, "csv")
    with made.open(encoding="utf-8", newline="") as file:
        (cells,) = list(csv.DictReader(file))
    assert cells["names"] == f"'{evil}|quay"
    assert cells["name"] == f"'{evil}"
    assert (cells["by"], cells["tones"], cells["size"]) == ("-1", "-1 2", "-0.5")


def test_a_formula_in_a_file_of_names_reaches_no_spreadsheet(tmp_path: Path):
    own = tmp_path / "names.csv"
    row = '"=HYPERLINK(""https://example.org"")",0 1 2 3,evening course,the teacher'
    own.write_text(f"name,pitch_classes,tradition,source\n{row}\n", encoding="utf-8")
    find("bits = '111100000000'", own_names=str(own), csv_file=str(tmp_path / "scales.csv"))
    with (tmp_path / "scales.csv").open(encoding="utf-8", newline="") as file:
        (cells,) = list(csv.DictReader(file))
    assert cells["names"] == '\'=HYPERLINK("https://example.org")'
