"""A language that nobody speaks runs through a whole lesson, and no text of another language is seen in it."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from gamutwright.facts.registry import default_registry
from languages.pseudo import install, is_accented

SCRIPTS = ("leaks.py", "screens.py")
NUMBERS = re.findall(r"\w+", "about percent half of no none one two three four five six seven eight nine ten eleven a")
OF_VALUES = re.compile(
    rf"(?:\b(?:{'|'.join(NUMBERS)}|and|or|to|sharp|flat|natural|double|major|minor|diminished|augmented|with|seventh|fifth|fourth|raised|lowered|the|its|alone)\b"
    r"|\b[A-H][♯♭𝄪𝄫]?\b|[\W\d_]|\b(?:dim|aug|maj|m)\b)*"
)
"""Numbers and names of notes, degrees and chords: these are English in the language that nobody speaks."""
OF_SOURCES = re.compile(r"\((?:\d{4}|n\. d\.)\)|common practice")
"""A publication keeps its title and its place."""
AS_THEY_ARE = re.compile(
    r"(?:Gamutwright|eSpeak|Source S|Apache|GPL|SIL Open|OFL|Bravura|Leipzig|verovio|Lendvai"
    r"|G acoustic|acoustic|(?:the fourth mode of )?D +melodic minor|mela \d+|lydian|film\.mp4|Forte|https?:"
    r"|/\w|cardinality = )"
)
"""Names of programs, licences, people and scales."""


@pytest.fixture(scope="module", name="site")
def _site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    site = tmp_path_factory.mktemp("site")
    install(site, {fact.message: fact.title for fact in default_registry().facts.values()})
    return site


@pytest.fixture(scope="module", name="told", params=SCRIPTS)
def _told(request: pytest.FixtureRequest, site: Path) -> dict[str, list[str]]:
    paths = os.pathsep.join([str(site), *filter(None, [os.environ.get("PYTHONPATH")])])
    done = subprocess.run(  # noqa: S603 - our own script
        [sys.executable, str(Path(__file__).with_name(request.param))],
        env={**os.environ, "PYTHONPATH": paths, "PYTHONUTF8": "1"}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.mark.parametrize("told", ["leaks.py"], indirect=True)
def test_every_statement_is_proved(told: dict[str, list[str]]):
    assert told.pop("complaints") == []
    assert told.pop("faults") == []
    assert len(told["script"]) > 30


def test_no_text_is_of_another_language(told: dict[str, list[str]]):
    """Film, page, sheet, quiz, score, site, state of a course, every screen of the studio, and faults."""
    assert told
    for part, texts in told.items():
        shown = [text for text in texts if len(re.findall(r"[A-Za-z]{3,}", text)) >= 2]
        assert sum(map(is_accented, texts)) > 1, part
        leaks = [
            text for text in shown
            if not (
                is_accented(text) or OF_VALUES.fullmatch(text) or OF_SOURCES.search(text) or AS_THEY_ARE.match(text)
            )
        ]  # fmt: skip
        assert leaks == [], part
