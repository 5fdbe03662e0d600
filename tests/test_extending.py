"""The page about extending the workshop shows examples that run as they stand, and what they print."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs" / "extending.md"
EXAMPLES = sorted((ROOT / "examples" / "extending").glob("*.py"))
# Counted by hand: seven tones, each with the root after it; D dorian leaves five of twelve; four words.
PRINTED = {
    "figure": "2, 2, 2, 1, 2, 1, 2",
    "phrase": "14 notes, 7 marks",
    "voice": "4 words in 1.0 seconds",
    "question": "How many tones lie outside it? 5",
    "output": "Number of tones,7",
}


def test_all_five_are_shown():
    assert {path.stem for path in EXAMPLES} == set(PRINTED)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_runs_and_the_page_shows_it(path: Path):
    done = subprocess.run([sys.executable, path], capture_output=True, text=True, check=False)  # noqa: S603 - ours
    assert done.returncode == 0, done.stderr
    assert PRINTED[path.stem] in done.stdout
    page = PAGE.read_text(encoding="utf-8")
    assert f"```text\n{done.stdout}```" in page
    assert path.read_text(encoding="utf-8").split('"""\n', 1)[1].strip() in page
