"""A take on disk: its recording, and the description beside it.

**Conventions.** `NN.flac` is mono, 48,000 samples a second, 24 bits; `NN.json` beside it is an object with the fields
of `Take`, times as `[start_char, end_char, start_tick, end_tick]`. Ticks count from the beginning of the recording.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from gamutwright.codec import digest
from gamutwright.errors import FileError
from gamutwright.files import write_text
from gamutwright.ir.timeline import SpokenWord
from gamutwright.render.recording import Fault
from gamutwright.render.voice import word_spans

__all__ = ["Take", "read_take", "words_digest", "write_take"]


@dataclass(frozen=True, slots=True)
class Take:
    """A recorded line.

    Parameters
    ----------
    path : Path
        Its FLAC file.
    number : int
        From 1.
    text : str
        The line as it was when it was recorded.
    words : str
        Digest of its words.
    seconds : float
        How long it lasts.
    faults : tuple of Fault
        What is wrong with the recording.
    loudness_lufs, peak_dbtp, noise_dbfs, words_per_minute : float
        As measured.
    times : tuple of SpokenWord
        When each word is heard.
    source : str
        Name of the file it was made from.
    """

    path: Path
    number: int
    text: str
    words: str
    seconds: float
    faults: tuple[Fault, ...]
    loudness_lufs: float
    peak_dbtp: float
    noise_dbfs: float
    words_per_minute: float
    times: tuple[SpokenWord, ...]
    source: str

    def is_stale(self, line: str) -> bool:
        """Whether a line's words are no longer those that were recorded.

        Parameters
        ----------
        line : str
            The line as it is now.

        Returns
        -------
        bool
            True where a word was changed, added or taken away.
        """
        return self.words != words_digest(line)


def words_digest(line: str) -> str:
    """Digest the words of a line; punctuation, blanks and capitals do not count.

    Parameters
    ----------
    line : str
        The line.

    Returns
    -------
    str
        The digest. A capital A keeps its case, since the note is not the article.

    Examples
    --------
    >>> words_digest("Sing, E flat!") == words_digest("sing E flat"), words_digest("A.") == words_digest("a")
    (True, False)
    """
    words = (line[start:end].replace("’", "'") for start, end in word_spans(line))
    return digest([word if len(word) == 1 else word.casefold() for word in words])


def read_take(path: Path) -> Take:
    """Read the description of a take.

    Parameters
    ----------
    path : Path
        The description, `NN.json`.

    Returns
    -------
    Take
        The take.

    Raises
    ------
    FileError
        If it does not describe a take.
    """
    try:
        told = json.loads(path.read_text(encoding="utf-8"))
        faults = tuple(Fault(name) for name in told.pop("faults"))
        times = tuple(SpokenWord(*map(int, time)) for time in told.pop("times"))
        return Take(path=path.with_suffix(".flac"), number=int(path.stem), faults=faults, times=times, **told)
    except (OSError, ValueError, TypeError, KeyError, AttributeError) as error:
        raise FileError(
            str(path),
            f"it does not describe a take ({error})",
            "Move it and its .flac away, and add the recording again.",
        ) from error


def write_take(take: Take) -> None:
    """Write the description of a take beside its recording.

    Parameters
    ----------
    take : Take
        The take.

    Raises
    ------
    FileError
        If it cannot be written; what was there before stays.
    """
    told = {
        "text": take.text,
        "words": take.words,
        "seconds": take.seconds,
        "faults": [fault.value for fault in take.faults],
        "loudness_lufs": take.loudness_lufs,
        "peak_dbtp": take.peak_dbtp,
        "noise_dbfs": take.noise_dbfs,
        "words_per_minute": take.words_per_minute,
        "times": [[word.start_char, word.end_char, word.start_tick, word.end_tick] for word in take.times],
        "source": take.source,
    }
    write_text(take.path.with_suffix(".json"), json.dumps(told, ensure_ascii=False, indent=1) + "\n")
