"""Sounds as Standard MIDI Files: plain keys where they suffice, tuning messages or bends where they do not.

Three ways to write a pitch:

- *plain*: the key alone, for the equal division into twelve;
- *tuned*: one single-note tuning change of the MIDI Tuning Standard at the beginning gives every pitch a key of its
  own, within 0.0031 cents; it sounds right only on instruments that obey the standard (FluidSynth and TiMidity do, from
  memory), others ignore it silently and play plain keys, and sequencers and notation programs show keys;
- *bent*: a channel for each sounding note, bent to its pitch within 0.0123 cents; nearly every instrument obeys bends,
  but at most fifteen notes sound at once and scores are split over the channels.

**Conventions.** Format 1: a track of tempo, metre, names, marks and chord symbols, and one for each part, which has a
channel of its own: tune 1, chords 2, drone 3, bass 4, drums 10 (General MIDI); bends take the fifteen others as they
are free. A quarter note has 9,600 ticks, so a moment is kept within 0.16 ms at the slowest tempo; a beat is a quarter,
a dotted one in compound metres. Names of notes are lyrics; marks of what has no bars are markers, chord symbols are
texts; all are ASCII (`Eb`, `F#`). Keys are struck with 127 times the velocity.

References: MIDI Manufacturers Association, Standard MIDI Files 1.0 (RP-001) and MIDI Tuning Messages, from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.errors import DomainError
from gamutwright.files import replace_file
from gamutwright.ir.playing import Part
from gamutwright.ir.sound import TICKS_PER_SECOND, Note, Sound
from gamutwright.render.bends import BEND_SEMITONES, CHANNELS, BentNote, bent_notes, freq_hz_to_key
from gamutwright.render.general_midi import DRUM_KEYS, usual_program
from gamutwright.theory.miditune import Word, freq_hz_to_word, single_note_tuning_change
from gamutwright.theory.notenames import to_ascii

if TYPE_CHECKING:
    import mido

__all__ = ["Pitching", "key_assignment", "midi_file", "write_midi"]

_TICKS_PER_BEAT = 9_600
_PLAIN_ENOUGH = 0.005
_RPN_OFF = ((101, 127), (100, 127))
_CHANNELS = {Part.TUNE: 0, Part.CHORD: 1, Part.DRONE: 2, Part.BASS: 3}
_STROKE_TICKS = TICKS_PER_SECOND // 10


class Pitching(StrEnum):
    """How pitches are written."""

    AUTO = "auto"
    """Plain where every pitch is that of a key, tuned otherwise."""
    PLAIN = "plain"
    TUNED = "tuned"
    BENT = "bent"


def key_assignment(freqs_hz: tuple[float, ...]) -> Mapping[float, int]:
    """Give each pitch a key of its own, the nearest that is free, the best fitting first.

    Parameters
    ----------
    freqs_hz : tuple of float, hertz
        Different frequencies, at most 127.

    Returns
    -------
    mapping of float to int
        Frequency to key.

    Raises
    ------
    DomainError
        If there are more.

    Examples
    --------
    >>> key_assignment((440.0, 443.0, 446.0))
    {440.0: 69, 443.0: 70, 446.0: 68}
    """
    if len(set(freqs_hz)) > 127:
        raise DomainError(
            f"{len(set(freqs_hz))} different pitches", "a tuning change names up to 127 keys", "Choose bends instead."
        )
    free = set(range(128))
    found: dict[float, int] = {}
    for freq_hz in sorted(set(freqs_hz), key=lambda freq: abs(freq_hz_to_key(freq) - round(freq_hz_to_key(freq)))):
        place = freq_hz_to_key(freq_hz)
        key = min(free, key=lambda candidate: (abs(candidate - place), candidate))
        free.remove(key)
        found[freq_hz] = key
    return dict(sorted(found.items()))


def _is_plain(sound: Sound) -> bool:
    places = (freq_hz_to_key(note.freq_hz) for note in sound.notes)
    return all(abs(place - round(place)) < _PLAIN_ENOUGH for place in places)


class _Track:
    """Collects messages at ticks of a sound."""

    def __init__(self, sound: Sound) -> None:
        quarters = sound.metre.quarters_per_beat if sound.metre else Fraction(1)
        self._per_quarter = sound.beat_ticks / quarters
        self._events: list[tuple[int, int, mido.Message | mido.MetaMessage]] = []

    def add(self, tick: int, rank: int, message: mido.Message | mido.MetaMessage) -> None:
        self._events.append((round(tick * _TICKS_PER_BEAT / self._per_quarter), rank, message))

    def track(self, end_tick: int) -> mido.MidiTrack:
        import mido  # noqa: PLC0415 - forty milliseconds that only such files need

        self.add(end_tick, 9, mido.MetaMessage("end_of_track"))
        track = mido.MidiTrack()
        before = 0
        for tick, _, message in sorted(self._events, key=lambda event: event[:2]):
            track.append(message.copy(time=tick - before))
            before = tick
        return track


def _ascii(text: str) -> str:
    return to_ascii(text).replace("°", "dim").encode("ascii", "replace").decode("ascii")


def _heading(sound: Sound) -> _Track:
    import mido  # noqa: PLC0415 - as above

    track = _Track(sound)
    quarters = sound.metre.quarters_per_beat if sound.metre else Fraction(1)
    microseconds = round(sound.beat_ticks / quarters * 1_000_000 / TICKS_PER_SECOND)
    track.add(0, 0, mido.MetaMessage("track_name", name=_ascii(sound.title)))
    track.add(0, 1, mido.MetaMessage("set_tempo", tempo=min(microseconds, 0xFFFFFF)))
    if sound.metre:
        upper, lower = sound.metre.count, sound.metre.unit
        track.add(0, 1, mido.MetaMessage("time_signature", numerator=upper, denominator=lower))
    for symbol in sound.symbols:
        track.add(symbol.tick, 2, mido.MetaMessage("text", text=_ascii(symbol.text)))
    for mark in sound.marks:
        if mark.item and not sound.metre:
            track.add(mark.tick, 2, mido.MetaMessage("marker", text=_ascii(f"{mark.item} {mark.label}".strip())))
    return track


def midi_file(sound: Sound, pitching: Pitching = Pitching.AUTO) -> mido.MidiFile:
    """Write a sound as a Standard MIDI File, in memory.

    Parameters
    ----------
    sound : Sound
        The sound.
    pitching : Pitching
        How pitches are written.

    Returns
    -------
    mido.MidiFile
        The file.

    Raises
    ------
    DomainError
        If the pitches cannot be written in this way.

    Examples
    --------
    >>> from gamutwright.ir.sound import Note
    >>> [message.note for message in midi_file(Sound(9, (Note(0, 4, 440.0),))).tracks[1] if message.type == "note_on"]
    [69]
    """
    import mido  # noqa: PLC0415 - as above

    if pitching is Pitching.AUTO:
        pitching = Pitching.PLAIN if _is_plain(sound) else Pitching.TUNED
    if pitching is Pitching.PLAIN and not _is_plain(sound):
        raise DomainError(
            "pitches between the keys", "plain keys are those of twelve equal steps", "Choose tuned or bent."
        )
    freqs = tuple(note.freq_hz for note in sound.notes)
    keys = key_assignment(freqs) if pitching is Pitching.TUNED else {}
    bent = dict(zip(sound.notes, bent_notes(sound), strict=True)) if pitching is Pitching.BENT else {}
    file = mido.MidiFile(type=1, ticks_per_beat=_TICKS_PER_BEAT)
    file.tracks.append(_heading(sound).track(sound.ticks))
    for number, part in enumerate(sound.parts or (Part.TUNE,)):
        track = _Track(sound)
        if len(sound.parts) > 1:
            track.add(0, 0, mido.MetaMessage("track_name", name=part.value))
        if part is Part.DRUM:
            _write_strokes(track, sound)
        else:
            own = tuple(note for note in sound.notes if note.part is part)
            program = usual_program(part, sound.timbre)
            if bent:
                if number == 0:
                    _prepare_bends(track)
                _write_bent(track, own, bent, program)
            else:
                if keys:
                    _prepare_tuning(track, keys, _CHANNELS[part])
                track.add(0, 1, mido.Message("program_change", channel=_CHANNELS[part], program=program))
                _write_notes(track, own, _CHANNELS[part], keys)
        file.tracks.append(track.track(sound.ticks))
    return file


def _write_notes(track: _Track, notes: tuple[Note, ...], channel: int, keys: Mapping[float, int]) -> None:
    for note in notes:
        key = keys[note.freq_hz] if keys else round(freq_hz_to_key(note.freq_hz))
        _write_note(track, note, channel, key)


def _write_bent(
    track: _Track,
    notes: tuple[Note, ...],
    bent: Mapping[Note, BentNote],
    program: int,
) -> None:
    import mido  # noqa: PLC0415 - as above

    for note in notes:
        one = bent[note]
        track.add(note.start_tick, 3, mido.Message("program_change", channel=one.channel, program=program))
        track.add(note.start_tick, 3, mido.Message("pitchwheel", channel=one.channel, pitch=one.bend))
        _write_note(track, note, one.channel, one.key)


def _write_note(track: _Track, note: Note, channel: int, key: int) -> None:
    import mido  # noqa: PLC0415 - as above

    force = max(1, round(127 * note.velocity))
    if note.label:
        track.add(note.start_tick, 3, mido.MetaMessage("lyrics", text=_ascii(note.label)))
    track.add(note.start_tick, 4, mido.Message("note_on", channel=channel, note=key, velocity=force))
    track.add(note.end_tick, 2, mido.Message("note_off", channel=channel, note=key, velocity=64))


def _write_strokes(track: _Track, sound: Sound) -> None:
    import mido  # noqa: PLC0415 - as above

    for stroke in sound.strokes:
        key, force = DRUM_KEYS[stroke.drum], max(1, round(127 * stroke.velocity))
        end = min(stroke.start_tick + _STROKE_TICKS, sound.ticks)
        track.add(stroke.start_tick, 4, mido.Message("note_on", channel=9, note=key, velocity=force))
        track.add(end, 2, mido.Message("note_off", channel=9, note=key, velocity=64))


def _prepare_bends(track: _Track) -> None:
    import mido  # noqa: PLC0415 - as above

    for channel in CHANNELS:
        # Registered parameter 0 is the range of bends, in semitones and cents.
        for control, value in ((101, 0), (100, 0), (6, BEND_SEMITONES), (38, 0), *_RPN_OFF):
            track.add(0, 0, mido.Message("control_change", channel=channel, control=control, value=value))


def _prepare_tuning(track: _Track, keys: Mapping[float, int], channel: int) -> None:
    import mido  # noqa: PLC0415 - as above

    words: dict[int, Word] = {key: freq_hz_to_word(freq_hz) for freq_hz, key in keys.items()}
    message = single_note_tuning_change(words)
    track.add(0, 0, mido.Message("sysex", data=message[1:-1]))
    # Registered parameters 4 and 3 choose the bank and the program of tunings, both 0 here.
    for control, value in ((101, 0), (100, 4), (6, 0), (101, 0), (100, 3), (6, 0), *_RPN_OFF):
        track.add(0, 0, mido.Message("control_change", channel=channel, control=control, value=value))


def write_midi(path: Path, sound: Sound, pitching: Pitching = Pitching.AUTO) -> None:
    """Write a sound as a Standard MIDI File.

    Parameters
    ----------
    path : Path
        The file.
    sound : Sound
        The sound.
    pitching : Pitching
        How pitches are written.

    Raises
    ------
    DomainError
        If the pitches cannot be written in this way.
    FileError
        If the file cannot be written.
    """
    content = midi_file(sound, pitching)
    replace_file(path, lambda file: content.save(file=file))
