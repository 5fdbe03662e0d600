"""MusicXML, plain and compressed, through partitura, which is imported only when such a file is read.

Before the score reader sees a file, the standard library's parser walks it once: a file that defines entities is
refused, since they can blow up to any size, and so is one that is not well formed.

Conventions: the spelling of the score is kept; quarter tones are refused, since they are outside twelve divisions.
"""

from __future__ import annotations

import io
import warnings
import zipfile
import zlib
from typing import Any
from xml.parsers import expat

from gamutwright.errors import DomainError, InputError, MissingPartError
from gamutwright.inputs.reading import Reading, Request
from gamutwright.inputs.sounding import Note, reading_of_notes
from gamutwright.theory.notenames import fifths_to_name, name_to_fifths

__all__ = ["read_musicxml", "unpacked"]


def _refuse(rule: str, error: Exception | None = None) -> InputError:
    detail = f" ({type(error).__name__})" if error else ""
    return InputError("the MusicXML file", rule + detail, "Export it again as MusicXML, score-partwise.")


def unpacked(content: bytes, limit: int) -> bytes:
    """Take the score out of a compressed MusicXML file.

    Parameters
    ----------
    content : bytes
        The `.mxl` file, a ZIP archive.
    limit : int > 0
        Most bytes the score may have.

    Returns
    -------
    bytes
        The score's XML.

    Raises
    ------
    InputError
        If it is damaged, holds no score, or is larger unpacked than the limit.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            container = archive.open("META-INF/container.xml").read(1 << 16)
            paths: list[str] = []
            _walk(
                container, lambda tag, attributes: paths.append(attributes["full-path"]) if tag == "rootfile" else None
            )
            score = archive.open(paths[0]).read(limit + 1)
    except (
        zipfile.BadZipFile, zlib.error, KeyError, IndexError, EOFError, OSError, NotImplementedError, RuntimeError,
        ValueError,
    ) as error:  # fmt: skip
        if isinstance(error, InputError):
            raise
        raise _refuse("the compressed file is damaged or holds no score", error) from error
    if len(score) > limit:
        raise _refuse(f"unpacked it is larger than {limit // 1_000_000} MB")
    return score


def _walk(content: bytes, on_start: Any) -> None:  # noqa: ANN401 - expat calls it with a tag and a dict
    """Parse without building anything; refuse entities and whatever is not well formed."""

    def on_entity(*_: object) -> None:
        raise _refuse("it defines XML entities, which scores do not need")

    parser = expat.ParserCreate()
    parser.StartElementHandler = on_start
    parser.EntityDeclHandler = on_entity
    try:
        parser.Parse(content, True)  # noqa: FBT003 - the flag says that this is the end
    except (expat.ExpatError, LookupError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        raise _refuse("it is not well-formed XML", error) from error


def read_musicxml(content: bytes, request: Request) -> Reading:
    """Read a MusicXML score.

    Parameters
    ----------
    content : bytes
        The score's XML.
    request : Request
        Divisions and root.

    Returns
    -------
    Reading
        The scale of all its pitched notes, spelled as in the score.

    Raises
    ------
    InputError
        If it is no score, is damaged, or holds no notes.
    MissingPartError
        If the part of Gamutwright that reads scores is not installed.
    """
    tags: list[str] = []
    _walk(content, lambda tag, _: tags.append(tag) if not tags else None)
    if tags != ["score-partwise"]:
        raise _refuse(f"its outermost element is {tags[0][:40]}, and a score begins with score-partwise")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # its own dependencies use deprecated modules
            import partitura  # noqa: PLC0415 - optional, and heavy
    except ImportError as error:
        raise MissingPartError(
            "MusicXML files",
            "reading them needs an optional part",
            "Install it with: pip install 'gamutwright[scores]'",
        ) from error
    notes: list[Note] = []
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            score = partitura.load_musicxml(io.BytesIO(content))
            for part in score.parts:
                notes.extend(_notes(part))
    except InputError:
        raise
    except Exception as error:
        raise _refuse("the score cannot be read", error) from error
    return reading_of_notes(notes, "MusicXML file", request)


def _notes(part: Any) -> list[Note]:  # noqa: ANN401 - partitura ships no types
    found = []
    for note in part.notes_tied:
        alter = note.alter or 0
        if alter != int(alter):
            raise _refuse("it has quarter tones, which are outside twelve divisions")
        onset, end = (float(part.quarter_map(place)) for place in (note.start.t, note.end_tied.t))
        try:
            name = fifths_to_name(name_to_fifths(note.step.upper()) + 7 * int(alter))
        except DomainError:
            name = ""
        found.append(Note(onset, end - onset, int(note.midi_pitch), name))
    return found
