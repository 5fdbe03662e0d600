"""The teacher's own voice: recorded takes of lines, numbered, one of them chosen, none ever overwritten.

The idea: a take belongs to a line by the line's lasting id, and to its words by their digest. Edit the words, and the
take is stale: it is kept and shown, but no longer spoken. A change of punctuation or capitals makes nothing stale.

On disk: `takes/<line>/01.flac` (mono, 48,000 a second, 24 bits, trimmed and levelled), `01.json` beside it, and
`chosen.json`, which names the chosen take and those that were chosen before it. A number is taken by creating its FLAC
file, so that two programs never write the same take; a take counts once it is described, which comes last.

**Conventions.** Times are ticks, 48,000 a second, from the beginning of the FLAC file; offsets count code points.
"""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

import numpy as np

from gamutwright.errors import DomainError, FileError
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.ir.timeline import SpokenWord
from gamutwright.render.align import align, reference_lines
from gamutwright.render.audiofile import write_audio
from gamutwright.render.choosing import choose_take, chosen_take
from gamutwright.render.recording import decode, prepare
from gamutwright.render.signal import Signal
from gamutwright.render.takefile import (
    Take,
    discarded_folder,
    line_folder,
    line_folders,
    list_takes,
    numbers_in,
    read_take,
    words_digest,
    write_take,
)
from gamutwright.render.voice import SpokenLine, Voice, word_spans

__all__ = [
    "Take",
    "add_take",
    "choose_take",
    "chosen_take",
    "line_folders",
    "list_takes",
    "lost_take",
    "move_word",
    "play_or_speak",
    "play_take",
    "words_digest",
]


def add_take(
    takes: Path,
    line_id: str,
    line: str,
    recording: Path,
    language: str,
    notes: Collection[tuple[int, int]] = (),
    source: str = "",
) -> Take:
    """Take a recording in: trimmed, levelled, laid along its words, and kept under the next number.

    Parameters
    ----------
    takes : Path
        The folder of takes; it is made where it is missing.
    line_id : str
        Id of the line.
    line : str
        The words that are recorded.
    recording : Path
        A file in any format FFmpeg decodes.
    language : str
        Language of the line.
    notes : collection of (int, int)
        Places in the line known to name notes.
    source : str
        What is written down as the name of the recording; that of the file without it.

    Returns
    -------
    Take
        The new take, which is the chosen one from now on.

    Raises
    ------
    FileError
        If the recording cannot be read, or the take not written.
    InputError
        If nothing is heard in the recording.
    DomainError
        If the line has no words.
    """
    folder = line_folder(takes, line_id)
    if not word_spans(line):
        raise DomainError(f"line {line_id}", "it has no words to record", "Give the id of a line that is spoken.")
    prepared = prepare(decode(recording), line)
    times = align(prepared.samples, reference_lines(line, language, tuple(notes)))
    path = _next_place(folder, line_folder(discarded_folder(takes), line_id))
    take = Take(
        path,
        int(path.stem),
        line,
        words_digest(line),
        round(len(prepared.samples) / TICKS_PER_SECOND, 3),
        prepared.faults,
        round(prepared.loudness_lufs, 2),
        round(prepared.peak_dbtp, 2),
        round(prepared.noise_dbfs, 1),
        round(prepared.words_per_minute, 1),
        times,
        source or recording.name,
    )
    try:
        write_audio(path, Signal.of_samples(prepared.samples))
        write_take(take)
        choose_take(takes, line_id, take.number)
    except BaseException:
        # A take is there with all of it or not at all.
        for part in (path.with_suffix(".json"), path):
            part.unlink(missing_ok=True)
        raise
    return take


def _next_place(folder: Path, thrown_away: Path) -> Path:
    """Reserve the next number by creating its recording, empty; give its place.

    A number is used once: a take that was thrown away can come back under its own.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        while True:
            numbers = (*numbers_in(folder), *numbers_in(thrown_away))
            place = folder / f"{max(numbers, default=0) + 1:02d}.flac"
            try:
                place.open("x").close()
            except FileExistsError:
                continue
            return place
    except OSError as error:
        raise FileError(
            str(folder), f"it cannot be written ({error.strerror or error})", "Make room, or free it."
        ) from error


def lost_take(takes: Path, line_id: str, line: str) -> Path | None:
    """Find a take of these words that is described, but whose recording is gone.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.
    line : str
        The line as it is now.

    Returns
    -------
    Path or None
        Where the recording should be.
    """
    folder = line_folder(takes, line_id)
    described = sorted(folder.glob("*.json")) if folder.is_dir() else ()
    lost = (path for path in described if path.stem.isdigit() and not path.with_suffix(".flac").is_file())
    return next(
        (path.with_suffix(".flac") for path in lost if path.stat().st_size and not read_take(path).is_stale(line)), None
    )


def move_word(take: Take, index: int, start_tick: int) -> Take:
    """Set by hand when a word begins, where the alignment is off; the word before it ends there at the latest.

    Parameters
    ----------
    take : Take
        The take; what stands beside its recording is rewritten.
    index : int
        Which word, from 0.
    start_tick : int
        When it begins: after the word before it begins and before it ends itself.

    Returns
    -------
    Take
        The take with the new time.

    Raises
    ------
    DomainError
        If there is no such word, or the time does not lie there.
    """
    words = list(take.times)
    earliest = words[index - 1].start_tick + 1 if 0 < index < len(words) else 0
    if not 0 <= index < len(words) or not earliest <= start_tick < words[index].end_tick:
        raise DomainError(
            f"word {index} at tick {start_tick}",
            "a word begins after the one before it begins and before it ends",
            "Choose a time between them.",
        )
    word = words[index]
    words[index] = SpokenWord(word.start_char, word.end_char, start_tick, word.end_tick)
    if index:
        last = words[index - 1]
        end = min(last.end_tick, start_tick)
        words[index - 1] = SpokenWord(last.start_char, last.end_char, last.start_tick, end)
    moved = Take(**{name: getattr(take, name) for name in Take.__slots__} | {"times": tuple(words)})
    write_take(moved)
    return moved


def play_take(take: Take, line: str) -> SpokenLine:
    """Give the sound and the word times of a take, for a line of the same words.

    Parameters
    ----------
    take : Take
        A take that is not stale.
    line : str
        The line as it is now; its punctuation may have changed.

    Returns
    -------
    SpokenLine
        Samples, and the words at their places in `line`.

    Raises
    ------
    DomainError
        If the take is stale.
    FileError
        If its recording cannot be read.
    """
    spans = word_spans(line)
    if take.is_stale(line) or len(spans) != len(take.times):
        raise DomainError(f"take {take.number}", "the words of the line have changed since", "Record the line again.")
    words = tuple(
        SpokenWord(start, end, word.start_tick, word.end_tick)
        for (start, end), word in zip(spans, take.times, strict=True)
    )
    return SpokenLine(decode(take.path).samples.astype(np.float32), words)


def play_or_speak(
    takes: Path, line_id: str, line: str, voice: Voice, notes: Collection[tuple[int, int]] = ()
) -> tuple[SpokenLine, Take | None]:
    """Give a line as the teacher recorded it, or as a voice speaks it where there is no take or only a stale one.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.
    line : str
        The line.
    voice : Voice
        Speaks what is not recorded.
    notes : collection of (int, int)
        Places in the line known to name notes.

    Returns
    -------
    tuple of (SpokenLine, Take or None)
        The line, and the take it came from.
    """
    take = chosen_take(takes, line_id)
    if take is None or take.is_stale(line):
        return voice.speak(line, notes), None
    return play_take(take, line), take
