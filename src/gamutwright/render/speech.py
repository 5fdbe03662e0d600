"""Spoken lines that are kept: a line is spoken, or read from its take, once.

Conventions: samples are kept with 16 bits below the line's own peak, which lies under what anybody hears; word times
are ticks from the beginning of the line's sound.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection
from pathlib import Path

import numpy as np

from gamutwright.codec import digest, to_plain
from gamutwright.errors import FileError
from gamutwright.ir.timeline import Speech, SpokenWord
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.store import Parcel
from gamutwright.render.takes import Take, chosen_take, lost_take, play_take
from gamutwright.render.voice import SpokenLine, Voice

__all__ = ["is_recording", "parcel_to_speech", "parcel_to_spoken", "speech_job"]

Notes = tuple[tuple[int, int], ...]


def speech_job(
    line_id: str, line: str, voice: Voice, notes: Collection[tuple[int, int]] = (), takes: Path | None = None
) -> Job:
    """Say how a line comes to be heard: from the take that fits its words, else from a voice.

    Parameters
    ----------
    line_id : str
        Id of the line.
    line : str
        Its words.
    voice : Voice
        Speaks what is not recorded, or was recorded with other words.
    notes : collection of (int, int)
        Places in the line known to name notes.
    takes : Path, optional
        The folder of recordings.

    Returns
    -------
    Job
        Its result is read by `parcel_to_speech` and `parcel_to_spoken`.

    Raises
    ------
    FileError
        If a recording that is described is missing.
    """
    lost = lost_take(takes, line_id, line) if takes else None
    if lost is not None:
        raise FileError(
            str(lost),
            f"the recording of line {line_id} is missing",
            f"Put it back, or remove {lost.with_suffix('.json').name} beside it to hear another take or the voice.",
        )
    take = chosen_take(takes, line_id) if takes else None
    places = tuple((start, end) for start, end in notes)
    if take is not None and not take.is_stale(line):
        heard = [hashlib.sha256(take.path.read_bytes()).hexdigest(), to_plain(take.times)]
        key = digest(["take", sources_digest("render", "languages"), line, heard])
        return Job(key, _played, (take, line), take.seconds / 60)
    key = digest(["voice", sources_digest("render"), voice.identity, line, places])
    return Job(key, _spoken, (voice, line, places), 0.005 + 0.0002 * len(line))


def is_recording(job: Job) -> bool:
    """Whether a speech job plays a recording.

    Parameters
    ----------
    job : Job
        Of `speech_job`.

    Returns
    -------
    bool
        False for what a voice speaks.
    """
    return job.work is _played


def _played(work: tuple[Take, str]) -> Parcel:
    return _parcel(play_take(*work))


def _spoken(work: tuple[Voice, str, Notes]) -> Parcel:
    voice, line, notes = work
    return _parcel(voice.speak(line, notes))


def _parcel(spoken: SpokenLine) -> Parcel:
    peak = float(np.abs(spoken.samples).max(initial=0.0)) or 1.0
    words = [[word.start_char, word.end_char, word.start_tick, word.end_tick] for word in spoken.words]
    samples = np.round(spoken.samples * (32_767 / peak)).astype("<i2")
    return Parcel({"peak": peak, "ticks": len(samples), "words": to_plain(words)}, (samples.tobytes(),))


def parcel_to_speech(parcel: Parcel) -> Speech:
    """Read how long a line takes and when its words are heard.

    Parameters
    ----------
    parcel : Parcel
        Result of a speech job.

    Returns
    -------
    Speech
        What a timeline needs.
    """
    data: dict = parcel.data  # type: ignore[assignment, type-arg]  # as _parcel wrote it
    return Speech(data["ticks"], tuple(SpokenWord(*word) for word in data["words"]))


def parcel_to_spoken(parcel: Parcel) -> SpokenLine:
    """Read a line with its samples.

    Parameters
    ----------
    parcel : Parcel
        Result of a speech job.

    Returns
    -------
    SpokenLine
        Samples and words.
    """
    data: dict = parcel.data  # type: ignore[assignment, type-arg]  # as _parcel wrote it
    samples = np.frombuffer(parcel.blobs[0], "<i2").astype(np.float32) * np.float32(data["peak"] / 32_767)
    return SpokenLine(samples, parcel_to_speech(parcel).words)
