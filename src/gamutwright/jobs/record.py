"""What was made from what: so that nothing is made again when neither has changed.

Conventions: a record names input files and folders and output files, each with the digest of its content; it counts as
long as every one of them is as it was. A missing file has the digest "".
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path

from gamutwright.codec import Plain
from gamutwright.jobs.store import Parcel, Store

__all__ = ["content_digest", "recall", "remember"]


def content_digest(path: Path) -> str:
    """Digest a file, or a folder with all that is in it.

    Parameters
    ----------
    path : Path
        A file, a folder, or nothing.

    Returns
    -------
    str
        64 hexadecimal digits; "" where there is nothing.

    Examples
    --------
    >>> content_digest(Path("nowhere at all"))
    ''
    """
    try:
        if path.is_dir():
            digest = hashlib.sha256()
            for child in sorted(path.rglob("*")):
                if child.is_file():
                    digest.update(
                        f"{child.relative_to(path)}\0{content_digest(child)}\n".encode("utf-8", "surrogateescape")
                    )
            return digest.hexdigest()
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return ""


def _listed(paths: Iterable[Path]) -> list[list[str]]:
    return [[str(path.resolve()), content_digest(path)] for path in paths]


def remember(store: Store, key: str, inputs: Iterable[Path], outputs: Iterable[Path], told: Plain = None) -> None:
    """Write down what was made.

    Parameters
    ----------
    store : Store
        Where.
    key : str
        Digest of everything else that settles the outputs: settings, and the program itself.
    inputs, outputs : iterable of Path
        Files and folders read, files made.
    told : Plain
        What to tell of it the next time.
    """
    store.put(key, Parcel({"inputs": _listed(inputs), "outputs": _listed(outputs), "told": told}))  # type: ignore[dict-item]


def recall(store: Store, key: str) -> Plain:
    """Say what was told of outputs that are still there, made from the same inputs.

    Parameters
    ----------
    store : Store
        Where it was written down.
    key : str
        As for `remember`.

    Returns
    -------
    Plain
        What was told; None where something changed.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     store, script = Store(Path(folder, "store")), Path(folder, "script.md")
    ...     _ = script.write_text("Listen.")
    ...     remember(store, "ab" * 32, [script], [], "a film")
    ...     before = recall(store, "ab" * 32)
    ...     _ = script.write_text("Listen!")
    ...     before, recall(store, "ab" * 32)
    ('a film', None)
    """
    parcel = store.get(key)
    if parcel is None or not isinstance(parcel.data, dict):
        return None
    listed: list[list[str]] = [*parcel.data["inputs"], *parcel.data["outputs"]]  # type: ignore[misc]
    return parcel.data["told"] if all(content_digest(Path(path)) == digest for path, digest in listed) else None
