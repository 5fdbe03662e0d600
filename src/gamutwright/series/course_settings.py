"""What the studio may write into `series.toml`: instruments and music of a course, and nothing else.

Conventions: only the keys of `[sound]` and `[music]` are written, each on a line of its own; every other line stays as
its teacher wrote it. A file that would not read back as it was, but for these keys, is not written.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path

from gamutwright.errors import FileError, told
from gamutwright.files import write_text
from gamutwright.series.course import FILE_NAME

__all__ = ["SOUNDFONTS", "soundfonts_of", "write_settings"]

SOUNDFONTS = (".sf2", ".sf3")


def soundfonts_of(folder: Path) -> tuple[str, ...]:
    """List the SoundFonts beside `series.toml`.

    Parameters
    ----------
    folder : Path
        The folder of the course.

    Returns
    -------
    tuple of str
        Their names.
    """
    return tuple(sorted(path.name for path in folder.iterdir() if path.suffix.casefold() in SOUNDFONTS))


def write_settings(folder: Path, settings: Mapping[str, Mapping[str, object]]) -> None:
    """Write keys into `series.toml`.

    Parameters
    ----------
    folder : Path
        The folder of the course.
    settings : mapping of str to mapping
        Tables, their keys and values: text, a switch, or a list of texts.

    Raises
    ------
    FileError
        If the file cannot be written, or is written in a way that its lines cannot be told apart.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as name:
    ...     file = Path(name, "series.toml")
    ...     _ = file.write_text('title = "Scales"  # by the harbour' + chr(10))
    ...     write_settings(Path(name), {"music": {"written_for": ["Bb"]}})
    ...     print(file.read_text())
    title = "Scales"  # by the harbour
    <BLANKLINE>
    [music]
    written_for = ["Bb"]
    <BLANKLINE>
    """
    path = folder / FILE_NAME
    text = path.read_text(encoding="utf-8-sig")
    wanted = tomllib.loads(text)
    for table, keys in settings.items():
        for key, value in keys.items():
            if wanted.get(table, {}).get(key) == value:
                continue
            wanted.setdefault(table, {})[key] = value
            text = _with_key(text, table, key, json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f"))
    try:
        is_right = tomllib.loads(text) == wanted
    except tomllib.TOMLDecodeError:
        is_right = False
    if not is_right:
        raise FileError(
            str(path),
            told("its lines for sound and music are written in a way that is not changed here"),
            told("Write them by hand; keys and values are listed in docs/series.md."),
        )
    write_text(path, text)


def _with_key(text: str, table: str, key: str, value: str) -> str:
    """Put a line in the place of the one with the key, else below the heading of its table, else at the end."""
    line = f"{key} = {value}"
    heading = re.search(rf"(?m)^\[{table}\][ \t]*(?:#.*)?$", text)
    if heading is None:
        return f"{text.rstrip()}\n\n[{table}]\n{line}\n"
    after = re.search(r"(?m)^\[", text[heading.end() :])
    end = heading.end() + after.start() if after else len(text)
    inside, count = re.subn(rf"(?m)^{key}[ \t]*=.*$", lambda _: line, text[heading.end() : end], count=1)
    if not count:
        inside = f"\n{line}{inside}"
    return text[: heading.end()] + inside + text[end:]
