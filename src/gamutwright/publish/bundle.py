"""The zip of a package: equal content, equal bytes.

Conventions: entries in the order of their names, all dated 1 January 1980 (the first day a zip can hold), with the same
permissions; what is compressed already is stored.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable
from pathlib import Path
from typing import IO

__all__ = ["write_zip"]

STORED = frozenset({".mp4", ".png", ".flac", ".m4a", ".zip", ".imscc", ".pdf"})
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
            entry = zipfile.ZipInfo(f"{top}/{name}", FIRST_DAY)
            entry.external_attr = 0o644 << 16
            entry.create_system = 3
            entry.compress_type = zipfile.ZIP_STORED if Path(name).suffix in STORED else zipfile.ZIP_DEFLATED
            with (folder / name).open("rb") as source, bundle.open(entry, "w", force_zip64=True) as target:
                while piece := source.read(1 << 20):
                    target.write(piece)
