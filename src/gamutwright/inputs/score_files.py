"""Files: `.mid` and `.midi` by the MIDI reader, `.musicxml`, `.xml` and `.mxl` by the MusicXML reader.

Conventions: the ending says the kind. A file larger than 20 MB is refused, packed or unpacked; MIDI of more than 4 MB
is, too, since a note takes few bytes there.
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.errors import InputError, told
from gamutwright.inputs.midi_files import read_midi
from gamutwright.inputs.musicxml import read_musicxml, unpacked
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, shortened

__all__ = ["LARGEST_FILE", "is_file_name", "read_file", "read_file_name"]

LARGEST_FILE = 20_000_000
"""Bytes."""

_MIDI = (".mid", ".midi")
_SCORES = (".musicxml", ".xml", ".mxl")


def is_file_name(text: str) -> bool:
    """Whether a text looks like the name of a file that can be read.

    Parameters
    ----------
    text : str
        The text.

    Returns
    -------
    bool
        True where it is one line that ends as such files do.

    Examples
    --------
    >>> is_file_name("tune.mid"), is_file_name("C D E")
    (True, False)
    """
    return "\n" not in text and len(text) < 4096 and text.strip().lower().endswith((*_MIDI, *_SCORES))


def read_file(path: Path, request: Request) -> Reading:
    """Read the scale of a file's notes.

    Parameters
    ----------
    path : Path
        The file.
    request : Request
        Divisions and root.

    Returns
    -------
    Reading
        The scale; without a stated root a guess, which the remarks explain.

    Raises
    ------
    InputError
        If the file is missing, too large, damaged, of another kind, or without notes.
    """
    shown = shortened(str(path))
    kind = path.suffix.lower()
    if kind not in {*_MIDI, *_SCORES}:
        rule = told("its ending is none of {list}", list=", ".join((*_MIDI, *_SCORES)))
        raise InputError(told("file {shown}", shown=shown), rule, told("Save it as MIDI or MusicXML."))
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            rule = told(
                "it has {part} MB, and files are read up to {part2} MB",
                part=f"{size / 1e6:.0f}",
                part2=LARGEST_FILE // 1_000_000,
            )
            raise InputError(told("file {shown}", shown=shown), rule, told("Choose a shorter excerpt."))
        if not path.is_file():
            raise InputError(told("file {shown}", shown=shown), told("it is no ordinary file"), told("Check the path."))
        content = path.read_bytes()
    except (OSError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        said = error.strerror if isinstance(error, OSError) and error.strerror else "no such file"
        raise InputError(
            told("file {shown}", shown=shown), told("it cannot be opened: {said}", said=said), told("Check the path.")
        ) from error
    if kind in _MIDI:
        return read_midi(content, request)
    if kind == ".mxl" or content.startswith(b"PK\x03\x04"):
        content = unpacked(content, LARGEST_FILE)
    return read_musicxml(content, request)


def read_file_name(text: str, request: Request) -> tuple[Option, ...]:
    """Read a file by its name, as one of the readers of text.

    Parameters
    ----------
    text : str
        The path.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If the text is no file name; other errors as `read_file`.
    """
    text = text.strip()
    if not request.is_explicit and not is_file_name(text):
        raise NotThisFormError(shortened(text), told("it is no file name"), told("Write a path like: tune.mid."))
    return (Option(read_file(Path(text), request), f"file: {text}"),)
