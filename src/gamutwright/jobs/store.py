"""The store: results by the digest of what they were made from.

Everything that takes long is made once. An entry carries the digest of its own content, so a half-written, damaged or
foreign file is never taken for a result: it is removed, and the result is made again. The whole store can be deleted at
any time.

Conventions: keys are 64 hexadecimal digits; an entry is `<folder>/<first two digits>/<key>`. A parcel is plain data
with byte strings beside it, never code: a store that came with somebody else's folder cannot make this program do
anything. Entries are not flushed to the disk, because their digest tells after a crash whether they are whole.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import struct
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from gamutwright.codec import Plain, canonical_json
from gamutwright.errors import DomainError, FileError
from gamutwright.files import cache_folder

__all__ = ["Parcel", "Store", "store_for"]

MAGIC = b"gamutwright.parcel/1\n"
LIMIT_BYTES = 4 * 2**30
"""How much a store may hold before the entries that were not used for longest are removed."""
_TEMPORARY = ".new-"


@dataclass(frozen=True, slots=True)
class Parcel:
    """A result: plain data and the byte strings that belong to it.

    Parameters
    ----------
    data : Plain
        Numbers and text.
    blobs : tuple of bytes
        What is too large or not text.
    """

    data: Plain = None
    blobs: tuple[bytes, ...] = ()

    def to_bytes(self) -> bytes:
        """Write it with the digest of what it holds.

        Returns
        -------
        bytes
            What `from_bytes` reads.

        Examples
        --------
        >>> Parcel.from_bytes(Parcel({"ticks": 3}, (b"abc",)).to_bytes())
        Parcel(data={'ticks': 3}, blobs=(b'abc',))
        """
        head = canonical_json({"data": self.data, "sizes": [len(blob) for blob in self.blobs]}).encode()
        body = b"".join([struct.pack(">I", len(head)), head, *self.blobs])
        return MAGIC + hashlib.sha256(body).digest() + body

    @classmethod
    def from_bytes(cls, content: bytes) -> Parcel:
        """Read a parcel that is whole.

        Parameters
        ----------
        content : bytes
            A file's content.

        Returns
        -------
        Parcel
            What was written.

        Raises
        ------
        DomainError
            If it is not a parcel, or damaged.
        """
        start = len(MAGIC) + hashlib.sha256().digest_size
        body = memoryview(content)[start:]
        if not content.startswith(MAGIC) or hashlib.sha256(body).digest() != content[len(MAGIC) : start]:
            raise DomainError("a stored result", "it is damaged", "Delete the store; it is made again.")
        (length,) = struct.unpack(">I", body[:4])
        head = json.loads(bytes(body[4 : 4 + length]))
        blobs, at = [], 4 + length
        for size in head["sizes"]:
            blobs.append(bytes(body[at : at + size]))
            at += size
        return cls(head["data"], tuple(blobs))


class Store:
    """Parcels by key, in a folder.

    Parameters
    ----------
    folder : Path
        It is made when something is put there.
    limit_bytes : int
        How much `prune` leaves.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     store = Store(Path(folder))
    ...     store.put("ab" * 32, Parcel({"ticks": 3}))
    ...     store.get("ab" * 32), store.get("cd" * 32)
    (Parcel(data={'ticks': 3}, blobs=()), None)
    """

    def __init__(self, folder: Path, limit_bytes: int = LIMIT_BYTES) -> None:
        self.folder, self.limit_bytes = folder, limit_bytes

    def path_of(self, key: str) -> Path:
        """Give the file of an entry.

        Parameters
        ----------
        key : str
            64 hexadecimal digits.

        Returns
        -------
        Path
            It need not exist.

        Raises
        ------
        DomainError
            If the key is anything else: it must not become part of a path.
        """
        if len(key) != 64 or not set(key) <= set("0123456789abcdef"):
            raise DomainError(repr(key), "a key is 64 hexadecimal digits", "Take the digest of what it was made from.")
        return self.folder / key[:2] / key

    def has(self, key: str) -> bool:
        """Whether there is an entry; whether it is whole is found when it is read.

        Parameters
        ----------
        key : str
            Its key.

        Returns
        -------
        bool
            True if there is a file.
        """
        return self.path_of(key).is_file()

    def get(self, key: str) -> Parcel | None:
        """Read an entry.

        Parameters
        ----------
        key : str
            Its key.

        Returns
        -------
        Parcel or None
            None where there is none, or none that is whole; a damaged one is removed.
        """
        path = self.path_of(key)
        try:
            content = path.read_bytes()
        except OSError:
            return None
        try:
            parcel = Parcel.from_bytes(content)
        except (DomainError, ValueError, KeyError, TypeError, struct.error):
            with contextlib.suppress(OSError):
                path.unlink()
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        return parcel

    def put(self, key: str, parcel: Parcel) -> None:
        """Keep a result.

        Parameters
        ----------
        key : str
            Its key.
        parcel : Parcel
            The result.

        Raises
        ------
        FileError
            If it cannot be written; nothing half-written is left under the key.
        """
        path = self.path_of(key)
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(prefix=_TEMPORARY, dir=path.parent)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(parcel.to_bytes())
                Path(name).replace(path)
            except BaseException:
                with contextlib.suppress(OSError):
                    Path(name).unlink()
                raise
        except OSError as error:
            raise FileError(
                str(self.folder),
                f"intermediate results cannot be kept there ({error.strerror or error})",
                "Make room, or name another place with --store.",
            ) from error

    def _files(self) -> Iterator[os.DirEntry[str]]:
        try:
            shelves = list(os.scandir(self.folder))
        except OSError:
            return
        for shelf in shelves:
            if len(shelf.name) == 2 and shelf.is_dir(follow_symlinks=False):
                with contextlib.suppress(OSError):
                    yield from os.scandir(shelf.path)

    def prune(self) -> int:
        """Remove what was not used for longest until the store is within its limit, and what a kill left behind.

        Returns
        -------
        int
            How many entries were removed.
        """
        found: list[tuple[float, int, str]] = []
        removed = 0
        for file in self._files():
            with contextlib.suppress(OSError):
                status = file.stat(follow_symlinks=False)
                if file.name.startswith(_TEMPORARY):
                    # An hour is longer than anything takes to be written.
                    if status.st_mtime < time.time() - 3600:
                        Path(file.path).unlink()
                    continue
                found.append((status.st_mtime, status.st_size, file.path))
        total = sum(size for _, size, _ in found)
        for _, size, path in sorted(found):
            if total <= self.limit_bytes:
                break
            with contextlib.suppress(OSError):
                Path(path).unlink()
                removed += 1
            total -= size
        return removed


def store_for(path: Path | None = None) -> Store:
    """Give the store of the course that a file belongs to, or the user's own for a file without a course.

    Parameters
    ----------
    path : Path, optional
        The file.

    Returns
    -------
    Store
        In `.gamutwright/` beside the course's `series.toml`, or in the cache folder.
    """
    for folder in path.resolve().parents if path else ():
        if (folder / "series.toml").is_file():
            return Store(folder / ".gamutwright" / "store")
    return Store(cache_folder() / "store")
