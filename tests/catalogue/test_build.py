"""Catalogues: every row equals the definition, counts equal the OEIS, and no fault leaves half a catalogue behind."""

from __future__ import annotations

import errno
import json
import os
import random
import signal
import subprocess
import sys
import time
from math import comb
from pathlib import Path

import pyarrow.parquet as pq
import pytest

from gamutwright.catalogue import build as building
from gamutwright.catalogue.build import classes_and_modes, ensure
from gamutwright.catalogue.catalogue_folders import is_whole, read_manifest
from gamutwright.catalogue.fact_columns import columns_digest, coverage, fact_columns, to_cell
from gamutwright.errors import CatalogueError, DomainError
from gamutwright.facts.registry import default_registry
from gamutwright.files import CACHE_VARIABLE, cache_folder
from gamutwright.kernels.necklaces import necklace_chunks, rooted_members
from gamutwright.theory.scale import Scale

REGISTRY = default_registry()


@pytest.fixture(name="cache")
def _cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(CACHE_VARIABLE, str(tmp_path))
    return tmp_path


def rows(file: Path) -> list[dict[str, object]]:
    return pq.read_table(file).to_pylist()


def is_same(cell: object, expected: object) -> bool:
    if isinstance(cell, list) and isinstance(expected, list):
        return len(cell) == len(expected) and all(map(is_same, cell, expected))
    return cell == pytest.approx(expected, rel=1e-12, abs=1e-12) if isinstance(expected, float) else cell == expected


def leftovers(cache: Path) -> list[str]:
    return [path.name for path in cache.rglob(".*")]


@pytest.mark.parametrize("divisions", [5, 7])
def test_every_cell_equals_the_definition(divisions: int, cache: Path) -> None:
    for row in rows(ensure(divisions)):
        scale = Scale(row["_set"], divisions)
        for fact in fact_columns(REGISTRY, divisions):
            assert is_same(row[fact.id], to_cell(fact.evaluate(scale))), (fact.id, scale)


@pytest.mark.parametrize("divisions", [13, 17, 19])
def test_kernel_catalogues_equal_the_definition_on_a_sample(divisions: int, cache: Path) -> None:
    table = rows(ensure(divisions))
    for row in random.Random(divisions).sample(table, 150):  # noqa: S311 - a repeatable sample, no secret
        scale = Scale(row["_set"], divisions)
        assert min(scale.mode(k).mask for k in range(1, scale.cardinality + 1)) == row["_class"]
        for fact in fact_columns(REGISTRY, divisions):
            assert is_same(row[fact.id], to_cell(fact.evaluate(scale))), (fact.id, scale)


@pytest.mark.parametrize("divisions", [2, 6, 12, 15, 18])
def test_rows_of_each_size_are_binomial_and_classes_are_necklaces(divisions: int, cache: Path) -> None:
    """Rooted scales of k tones: C(n-1, k-1). Classes: OEIS A000031 less the empty set (from memory)."""
    necklaces = {2: 3, 6: 14, 12: 352, 15: 2192, 18: 14602}
    table = pq.read_table(ensure(divisions), columns=["cardinality", "_class"])
    sizes = table["cardinality"].to_pylist()
    assert [sizes.count(k) for k in range(1, divisions + 1)] == [
        comb(divisions - 1, k - 1) for k in range(1, divisions + 1)
    ]
    assert len(set(table["_class"].to_pylist())) == necklaces[divisions] - 1


def test_large_divisions_have_a_row_for_each_class(cache: Path) -> None:
    """Twenty-five divisions: 1,342,184 necklaces (OEIS A000031, from memory), the empty one left out."""
    assert not coverage(25).is_rooted
    manifest = read_manifest(ensure(25).parent)
    assert manifest is not None
    assert manifest.rows == 1342183


@pytest.mark.parametrize("divisions", [1, 37])
def test_other_divisions_are_refused(divisions: int, cache: Path) -> None:
    with pytest.raises(DomainError, match="2 to 36"):
        ensure(divisions)


@pytest.mark.parametrize("damage", ["cut", "flip", "missing", "manifest", "empty"])
def test_a_damaged_catalogue_is_noticed_and_rebuilt(damage: str, cache: Path) -> None:
    file = ensure(7)
    folder, good = file.parent, rows(file)
    content = bytearray(file.read_bytes())
    match damage:
        case "cut":
            file.write_bytes(content[: len(content) // 2])
        case "flip":
            content[len(content) // 3] ^= 1
            file.write_bytes(content)
        case "missing":
            file.unlink()
        case "manifest":
            (folder / "manifest.json").write_text('{"divisions": 7', encoding="utf-8")
        case "empty":
            file.write_bytes(b"")
    assert not is_whole(folder, 7, columns_digest(REGISTRY, 7))
    assert rows(ensure(7)) == good
    assert not leftovers(cache)


@pytest.mark.parametrize("divisions", [7, 13])
def test_a_full_disk_is_said_and_the_old_catalogue_stays(
    divisions: int, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = ensure(divisions)
    good = rows(file)

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("pyarrow.parquet.ParquetWriter.write_table", full)
    monkeypatch.setattr("gamutwright.catalogue.parquet._convert", full)
    with pytest.raises(CatalogueError, match="disk is full"):
        building.build(divisions, file.parent, columns_digest(REGISTRY, divisions), REGISTRY)
    monkeypatch.undo()
    monkeypatch.setenv(CACHE_VARIABLE, str(cache))
    assert rows(file) == good
    assert not leftovers(cache)


@pytest.mark.parametrize("divisions", [11, 16])
def test_a_real_limit_on_file_size_is_said(divisions: int, cache: Path) -> None:
    """The kernel's own refusal, by a limit on the size of files a process may write."""
    code = (
        "import resource, signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (20000, 20000));"
        f"from gamutwright.catalogue.build import ensure; ensure({divisions})"
    )
    done = run(code)
    assert "CatalogueError" in done.stderr
    assert "cannot be written" in done.stderr
    assert not leftovers(cache)
    assert not list(cache.rglob("*.parquet"))


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setenv(CACHE_VARIABLE, str(tmp_path / "file"))
    with pytest.raises(CatalogueError, match=CACHE_VARIABLE):
        ensure(5)


def run(code: str, **options: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)  # noqa: S603


BUILD = "from gamutwright.catalogue.build import ensure; ensure(16)"


def test_two_builders_at_once_do_not_harm_each_other(cache: Path) -> None:
    both = [subprocess.Popen([sys.executable, "-c", BUILD], stderr=subprocess.PIPE) for _ in range(2)]  # noqa: S603
    for process in both:
        _, said = process.communicate()
        assert process.returncode == 0, said
    assert not leftovers(cache)
    assert is_whole(ensure(16).parent, 16, columns_digest(REGISTRY, 16))


def test_killed_at_any_moment_it_leaves_no_half_catalogue(cache: Path) -> None:
    source = random.Random(16)  # noqa: S311 - repeatable moments
    for _ in range(5):
        process = subprocess.Popen([sys.executable, "-c", BUILD])  # noqa: S603
        time.sleep(source.uniform(0.3, 1.5))
        process.send_signal(signal.SIGKILL)
        process.wait()
        final = list((cache / "catalogue" / "16").glob("[!.]*"))
        assert all(is_whole(path, 16, columns_digest(REGISTRY, 16)) for path in final)
    assert is_whole(ensure(16).parent, 16, columns_digest(REGISTRY, 16))
    ensure(16)
    assert not leftovers(cache)


@pytest.mark.parametrize(("divisions", "classes"), [(11, 187), (13, 631)])
def test_progress_ends_where_it_said_it_would(divisions: int, classes: int, cache: Path) -> None:
    """Necklaces of a prime number of beads, less the empty one: (2^p - 2) / p + 1."""
    told: list[tuple[int, int]] = []
    ensure(divisions, progress=lambda done, total: told.append((done, total)))
    assert told[-1] == (classes, classes)
    assert [done for done, _ in told] == sorted(done for done, _ in told)


def test_the_columns_digest_names_packs_and_code(monkeypatch: pytest.MonkeyPatch) -> None:
    before = columns_digest(REGISTRY, 12)
    assert before == columns_digest(REGISTRY, 12)
    assert before != columns_digest(REGISTRY, 11)
    monkeypatch.setattr("gamutwright.catalogue.fact_columns._code_digest", lambda packages: "other code")
    assert before != columns_digest(REGISTRY, 12)


def test_the_cache_folder_can_be_named(cache: Path) -> None:
    assert cache_folder() == cache
    assert json.loads((ensure(3).parent / "manifest.json").read_text(encoding="utf-8"))["rows"] == 4


def test_classes_and_modes_are_those_of_the_kernel() -> None:
    for divisions in (2, 5, 12):
        (classes,) = necklace_chunks(divisions)
        members, owners = rooted_members(classes, divisions)
        spread = [(int(classes[owner]), int(mode)) for mode, owner in zip(members, owners, strict=True)]
        assert [(word, mode) for word, modes in classes_and_modes(divisions) for mode in modes] == spread
