from __future__ import annotations

import csv
from collections.abc import Callable
from importlib import resources
from pathlib import Path

import pytest

from gamutwright.catalogue.names import NAMES_VARIABLE, Names, default_names, read_names
from gamutwright.errors import InputError
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale

HARBOUR = """name,pitch_classes,tradition,source
harbour five,0 2 4 7 9,evening course,the teacher's own sheet
"quay, the long one",2 4 5 7 9 11 0,evening course,the teacher's own sheet
"""


@pytest.fixture
def write(tmp_path: Path) -> Callable[..., Path]:
    def write_text(text: str, encoding: str = "utf-8") -> Path:
        path = tmp_path / "names.csv"
        path.write_bytes(text.encode(encoding))
        return path

    return write_text


@pytest.mark.usefixtures("catalogue_cache")
def test_a_teachers_names_stand_beside_those_held(write: Callable[..., Path], monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv(NAMES_VARIABLE, str(write(HARBOUR)))
    called = [record.name for record in default_names().of(Scale.of(0, 2, 4, 7, 9))]
    assert called == [*(record.name for record in names_of(Scale.of(0, 2, 4, 7, 9))), "harbour five"]
    # The first pitch class is the root, and a name is found on any root: D dorian in the file, E dorian asked for.
    dorian = default_names().of(Scale.of(4, 6, 7, 9, 11, 1, 2))
    assert [record.name for record in dorian][-1] == "quay, the long one"
    assert dorian[-1].origin.endswith("names.csv, line 3")


@pytest.mark.usefixtures("catalogue_cache")
def test_without_a_file_only_the_names_held_are_known(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.delenv(NAMES_VARIABLE, raising=False)
    assert not any(record.origin for record in default_names().records)


def test_the_table_of_names_held_is_itself_such_a_file(write: Callable[..., Path]):
    # The shape is the same, so the package's own table must read, row for row.
    text = resources.files("gamutwright.theory").joinpath("names.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    read = read_names(write(text))
    assert [record.name for record in read] == [row["name"] for row in rows]
    assert read[0].aliases[0] == "major"


def test_other_divisions_may_be_named(write: Callable[..., Path]):
    path = write("name,pitch_classes,tradition,source,divisions\nlong seven,0 3 6 8 11 14 17,x,y,19\n")
    names = Names(read_names(path))
    assert names.by_mask(19) == {sum(1 << tone for tone in (0, 3, 6, 8, 11, 14, 17)): ("long seven",)}
    assert names.by_mask(12) == {}


def test_a_byte_order_mark_and_blank_lines_do_no_harm(write: Callable[..., Path]):
    assert len(read_names(write("﻿" + HARBOUR + "\n,,,\n"))) == 2


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "line 1: the header lacks name, pitch_classes"),
        ("name,tradition\n", "the header lacks pitch_classes, source"),
        ("name,pitch_classes,tradition,source,colour\n", "line 1, column 5: 'colour' is no column"),
        ("name,name,pitch_classes,tradition,source\n", "line 1, column 1: 'name' is given twice"),
        (HARBOUR + "x,0 2 x,a,b\n", "line 4, column 2 (pitch_classes): 'x'"),
        (HARBOUR + "x,0 2 12,a,b\n", "line 4, column 2 (pitch_classes): pitch class 12"),
        (HARBOUR + "x,0 2 2,a,b\n", "line 4, column 2 (pitch_classes): pitch class 2: is given twice"),
        (HARBOUR + "x,0 2,,b\n", "line 4, column 3 (tradition): the cell is empty"),
        (HARBOUR + "x,0 2,a\n", "line 4: the row has 3 cells, the header 4"),
        (HARBOUR + '"a\nb",0 2,a,b\nx,-1,a,b\n', "line 6, column 2 (pitch_classes): '-1'"),
        (HARBOUR + 'x,"0 2" 3,a,b\n', "line 4: this is no CSV"),
        ("name,pitch_classes,tradition,source,divisions\nx,0,a,b,99\n", "line 2, column 5 (divisions): 99 divisions"),
    ],
)
def test_mistakes_are_located(write: Callable[..., Path], text: str, told: str):
    with pytest.raises(InputError) as caught:
        read_names(write(text))
    assert told in str(caught.value)


def test_files_that_cannot_be_read_are_named(write: Callable[..., Path], tmp_path: Path):
    with pytest.raises(InputError, match="not written in UTF-8"):
        read_names(write("name,pitch_classes,tradition,source\nM\u00fcnster,0,a,b\n", "latin-1"))
    with pytest.raises(InputError, match="cannot be read"):
        read_names(tmp_path / "missing.csv")
