"""Takes that were thrown away: set aside, so that they can be taken back.

They lie beside the takes and not among them, in a folder of their own: nothing is made from them, and they are kept
until somebody deletes that folder. A take counts once its recording and its description are both among the takes, so
the description leaves first and comes back last; whatever ends the program in between, the take is either whole or
thrown away.

**Conventions.** A take keeps its number; no other take of the line ever gets it.
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.errors import DomainError, FileError
from gamutwright.files import make_folder
from gamutwright.render.takefile import Take, discarded_folder, line_folder, list_takes, read_take

__all__ = ["discard_take", "list_discarded", "restore_take"]


def list_discarded(takes: Path, line_id: str) -> tuple[Take, ...]:
    """List the takes of a line that were thrown away.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.

    Returns
    -------
    tuple of Take
        By number.
    """
    folder = line_folder(discarded_folder(takes), line_id)
    if not folder.is_dir():
        return ()
    described = sorted(path for path in folder.glob("*.json") if path.stem.isdigit())
    return tuple(read_take(path) for path in described if _recording(takes, line_id, path).is_file())


def discard_take(takes: Path, line_id: str, number: int) -> Take:
    """Throw a take away.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.
    number : int
        Number of a take.

    Returns
    -------
    Take
        The take, where it was.

    Raises
    ------
    DomainError
        If the line has no such take.
    FileError
        If it cannot be moved.
    """
    take = _one(list_takes(takes, line_id), line_id, number)
    folder = line_folder(discarded_folder(takes), line_id)
    make_folder(folder)
    for ending in (".json", ".flac"):
        _move(take.path.with_suffix(ending), folder)
    return take


def restore_take(takes: Path, line_id: str, number: int) -> Take:
    """Take back a take that was thrown away.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.
    number : int
        Number of the take.

    Returns
    -------
    Take
        The take, where it is again.

    Raises
    ------
    DomainError
        If no take of this number was thrown away.
    FileError
        If it cannot be moved.
    """
    take = _one(list_discarded(takes, line_id), line_id, number)
    folder = line_folder(takes, line_id)
    make_folder(folder)
    if take.path.is_file():
        _move(take.path, folder)
    _move(take.path.with_suffix(".json"), folder)
    return read_take(folder / f"{take.path.stem}.json")


def _recording(takes: Path, line_id: str, description: Path) -> Path:
    """Find the recording of a take that was thrown away; where the program ended in between, it is still there."""
    moved = description.with_suffix(".flac")
    return moved if moved.is_file() else line_folder(takes, line_id) / moved.name


def _one(found: tuple[Take, ...], line_id: str, number: int) -> Take:
    for take in found:
        if take.number == number:
            return take
    there = ", ".join(str(take.number) for take in found) or "none"
    raise DomainError(
        f"take {number} of line {line_id}", f"there is no such take (there: {there})", "Name one of them."
    )


def _move(path: Path, folder: Path) -> None:
    place = folder / path.name
    try:
        if place.exists():
            raise FileError(str(place), "a take of this number lies there already", "Move it to another folder.")
        path.rename(place)
    except OSError as error:
        if isinstance(error, FileError):
            raise
        raise FileError(
            str(path), f"it cannot be moved ({error.strerror or error})", "Check the folder's permissions."
        ) from error
