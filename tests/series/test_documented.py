"""What is documented of courses: every key, every rule, every command."""

from __future__ import annotations

from pathlib import Path

import pytest

from gamutwright.cli.series_commands import app
from gamutwright.series.course import Film, LessonWish, Music, Scales, Sounding, Voicing, _File
from gamutwright.series.course_checks import Rule

PAGE = (Path(__file__).parents[2] / "docs" / "series.md").read_text("utf-8")
KEYS = [
    *(name for name in _File.model_fields if name not in {"film", "voice", "sound", "music", "scales", "lesson"}),
    *(f"[film] {name}" for name in Film.model_fields),
    *(f"[voice] {name}" for name in Voicing.model_fields),
    *(f"[sound] {name}" for name in Sounding.model_fields),
    *(f"[music] {name}" for name in Music.model_fields),
    *(f"[scales] {name}" for name in Scales.model_fields),
    *(f"[[lesson]] {name}" for name in LessonWish.model_fields),
]


@pytest.mark.parametrize("key", KEYS)
def test_every_key_is_documented(key: str):
    assert f"`{key}`" in PAGE


@pytest.mark.parametrize("rule", list(Rule))
def test_every_rule_is_documented(rule: Rule):
    assert f"| {rule.value} |" in PAGE


@pytest.mark.parametrize("command", app.registered_commands)
def test_every_command_is_documented(command: object):
    name = getattr(getattr(command, "callback", None), "__name__", "")
    assert f"`gamutwright series {name}" in PAGE
