"""What comes with the package is what the code computes, and the core needs neither a compiler nor Arrow to use it."""

from __future__ import annotations

import math
import subprocess
import sys
from collections import Counter, defaultdict
from collections.abc import Callable
from dataclasses import replace
from math import comb
from pathlib import Path

import pyarrow.parquet as pq
import pytest

from gamutwright.catalogue.build import definition_rows, ensure, is_built
from gamutwright.catalogue.fact_columns import column_kinds, fact_columns, is_class_invariant
from gamutwright.catalogue.query import Catalogue
from gamutwright.catalogue.shares import LARGEST_AT_ONCE, Shares, count_values, is_counted
from gamutwright.catalogue.shipped import SCALES_FILE, further_facts, shipped_counts, shipped_file
from gamutwright.errors import CatalogueError
from gamutwright.facts.registry import Pack, Registry, default_registry, load_registry
from gamutwright.facts.roles import Roles
from gamutwright.files import CACHE_VARIABLE
from gamutwright.theory.counting import necklace_counts
from gamutwright.theory.scale import Scale

ROOT = Path(__file__).parents[2]
REGISTRY = default_registry()
STALE = "what comes with the package is older than the code: run make docs (docs/catalogue.py alone is enough)"


@pytest.fixture(name="script", scope="module")
def _script() -> dict[str, Callable[..., object]]:
    namespace: dict[str, Callable[..., object]] = {"__name__": "catalogue"}
    place = ROOT / "docs" / "catalogue.py"
    exec(compile(place.read_text(encoding="utf-8"), str(place), "exec"), namespace)  # noqa: S102 - our own script
    return namespace


def test_it_was_made_from_this_code(script: dict[str, Callable[..., object]]):
    made_from = SCALES_FILE.with_name("digest.txt").read_text(encoding="utf-8").strip()
    assert made_from == script["code_digest"](), STALE


def test_neither_comments_nor_docstrings_are_code(script: dict[str, Callable[..., object]]):
    code = 'WORDS = "# no comment"\n\n\ndef five() -> int:\n    return 5\n'
    told = '"""Told."""\n\n# so\nWORDS = "# no comment"  # and so\n\n\n'
    told += 'def five() -> int:\n    """Give\n\n    five."""\n    return 5\n'
    assert script["bare"](told) == script["bare"](code)
    assert script["bare"](told) != script["bare"](told.replace("return 5", "return 6"))
    assert script["bare"](told) != script["bare"](told.replace("no comment", "a comment"))


def is_same(cell: object, expected: object) -> bool:
    if isinstance(cell, list) and isinstance(expected, list):
        return len(cell) == len(expected) and all(map(is_same, cell, expected))
    if isinstance(cell, float) and isinstance(expected, float):
        return math.isclose(cell, expected, rel_tol=1e-12, abs_tol=1e-12)
    return cell == expected


def test_every_cell_equals_the_definition():
    """Read by another library, pyarrow."""
    columns = list(column_kinds(REGISTRY, 12))
    table = pq.read_table(SCALES_FILE)
    assert table.column_names == columns, STALE
    shipped = [tuple(row.values()) for row in table.to_pylist()]
    assert len(shipped) == 2**11
    for cells, expected in zip(shipped, definition_rows(12, REGISTRY), strict=True):
        for column, cell, value in zip(columns, cells, expected, strict=True):
            assert is_same(cell, value), (column, expected[0], STALE)


def test_counts_of_twelve_equal_a_tally():
    """Tallied in Python from the rows, without the database."""
    rows = pq.read_table(SCALES_FILE).to_pylist()
    expected: dict[tuple[str, int, str], list[int]] = {}
    for fact in filter(is_counted, fact_columns(REGISTRY, 12)):
        scales: Counter[tuple[int, str]] = Counter()
        classes: defaultdict[tuple[int, str], set[int]] = defaultdict(set)
        for row in rows:
            if (value := row[fact.id]) is not None:
                key = (row["cardinality"], str(value).lower() if isinstance(value, bool) else str(value))
                scales[key] += 1
                classes[key].add(row["_class"])
        expected |= {(fact.id, *key): [count, len(classes[key])] for key, count in scales.items()}
    found = shipped_counts(12, REGISTRY)
    assert found is not None
    assert {tuple(key): alike for *key, alike in ((f, s, v, [a, b]) for f, s, v, a, b in found)} == expected


@pytest.mark.parametrize("divisions", range(2, LARGEST_AT_ONCE + 1))
def test_counts_add_up_to_all_scales_and_classes(divisions: int):
    """C(n-1, k-1) rooted scales of k tones, and as many classes as there are necklaces of k black beads."""
    found = shipped_counts(divisions, REGISTRY)
    assert found is not None
    necklaces = necklace_counts(divisions)
    for fact in filter(is_counted, fact_columns(REGISTRY, divisions)):
        for size in range(1, divisions + 1):
            alike = [(scales, classes) for one, tones, _, scales, classes in found if (one, tones) == (fact.id, size)]
            if (
                fact.domain.tones[0] <= size <= fact.domain.tones[1]
                and fact.evaluate(scale_of(size, divisions)) is not None
            ):
                assert sum(scales for scales, _ in alike) <= comb(divisions - 1, size - 1)
                if is_class_invariant(fact):
                    assert sum(classes for _, classes in alike) <= necklaces[size]
    sizes = {size: (scales, classes) for one, size, _, scales, classes in found if one == "cardinality"}
    assert sizes == {size: (comb(divisions - 1, size - 1), necklaces[size]) for size in range(1, divisions + 1)}


def scale_of(size: int, divisions: int) -> Scale:
    return Scale.of(*range(size), divisions=divisions)


@pytest.mark.parametrize("divisions", [9, 13])
def test_counts_are_those_of_a_catalogue_built_here(divisions: int, catalogue_cache: Path):
    facts = [fact for fact in fact_columns(REGISTRY, divisions) if is_counted(fact)]
    counted = {tuple(row) for row in count_values(divisions, REGISTRY, facts)}
    assert counted == set(shipped_counts(divisions, REGISTRY) or ()), STALE


@pytest.fixture(name="further")
def _further() -> Registry:
    """The built-in facts, and a pack of one: how many tones lie two steps above another."""
    fact = replace(
        REGISTRY.facts["cardinality"],
        id="tones_above_tones",
        value=lambda scale: sum((tone + 2) % scale.divisions in scale.tones for tone in scale.tones),
        needs=(),
        roles=Roles(),
    )
    return load_registry([*REGISTRY.packs, Pack("harbour", "harbour-pack", "1.0", (fact,))])


def test_only_the_facts_of_further_packs_are_computed(
    further: Registry, catalogue_cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv(CACHE_VARIABLE, str(tmp_path))
    assert [fact.id for fact in further_facts(12, further)] == ["tones_above_tones"]
    assert shipped_file(12, further) is None
    assert not is_built(12, further)
    asked: Counter[str] = Counter()
    computed = type(further.facts["cardinality"]).evaluate

    def counting(fact: object, scale: Scale) -> object:
        asked[fact.id] += 1  # type: ignore[attr-defined]
        return computed(fact, scale)  # type: ignore[arg-type]

    monkeypatch.setattr("gamutwright.facts.model.Fact.evaluate", counting)
    monkeypatch.setattr("gamutwright.catalogue.fact_columns._code_digest", lambda packages: "code")
    with Catalogue(12, registry=further) as catalogue, Catalogue(12) as plain:
        assert asked.keys() == {"tones_above_tones"}
        # The whole-tone scale: every tone has one two steps above it.
        found = catalogue.find("bits = '101010101010'", columns=["tones_above_tones"])
        assert list(found) == [{"tones_above_tones": 6}]
        assert catalogue.find(columns=plain.stored).cells == plain.find().cells


def test_their_values_are_counted_beside_those_that_come(
    further: Registry, catalogue_cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv(CACHE_VARIABLE, str(tmp_path))
    monkeypatch.setattr("gamutwright.catalogue.fact_columns._code_digest", lambda packages: "code")
    shares, whole_tone = Shares(12, further), Scale.of(0, 2, 4, 6, 8, 10)
    share = shares.of(further.facts["tones_above_tones"], whole_tone)
    assert share is not None
    assert (share.scales_alike, share.classes_alike) == (1, 1)
    even = shares.of(further.facts["is_maximally_even"], whole_tone)
    assert even is not None
    assert (even.scales_alike, even.classes_alike) == (1, 1)


def without(*modules: str, words: list[str], cache: Path) -> subprocess.CompletedProcess[str]:
    """Run a command where modules are not installed."""
    blocked = "; ".join(f"sys.modules[{module!r}] = None" for module in modules)
    code = f"import sys; {blocked}; sys.argv[1:] = {words!r}; from gamutwright.cli import main; main()"
    return subprocess.run(  # noqa: S603 - our own
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=False,
        env={"PATH": "", "PYTHONPATH": str(ROOT / "src"), CACHE_VARIABLE: str(cache), "PYTHONUTF8": "1"},
    )


OPTIONAL = ("numba", "llvmlite", "pyarrow", "pandas", "polars")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["find", "cardinality = 7 AND is_balanced", "--json"], '"bits"'),
        (["find", "--like", "G acoustic", "--limit", "2"], "2 shown"),
        (["find", "cardinality = 3 AND is_maximally_even", "--divisions", "7"], "3 scales"),
        (["find", "--between", "C major", "D major"], "Chain 1"),
        (["rare", "G", "acoustic"], "462 rooted scales"),
        (["draft", "G", "acoustic"], "acoustic"),
        (["draft", "3-3-2-3-3-3-2", "--divisions", "19"], "divisions: 19"),
    ],
    ids=" ".join,
)
def test_the_core_does_without_a_compiler_and_without_arrow(words: list[str], says: str, tmp_path: Path):
    done = without(*OPTIONAL, words=words, cache=tmp_path)
    assert done.returncode == 0, done.stderr
    assert says in done.stdout
    if "--divisions" not in words:
        assert not list(tmp_path.rglob("*.parquet"))


@pytest.mark.parametrize("missing", ["numba", "pyarrow"])
def test_what_is_missing_for_large_divisions_is_named_with_the_command(missing: str, tmp_path: Path):
    done = without(missing, words=["find", "cardinality = 3", "--divisions", "13"], cache=tmp_path)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    told = " ".join(done.stderr.split())
    assert f"{missing} is not installed" in told
    assert "pip install 'gamutwright[catalogues]'" in told


def test_files_of_rows_are_written_without_arrow(tmp_path: Path):
    words = ["find", "cardinality = 5", "--columns", "bits,step_pattern", "--parquet", str(tmp_path / "fives.parquet")]
    assert without(*OPTIONAL, words=words, cache=tmp_path / "cache").returncode == 0
    read = pq.read_table(tmp_path / "fives.parquet").to_pylist()
    assert len(read) == 330  # C(11, 4)
    assert {"bits": "101001010010", "step_pattern": [2, 3, 2, 3, 2]} in read


def test_it_stays_small():
    assert sum(path.stat().st_size for path in SCALES_FILE.parent.iterdir()) < 2_000_000
    assert ensure(12) == SCALES_FILE


def test_a_damaged_file_is_not_said_to_be_built_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    broken = tmp_path / "twelve.parquet"
    broken.write_bytes(SCALES_FILE.read_bytes()[:5000])
    for module in ("shipped", "query"):
        monkeypatch.setattr(f"gamutwright.catalogue.{module}.SCALES_FILE", broken)
    with pytest.raises(CatalogueError, match="Install gamutwright anew"):
        Catalogue(12)
