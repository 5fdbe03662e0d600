"""Where catalogues are kept, and how a reader can trust them.

A catalogue is a folder with Parquet files and a manifest that names each file with its size and SHA-256. It is built in
a folder of its own beside its final place and renamed in one step, so that a reader sees a whole catalogue or none.
Two processes that build at once do not meet: the first rename wins and the other's work is dropped.

Conventions: the place is `<cache>/catalogue/<divisions>/<digest of the columns>`; the cache folder is the user's own,
or the one that the environment variable `GAMUTWRIGHT_CACHE` names. Everything in it can be deleted at any time.
"""

from __future__ import annotations

import errno
import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gamutwright.codec import plain_from_json, to_plain
from gamutwright.errors import CatalogueError
from gamutwright.files import CACHE_VARIABLE, cache_folder
from gamutwright.jobs.record import content_digest

__all__ = [
    "FILE_NAME",
    "Manifest",
    "catalogue_folder",
    "is_whole",
    "read_manifest",
    "writing",
]

MANIFEST = "manifest.json"
FILE_NAME = "scales.parquet"
"""The file that holds the scales."""
WORKPLACE = ".building-"


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a catalogue folder holds.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    columns : str
        Digest of the columns, as `columns.columns_digest` gives it.
    rows : int
        Number of scales.
    files : tuple of tuple
        Name, size in bytes and SHA-256 of each file.
    """

    divisions: int
    columns: str
    rows: int
    files: tuple[tuple[str, int, str], ...]


def catalogue_folder(divisions: int, columns: str) -> Path:
    """Give the folder of one catalogue.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    columns : str
        Digest of its columns.

    Returns
    -------
    Path
        It need not exist.
    """
    return cache_folder() / "catalogue" / str(divisions) / columns[:16]


def read_manifest(folder: Path) -> Manifest | None:
    """Read a catalogue's manifest.

    Parameters
    ----------
    folder : Path
        The catalogue's folder.

    Returns
    -------
    Manifest or None
        None where there is none that can be read.
    """
    try:
        read: Any = plain_from_json((folder / MANIFEST).read_bytes())
        files = tuple((str(name), int(size), str(digest)) for name, size, digest in read["files"])
        return Manifest(int(read["divisions"]), str(read["columns"]), int(read["rows"]), files)
    except (OSError, ValueError, KeyError, TypeError):
        return None


def is_whole(folder: Path, divisions: int, columns: str) -> bool:
    """Whether a folder holds the whole catalogue, each file with the size and digest it was written with.

    Parameters
    ----------
    folder : Path
        The folder.
    divisions : int
        Equal divisions of the octave.
    columns : str
        Digest of the columns that are wanted.

    Returns
    -------
    bool
        False where anything is missing, cut short or altered.
    """
    manifest = read_manifest(folder)
    if manifest is None or manifest.divisions != divisions or manifest.columns != columns:
        return False
    try:
        return all(
            (folder / name).stat().st_size == size and content_digest(folder / name) == digest
            for name, size, digest in manifest.files
        )
    except OSError:
        return False


@contextmanager
def writing(folder: Path, divisions: int, columns: str) -> Iterator[tuple[Path, list[int]]]:
    """Build a catalogue beside its place and move it there when all went well.

    Parameters
    ----------
    folder : Path
        The final place.
    divisions : int
        Equal divisions of the octave.
    columns : str
        Digest of the columns.

    Yields
    ------
    Path
        A folder to write Parquet files into.
    list of int
        To be filled with the number of rows of each file.

    Raises
    ------
    CatalogueError
        If the disk is full or the place cannot be written; what was there before stays.
    """
    workplace: Path | None = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        _clear_up(folder.parent)
        workplace = Path(tempfile.mkdtemp(prefix=f"{WORKPLACE}{os.getpid()}-", dir=folder.parent))
        rows: list[int] = []
        yield workplace, rows
        _seal(workplace, Manifest(divisions, columns, sum(rows), _listed(workplace)))
        _put_in_place(workplace, folder)
    except OSError as error:
        full = error.errno in {errno.ENOSPC, errno.EDQUOT}
        raise CatalogueError(
            str(folder.parent),
            "the disk is full" if full else f"the catalogue cannot be written there ({error.strerror or error})",
            f"Make room, or name another folder in {CACHE_VARIABLE}; what was there before is unharmed.",
        ) from error
    finally:
        if workplace is not None:
            shutil.rmtree(workplace, ignore_errors=True)


def _clear_up(parent: Path) -> None:
    """Remove the workplaces of builders that were killed: those whose process is no more."""
    if os.name != "posix":
        return
    for place in parent.glob(f"{WORKPLACE}*"):
        owner = place.name.removeprefix(WORKPLACE).split("-")[0]
        try:
            os.kill(int(owner), 0)
        except ProcessLookupError:
            shutil.rmtree(place, ignore_errors=True)
        except (ValueError, PermissionError):
            continue


def _listed(workplace: Path) -> tuple[tuple[str, int, str], ...]:
    return tuple((path.name, path.stat().st_size, content_digest(path)) for path in sorted(workplace.glob("*.parquet")))


def _seal(workplace: Path, manifest: Manifest) -> None:
    (workplace / MANIFEST).write_text(json.dumps(to_plain(manifest), indent=1), encoding="utf-8")
    for path in [*workplace.iterdir(), *([workplace] if os.name == "posix" else [])]:
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _put_in_place(workplace: Path, folder: Path) -> None:
    """Rename the workplace to the final folder, unless a whole catalogue came there meanwhile."""
    manifest = read_manifest(workplace)
    for _ in range(3):
        try:
            workplace.rename(folder)
        except OSError as error:
            if error.errno not in {errno.EEXIST, errno.ENOTEMPTY}:
                raise
        else:
            return
        if manifest is not None and is_whole(folder, manifest.divisions, manifest.columns):
            return
        broken = Path(tempfile.mkdtemp(prefix=".broken-", dir=folder.parent))
        with suppress(OSError):
            folder.rename(broken / "old")
        shutil.rmtree(broken, ignore_errors=True)
    raise OSError(errno.EBUSY, "another process keeps putting a broken catalogue there")
