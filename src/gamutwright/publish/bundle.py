"""Zips: equal content, equal bytes.

Conventions: entries in the order of their names, all dated 1 January 1980 (the first day a zip can hold), with the same
permissions, stored as they are: nearly all of it is compressed already, and compressors differ between machines.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import IO

__all__ = ["stable_zip", "write_zip"]

FIRST_DAY = (1980, 1, 1, 0, 0, 0)


def write_zip(file: IO[bytes], folder: Path, names: Iterable[str], top: str) -> None:
    """Write files of a folder into a zip.

    Parameters
    ----------
    file : binary file
        Where the zip goes.
    folder : Path
        Where the files are.
    names : iterable of str
        Their names, with forward slashes.
    top : str
        Name of the folder in the zip.

    Examples
    --------
    >>> import io, tempfile
    >>> with tempfile.TemporaryDirectory() as place:
    ...     _ = Path(place, "a.md").write_text("Listen.")
    ...     made = io.BytesIO()
    ...     write_zip(made, Path(place), ["a.md"], "lesson")
    >>> zipfile.ZipFile(made).namelist()
    ['lesson/a.md']
    """
    with zipfile.ZipFile(file, "w") as bundle:
        for name in sorted(names):
            entry = _entry(f"{top}/{name}")
            with (folder / name).open("rb") as source, bundle.open(entry, "w", force_zip64=True) as target:
                while piece := source.read(1 << 20):
                    target.write(piece)


def stable_zip(files: Mapping[str, bytes]) -> bytes:
    """Pack files so that the same files give the same bytes.

    Parameters
    ----------
    files : mapping of str to bytes
        Contents by path.

    Returns
    -------
    bytes
        The zip, its entries sorted, stored and dated 1 January 1980.

    Examples
    --------
    >>> stable_zip({"b": b"2", "a": b"1"}) == stable_zip({"a": b"1", "b": b"2"})
    True
    """
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name in sorted(files):
            archive.writestr(_entry(name), files[name])
    return buffer.getvalue()


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, FIRST_DAY)
    entry.create_system = 3
    entry.external_attr = 0o100644 << 16
    entry.compress_type = zipfile.ZIP_STORED
    return entry
