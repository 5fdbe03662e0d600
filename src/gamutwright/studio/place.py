"""What a studio serves, and where it answers.

Conventions: the host is an address of this machine alone; the token is told once, to the person who started the studio.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from gamutwright.errors import FileError, told
from gamutwright.series.course import FILE_NAME

__all__ = ["LOOPBACK", "Place", "course_folder"]

LOOPBACK: Final = "127.0.0.1"


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """What the studio serves.

    Parameters
    ----------
    course : Path
        Folder of a course; where it has no `series.toml`, it becomes one only when the teacher says so.
    port : int in [1, 65535]
        Where it answers.
    host : str
        The address it is bound to.
    token : str
        What opens it; part of the first address and of nothing else.
    """

    course: Path
    port: int
    host: str = LOOPBACK
    token: str = field(default_factory=lambda: secrets.token_urlsafe(32), repr=False)

    @property
    def address(self) -> str:
        """The address without the token.

        Examples
        --------
        >>> Place(Path("harbour"), 50321).address
        'http://127.0.0.1:50321/'
        """
        return f"http://{self.host}:{self.port}/"


def course_folder(named: Path) -> Path:
    """Find the folder of the course that somebody means.

    Parameters
    ----------
    named : Path
        The folder, its `series.toml`, or a folder inside it.

    Returns
    -------
    Path
        The nearest folder with a `series.toml`, going up; where there is none, the folder that was named.

    Raises
    ------
    FileError
        If there is no such folder.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as name:
    ...     place = Path(name).resolve()
    ...     (place / "lessons" / "dorian").mkdir(parents=True)
    ...     before = course_folder(place / "lessons")
    ...     (place / "series.toml").touch()
    ...     after = course_folder(place / "lessons" / "dorian")
    ...     before.name, after == course_folder(place / "series.toml") == place
    ('lessons', True)
    """
    try:
        folder = named.resolve()
        folder = folder.parent if folder.name == FILE_NAME and folder.is_file() else folder
        if folder.is_dir():
            return next((one for one in (folder, *folder.parents) if (one / FILE_NAME).is_file()), folder)
    except (OSError, ValueError, RuntimeError) as error:
        raise FileError(
            str(named), told("it cannot be looked at ({error})", error=error), told("Name the folder of a course.")
        ) from error
    raise FileError(
        str(named),
        told("it is no folder that is there"),
        told("Name the folder of a course, or begin one with: gamutwright series init FOLDER"),
    )
