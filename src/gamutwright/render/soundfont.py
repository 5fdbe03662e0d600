"""Sounds on sampled instruments: FluidSynth with a SoundFont of the user's, an instrument of it for each part.

Who wants the sound of recorded instruments names a SoundFont; a part may stay on the built-in instruments. Pitches are
set by tunings, a key for each pitch, after listening to what the samples are off by themselves (`fluidsynth`). Each
part is as loud as the built-in one would be, whatever the levels of the SoundFont, and all play in the same room.

**Conventions.** FluidSynth works in pieces of 64 samples, so a note begins up to 1.4 ms late. Keys are struck with 127
times the velocity. SoundFonts are files of others: they are read in a process of its own with limits (`jobs.confined`).
A note is played with the nearest key of a channel of its own where another pitch has that key already.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from gamutwright.codec import Plain
from gamutwright.errors import DomainError, FileError, InputError
from gamutwright.ir.playing import Part
from gamutwright.ir.sound import TICKS_PER_SECOND, Note, Sound
from gamutwright.jobs.confined import Limits, confined
from gamutwright.jobs.record import content_digest
from gamutwright.render.bends import freq_hz_to_key
from gamutwright.render.general_midi import DRUM_BANK, DRUM_KEYS, program_named, usual_program
from gamutwright.render.instruments import ramp
from gamutwright.render.loudness import SILENT_LUFS, db_to_gain, measured
from gamutwright.render.mix import Clip, mixed
from gamutwright.render.room import Room, place_of
from gamutwright.render.signal import Signal
from gamutwright.render.synth import BLOCK_TICKS, MOST_SAMPLES, Samples

__all__ = ["BUILT_IN", "LARGEST_FONT", "Players", "part_of", "players_of"]

BUILT_IN = "built-in"
LARGEST_FONT = 1 << 30
_LIMITS = Limits(memory_bytes=6 << 30, processor_seconds=900, silent_seconds=120.0)
_MOST_CHANNELS = 256
_FADE_TICKS = TICKS_PER_SECOND // 16
_PLACES = 4
_SETTLED_TICKS = (160 * TICKS_PER_SECOND // 1000, 40 * TICKS_PER_SECOND // 1000)
_GRID_TICKS = TICKS_PER_SECOND // 20


@dataclass(frozen=True, slots=True)
class Players:
    """Who plays the parts of a sound.

    Parameters
    ----------
    soundfont : Path or None
        An .sf2 or .sf3 file; None for the built-in instruments.
    programs : tuple of (Part, int or None)
        The program of each part that was given one; None for the built-in instrument.
    digest : str
        Of the SoundFont's content.

    Examples
    --------
    >>> Players().signal(Sound(10)).ticks
    10
    """

    soundfont: Path | None = None
    programs: tuple[tuple[Part, int | None], ...] = ()
    digest: str = ""

    @property
    def key(self) -> str:
        """What settles how they play, wherever the file lies."""
        return f"{self.digest}{[(part.value, program) for part, program in self.programs]}" if self.soundfont else ""

    def signal(self, sound: Sound) -> Signal:
        """Let them play.

        Parameters
        ----------
        sound : Sound
            The sound.

        Returns
        -------
        Signal
            Two channels, at the level of the velocities.

        Raises
        ------
        MissingPartError
            If FluidSynth is needed and not installed.
        FileError
            If the SoundFont cannot be read, or gives no sound for a part.
        DomainError
            If it has no such instrument, or the sound is longer than ten minutes.
        """
        if self.soundfont is None:
            return Signal.of_sound(sound)
        if sound.ticks > MOST_SAMPLES:
            raise DomainError(
                f"a sound of {sound.seconds:.0f} s",
                f"a SoundFont plays up to {MOST_SAMPLES // TICKS_PER_SECOND} s",
                "Make it shorter, or leave out the SoundFont.",
            )
        chosen = dict(self.programs)
        alone = {part: part_of(sound, part) for part in sound.parts}
        own = {part: Signal.of_sound(one) for part, one in alone.items()}
        sampled = {
            part: usual_program(part, sound.timbre) if chosen.get(part) is None else chosen[part]
            for part in sound.parts
            if chosen.get(part, 0) is not None
        }
        if sampled:
            laid = [_laid_out(alone[part], part, program or 0) for part, program in sampled.items()]
            heard = _sampled(self.soundfont, laid, sound.ticks)
            for part, signal in zip(sampled, heard, strict=True):
                own[part] = _as_loud(signal, own[part], part, self.soundfont)
        return mixed([Clip(0, signal, 0) for signal in own.values()], sound.ticks) if own else Signal.of_sound(sound)


def part_of(sound: Sound, part: Part) -> Sound:
    """Leave one part of a sound.

    Parameters
    ----------
    sound : Sound
        The sound.
    part : Part
        The part that stays.

    Returns
    -------
    Sound
        The same but for the notes and strokes of others.

    Examples
    --------
    >>> part_of(Sound(9, (Note(0, 4, 440.0), Note(2, 4, 110.0, part=Part.BASS))), Part.BASS).notes[0].freq_hz
    110.0
    """
    return replace(
        sound,
        notes=tuple(note for note in sound.notes if note.part is part),
        strokes=sound.strokes if part is Part.DRUM else (),
    )


def players_of(soundfont: Path | None, instruments: Sequence[str]) -> Players:
    """Read who plays, as a teacher writes it.

    Parameters
    ----------
    soundfont : Path or None
        An .sf2 or .sf3 file.
    instruments : sequence of str
        `PART=INSTRUMENT`, or `INSTRUMENT` for the tune; a name of General MIDI, its number or `built-in`.

    Returns
    -------
    Players
        Ready to play.

    Raises
    ------
    InputError
        If there is no such part, or instruments are named without a SoundFont.
    DomainError
        If there is no such instrument.
    FileError
        If the SoundFont is not there, too large, or none.

    Examples
    --------
    >>> players_of(None, ())
    Players(soundfont=None, programs=(), digest='')
    """
    programs: dict[Part, int | None] = {}
    for text in instruments:
        before, sign, after = text.partition("=")
        name, part_name = (after, before.strip()) if sign else (before, Part.TUNE.value)
        if part_name not in set(Part):
            raise InputError(
                f"the part {part_name[:40]!r}",
                f"the parts are {', '.join(Part)}",
                "Write, for example, tune=flute or bass=contrabass.",
            )
        programs[Part(part_name)] = None if name.strip() == BUILT_IN else program_named(name)
    if soundfont is None:
        if programs:
            raise InputError(
                f"the instrument {instruments[0][:40]!r}",
                "instruments of General MIDI come from a SoundFont",
                "Name one with --soundfont FILE (Debian: apt install timgm6mb-soundfont puts one into "
                "/usr/share/sounds/sf2), or leave the instruments out.",
            )
        return Players()
    _look_at(soundfont)
    return Players(soundfont, tuple(sorted(programs.items())), content_digest(soundfont))


def _look_at(soundfont: Path) -> None:
    try:
        with soundfont.open("rb") as file:
            head = file.read(12)
        size = soundfont.stat().st_size
    except OSError as error:
        raise FileError(
            str(soundfont),
            f"it cannot be read ({error.strerror})",
            "Give the path of an .sf2 or .sf3 file; on Debian, apt install timgm6mb-soundfont puts a small one into "
            "/usr/share/sounds/sf2.",
        ) from error
    if head[:4] != b"RIFF" or head[8:] != b"sfbk":
        raise FileError(str(soundfont), "it is no SoundFont", "Give an .sf2 or .sf3 file.")
    if size > LARGEST_FONT:
        raise FileError(str(soundfont), f"it has {size >> 20} MiB, and up to 1024 are read", "Give a smaller one.")


# --- who is on which channel ---


@dataclass(slots=True)
class _Channel:
    pan: int
    cents: dict[int, float]
    span: tuple[int, int]
    busy: dict[int, int]

    def takes(self, key: int, note: Note, like: _Channel) -> bool:
        is_free = self.busy.get(key, 0) <= note.start_tick
        has_pitch = self.cents.get(key, like.cents[key]) == like.cents[key]
        return is_free and has_pitch and (self.pan, self.span) == (like.pan, like.span)


def _placed(notes: Sequence[Note]) -> tuple[list[_Channel], list[list[int]]]:
    """Give each note a channel on which its key has its pitch, and is free."""
    channels: list[_Channel] = []
    events: list[tuple[int, int, int, int, int]] = []
    for note in notes:
        pitch = freq_hz_to_key(note.freq_hz)
        key = min(127, max(0, round(pitch)))
        pan = round(64 + 63 * round(place_of(note) * _PLACES) / _PLACES)
        cents = round(100 * pitch, 4)
        # Ears judge a tone once it has settled; the first of all has no other before it to wait for.
        begin = _SETTLED_TICKS[note.start_tick == notes[0].start_tick]
        span = (begin, max(1, round(note.duration_ticks / _GRID_TICKS)) * _GRID_TICKS)
        like = _Channel(pan, {key: cents}, span, {})
        number = next((n for n, one in enumerate(channels) if one.takes(key, note, like)), len(channels))
        if number == len(channels):
            channels.append(like)
        channel = channels[number]
        channel.cents[key] = cents
        channel.busy[key] = note.end_tick
        force = max(1, round(127 * note.velocity))
        # At one tick keys are let go before others are struck.
        events.append((note.end_tick, 0, number, key, 0))
        events.append((note.start_tick, 1, number, key, force))
    if len(channels) > _MOST_CHANNELS:
        raise DomainError(
            f"{len(channels)} channels",
            f"so many pitches near one key need more than the {_MOST_CHANNELS} there are",
            "Play it with the built-in instruments.",
        )
    return channels, [[tick, number, key, force] for tick, _, number, key, force in sorted(events)]


def _laid_out(sound: Sound, part: Part, program: int) -> Plain:
    """Write a part for `fluidsynth.play`."""
    if part is Part.DRUM:
        struck = [[s.start_tick, 0, DRUM_KEYS[s.drum], max(1, round(127 * s.velocity))] for s in sound.strokes]
        drums: list[Plain] = [{"bank": DRUM_BANK, "program": program, "pan": 64, "keys": []}]
        return {"channels": drums, "events": [list(row) for row in struck]}
    channels, events = _placed(sound.notes)
    plain: list[Plain] = [
        {
            "bank": 0,
            "program": program,
            "pan": one.pan,
            "keys": [[key, cents, *one.span] for key, cents in one.cents.items()],
        }
        for one in channels
    ]
    return {"channels": plain, "events": [list(row) for row in events]}


def _sampled(soundfont: Path, parts: Sequence[Plain], ticks: int) -> list[Signal]:
    """Play parts in the room."""
    _, data = confined(
        "gamutwright.render.fluidsynth:play",
        [str(soundfont.resolve()), list(parts), ticks],
        _LIMITS,
        (str(soundfont), "Give an .sf2 or .sf3 file that is whole, or leave out the SoundFont."),
    )
    if len(data) != 4 * ticks * len(parts):
        raise FileError(str(soundfont), "it was not played to the end", "Give another SoundFont.")
    whole = np.frombuffer(data, "<i2").reshape(len(parts), -1, 2)
    return [Signal(ticks, partial(_in_room, one), 2) for one in whole]


def _in_room(whole: NDArray[np.int16]) -> Iterator[Samples]:
    ticks = len(whole)
    room = Room(ticks)
    for begin in range(0, ticks, BLOCK_TICKS):
        block = whole[begin : begin + BLOCK_TICKS] / float(1 << 15)
        left_over = ticks - begin - np.arange(len(block))
        if left_over[-1] <= _FADE_TICKS:
            block *= ramp(left_over - 1, _FADE_TICKS)[:, None]
        yield room.add(block.mean(axis=1), (block[:, 0] - block[:, 1]) / 2)


def _as_loud(sampled: Signal, own: Signal, part: Part, soundfont: Path) -> Signal:
    """Bring a part to the loudness that the built-in instrument has."""
    loud = measured(sampled, peaks=False).integrated_lufs
    if loud <= SILENT_LUFS:
        raise FileError(
            str(soundfont),
            f"it gives no sound for the part {part.value}",
            f"Choose another instrument with --instrument {part.value}=NAME, or {part.value}={BUILT_IN}.",
        )
    return sampled.amplified(db_to_gain(measured(own, peaks=False).integrated_lufs - loud))
