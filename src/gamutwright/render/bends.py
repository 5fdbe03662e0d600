"""Any pitch on instruments that know keys only: a channel for every sounding note, bent to where it belongs.

A bend moves a whole channel, so each note gets one of its own, the one that has been silent longest: what rings on is
not bent with the next note. Channel 10 is left out, which is percussion (General MIDI).

**Conventions.** Channels count from 0. Key 69 is 440 Hz, keys are equal semitones. A bend runs from -8192 to 8191 over
two semitones either way: one unit is 0.024 cents.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass

from gamutwright.errors import DomainError
from gamutwright.ir.sound import Note, Sound

__all__ = ["BEND_SEMITONES", "CHANNELS", "BentNote", "bent_notes", "freq_hz_to_key"]

BEND_SEMITONES = 2
CHANNELS = tuple(channel for channel in range(16) if channel != 9)
_HALF_RANGE = 8192


@dataclass(frozen=True, slots=True)
class BentNote:
    """A note as a key of a bent channel.

    Parameters
    ----------
    note : Note
        The note.
    channel : int in [0, 16)
        Its channel.
    key : int in [0, 128)
        The key nearest to it.
    bend : int in [-8192, 8191]
        How far the channel is bent.
    """

    note: Note
    channel: int
    key: int
    bend: int


def freq_hz_to_key(freq_hz: float) -> float:
    """Give the place of a frequency among the keys.

    Parameters
    ----------
    freq_hz : float > 0
        The frequency.

    Returns
    -------
    float, semitones
        69 for 440 Hz.

    Examples
    --------
    >>> freq_hz_to_key(880.0)
    81.0
    """
    return 69 + 12 * math.log2(freq_hz / 440.0)


def bent_notes(sound: Sound) -> tuple[BentNote, ...]:
    """Give every note a channel, a key and a bend.

    Parameters
    ----------
    sound : Sound
        The sound.

    Returns
    -------
    tuple of BentNote
        In the order of the notes.

    Raises
    ------
    DomainError
        If more than fifteen notes sound at once, or one lies beyond the keys.

    Examples
    --------
    >>> [(bent.channel, bent.key, bent.bend) for bent in bent_notes(Sound(9, (Note(0, 4, 440.0), Note(4, 5, 452.893))))]
    [(0, 69, 0), (1, 70, -2048)]
    """
    # Silent channels by how long they have been so; those never used come first.
    free = [(-1, channel) for channel in CHANNELS]
    found = []
    for note in sound.notes:
        since, channel = heapq.heappop(free)
        if since > note.start_tick:
            raise DomainError(
                f"{len(CHANNELS) + 1} notes at once",
                f"bends need a channel for each note, and there are {len(CHANNELS)}",
                "Choose MIDI tuning messages instead, or fewer notes at once.",
            )
        heapq.heappush(free, (note.end_tick, channel))
        place = freq_hz_to_key(note.freq_hz)
        key = round(place)
        if not 0 <= key < 128:
            raise DomainError(f"a note of {note.freq_hz:g} Hz", "keys run from 0 to 127", "Move it by octaves.")
        found.append(BentNote(note, channel, key, round((place - key) / BEND_SEMITONES * _HALF_RANGE)))
    return tuple(found)
