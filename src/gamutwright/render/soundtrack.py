"""The sound track, piece by piece: each line and each example is mixed, levelled, limited and encoded by itself.

A piece begins in the silence shortly before what is heard in it, on a frame of the AAC encoder, so that its packets are
the same wherever it stands: a corrected sentence moves the others in time and leaves their packets alone.
Every line and every example is brought to one loudness by itself; takes of different days therefore sit beside each
other. The loudness of the whole is worked out from what was measured in the pieces, and where it misses the target the
pieces are made again with one gain for all.

Conventions: ticks of 1/48,000 s; two channels, a voice the same in both, so that it has 3.01 dB less in each than the
programme; AAC-LC packets of 1,024 samples, the first of which is heard at tick 0: there is no priming. Loudness is
gated as ITU-R BS.1770-4 says, over the 400 ms blocks of the pieces (those across two pieces are left out).
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from gamutwright.ir.sound import TICKS_PER_SECOND, Sound
from gamutwright.ir.timeline import LINE_GRID_TICKS, ClipKind, Timeline
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.store import Parcel, Store
from gamutwright.render.loudness import SILENT_LUFS, Meter
from gamutwright.render.mix import TARGET_LUFS, Clip, channels_lu, levelled, limited, mixed
from gamutwright.render.signal import Signal
from gamutwright.render.soundfont import Players
from gamutwright.render.speech import parcel_to_spoken

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["AAC_TICKS", "Piece", "correction_db", "packets_of", "pieces_of", "samples_to_packets", "sound_job"]

AAC_TICKS = LINE_GRID_TICKS
"""Samples of an AAC frame."""
LEAD_FRAMES = 2
"""How many frames before a line its piece begins: a frame is decoded with the one before it, so both are silent."""
PRE_ROLL = 4
"""Frames of silence that the encoder is given first, whose packets are dropped with the one that primes a decoder."""
BIT_RATE = 256_000
CHANNELS = 2
MISS_LU = 0.3
"""How far the whole may be from its target before the pieces are made again; less than a listener notices."""


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A stretch of the programme with silence at both ends.

    Parameters
    ----------
    start_tick, ticks : int
        Where it begins and how long it is; multiples of 1,024.
    parts : tuple of (int, Job or Sound)
        What is heard from which tick of the piece: a spoken line, as the job that speaks it, or an example.
    """

    start_tick: int
    ticks: int
    parts: tuple[tuple[int, Job | Sound], ...]


def pieces_of(timeline: Timeline, lines: Mapping[str, Job], sounds: Mapping[str, Sound]) -> tuple[Piece, ...]:
    """Cut the programme where a line or an example begins after a silence.

    Parameters
    ----------
    timeline : Timeline
        The film.
    lines : mapping of str to Job
        By the keys of its voice clips: the jobs of `speech.speech_job`.
    sounds : mapping of str to Sound
        By the keys of its other clips.

    Returns
    -------
    tuple of Piece
        Without a gap from tick 0 to the end of the timeline or the AAC frame it lies in.
    """
    ends = -(-timeline.ticks // AAC_TICKS) * AAC_TICKS
    clips = sorted(timeline.clips, key=lambda clip: clip.start_tick)
    cuts, quiet = [0], 0
    for clip in clips:
        cut = clip.start_tick - LEAD_FRAMES * AAC_TICKS
        if cut % AAC_TICKS == 0 and cut > cuts[-1] and cut >= quiet + AAC_TICKS:
            cuts.append(cut)
        quiet = max(quiet, clip.start_tick + clip.ticks)
    pieces, waiting = [], list(reversed(clips))
    for start, end in zip(cuts, [*cuts[1:], ends], strict=True):
        parts: list[tuple[int, Job | Sound]] = []
        while waiting and waiting[-1].start_tick < end:
            clip = waiting.pop()
            heard = lines[clip.key] if clip.kind is ClipKind.VOICE else sounds[clip.key]
            parts.append((clip.start_tick - start, heard))
        pieces.append(Piece(start, end - start, tuple(parts)))
    return tuple(pieces)


def sound_job(piece: Piece, store: Store, gain_db: float = 0.0, players: Players | None = None) -> Job:
    """Say how a piece becomes packets.

    Parameters
    ----------
    piece : Piece
        The piece.
    store : Store
        Where its spoken lines are kept.
    gain_db : float
        What brings the whole programme to its target.
    players : Players, optional
        Who plays its examples; the built-in instruments without them.

    Returns
    -------
    Job
        Its result is read by `packets_of` and `correction_db`.
    """
    players = players or Players()
    heard = [(offset, part.key if isinstance(part, Job) else repr(part)) for offset, part in piece.parts]
    content = f"sound{sources_digest('render', 'ir')}{piece.ticks} {gain_db} {heard}{players.key}"
    key = hashlib.sha256(content.encode()).hexdigest()
    return Job(key, _encoded, (piece, store.folder, gain_db, players), 0.02 + piece.ticks / TICKS_PER_SECOND / 35)


def packets_of(parcel: Parcel) -> Iterator[bytes]:
    """Give the packets of a piece, one for each 1,024 ticks.

    Parameters
    ----------
    parcel : Parcel
        Result of a sound job.

    Yields
    ------
    bytes
        AAC packets without headers.
    """
    together, sizes = parcel.blobs[0], np.frombuffer(parcel.blobs[1], "<u2")
    ends = np.cumsum(sizes, dtype=int)
    for end, size in zip(ends.tolist(), sizes.tolist(), strict=True):
        yield together[end - size : end]


def correction_db(parcels: Iterable[Parcel]) -> float:
    """Say what gain the whole programme lacks.

    Parameters
    ----------
    parcels : iterable of Parcel
        Results of all its sound jobs.

    Returns
    -------
    float
        Decibels in tenths; 0 where it is near enough, or silent.
    """
    blocks = np.concatenate([np.zeros(0), *(np.frombuffer(parcel.blobs[2], "<f4") for parcel in parcels)])
    loudness = _gated(10 ** (blocks.astype(float) / 10))
    missing = TARGET_LUFS - loudness
    return 0.0 if loudness <= SILENT_LUFS or abs(missing) <= MISS_LU else round(missing, 1)


def _gated(power: NDArray[np.float64]) -> float:
    """Average the blocks above -70 LUFS that are not 10 LU below the average of those (ITU-R BS.1770-4, annex 1)."""
    above = power[power > 10 ** (SILENT_LUFS / 10)]
    if not len(above):
        return SILENT_LUFS
    kept = above[above > above.mean() / 10]
    return float(10 * math.log10(kept.mean()))


def _encoded(work: tuple[Piece, Path, float, Players]) -> Parcel:
    """Mix, level, limit, measure and encode a piece."""
    piece, folder, gain_db, players = work
    clips = [
        Clip(offset, _levelled(_heard(part, Store(folder), players)), **({} if isinstance(part, Job) else _WHOLE))
        for offset, part in piece.parts
    ]
    whole = limited(mixed(clips, piece.ticks), gain_db)
    samples = whole.samples()
    meter = Meter(whole.channels, peaks=False)
    meter.add(samples)
    meter.result()
    packets = samples_to_packets(samples)
    sizes = np.array([len(packet) for packet in packets], "<u2")
    # What has one channel is heard in both.
    blocks = np.array(meter.blocks_lufs, "<f4") + _missing_lu(whole)
    return Parcel(None, (b"".join(packets), sizes.tobytes(), blocks.astype("<f4").tobytes()))


def _missing_lu(signal: Signal) -> float:
    return channels_lu(CHANNELS) - channels_lu(signal.channels)


def _levelled(signal: Signal) -> Signal:
    """Bring a line or an example to the loudness of the programme."""
    return levelled(signal, TARGET_LUFS - _missing_lu(signal))


_WHOLE = {"fade_ticks": 0}
"""An example fades by itself."""


def _heard(part: Job | Sound, store: Store, players: Players) -> Signal:
    if isinstance(part, Sound):
        return players.signal(part)
    parcel = store.get(part.key) or part.work(part.payload)
    return Signal.of_samples(parcel_to_spoken(parcel).samples)


def samples_to_packets(samples: NDArray[np.floating]) -> list[bytes]:
    """Encode samples; what was silent at both ends can be joined to others of its kind.

    Parameters
    ----------
    samples : array (ticks,) or (ticks, 2) float
        At 48,000 a second; one channel is heard in both.

    Returns
    -------
    list of bytes
        AAC packets without headers, one for each 1,024 ticks begun; decoded, the first of them begins at tick 0.

    Examples
    --------
    >>> len(samples_to_packets(np.zeros(2_049)))
    3
    """
    import av  # noqa: PLC0415 - a large library that only films need

    codec: Any = av.CodecContext.create("aac", "w")
    codec.sample_rate, codec.layout, codec.format = TICKS_PER_SECOND, "stereo", "fltp"
    codec.bit_rate, codec.time_base, codec.options = BIT_RATE, Fraction(1, TICKS_PER_SECOND), {"aac_coder": "fast"}
    rows = np.atleast_2d(np.asarray(samples, np.float32).T)
    count = -(-rows.shape[1] // AAC_TICKS)
    wide = np.zeros((CHANNELS, (PRE_ROLL + count + 1) * AAC_TICKS), np.float32)
    wide[:, PRE_ROLL * AAC_TICKS :][:, : rows.shape[1]] = rows
    packets: list[bytes] = []
    for start in range(0, wide.shape[1], AAC_TICKS):
        frame = av.AudioFrame.from_ndarray(
            np.ascontiguousarray(wide[:, start : start + AAC_TICKS]), format="fltp", layout="stereo"
        )
        frame.sample_rate, frame.pts, frame.time_base = TICKS_PER_SECOND, start, codec.time_base
        packets += (bytes(packet) for packet in codec.encode(frame))
    packets += (bytes(packet) for packet in codec.encode(None))
    return packets[PRE_ROLL + 1 :][:count]
