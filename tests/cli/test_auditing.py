"""The report of an audit on the disk: whole, or what was there before."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from gamutwright.cli.audit_command import run
from gamutwright.errors import FileError


def test_a_report_is_written_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    talk, report = tmp_path / "talk.txt", tmp_path / "report.md"
    talk.write_text("The C major scale has seven notes.")
    report.write_text("my notes of last week")

    def full(_file: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", full)
        with pytest.raises(FileError, match="No space left on device"):
            run(talk, output=report)
    assert report.read_text() == "my notes of last week"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["report.md", "talk.txt"]
    assert run(talk, output=report) == 0
    assert "has seven notes" in report.read_text()
    with pytest.raises(FileError, match="cannot be written"):
        run(talk, output=tmp_path / "nowhere" / "report.md")
