"""The command as a teacher types it: here and now, or in a process of its own."""

from __future__ import annotations

import contextlib
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from gamutwright.cli import main

__all__ = ["run", "run_apart"]

WIDTH = "80"


def run(*words: str, cwd: Path | None = None, typed: str = "") -> subprocess.CompletedProcess[str]:
    """Run the command in this process, which spares its start; an error that nobody expected is raised.

    Parameters
    ----------
    *words : str
        What follows the name of the program.
    cwd : Path, optional
        Where it is typed; the folder of the tests without it.
    typed : str
        What is typed while it runs.

    Returns
    -------
    CompletedProcess
        Exit code and what was printed.
    """
    out, err = io.StringIO(), io.StringIO()
    code: int | str | None = 0
    with (
        pytest.MonkeyPatch.context() as patch,
        contextlib.chdir(cwd or Path.cwd()),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
    ):
        patch.setenv("COLUMNS", WIDTH)
        patch.setattr(sys, "argv", ["gamutwright", *words])
        patch.setattr(sys, "stdin", io.StringIO(typed))
        try:
            main()
        except SystemExit as ended:
            code = ended.code
    assert code is None or isinstance(code, int), code
    return subprocess.CompletedProcess(words, code or 0, out.getvalue(), err.getvalue())


def run_apart(*words: str, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own, and in an environment of its own."""
    return subprocess.run(  # noqa: S603 - our own command with fixed words
        [sys.executable, "-m", "gamutwright", *words],
        env={**os.environ, "COLUMNS": WIDTH, "PYTHONUTF8": "1", **environment},
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
    )
