"""Sounds on sampled instruments: FluidSynth with a SoundFont of the user's, where both are installed.

An optional stand-in for our own synthesiser, for those who want the sound of a recorded instrument. Pitches are bent
to the tuning; how well they then sit depends on how well the samples of the SoundFont were tuned, which are often some
cents off. Where exactness matters, use our own.

**Conventions.** Reverberation and chorus are switched off. FluidSynth works in pieces of 64 samples, so a note begins
up to 1.4 ms late. Both channels are averaged into one. Keys are struck with 127 times the velocity.
"""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np

from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.ir.sound import TICKS_PER_SECOND, Sound, Timbre
from gamutwright.render.bends import BEND_SEMITONES, CHANNELS, bent_notes
from gamutwright.render.signal import Signal
from gamutwright.render.synth import BLOCK_TICKS, Samples

__all__ = ["PROGRAMS", "fluidsynth_library", "soundfont_signal"]

PROGRAMS = {Timbre.PLUCKED: 24, Timbre.STRUCK: 0, Timbre.SUSTAINED: 19}
"""Programs of General MIDI counted from 0: nylon-string guitar, grand piano, church organ (from memory)."""


def fluidsynth_library() -> Any:  # noqa: ANN401 - the library ships no types
    """Load pyfluidsynth, which loads FluidSynth.

    Returns
    -------
    module
        The library.

    Raises
    ------
    MissingPartError
        If either is not installed.
    """
    try:
        return importlib.import_module("fluidsynth")
    except (ImportError, OSError) as error:
        raise MissingPartError(
            "sampled instruments",
            f"pyfluidsynth and the FluidSynth library are needed ({error})",
            "Install both: pip install pyfluidsynth, and libfluidsynth from your system (Debian: apt install "
            "libfluidsynth3; macOS: brew install fluid-synth); or leave out the SoundFont.",
        ) from error


def soundfont_signal(
    sound: Sound,
    soundfont: Path,
    program: int | None = None,
    bank: int = 0,
    library: Any = None,  # noqa: ANN401 - as above
) -> Signal:
    """Play a sound on an instrument of a SoundFont.

    Parameters
    ----------
    sound : Sound
        The sound.
    soundfont : Path
        An .sf2 or .sf3 file.
    program : int in [0, 127], optional
        The instrument; that of the timbre in General MIDI without it.
    bank : int >= 0
        The bank.
    library : module, optional
        pyfluidsynth, where it is loaded already.

    Returns
    -------
    Signal
        Its samples, played anew each time they are asked for; they may differ in the last bits.

    Raises
    ------
    MissingPartError
        If FluidSynth is not installed.
    FileError
        If the SoundFont cannot be read.
    DomainError
        If the SoundFont has no such program, or more than fifteen notes sound at once.
    """
    if not soundfont.is_file():
        raise FileError(str(soundfont), "there is no such file", "Give the path of an .sf2 or .sf3 file.")
    library = library or fluidsynth_library()
    wanted = PROGRAMS[sound.timbre] if program is None else program
    # Bends are found, and the instrument is tried, before anybody waits for samples.
    bent_notes(sound)
    _player(library, soundfont, wanted, bank).delete()
    return Signal(sound.ticks, lambda: _played(sound, _player(library, soundfont, wanted, bank)))


def _player(library: Any, soundfont: Path, program: int, bank: int) -> Any:  # noqa: ANN401 - as above
    player = library.Synth(gain=0.4, samplerate=float(TICKS_PER_SECOND))
    player.setting("synth.reverb.active", 0)
    player.setting("synth.chorus.active", 0)
    font = player.sfload(str(soundfont))
    if font == -1:
        player.delete()
        raise FileError(str(soundfont), "FluidSynth cannot read it", "Give an .sf2 or .sf3 file that is whole.")
    for channel in CHANNELS:
        if player.program_select(channel, font, bank, program) == -1:
            player.delete()
            raise DomainError(
                f"program {program} of bank {bank}",
                f"{soundfont.name} has no such instrument",
                "Choose another program or bank.",
            )
        # Registered parameter 0 is the range of bends, in semitones and cents.
        for control, value in ((101, 0), (100, 0), (6, BEND_SEMITONES), (38, 0), (101, 127), (100, 127)):
            player.cc(channel, control, value)
    return player


def _played(sound: Sound, player: Any) -> Iterator[Samples]:  # noqa: ANN401 - as above
    events: list[tuple[int, int, tuple[int, int, int, int]]] = []
    for bent in bent_notes(sound):
        force = max(1, round(127 * bent.note.velocity))
        # At one tick keys are let go before others are struck.
        events.append((bent.note.end_tick, 0, (bent.channel, bent.key, 0, 0)))
        events.append((bent.note.start_tick, 1, (bent.channel, bent.key, force, bent.bend)))
    try:
        now = 0
        for tick, is_on, (channel, key, force, bend) in [*sorted(events), (sound.ticks, 0, (0, 0, 0, 0))]:
            while now < tick:
                count = min(tick - now, BLOCK_TICKS)
                both = np.asarray(player.get_samples(count), dtype=np.float64).reshape(-1, 2)
                now += count
                yield both.mean(axis=1) / (1 << 15)
            if is_on:
                player.pitch_bend(channel, bend)
                player.noteon(channel, key, force)
            elif tick < sound.ticks:
                player.noteoff(channel, key)
    finally:
        player.delete()
