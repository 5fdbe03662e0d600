"""The README's printed result is what the command prints, and its commands work."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^    (?:\$ )?gamutwright (.+)$", README, re.MULTILINE)


def run(words: list[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 - the README's own commands
        [sys.executable, "-m", "gamutwright", *words],
        env={**os.environ, "COLUMNS": "80", "PYTHONUTF8": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_printed_result_is_real() -> None:
    shown = re.search(r"^    \$ gamutwright (.+)\n\n```text\n(.*?)\n```", README, re.MULTILINE | re.DOTALL)
    assert shown is not None
    printed = "\n".join(line.rstrip() for line in run(shlex.split(shown[1])).stdout.splitlines())
    assert printed == shown[2]


@pytest.mark.parametrize("command", COMMANDS)
def test_the_commands_work(command: str) -> None:
    done = run(shlex.split(command))
    assert done.returncode == 0, done.stderr


def test_the_readme_begins_with_the_job() -> None:
    first = README.split("\n\n")[1]
    assert first.startswith("Gamutwright does the whole job")
