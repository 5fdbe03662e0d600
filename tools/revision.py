"""The files of another revision, unpacked beside this one."""

from __future__ import annotations

import io
import subprocess
import tarfile
from pathlib import Path

ROOT = Path(__file__).parents[1]


def unpacked(revision: str, folders: tuple[str, ...], place: Path) -> Path:
    """Unpack folders of a revision.

    Parameters
    ----------
    revision : str
        What git knows it by; empty for the files as they are here.
    folders : tuple of str
        Folders of the checkout.
    place : Path
        Where they go.

    Returns
    -------
    Path
        The folder that holds them: the place, or this checkout.

    Raises
    ------
    SystemExit
        If git knows no such revision.
    """
    if not revision:
        return ROOT
    packed = subprocess.run(  # noqa: S603 - git, with words of the one who calls
        ["git", "archive", "--format=tar", revision, "--", *folders],  # noqa: S607 - the git of the one who calls
        cwd=ROOT, capture_output=True, check=False,
    )  # fmt: skip
    if packed.returncode:
        raise SystemExit(f"revision {revision!r}: {packed.stderr.decode().strip()}. Name a revision as git log does.")
    place.mkdir(parents=True, exist_ok=True)
    with tarfile.open(fileobj=io.BytesIO(packed.stdout)) as archive:
        archive.extractall(place, filter="data")
    return place
