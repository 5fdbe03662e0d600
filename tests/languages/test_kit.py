"""The kit for languages: those that come with the package pass it as a whole, and it names what another one lacks."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from gamutwright.errors import DomainError
from gamutwright.facts.registry import default_registry
from gamutwright.languages import known_languages
from gamutwright.lessons.language_checks import language_complaints
from languages.pseudo import TAG, examples, install


@pytest.mark.parametrize("tag", known_languages())
def test_the_languages_of_the_package_pass(tag: str):
    assert language_complaints(tag) == ()


def test_a_language_that_nobody_offers_is_refused():
    with pytest.raises(DomainError):
        language_complaints("tlh")


@pytest.fixture(name="site")
def _site(tmp_path: Path) -> Path:
    install(tmp_path, {fact.message: fact.title for fact in default_registry().facts.values()})
    return tmp_path


def run(site: Path, code: str) -> str:
    paths = os.pathsep.join([str(site), *filter(None, [os.environ.get("PYTHONPATH")])])
    done = subprocess.run(  # noqa: S603 - our own words
        [sys.executable, "-c", code], env={**os.environ, "PYTHONPATH": paths, "PYTHONUTF8": "1"},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


def complaints(site: Path) -> list[str]:
    kit = "from gamutwright.lessons.language_checks import language_complaints as kit"
    return json.loads(run(site, f"import json, sys; {kit}; json.dump(kit({TAG!r}), sys.stdout)"))


def test_the_language_of_the_page_passes_as_the_page_says(site: Path):
    _, proof = examples()
    assert "language_complaints" in proof
    run(site, proof)


def edit(site: Path, name: str, pattern: str, new: str) -> None:
    path = site / "harbour_tongue" / name
    text, count = re.subn(pattern, new, path.read_text(encoding="utf-8"), count=1, flags=re.MULTILINE)
    assert count == 1
    path.write_text(text, encoding="utf-8")


def test_missing_files_words_slots_and_messages_are_named(site: Path):
    (site / "harbour_tongue" / "quiz.toml").unlink()
    edit(site, "page.toml", r'^"ear-next" = .*\n', "")
    edit(site, "print.toml", r"\{note\}", "{tone}")
    edit(site, "stories.ftl", r"^chapter-ear =", "chapter-heard =")
    told = "\n".join(complaints(site))
    for part in ("quiz.toml", "page.toml has no words.ear-next", "has other slots", "message chapter-ear is missing"):
        assert part in told


def test_what_cannot_be_read_back_or_proved_is_named(site: Path):
    edit(site, "facts-builtin.ftl", r"^tritones =(.*\n)+?    \.a = ", r"\g<0>Three things. ")
    edit(site, "__init__.py", "    numerals=NUMERALS,", '    numerals=replace(NUMERALS, cardinal="(?:one|two)"),')
    edit(site, "__init__.py", "^from gamutwright.languages.en", r"from dataclasses import replace\n\g<0>")
    told = "\n".join(complaints(site))
    assert "number 7 is said 'seven' and not read back from it" in told
    edit(site, "__init__.py", r"replace\(NUMERALS.*\),", "NUMERALS,")
    assert any(line.startswith("'Three things.': ") for line in complaints(site))
