"""Standard MIDI files, read event by event, so that a long one takes no more than its length.

Reference: The Complete MIDI 1.0 Detailed Specification (MIDI Manufacturers Association, 1996), Standard MIDI Files 1.0:
chunks, lengths of variable size, running status [from memory].

Conventions: channel 10 is percussion and is left out (General MIDI). A note without an end sounds until the file's last
event. Pitch bends are disregarded, and a remark says so.
"""

from __future__ import annotations

from collections.abc import Iterator

from gamutwright.errors import InputError, told
from gamutwright.inputs.reading import Reading, Request
from gamutwright.inputs.sounding_tones import Note, reading_of_notes

__all__ = ["LARGEST_MIDI", "read_midi"]

LARGEST_MIDI = 4_000_000
"""Bytes; a note takes six to eight, so that this is half a million notes."""
_PERCUSSION = 9
_DATA_BYTES = (2, 2, 2, 2, 1, 1, 2)
"""Behind a status byte of 0x8_, 0x9_ and so on."""
_NO_BEND = (0, 64)


class _DamagedError(Exception):
    """The bytes are no MIDI file."""


def read_midi(content: bytes, request: Request) -> Reading:
    """Read a MIDI file.

    Parameters
    ----------
    content : bytes
        The file.
    request : Request
        Divisions and root.

    Returns
    -------
    Reading
        The scale of all its pitched notes.

    Raises
    ------
    InputError
        If it is no MIDI file, is too large or damaged, or holds no notes.
    """
    if len(content) > LARGEST_MIDI:
        raise InputError(
            told("the MIDI file"),
            told(
                "it has {part} MB, and MIDI files are read up to {part2} MB",
                part=f"{len(content) / 1e6:.0f}",
                part2=LARGEST_MIDI // 1_000_000,
            ),
            told("Choose a shorter excerpt."),
        )
    try:
        tracks = [_Track(body) for body in _track_bodies(content)]
    except (_DamagedError, IndexError) as error:
        why = f" ({error})" if isinstance(error, _DamagedError) else told(": it ends in the middle of an event")
        raise InputError(
            told("the MIDI file"),
            told("it is damaged or no MIDI file{why}", why=why),
            told("Save it again as a Standard MIDI File."),
        ) from error
    end = max((track.end for track in tracks), default=0)
    notes = (note for track in tracks for note in (*track.notes, *track.unended(end)))
    remarks = ("pitch bends were disregarded",) if any(track.is_bent for track in tracks) else ()
    return reading_of_notes(notes, "MIDI file", request, remarks)


def _track_bodies(content: bytes) -> Iterator[bytes]:
    """Give what stands in each track; chunks of other kinds are skipped."""
    length = int.from_bytes(content[4:8], "big")
    if content[:4] != b"MThd" or length < 6 or len(content) < 14:
        raise _DamagedError("it does not begin as one")
    at = 8 + length
    while at < len(content):
        kind, length = content[at : at + 4], int.from_bytes(content[at + 4 : at + 8], "big")
        body = content[at + 8 : at + 8 + length]
        at += 8 + length
        if kind == b"MTrk":
            if len(body) < length:
                raise _DamagedError("a track is shorter than it says")
            yield body


class _Track:
    """The notes of a track."""

    def __init__(self, body: bytes) -> None:
        self.notes: list[Note] = []
        self.end = 0
        self.is_bent = False
        self._sounding: dict[tuple[int, int], int] = {}
        self._read(body)

    def unended(self, end: int) -> Iterator[Note]:
        """Give the notes that nothing ended; they sound until then."""
        for (_, pitch), started in self._sounding.items():
            yield Note(started, end - started, pitch)

    def _read(self, body: bytes) -> None:
        at = time = status = 0
        size = len(body)
        while at < size:
            # A length of variable size: seven bits a byte, the last without the eighth.
            delta = body[at]
            at += 1
            if delta & 0x80:
                delta, at = _length(body, at - 1)
            time += delta
            if body[at] & 0x80:
                status = body[at]
                at += 1
            if status < 0x80:
                raise _DamagedError("data stand where an event should")
            if status >= 0xF0:
                at = _behind_other(body, at, status)
                # What follows such an event states its own kind again.
                status = 0
                continue
            kind = status >> 4
            if kind in {8, 9}:
                self._hear(status & 0x0F, body[at], body[at + 1] if kind == 9 else 0, time)
            elif kind == 14:
                self.is_bent = self.is_bent or (body[at], body[at + 1]) != _NO_BEND
            at += _DATA_BYTES[kind - 8]
        if at > size:
            raise _DamagedError("a track ends in the middle of an event")
        self.end = time

    def _hear(self, channel: int, pitch: int, velocity: int, time: int) -> None:
        if channel == _PERCUSSION:
            return
        key = (channel, pitch & 0x7F)
        started = self._sounding.pop(key, None)
        if started is not None:
            self.notes.append(Note(started, time - started, key[1]))
        if velocity:
            self._sounding[key] = time


def _length(body: bytes, at: int) -> tuple[int, int]:
    """Read a length of variable size, of four bytes at most; also say what stands behind it."""
    value = 0
    for _ in range(4):
        byte = body[at]
        at += 1
        value = value << 7 | byte & 0x7F
        if not byte & 0x80:
            return value, at
    raise _DamagedError("a length has more than four bytes")


def _behind_other(body: bytes, at: int, status: int) -> int:
    """Skip an event that says something else: a meta event with its kind, or one of the device's own."""
    if status == 0xFF:
        at += 1
    elif status not in {0xF0, 0xF7}:
        raise _DamagedError("an event is of a kind that files do not have")
    length, at = _length(body, at)
    if at + length > len(body):
        raise _DamagedError("an event is longer than its track")
    return at + length
