"""Digests of files that are remembered as long as the files look untouched.

Reading hundreds of films only to see that nothing changed takes longer than all the rest of a build; so a digest is
remembered with size, time of change and number of the file, as version-control programs do it, and the file is read
again when one of them differs.

Conventions: a file that was changed within the two seconds before it was read is not remembered, since another change
could have the same time. What is remembered can be deleted at any time.
"""

from __future__ import annotations

import hashlib
import json
import time
from pathlib import Path
from typing import Any, Final

from gamutwright.codec import plain_from_json
from gamutwright.files import write_text
from gamutwright.jobs.record import content_digest

__all__ = ["FileDigests"]

_GRAIN_NS: Final = 2_000_000_000


class FileDigests:
    """Digests of files.

    Parameters
    ----------
    path : Path
        Where they are remembered.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     film = Path(folder, "film.mp4")
    ...     _ = film.write_bytes(b"old")
    ...     digests = FileDigests(Path(folder, "digests.json"))
    ...     before = digests.of(film)
    ...     _ = film.write_bytes(b"new")
    ...     before == digests.of(film)
    False
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._is_new = False
        self._known: dict[str, list[int | str]] = {}
        try:
            held: Any = plain_from_json(path.read_bytes())
        except (OSError, ValueError):
            return
        if isinstance(held, dict):
            self._known = {name: row for name, row in held.items() if isinstance(row, list) and len(row) == 4}

    def of(self, path: Path) -> str:
        """Digest a file, or a folder with all that is in it.

        Parameters
        ----------
        path : Path
            A file, a folder, or nothing.

        Returns
        -------
        str
            64 hexadecimal digits; "" where there is nothing. A folder's is that of its files' names and digests.
        """
        if path.is_dir():
            rows = [
                f"{child.relative_to(path)}\0{self.of(child)}\n" for child in sorted(path.rglob("*")) if child.is_file()
            ]
            return hashlib.sha256("".join(rows).encode("utf-8", "surrogateescape")).hexdigest()
        try:
            status = path.stat()
        except OSError:
            return ""
        looks = [status.st_size, status.st_mtime_ns, status.st_ino]
        name = str(path)
        row = self._known.get(name)
        if row is not None and row[:3] == looks:
            return str(row[3])
        begun = time.time_ns()
        digest = content_digest(path)
        if status.st_mtime_ns < begun - _GRAIN_NS:
            self._known[name] = [*looks, digest]
            self._is_new = True
        return digest

    def save(self) -> None:
        """Write down what was found out, where it is new."""
        if self._is_new:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            write_text(self._path, json.dumps(self._known))
            self._is_new = False
