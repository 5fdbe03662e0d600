"""The command as a teacher types it, in a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path


def run(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 - our own command with fixed words
        [sys.executable, "-m", "gamutwright", *words],
        env={**os.environ, "COLUMNS": "100", "PYTHONUTF8": "1"},
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
    )
