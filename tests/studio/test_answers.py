"""The list of what people expect names tests that are there: a promise whose test was renamed or removed is found."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROW = re.compile(r"^\| (\d+) \|[^|]+\|[^|]+\|([^|]+)\|$", re.MULTILINE)


def test_every_expectation_is_answered_by_a_test_that_is_there():
    rows = ROW.findall((ROOT / "docs" / "studio-answers.md").read_text("utf-8"))
    assert [int(number) for number, _ in rows] == list(range(1, 26))
    there = set()
    for path in (ROOT / "tests").rglob("test_*.py"):
        there |= set(re.findall(r"^def (test_\w+)", path.read_text("utf-8"), re.MULTILINE))
    named = {name for _, names in rows for name in re.findall(r"`(test_\w+)`", names)}
    assert len(named) >= 20
    assert named <= there
