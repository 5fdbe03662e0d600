"""Writing files so that nobody ever meets half of one.

Everything goes to a temporary file beside the place, is flushed to the disk, and is moved over in one step. A crash, a
full disk or a kill leaves what was there before.

Conventions: text is UTF-8 and keeps its line ends.
"""

from __future__ import annotations

import contextlib
import functools
import glob
import os
import platform
import re
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO

from platformdirs import user_cache_path

from gamutwright.errors import FileError

__all__ = [
    "CACHE_VARIABLE",
    "cache_folder",
    "is_device",
    "is_running",
    "leftovers",
    "lock_file",
    "make_folder",
    "replace_file",
    "write_bytes",
    "write_text",
]

CACHE_VARIABLE = "GAMUTWRIGHT_CACHE"


def cache_folder() -> Path:
    """Give the folder of everything that can be made again.

    Returns
    -------
    Path
        The one that the environment variable `GAMUTWRIGHT_CACHE` names, else the user's own; it need not exist.
    """
    named = os.environ.get(CACHE_VARIABLE)
    return Path(named) if named else user_cache_path("gamutwright", appauthor=False)


def is_running(process: int) -> bool:
    """Whether a process is there, so that what it left half-made can be cleared away once it is not.

    Parameters
    ----------
    process : int
        Its number.

    Returns
    -------
    bool
        True where it cannot be told.

    Examples
    --------
    >>> is_running(os.getpid())
    True
    """
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        pass
    return True


def is_device(name: str) -> bool:
    """Whether Windows keeps a name for one of its devices, so that no file or folder can have it there.

    Parameters
    ----------
    name : str
        The name; an ending does not make it another.

    Returns
    -------
    bool
        True for con, prn, aux, nul, com0 to com9 and lpt0 to lpt9, in capitals or not.

    References
    ----------
    Microsoft, "Naming Files, Paths, and Namespaces", Windows App Development [from memory].

    Examples
    --------
    >>> is_device("con"), is_device("LPT1.md"), is_device("concert")
    (True, True, False)
    """
    return re.fullmatch(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", name, re.IGNORECASE | re.ASCII) is not None


def lock_file(file: IO[bytes], *, waits: bool) -> bool:
    """Lock an open file against every other program, until it is closed or the program ends, in whatever way.

    Parameters
    ----------
    file : binary file
        Opened for writing.
    waits : bool
        Whether to wait until nobody else has it locked.

    Returns
    -------
    bool
        Whether it is locked.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.NamedTemporaryFile() as one, open(one.name, "ab") as other:
    ...     lock_file(one, waits=True), lock_file(other, waits=False)
    (True, False)
    """
    try:
        if os.name == "posix":
            import fcntl  # noqa: PLC0415 - posix alone has it

            fcntl.flock(file, fcntl.LOCK_EX if waits else fcntl.LOCK_EX | fcntl.LOCK_NB)
        else:  # pragma: no cover - Windows
            import msvcrt  # noqa: PLC0415 - Windows alone has it

            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_LOCK if waits else msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
    except OSError:
        return False
    return True


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it, where they are missing.

    Parameters
    ----------
    folder : Path
        The folder.

    Raises
    ------
    FileError
        If it cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            str(folder), f"it cannot be made ({error.strerror or error})", "Choose another place, or make room."
        ) from error


def workplace(place: Path, kind: str) -> Path:
    """Name what lies beside a file or folder while it is made: it tells the process and the machine that make it.

    Parameters
    ----------
    place : Path
        What is made.
    kind : str
        What the workplace holds.

    Returns
    -------
    Path
        `.NAME-PROCESS.MACHINE-KIND`, which need not exist.

    Examples
    --------
    >>> workplace(Path("out/film.mp4"), "new").name.startswith(f".film.mp4-{os.getpid()}.")
    True
    """
    return place.with_name(f".{place.name}-{os.getpid()}.{_machine()}-{kind}")


@functools.cache
def _machine() -> str:
    return re.sub(r"[^a-z0-9]", "", platform.node().casefold())[:32] or "here"


def leftovers(place: Path) -> Iterator[tuple[Path, str]]:
    """Find what killed programs of this machine left beside a file or folder which they were making.

    Parameters
    ----------
    place : Path
        What was made.

    Yields
    ------
    Path, str
        A workplace whose process is no more, and its kind.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     film = Path(folder, "film.mp4")
    ...     mine = workplace(film, "new")
    ...     mine.mkdir()
    ...     Path(folder, mine.name.replace(str(os.getpid()), "4194999")).mkdir()
    ...     [kind for _, kind in leftovers(film)]
    ['new']
    """
    for left in sorted(place.parent.glob(f".{glob.escape(place.name)}-*-*")):
        who, _, kind = left.name.removeprefix(f".{place.name}-").partition("-")
        number, _, machine = who.partition(".")
        if machine == _machine() and number.isdigit() and not is_running(int(number)):
            yield left, kind


def replace_file(path: Path, write: Callable[[IO[bytes]], None]) -> None:
    """Write a file whole or not at all.

    Parameters
    ----------
    path : Path
        The file; its folder must be there. A link is followed, so that what it points to is replaced.
    write : callable
        Writes the content to an open binary file.

    Raises
    ------
    FileError
        If it cannot be written; what was there before stays.
    """
    place = path.resolve()
    try:
        for left, _ in leftovers(place):
            if left.is_file():
                left.unlink(missing_ok=True)
        handle, name = tempfile.mkstemp(prefix=workplace(place, "").name, dir=place.parent)
    except OSError as error:
        raise _refusal(path, error) from error
    try:
        with os.fdopen(handle, "wb") as file:
            write(file)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(_mode(place))
        Path(name).replace(place)
    except OSError as error:
        raise _refusal(path, error) from error
    finally:
        with contextlib.suppress(FileNotFoundError):
            Path(name).unlink()


def _refusal(path: Path, error: OSError) -> FileError:
    return FileError(
        str(path), f"it cannot be written ({error.strerror or error})", "Choose another place, or make room."
    )


def _mode(place: Path) -> int:
    """Keep the permissions of a file that is there; a new one gets what the user's mask leaves."""
    try:
        return place.stat().st_mode & 0o7777
    except OSError:
        umask = os.umask(0)
        os.umask(umask)
        return 0o666 & ~umask


def write_bytes(path: Path, content: bytes) -> None:
    r"""Write a file that is in memory whole or not at all.

    Parameters
    ----------
    path : Path
        The file; its folder must be there.
    content : bytes
        What it holds.

    Raises
    ------
    FileError
        If it cannot be written; what was there before stays.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     write_bytes(Path(folder, "poster.png"), b"\x89PNG")
    ...     Path(folder, "poster.png").read_bytes()
    b'\x89PNG'
    """

    def write(file: IO[bytes]) -> None:
        file.write(content)

    replace_file(path, write)


def write_text(path: Path, text: str) -> None:
    r"""Write a text file whole or not at all.

    Parameters
    ----------
    path : Path
        The file; its folder must be there.
    text : str
        The text; its line ends are kept.

    Raises
    ------
    FileError
        If it cannot be written; what was there before stays.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     write_text(Path(folder, "script.md"), "Listen.\n")
    ...     Path(folder, "script.md").read_bytes()
    b'Listen.\n'
    """
    write_bytes(path, text.encode("utf-8"))
