"""Standard MIDI files, through mido.

Conventions: channel 10 is percussion and is left out (General MIDI). A note without an end sounds until the file's last
event. Pitch bends are disregarded, and a remark says so.
"""

from __future__ import annotations

import io

from gamutwright.errors import InputError
from gamutwright.inputs.reading import Reading, Request
from gamutwright.inputs.sounding import Note, reading_of_notes

__all__ = ["read_midi"]

_PERCUSSION = 9


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
        If it is no MIDI file, is damaged, or holds no notes.
    """
    import mido  # noqa: PLC0415 - forty milliseconds that only such files need

    try:
        messages = list(mido.merge_tracks(mido.MidiFile(file=io.BytesIO(content)).tracks))
    except Exception as error:
        raise InputError(
            "the MIDI file",
            f"it is damaged or no MIDI file ({type(error).__name__})",
            "Save it again as a Standard MIDI File.",
        ) from error
    time = 0
    sounding: dict[tuple[int, int], int] = {}
    notes: list[Note] = []
    is_bent = False
    for message in messages:
        time += message.time
        is_bent = is_bent or (message.type == "pitchwheel" and message.pitch != 0)
        if message.type not in {"note_on", "note_off"} or message.channel == _PERCUSSION:
            continue
        key = (message.channel, message.note)
        if key in sounding:
            started = sounding.pop(key)
            notes.append(Note(started, time - started, message.note))
        if message.type == "note_on" and message.velocity > 0:
            sounding[key] = time
    notes.extend(Note(started, time - started, pitch) for (_, pitch), started in sounding.items())
    remarks = ("pitch bends were disregarded",) if is_bent else ()
    return reading_of_notes(notes, "MIDI file", request, remarks)
