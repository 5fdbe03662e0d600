"""The store: what is put is got back, and what is damaged is never taken for a result."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError, FileError
from gamutwright.files import CACHE_VARIABLE
from gamutwright.jobs.store import MAGIC, Parcel, Store, store_for

KEY = "0f" * 32
PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text(st.characters(exclude_categories=["Cs"])), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(PLAIN, st.lists(st.binary(max_size=200), max_size=4))
def test_a_parcel_is_read_as_it_was_written(data: object, blobs: list[bytes]):
    assert Parcel.from_bytes(Parcel(data, tuple(blobs)).to_bytes()) == Parcel(data, tuple(blobs))


@given(st.data())
def test_no_damaged_parcel_is_read(data: st.DataObject):
    whole = Parcel({"ticks": 3}, (b"harbour", b"")).to_bytes()
    cut = data.draw(st.integers(0, len(whole) - 1))
    with pytest.raises(DomainError):
        Parcel.from_bytes(whole[:cut])
    place, bit = data.draw(st.integers(0, len(whole) - 1)), data.draw(st.integers(0, 7))
    flipped = bytearray(whole)
    flipped[place] ^= 1 << bit
    with pytest.raises(DomainError):
        Parcel.from_bytes(bytes(flipped))


def test_a_damaged_entry_is_removed(tmp_path: Path):
    store = Store(tmp_path)
    store.put(KEY, Parcel("kept"))
    store.path_of(KEY).write_bytes(MAGIC + b"rubbish")
    assert store.has(KEY)
    assert store.get(KEY) is None
    assert not store.has(KEY)
    store.put(KEY, Parcel("again"))
    assert store.get(KEY) == Parcel("again")


@pytest.mark.parametrize("key", ["", "../../etc/passwd", "0F" * 32, "0f" * 31, "0f" * 31 + "/x"])
def test_a_key_is_never_a_path(key: str, tmp_path: Path):
    with pytest.raises(DomainError, match="64 hexadecimal"):
        Store(tmp_path).path_of(key)


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(FileError, match="--store"):
        Store(tmp_path / "file").put(KEY, Parcel())


def test_what_was_not_used_for_longest_goes_first(tmp_path: Path):
    store = Store(tmp_path, limit_bytes=2_500)
    keys = [f"{index:064x}" for index in range(4)]
    for age, key in enumerate(keys):
        store.put(key, Parcel(None, (bytes(1_000),)))
        os.utime(store.path_of(key), (0, time.time() - 1_000 + age))
    assert store.get(keys[0]) is not None, "being read counts as being used"
    assert store.prune() == 2
    assert [store.has(key) for key in keys] == [True, False, False, True]


def test_what_a_kill_left_is_cleared_away_in_time(tmp_path: Path):
    store = Store(tmp_path)
    store.put(KEY, Parcel())
    left, fresh = (store.path_of(KEY).with_name(name) for name in (".new-left", ".new-fresh"))
    left.write_bytes(b"half")
    fresh.write_bytes(b"half")
    os.utime(left, (0, time.time() - 7_200))
    store.prune()
    assert not left.exists()
    assert fresh.exists()
    assert store.has(KEY)


def test_a_course_has_its_own_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv(CACHE_VARIABLE, str(tmp_path / "cache"))
    lesson = tmp_path / "course" / "lessons" / "acoustic" / "script.md"
    assert store_for(lesson).folder == tmp_path / "cache" / "store"
    lesson.parent.mkdir(parents=True)
    (tmp_path / "course" / "series.toml").write_text("")
    assert store_for(lesson).folder == tmp_path / "course" / ".gamutwright" / "store"
