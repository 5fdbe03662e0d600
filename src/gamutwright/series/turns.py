"""One build of a course at a time: who comes second watches the first, and takes what it makes.

On disk, in the folder of what is kept: `build.lock`, which the system keeps locked for exactly as long as the builder
lives, so that nothing is left to clear away after a kill; and `build.jsonl`, what the builder tells, a line each.

Conventions: a lesson is known by the key of its package, so that only what is the same is taken over.
"""

from __future__ import annotations

import json
import os
import platform
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import TracebackType
from typing import IO, Any, Self

from gamutwright.codec import Plain, plain_from_json
from gamutwright.files import lock_file, make_folder

__all__ = ["Turn"]

WATCH_EACH_S = 0.2
"""How often one who watches looks."""


class Turn:
    """A place among those who build a course.

    Parameters
    ----------
    folder : Path
        The folder of what is kept of the course.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as name, Turn(Path(name)) as first, Turn(Path(name)) as second:
    ...     begun = first.take()
    ...     first.begin()
    ...     first.say({"built": "dorian"})
    ...     begun, second.take(), [line["built"] for line in second.heard() if "built" in line]
    (True, False, ['dorian'])
    """

    def __init__(self, folder: Path) -> None:
        make_folder(folder)
        self._lock, self._told = folder / "build.lock", folder / "build.jsonl"
        self._locked: IO[bytes] | None = None
        self._saying: IO[bytes] | None = None
        self._read = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        for file in (self._saying, self._locked):
            if file is not None:
                file.close()

    def take(self) -> bool:
        """Begin to build, if nobody else does.

        Returns
        -------
        bool
            Whether it is this one's turn now; it is until it leaves.
        """
        if self._locked is None:
            file = self._lock.open("ab")
            if not lock_file(file, waits=False):
                file.close()
                return False
            self._locked = file
        return True

    def follow(self, hear: Callable[[dict[str, Any]], None], is_enough: Callable[[], bool]) -> bool:
        """Wait until it is this one's turn, or whoever builds has told enough; then begin.

        Parameters
        ----------
        hear : callable
            Told what the builder tells, line by line.
        is_enough : callable
            Whether nothing more is wanted.

        Returns
        -------
        bool
            Whether somebody else was at it.
        """
        is_second = False
        while not self.take():
            # By then whoever has just begun has taken away what was told before.
            time.sleep(WATCH_EACH_S)
            is_second = True
            for line in self.heard():
                hear(line)
            if is_enough():
                return True
        for line in self.heard() if is_second else ():
            hear(line)
        self.begin()
        return is_second

    def begin(self) -> None:
        """Take away what the builder before has told, and tell who builds now."""
        self._saying = self._told.open("wb", buffering=0)
        self.say({"builder": f"process {os.getpid()} on {platform.node() or 'this machine'}"})

    def say(self, line: Mapping[str, Plain]) -> None:
        """Tell those who watch.

        Parameters
        ----------
        line : mapping
            Plain data.
        """
        if self._saying is not None:
            self._saying.write((json.dumps(line, ensure_ascii=False) + "\n").encode())

    def heard(self) -> Iterator[dict[str, Any]]:
        """Give what the builder has told since this was asked before.

        Yields
        ------
        dict
            A line that is whole.
        """
        try:
            with self._told.open("rb") as file:
                if self._read > file.seek(0, os.SEEK_END):
                    self._read = 0  # another has begun meanwhile
                file.seek(self._read)
                content = file.read()
        except FileNotFoundError:
            return
        whole = content[: content.rfind(b"\n") + 1]
        self._read += len(whole)
        for line in whole.splitlines():
            try:
                told = plain_from_json(line)
            except ValueError:
                continue  # cut short by a kill
            if isinstance(told, dict):
                yield told
