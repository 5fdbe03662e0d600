"""A file is whole or as it was: after a fault while writing, a full disk, a kill."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import IO

import pytest

from gamutwright.errors import FileError
from gamutwright.files import replace_file, write_text

OLD, NEW = "old tide\n", "new tide\n" * 200_000


def test_the_old_file_stays_when_writing_fails(tmp_path: Path) -> None:
    path = tmp_path / "script.md"
    write_text(path, OLD)

    def fail(file: IO[bytes]) -> None:
        file.write(b"half")
        raise OSError(28, "No space left on device")

    with pytest.raises(FileError, match="No space left"):
        replace_file(path, fail)
    assert path.read_text(encoding="utf-8") == OLD
    assert list(tmp_path.iterdir()) == [path]


def test_interrupting_leaves_nothing_behind(tmp_path: Path) -> None:
    def stop(file: IO[bytes]) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        replace_file(tmp_path / "script.md", stop)
    assert not list(tmp_path.iterdir())


def test_a_full_device_is_said() -> None:
    """Linux's own full device."""
    with pytest.raises(FileError, match="cannot be written"):
        write_text(Path("/dev/full/script.md"), OLD)


def test_links_and_permissions_are_kept(tmp_path: Path) -> None:
    real, link = tmp_path / "real.md", tmp_path / "link.md"
    write_text(real, OLD)
    real.chmod(0o640)
    link.symlink_to(real)
    write_text(link, "x")
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == "x"
    assert real.stat().st_mode & 0o777 == 0o640


def test_killed_at_any_moment_the_file_is_old_or_new(tmp_path: Path) -> None:
    path = tmp_path / "script.md"
    code = (
        "import sys; from pathlib import Path; from gamutwright.files import write_text\n"
        f"while True: write_text(Path({str(path)!r}), {'new tide' + chr(10)!r} * 200_000)"
    )
    source = random.Random(7)  # noqa: S311 - repeatable moments
    for _ in range(5):
        write_text(path, OLD)
        process = subprocess.Popen([sys.executable, "-c", code])  # noqa: S603 - our own code
        time.sleep(source.uniform(0.1, 0.4))
        process.send_signal(signal.SIGKILL)
        process.wait()
        assert path.read_text(encoding="utf-8") in {OLD, NEW}
