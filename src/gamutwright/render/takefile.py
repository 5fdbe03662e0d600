"""A take on disk: its recording, the description beside it, and the folders of both.

**Conventions.** `NN.flac` is mono, 48,000 samples a second, 24 bits; `NN.json` beside it is an object with the fields
of `Take`, times as `[start_char, end_char, start_tick, end_tick]`. Ticks count from the beginning of the recording.
Takes lie in `takes/<line>/`, those that were thrown away in `takes-discarded/<line>/`.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gamutwright.codec import digest, plain_from_json, unlike
from gamutwright.errors import DomainError, FileError
from gamutwright.files import is_device, write_text
from gamutwright.ir.timeline import TICKS_PER_SECOND, SpokenWord
from gamutwright.render.recording import LONGEST_SECONDS, Fault
from gamutwright.render.voice import word_spans

__all__ = [
    "Take",
    "discarded_folder",
    "line_folder",
    "line_folders",
    "list_takes",
    "numbers_in",
    "read_take",
    "words_digest",
    "write_take",
]

_LONGEST_TEXT = 1 << 20
_LONGEST_TICKS = LONGEST_SECONDS * TICKS_PER_SECOND
_DESCRIPTION = {
    "text": str,
    "words": str,
    "seconds": float,
    "faults": [str],
    "loudness_lufs": float,
    "peak_dbtp": float,
    "noise_dbfs": float,
    "words_per_minute": float,
    "times": [[int]],
    "source": str,
}
_LINE_ID = re.compile(r"[\w-]{1,64}\Z")


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
        told: Any = plain_from_json(path.read_bytes())
        wrong = unlike(told, _DESCRIPTION) or _wrong_times(told["times"])
        faults = () if wrong else tuple(Fault(name) for name in told["faults"])
        number = int(path.stem)
    except (OSError, ValueError) as error:
        wrong = str(getattr(error, "strerror", None) or error)
    if wrong:
        raise FileError(
            str(path),
            f"it does not describe a take ({wrong})",
            "Move it and its .flac away, and add the recording again.",
        )
    given = {name: told[name] for name in _DESCRIPTION} | {"faults": faults}
    given["times"] = tuple(SpokenWord(*time) for time in told["times"])
    return Take(path=path.with_suffix(".flac"), number=number, **given)


def _wrong_times(times: list[list[int]]) -> str:
    """Say what is wrong with the times of words: four numbers each, none before the one that it follows."""
    for index, time in enumerate(times):
        if len(time) != 4 or not (
            0 <= time[0] <= time[1] <= _LONGEST_TEXT and 0 <= time[2] <= time[3] <= _LONGEST_TICKS
        ):
            return f"times[{index}] is no word's"
    return ""


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


def line_folder(takes: Path, line_id: str) -> Path:
    """Give the folder of the takes of a line.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.

    Returns
    -------
    Path
        It need not be there.

    Raises
    ------
    DomainError
        If it is no id of a line.
    """
    if not _LINE_ID.match(line_id):
        raise DomainError(f"line {line_id!r}", "an id is made of letters, figures, - and _", "Give the id of a line.")
    if is_device(line_id):
        rule = "Windows keeps this name for a device, so there can be no folder of its takes there"
        raise DomainError(f"line {line_id!r}", rule, "Give the line another id.")
    return takes / line_id


def line_folders(takes: Path) -> tuple[str, ...]:
    """List the lines that have takes, in a folder of takes.

    Parameters
    ----------
    takes : Path
        The folder; it need not be there.

    Returns
    -------
    tuple of str
        Ids of lines, sorted.
    """
    if not takes.is_dir():
        return ()
    return tuple(sorted(entry.name for entry in takes.iterdir() if entry.is_dir() and _LINE_ID.match(entry.name)))


def list_takes(takes: Path, line_id: str) -> tuple[Take, ...]:
    """List the takes of a line.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    line_id : str
        Id of the line.

    Returns
    -------
    tuple of Take
        By number. A take whose writing was cut short is left out.

    Raises
    ------
    FileError
        If what stands beside a recording cannot be read.
    """
    folder = line_folder(takes, line_id)
    if not folder.is_dir():
        return ()
    described = sorted(path for path in folder.glob("*.json") if path.stem.isdigit() and path.stat().st_size)
    return tuple(read_take(path) for path in described if path.with_suffix(".flac").is_file())


def discarded_folder(takes: Path) -> Path:
    """Give the folder of takes that were thrown away; it lies apart, since nothing is made from it.

    Parameters
    ----------
    takes : Path
        The folder of takes.

    Returns
    -------
    Path
        Beside it; it need not be there.

    Examples
    --------
    >>> discarded_folder(Path("lessons/dorian/takes")).name
    'takes-discarded'
    """
    return takes.with_name(f"{takes.name}-discarded")


def numbers_in(folder: Path) -> tuple[int, ...]:
    """List the numbers of takes that a folder holds any part of.

    Parameters
    ----------
    folder : Path
        The folder of a line; it need not be there.

    Returns
    -------
    tuple of int
        In no order, some twice.
    """
    return tuple(int(path.stem) for path in folder.iterdir() if path.stem.isdigit()) if folder.is_dir() else ()
