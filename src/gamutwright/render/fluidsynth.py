"""What is done with a SoundFont in a process of its own: each key is listened to, tuned, and everything is played.

Samples of a SoundFont are often some cents off, and FluidSynth knows whole cents only. So every key that is going to be
struck is first played alone and measured; the tuning that is then set, a tuning of the MIDI Tuning Standard as
FluidSynth keeps it, takes what was found back. Where no pitch can be measured, as of bells and noises, the key stays as
it is.

**Conventions.** Runs in the child of `jobs.confined` and takes plain data. Tunings are cents for each of 128 keys, 6900
for 440 Hz. Reverberation and chorus of FluidSynth are off: the room is ours. Answers are 16-bit samples, left and
right.
"""

from __future__ import annotations

import ctypes
import importlib
import io
from collections.abc import Callable, Iterable
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.ir.sound import TICKS_PER_SECOND

__all__ = ["fluidsynth_library", "play"]

_GAIN = 0.3
_TELL_TICKS = 10 * TICKS_PER_SECOND
_CHUNK_TICKS = 1 << 15
_LEAST_TICKS = 100 * TICKS_PER_SECOND // 1000
_MOST_TICKS = TICKS_PER_SECOND
_TRUST_CENTS = 60.0
_TRUST_LEVEL = 0.05
_TABLE_CENTS = 0.5
"""FluidSynth drops fractions of a cent; half a cent more, and it is off by at most half a cent either way."""


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
        with redirect_stdout(io.StringIO()):  # it tells where it found FluidSynth if CI is set
            return importlib.import_module("fluidsynth")
    except (ImportError, OSError) as error:
        raise MissingPartError(
            "sampled instruments",
            f"pyfluidsynth and the FluidSynth library are needed ({error})",
            "Install both: pip install pyfluidsynth, and libfluidsynth from your system (Debian: apt install "
            "libfluidsynth3; macOS: brew install fluid-synth); or leave out the SoundFont.",
        ) from error


def play(tell: Callable[..., None], soundfont: str, parts: list[dict[str, list[Any]]], ticks: int) -> tuple[Any, bytes]:
    """Play parts on the instruments of a SoundFont, one after another.

    Parameters
    ----------
    tell : callable
        Told how many ticks are done.
    soundfont : str
        Path of an .sf2 or .sf3 file.
    parts : list of dict
        Of each part its `channels` and `events`. Of each channel: `bank` and `program`, `pan` from 0 to 127, and
        `keys`: a key, the cents it gets, and the ticks from and to which its tone is measured; without any the keys
        stay as they are. Of each event: tick, channel, key and force from 1 to 127, or 0 where a key is let go, in the
        order in which they happen.
    ticks : int
        How long each part is.

    Returns
    -------
    dict
        `off`: how far the keys that were measured were off, in cents.
    bytes
        Samples of the parts in turn.

    Raises
    ------
    MissingPartError
        If FluidSynth is not installed.
    FileError
        If it cannot read the SoundFont.
    DomainError
        If the SoundFont has no such instrument.
    """
    library = fluidsynth_library()
    player = library.Synth(gain=_GAIN, samplerate=float(TICKS_PER_SECOND))
    try:
        player.set_reverb(level=0.0)
        player.set_chorus(level=0.0)
        for setting in ("synth.reverb.active", "synth.chorus.active"):
            player.setting(setting, 0)
        font = player.sfload(soundfont)
        if font == -1:
            raise FileError(
                Path(soundfont).name, "FluidSynth cannot read it", "Give an .sf2 or .sf3 file that is whole."
            )
        off: list[float] = []
        pieces = []
        first = 0
        for part in parts:
            channels = part["channels"]
            for number, channel in enumerate(channels, first):
                if player.program_select(number, font, channel["bank"], channel["program"]) == -1:
                    raise DomainError(
                        f"program {channel['program']} of bank {channel['bank']}",
                        f"{Path(soundfont).name} has no such instrument",
                        "Choose another instrument, or a SoundFont of all of General MIDI.",
                    )
            off += _tuned(tell, library, player, channels, first)
            for number, channel in enumerate(channels, first):
                player.cc(number, 10, channel["pan"])
            pieces.append(_played(tell, player, part["events"], ticks, first))
            _hush(player, range(first, first + len(channels)))
            # Each part has channels of its own, so that nothing of one is left to the next.
            first += len(channels)
        return {"off": sorted(off)}, b"".join(pieces)
    finally:
        player.delete()


def _hush(player: Any, channels: Iterable[int]) -> None:  # noqa: ANN401 - as above
    for channel in channels:
        player.all_sounds_off(channel)
    _samples(player, 2048)


def _tuned(
    tell: Callable[..., None],
    library: Any,  # noqa: ANN401 - as above
    player: Any,  # noqa: ANN401 - as above
    channels: list[dict[str, Any]],
    first: int,
) -> list[float]:
    """Listen to the keys, and tune the channels; give how far the keys were off."""
    known: dict[tuple[int, int, int, int, int], float] = {}
    for number, channel in enumerate(channels, first):
        if not channel["keys"]:
            continue
        tuning = (ctypes.c_double * 128)(*(100.0 * key for key in range(128)))
        for key, cents, begin, end in channel["keys"]:
            which = (channel["bank"], channel["program"], key, begin, end)
            if which not in known:
                known[which] = _off_cents(player, number, key, begin, end)
                tell(0)
            tuning[key] = cents - known[which] + _TABLE_CENTS
        bank, program = divmod(number, 128)
        library.fluid_synth_activate_key_tuning(player.synth, bank, program, b"lesson", tuning, 1)
        library.fluid_synth_activate_tuning(player.synth, number, bank, program, 1)
    return [round(cents, 2) for cents in known.values()]


def _off_cents(player: Any, channel: int, key: int, begin: int, end: int) -> float:  # noqa: ANN401 - as above
    """Play a key alone and measure its pitch; 0 where it has none that can be trusted.

    Pitches of recorded instruments rise and fall a little, so that a long tone and a short one differ.
    """
    end = min(max(end, _LEAST_TICKS), begin + _MOST_TICKS)
    begin = max(0, min(begin, end - _LEAST_TICKS))
    player.noteon(channel, key, 90)
    heard = _samples(player, end).mean(axis=1)[begin:]
    player.noteoff(channel, key)
    _hush(player, [channel])
    return _measured_cents(heard, 440.0 * 2 ** ((key - 69) / 12))


def _measured_cents(heard: NDArray[np.float64], near_hz: float) -> float:
    """Say how far the line near a frequency is from it: the strongest one, and how far its phase turns."""
    padded = 1 << 17
    length = len(heard) * 2 // 3
    hop, window = len(heard) - length, np.hanning(length)
    spectrum = np.abs(np.fft.rfft(heard[:length] * window, padded))
    low, high = (round(near_hz * 2 ** (side * _TRUST_CENTS / 1200) * padded / TICKS_PER_SECOND) for side in (-1, 1))
    band = spectrum[low : high + 1]
    if not len(band) or band.max() <= _TRUST_LEVEL * spectrum.max() or not 0 < int(band.argmax()) < len(band) - 1:
        return 0.0
    freq_hz = (low + int(band.argmax())) * TICKS_PER_SECOND / padded
    ticks = np.arange(length)
    for _ in range(3):
        turned = np.exp(-2j * np.pi * freq_hz * ticks / TICKS_PER_SECOND)
        first, second = (np.sum(heard[begin : begin + length] * window * turned) for begin in (0, hop))
        second *= np.exp(-2j * np.pi * freq_hz * hop / TICKS_PER_SECOND)
        freq_hz += float(np.angle(second / first)) * TICKS_PER_SECOND / (2 * np.pi * hop)
    return float(1200 * np.log2(freq_hz / near_hz))


def _samples(player: Any, ticks: int) -> NDArray[np.float64]:  # noqa: ANN401 - as above
    return np.asarray(player.get_samples(ticks), dtype=np.float64).reshape(-1, 2)


def _played(
    tell: Callable[..., None],
    player: Any,  # noqa: ANN401 - as above
    events: list[list[int]],
    ticks: int,
    first: int,
) -> bytes:
    pieces: list[bytes] = []
    now = told = 0
    for tick, channel, key, force in [*events, [ticks, 0, 0, 0]]:
        while now < tick:
            count = min(tick - now, _CHUNK_TICKS)
            pieces.append(np.asarray(player.get_samples(count), dtype="<i2").tobytes())
            now += count
        if now - told >= _TELL_TICKS:
            told = now
            tell(now)
        if force:
            player.noteon(first + channel, key, force)
        elif tick < ticks:
            player.noteoff(first + channel, key)
    return b"".join(pieces)
