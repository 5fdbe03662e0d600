"""Drafting, checking and mending as a teacher types it."""

from __future__ import annotations

import json
import re
from importlib import resources
from pathlib import Path

import jsonschema
import pytest

from cli.typed import run

SCRIPT = """---
scale: C D E F G A B
---
# Climbing it
It has [three]{fact=semitone_steps} semitone steps: [here and here]{each=semitone_steps}.
Its steps are [two, two, one, two, two, two and one]{fact=step_pattern}.
"""


@pytest.fixture(name="script")
def _script(tmp_path: Path) -> Path:
    path = tmp_path / "script.md"
    path.write_text(SCRIPT, encoding="utf-8")
    return path


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_draft_is_written_and_checks_clean(tmp_path: Path, language: str) -> None:
    done = run("draft", "G", "acoustic", "-l", language, "--minutes", "4", "-o", "acoustic.md", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "gamutwright check acoustic.md" in done.stderr
    checked = run("check", "acoustic.md", "--ledger", "ledger.json", "--pace", cwd=tmp_path)
    assert checked.returncode == 0, checked.stdout
    assert "contradicted" not in checked.stdout
    schema = json.loads(
        resources.files("gamutwright.schemas").joinpath("ledger.schema.json").read_text(encoding="utf-8")
    )
    jsonschema.validate(json.loads((tmp_path / "ledger.json").read_text(encoding="utf-8")), schema)


def test_a_file_that_is_there_is_not_replaced_without_a_word(script: Path) -> None:
    done = run("draft", "G", "acoustic", "-o", str(script))
    assert done.returncode == 2
    assert "--force" in done.stderr
    assert script.read_text(encoding="utf-8") == SCRIPT


def test_earlier_lessons_spare_explanations(tmp_path: Path) -> None:
    assert run("draft", "D", "dorian", "-o", "one.md", cwd=tmp_path).returncode == 0
    alone = run("draft", "G", "acoustic").stdout
    after = run("draft", "G", "acoustic", "--after", "one.md", cwd=tmp_path).stdout
    explained = set(re.findall(r"(?:define|explain)=(\w+)\}", (tmp_path / "one.md").read_text(encoding="utf-8")))
    assert explained & set(re.findall(r"(?:define|explain)=(\w+)\}", alone))
    assert not explained & set(re.findall(r"(?:define|explain)=(\w+)\}", after))


def test_a_mistake_is_shown_where_it_stands(script: Path) -> None:
    done = run("check", str(script))
    assert done.returncode == 1
    assert f"{script.name}:5:9: contradicted" in done.stdout
    lines = done.stdout.splitlines()
    carets = next(line for line in lines if set(line) <= {" ", "^"} and "^" in line)
    assert lines[lines.index(carets) - 1][carets.index("^") : carets.rindex("^") + 1] == "three"
    assert "Write: two." in done.stdout


def test_mending_asks_shows_and_writes(script: Path) -> None:
    refused = run("check", str(script), "--fix", typed="n\n")
    assert refused.returncode == 1
    assert script.read_text(encoding="utf-8") == SCRIPT
    done = run("check", str(script), "--fix", typed="y\n")
    assert done.returncode == 0, done.stdout
    assert "+It has [two]{fact=semitone_steps}" in done.stdout
    assert script.read_text(encoding="utf-8") == SCRIPT.replace("[three]", "[two]")


def test_the_ledger_is_printed_as_json(script: Path) -> None:
    read = json.loads(run("check", str(script), "--json").stdout)
    assert [claim["verdict"] for claim in read["claims"]] == ["contradicted", "confirmed", "confirmed"]
    assert read["claims"][0]["value"] == 2


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("---\nscale: C D E\n", "front matter"),
        ("Listen.\n", "scale"),
        ("---\nscale: C D E\n---\nIt has [two{fact=semitone_steps}.\n", ":4:"),
        ("---\nscale: C D E\n---\nIt has [two]{fact=semitone_stepps} steps.\n", "semitone_steps"),
        ("---\nscale: C X\n---\nListen.\n", "X"),
        ("---\nscale: C D E\nlevel: master\n---\nListen.\n", "foundation"),
        ("\ufeff---\r\nscale: C D E\r\n---\r\nIt has [two]{fact=\r\n", ":4:"),
    ],
)
def test_broken_scripts_get_a_place_and_a_reason(tmp_path: Path, text: str, said: str) -> None:
    (tmp_path / "script.md").write_bytes(text.encode())
    done = run("check", "script.md", cwd=tmp_path)
    assert done.returncode in {1, 2}
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stderr


def test_several_scripts_are_checked_in_one_go(script: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.md"
    other.write_text("---\nscale: D E F G A B C\n---\nListen.\n", encoding="utf-8")
    done = run("check", str(script), str(other))
    assert done.returncode == 1
    assert "other.md: no claims" in done.stdout
    assert run("check", str(script), str(other), "--ledger", "x.json").returncode == 2
