"""MusicXML, plain and compressed, heard in one walk through the file, so that a long score takes no more than that.

The standard library's parser walks it: a file that defines entities is refused, since they can blow up to any size, and
so is one that is not well formed.

Reference: MusicXML 4.0 (W3C Community Group, 2021): a note moves the place in its measure by its duration, one of a
chord does not, `backup` and `forward` move it for another voice, grace notes take no time [from memory].

Conventions: the spelling of the score is kept; pitches are as written, whatever a part transposes by; quarter tones are
refused, since they are outside twelve divisions. Cue notes and unpitched notes are left out. Time is in quarters.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Callable, Mapping
from math import inf
from xml.parsers import expat

from gamutwright.errors import DomainError, InputError, told
from gamutwright.inputs.reading import Reading, Request
from gamutwright.inputs.sounding_tones import Note, reading_of_notes
from gamutwright.theory.notenames import fifths_to_name, name_to_fifths

__all__ = ["MOST_ELEMENTS", "read_musicxml", "unpacked"]

MOST_ELEMENTS = 3_000_000
MOST_UNITS = 1e9
"""Of any duration, in the score's own units."""
_HOLDERS = frozenset({"note", "backup", "forward"})
_LEAVES = frozenset({"step", "alter", "octave", "duration", "divisions", "chord", "grace", "cue", "unpitched"})
_STEPS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
_OCTAVES = frozenset("0123456789")
_MOST_ALTER = 6

_OnStart = Callable[[str, Mapping[str, str]], None]
_OnEnd = Callable[[str], None]
_OnText = Callable[[str], None]


def _refuse(rule: str, error: Exception | None = None) -> InputError:
    detail = f" ({type(error).__name__})" if error else ""
    return InputError(told("the MusicXML file"), rule + detail, told("Export it again as MusicXML, score-partwise."))


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


def _walk(content: bytes, on_start: _OnStart, on_end: _OnEnd | None = None, on_text: _OnText | None = None) -> None:
    """Parse without building anything; refuse entities and whatever is not well formed."""

    def on_entity(*_: object) -> None:
        raise _refuse("it defines XML entities, which scores do not need")

    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.StartElementHandler = on_start
    parser.EndElementHandler = on_end
    parser.CharacterDataHandler = on_text
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
    """
    score = _Score()
    _walk(content, score.begin, score.end, score.read)
    return reading_of_notes(score.notes, "MusicXML file", request)


class _Score:
    """Hears the notes of a score while it is walked."""

    def __init__(self) -> None:
        self.notes: list[Note] = []
        self._is_begun = False
        self._divisions = 1.0
        self._at = self._furthest = self._onset = 0.0
        """Where the next note begins, how far the measure reaches, and where the last note began, in quarters."""
        self._told: dict[str, str] = {}
        """What is told of the note, the backup or the forward in hand."""
        self._wanted = ""
        self._elements = 0
        self._names: dict[tuple[str, str], tuple[int, str]] = {}

    def begin(self, tag: str, _attributes: Mapping[str, str]) -> None:
        self._elements += 1
        if not self._is_begun:
            self._is_begun = True
            if tag != "score-partwise":
                raise _refuse(f"its outermost element is {tag[:40]}, and a score begins with score-partwise")
        if self._elements > MOST_ELEMENTS:
            raise _refuse(f"it has more than {MOST_ELEMENTS:,} elements")
        self._wanted = ""
        if tag in _HOLDERS:
            self._told = {}
        elif tag in _LEAVES:
            self._told[tag] = ""
            self._wanted = tag
        elif tag == "part":
            self._at = self._furthest = 0.0
            self._divisions = 1.0
        elif tag == "measure":
            # A measure begins where the longest of its voices ended before.
            self._at = self._furthest

    def read(self, text: str) -> None:
        if self._wanted:
            self._told[self._wanted] += text

    def end(self, tag: str) -> None:
        self._wanted = ""
        if tag == "divisions":
            self._divisions = self._number(tag, least=1e-6)
        elif tag == "note":
            self._end_note()
        elif tag == "backup":
            self._at = max(0.0, self._at - self._quarters())
        elif tag == "forward":
            self._go(self._at + self._quarters())

    def _end_note(self) -> None:
        told = self._told
        self._told = {}
        is_grace = "grace" in told
        quarters = 0.0 if is_grace else self._quarters(told)
        onset = self._onset if "chord" in told else self._at
        self._onset = onset
        if "step" in told and "cue" not in told and "unpitched" not in told:
            pitch, name = self._pitch(told)
            self.notes.append(Note(onset, quarters, pitch, name))
        self._go(max(self._at, onset + quarters))

    def _go(self, place: float) -> None:
        self._at = place
        self._furthest = max(self._furthest, place)

    def _quarters(self, told: Mapping[str, str] | None = None) -> float:
        return self._number("duration", told) / self._divisions

    def _number(self, tag: str, told: Mapping[str, str] | None = None, least: float = 0.0) -> float:
        written = (self._told if told is None else told).get(tag, "").strip()
        try:
            number = float(written) if len(written) <= 24 else inf
        except ValueError:
            number = inf
        if not least <= number <= MOST_UNITS:
            raise _refuse(f"the {tag} {written[:24]!r} is none")
        return number

    def _pitch(self, told: Mapping[str, str]) -> tuple[int, str]:
        """Give the MIDI key and the name of a note; a name beyond double signs is left out."""
        step, alter, octave = (told.get(tag, "").strip() for tag in ("step", "alter", "octave"))
        known = self._names.get((step, alter))
        if known is None:
            known = self._names[step, alter] = _sounded(step.upper(), alter)
        if octave not in _OCTAVES:
            raise _refuse(f"the octave {octave[:24]!r} is none")
        return known[0] + 12 * (int(octave) + 1), known[1]


def _sounded(step: str, alter: str) -> tuple[int, str]:
    try:
        semitones = float(alter or 0)
    except ValueError:
        semitones = inf
    if step not in _STEPS or not -_MOST_ALTER <= semitones <= _MOST_ALTER:
        raise _refuse(f"the pitch {step[:24]!r} with the alteration {alter[:24]!r} is none")
    if semitones != int(semitones):
        raise _refuse("it has quarter tones, which are outside twelve divisions")
    try:
        name = fifths_to_name(name_to_fifths(step) + 7 * int(semitones))
    except DomainError:
        name = ""
    return _STEPS[step] + int(semitones), name
