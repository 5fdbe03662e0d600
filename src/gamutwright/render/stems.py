"""Stems: one sound file for each part, for whoever mixes by himself.

All stems of a sound have one gain, so that they keep their balance and, laid over one another from the beginning, are
the whole again: nothing is limited. The gain is the one that brings the whole to a loudness with room to spare, lowered
where a single peak would come too high.

**Conventions.** Files are named like the sound with the part behind it: `vamp-bass.flac`. Silent parts have no file.
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.errors import FileError, InputError
from gamutwright.ir.sound import Sound
from gamutwright.render.audiofile import HIGHEST_DBTP, Written, write_audio
from gamutwright.render.loudness import SILENT_LUFS, db_to_gain, measured
from gamutwright.render.soundfont import Players, part_of

__all__ = ["STEM_ENDINGS", "STEM_LUFS", "write_stems"]

STEM_LUFS = -20.0
"""Loudness of all stems together."""
STEM_ENDINGS = (".flac", ".m4a", ".wav")
_SPARE_DB = 0.5


def write_stems(folder: Path, sound: Sound, players: Players, like: Path, channels: int = 2) -> tuple[Written, ...]:
    """Write each part of a sound to a file.

    Parameters
    ----------
    folder : Path
        Where they go; it is made where it is missing.
    sound : Sound
        The sound.
    players : Players
        Who plays.
    like : Path
        The file of the whole: stems are named after it, and have its ending where that is one of `STEM_ENDINGS`.
    channels : int, 1 or 2
        Channels of the files.

    Returns
    -------
    tuple of Written
        The files, from the top of a score to its bottom.

    Raises
    ------
    InputError
        If the ending is none of `STEM_ENDINGS`.
    FileError
        If a file cannot be written.
    """
    ending = like.suffix.lower()
    if ending not in STEM_ENDINGS:
        raise InputError(
            f"stems as {like.suffix}",
            f"stems are written as {', '.join(STEM_ENDINGS)}",
            "Give the file such an ending.",
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            str(folder), f"it cannot be made ({error.strerror})", "Choose another folder for the stems."
        ) from error
    signals = {part: players.signal(part_of(sound, part)).in_channels(channels) for part in sound.parts}
    whole = measured(players.signal(sound).in_channels(channels))
    loud = whole.integrated_lufs
    peaks = [whole.true_peak_dbtp, *(measured(signal).true_peak_dbtp for signal in signals.values())]
    gain_db = min(STEM_LUFS - max(loud, SILENT_LUFS), HIGHEST_DBTP - _SPARE_DB - max(peaks))
    return tuple(
        write_audio(folder / f"{like.stem}-{part.value}{ending}", signal.amplified(db_to_gain(gain_db)))
        for part, signal in signals.items()
    )
