"""Packs of facts: found by entry point, refused where they would mislead."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from gamutwright.errors import PackError, UnknownFactError
from gamutwright.facts.checks import complaints
from gamutwright.facts.model import Fact
from gamutwright.facts.registry import Pack, default_registry, load_pack, load_registry
from gamutwright.jobs.packs import PACKS_VARIABLE

EXAMPLE = Path(__file__).parents[1] / "packs" / "harbour_pack" / "src"
METADATA = """Metadata-Version: 2.1
Name: harbour-pack
Version: 1.2.0
"""


@pytest.fixture(name="site")
def _site(tmp_path: Path) -> Path:
    """A folder that looks like an installed example pack: the package beside its distribution's metadata."""
    for module in (EXAMPLE / "harbour_pack").glob("*.py"):
        target = tmp_path / "harbour_pack" / module.name
        target.parent.mkdir(exist_ok=True)
        target.write_text(module.read_text(encoding="utf-8"), encoding="utf-8")
    info = tmp_path / "harbour_pack-1.2.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(METADATA, encoding="utf-8")
    (info / "entry_points.txt").write_text("[gamutwright.facts]\nharbour = harbour_pack\n", encoding="utf-8")
    return tmp_path


def run(site: Path, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command line in a process of its own, with the example pack installed."""
    return subprocess.run(  # noqa: S603 - our own command with fixed words
        [sys.executable, "-m", "gamutwright", *words],
        env={**os.environ, "PYTHONPATH": str(site), "PYTHONUTF8": "1", **environment},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture(name="fact")
def _fact() -> Fact:
    return default_registry().fact("semitone_steps")


@pytest.fixture(name="example")
def _example(monkeypatch: pytest.MonkeyPatch) -> Iterator[Fact]:
    monkeypatch.syspath_prepend(str(EXAMPLE))
    yield load_pack("harbour", "harbour_pack", "harbour-pack", "1.2.0").facts[0]
    for name in [name for name in sys.modules if name.startswith("harbour_pack")]:
        del sys.modules[name]


def test_the_example_pack_passes_the_kit(example: Fact) -> None:
    assert not complaints(example)


def test_an_installed_pack_is_taken_in_and_answers(site: Path) -> None:
    done = run(site, "describe", "C", "dorian", "--fact", "whole_tone_steps")
    assert done.returncode == 0, done.stderr
    assert "Whole-tone steps" in done.stdout
    assert "C–D" in done.stdout


def test_packs_can_be_pinned(site: Path) -> None:
    done = run(site, "facts", "whole_tone_steps", **{PACKS_VARIABLE: "builtin"})
    assert done.returncode == 2
    assert "no installed pack offers it" in done.stderr


def test_a_pinned_pack_that_is_missing_is_named(site: Path) -> None:
    done = run(site, "facts", **{PACKS_VARIABLE: "builtin,lighthouse"})
    assert done.returncode == 2
    assert "lighthouse" in done.stderr
    assert "harbour" in done.stderr


def test_a_pack_that_fails_to_import_stops_everything(site: Path) -> None:
    (site / "harbour_pack" / "broken.py").write_text("raise ValueError('high water')\n", encoding="utf-8")
    done = run(site, "facts")
    assert done.returncode == 2
    assert "pack 'harbour' of harbour-pack 1.2.0" in done.stderr
    assert "high water" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_module_without_a_fact_of_its_own_name_is_refused(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (site / "harbour_pack" / "whole_tone_steps.py").rename(site / "harbour_pack" / "tone_steps.py")
    done = run(site, "facts")
    assert done.returncode == 2
    assert "tone_steps" in done.stderr


def test_a_clash_of_ids_names_both_distributions(site: Path) -> None:
    module = site / "harbour_pack" / "whole_tone_steps.py"
    text = module.read_text(encoding="utf-8").replace('id="whole_tone_steps"', 'id="semitone_steps"')
    (site / "harbour_pack" / "semitone_steps.py").write_text(text, encoding="utf-8")
    done = run(site, "facts")
    assert done.returncode == 2
    assert "semitone_steps" in done.stderr
    assert "gamutwright" in done.stderr
    assert "harbour-pack" in done.stderr


def test_two_publications_under_one_key_are_refused(fact: Fact) -> None:
    citation = fact.sources[0]
    other = replace(citation, source=replace(citation.source, title="Another book"))
    packs = [
        Pack("one", "one", "1", (replace(fact, needs=()),)),
        Pack("two", "two", "1", (replace(fact, id="other", needs=(), sources=(other,)),)),
    ]
    with pytest.raises(PackError, match="two publications"):
        load_registry(packs)


def test_a_need_that_nobody_offers_is_refused(fact: Fact) -> None:
    with pytest.raises(PackError, match="tide_table"):
        load_registry([Pack("one", "one", "1", (replace(fact, needs=("tide_table",)),))])


def test_needs_in_a_circle_are_refused(fact: Fact) -> None:
    one, two = replace(fact, id="one", needs=("two",)), replace(fact, id="two", needs=("one",))
    with pytest.raises(PackError, match="circle"):
        load_registry([Pack("one", "one", "1", (one, two))])


def test_facts_come_after_what_they_need_within_their_group() -> None:
    facts = list(default_registry().facts.values())
    place = {fact.id: index for index, fact in enumerate(facts)}
    levels = ["foundation", "further", "research"]
    for fact in facts:
        for need in fact.needs:
            needed = default_registry().fact(need)
            if needed.group is fact.group:
                assert levels.index(needed.level.value) <= levels.index(fact.level.value), (fact.id, need)
                assert place[need] < place[fact.id]


def test_an_unknown_fact_is_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownFactError, match="step_pattern"):
        default_registry().fact("step_patern")
