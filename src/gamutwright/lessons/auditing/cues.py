"""Subtitles read into cues: SubRip (SRT) and WebVTT, also those that are damaged.

The idea: a file of subtitles is a row of time codes with words under them. Whatever stands between two time codes is
read as words, so that wrong numbers, missing blank lines and stray text lose nothing; everything that had to be guessed
is said in a remark. A file without a single readable time code is an error.

Source: WebVTT: The Web Video Text Tracks Format, W3C Candidate Recommendation (2019), section 4 (from memory). SubRip
has no standard: common practice, no source.

**Conventions.** Times are seconds from the beginning. Lines count from 1 and end with LF, CR LF or CR. Cues are kept in
the order of their beginnings.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass, replace

from gamutwright.errors import InputError
from gamutwright.lessons.places import LINE_END

__all__ = ["Cue", "Remark", "has_time_codes", "read_cues", "time_code"]

_STAMP = r"(?:(?:(\d{1,3}):)?([0-5]?\d):)([0-5]?\d)(?:[.,:](\d{1,3}))?"
_TIMING = re.compile(rf"\s*{_STAMP}\s*-{{1,3}}>\s*{_STAMP}(?:\s.*)?")
_ARROW = re.compile(r"-{1,3}>")
_TAG = re.compile(
    r"</?(?:[biu]|c|v|s|em|strong|lang|ruby|rt|font|span)(?:[.\s][^<>]*)?/?>|<\d[\d:.,]*>|\{\\[^{}]*\}", re.IGNORECASE
)
_NUMBER = re.compile(r"[0-9]{1,9}")
_MOST_ROWS = 12
"""That captions which roll up show again."""
_MOST_SAID = 20


@dataclass(frozen=True, slots=True)
class Remark:
    """Something that had to be guessed.

    Parameters
    ----------
    line : int
        Line of the file, from 1; 0 for the whole file.
    message : str
        What, and how it was read.
    """

    line: int
    message: str


@dataclass(frozen=True, slots=True)
class Cue:
    """Words and when they are shown.

    Parameters
    ----------
    start_s, end_s : float
        Seconds.
    line : int
        Line of the first words.
    lines : tuple of str
        The words, without tags.
    """

    start_s: float
    end_s: float
    line: int
    lines: tuple[str, ...]


def time_code(seconds: float) -> str:
    """Write a time as people look for it in a player.

    Parameters
    ----------
    seconds : float
        Seconds.

    Returns
    -------
    str
        Hours where there are any, minutes and seconds.

    Examples
    --------
    >>> time_code(61.5), time_code(3661)
    ('1:01.5', '1:01:01.0')
    """
    tenths = round(seconds * 10)
    minutes, rest = divmod(tenths, 600)
    hours, minutes = divmod(minutes, 60)
    clock = f"{minutes:02d}:{rest // 10:02d}.{rest % 10}" if hours else f"{minutes}:{rest // 10:02d}.{rest % 10}"
    return f"{hours}:{clock}" if hours else clock


def has_time_codes(source: str) -> bool:
    r"""Whether a text looks like subtitles.

    Parameters
    ----------
    source : str
        The text.

    Returns
    -------
    bool
        True where it begins like WebVTT or has a readable time code near its beginning.

    Examples
    --------
    >>> has_time_codes("1\n00:00:01,000 --> 00:00:02,000\nTwo."), has_time_codes("Two tones.")
    (True, False)
    """
    head = source.lstrip("\ufeff")
    return bool(re.match(r"WEBVTT\b", head)) or any(_TIMING.fullmatch(line) for line in LINE_END.split(head)[:200])


def _seconds(parts: tuple[str | None, ...]) -> float:
    hours, minutes, seconds, fraction = parts
    small = int(fraction) / 10 ** len(fraction) if fraction else 0.0
    return int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(seconds or 0) + small


def _plain(line: str) -> str:
    return " ".join(html.unescape(_TAG.sub("", line)).replace("\u200b", "").split())


class _Reader:
    """Walks through the lines once."""

    def __init__(self, lines: list[str], *, is_vtt: bool) -> None:
        self.lines, self.is_vtt = lines, is_vtt
        self.cues: list[Cue] = []
        self.remarks: list[Remark] = []
        self.numbers: list[int] = []
        self.times: tuple[float, float] | None = None
        self.words: list[tuple[int, str]] = []

    def remark(self, line: int, message: str) -> None:
        if len(self.remarks) < _MOST_SAID:
            self.remarks.append(Remark(line, message))

    def close(self) -> None:
        """Make a cue of what was gathered."""
        if self.times is not None:
            spoken = [(number, plain) for number, line in self.words if (plain := _plain(line))]
            if spoken:
                self.cues.append(Cue(*self.times, spoken[0][0], tuple(text for _, text in spoken)))
        self.times, self.words = None, []

    def read(self) -> None:
        is_after_blank, is_noted = True, False
        for number, line in enumerate(self.lines, 1):
            timing = _TIMING.fullmatch(line)
            if timing:
                is_noted = False
                self._open(number, timing)
            elif is_noted and line.strip():
                continue
            elif self.is_vtt and is_after_blank and re.match(r"(?:NOTE|STYLE|REGION)(?:\s|$)", line):
                is_noted = True
            elif self.is_vtt and number == 1 and line.startswith("WEBVTT"):
                continue
            elif _ARROW.search(line):
                self.remark(number, f"time code {line.strip()[:40]!r} cannot be read; its words go with the cue before")
                self._drop_name()
            elif line.strip():
                is_noted = False
                self.words.append((number, line))
            else:
                is_noted = False
                self.words.append((number, ""))
            is_after_blank = not line.strip()
        self._keep_rest()

    def _drop_name(self) -> None:
        """Take the number or name of a cue off the words gathered before its time code."""
        while self.words and not self.words[-1][1]:
            self.words.pop()
        if not self.words:
            return
        is_apart = len(self.words) == 1 or not self.words[-2][1]
        name = self.words[-1][1].strip()
        if _NUMBER.fullmatch(name) and (is_apart or (self.numbers and int(name) == self.numbers[-1] + 1)):
            self.numbers.append(int(name))
            self.words.pop()
        elif self.is_vtt and is_apart and (len(self.words) > 1 or self.times is None):
            self.words.pop()

    def _keep_rest(self) -> None:
        stray = [number for number, line in self.words if line.strip()]
        if self.times is None and stray and self.cues:
            self.remark(stray[0], "words without a time code are left out")
        self.close()

    def _open(self, number: int, timing: re.Match[str]) -> None:
        self._drop_name()
        if self.times is None and any(line.strip() for _, line in self.words):
            self.remark(self.words[0][0], "words before the first time code are left out")
            self.words = []
        self.close()
        start, end = _seconds(timing.groups()[:4]), _seconds(timing.groups()[4:8])
        if end < start:
            self.remark(number, "the cue ends before it begins; its beginning is used")
            end = start
        self.times = (start, end)


def _without_repeats(cues: list[Cue]) -> tuple[list[Cue], int]:
    """Drop lines that captions which roll up show a second time."""
    kept: list[Cue] = []
    dropped = 0
    before: tuple[str, ...] = ()
    for cue in cues:
        most = min(len(before), len(cue.lines), _MOST_ROWS)
        same = next(
            (k for k in range(most, 0, -1) if before[-k:] == cue.lines[:k] and len("".join(cue.lines[:k])) > 8), 0
        )
        before = cue.lines
        dropped += same
        if same < len(cue.lines):
            kept.append(replace(cue, lines=cue.lines[same:]) if same else cue)
    return kept, dropped


def read_cues(source: str, name: str = "subtitles") -> tuple[tuple[Cue, ...], tuple[Remark, ...]]:
    r"""Read subtitles.

    Parameters
    ----------
    source : str
        SRT or WebVTT; a byte-order mark is passed over.
    name : str
        Name for messages.

    Returns
    -------
    tuple of (tuple of Cue, tuple of Remark)
        The cues by time, and what had to be guessed.

    Raises
    ------
    InputError
        If there is no time code that can be read; the first line that looks like one is named.

    Examples
    --------
    >>> cues, remarks = read_cues("1\n00:00:01,000 --> 00:00:02,500\n<i>Two</i> semitones.")
    >>> cues[0].start_s, cues[0].lines, remarks
    (1.0, ('Two semitones.',), ())
    """
    lines = LINE_END.split(source.removeprefix("\ufeff"))
    is_vtt = lines[0].startswith("WEBVTT")
    reader = _Reader(lines, is_vtt=is_vtt)
    reader.read()
    if not any(_TIMING.fullmatch(line) for line in lines):
        damaged = next((number for number, line in enumerate(lines, 1) if _ARROW.search(line)), 1)
        raise InputError(
            f"{name}:{damaged}",
            "there is no time code that can be read",
            "Write 00:00:01,000 --> 00:00:04,000, or say that it is plain text.",
        )
    if reader.numbers and reader.numbers != list(range(reader.numbers[0], reader.numbers[0] + len(reader.numbers))):
        reader.remark(0, "the cues are not numbered in order; their times are used")
    cues = sorted(reader.cues, key=lambda cue: cue.start_s)
    if cues != reader.cues:
        reader.remark(0, "the cues do not stand in order of time; they were sorted")
    kept, dropped = _without_repeats(cues)
    if dropped:
        reader.remark(0, f"{dropped} lines that cues show again were read once")
    return tuple(kept), tuple(reader.remarks)
