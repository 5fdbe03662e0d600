"""What speaks a line: samples, and when each word begins and ends.

The idea: pictures and sounds hang on words, so a voice must say when it reaches each word of the line as the teacher
wrote it. Everything that speaks (the built-in voice, a voice file, a recorded take) gives the same record, so that the
rest of the workshop does not know which it was.

**Conventions.** Samples are float32, mono, 48,000 a second, full scale 1.0; one tick is one sample. Offsets are
half-open and count code points of the line's text. A word is a run of letters and figures, with apostrophes, hyphens,
and points or commas inside figures, and with the signs written to it (`B♭`, `C#`, `50%`); a sign alone is a word too.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from gamutwright.errors import DomainError
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.ir.timeline import Speech, SpokenWord

__all__ = [
    "TICKS_PER_SECOND",
    "Samples",
    "SpokenLine",
    "Voice",
    "fill_times",
    "resample",
    "word_spans",
]

Samples = NDArray[np.float32]

_SIGN = "♯♭♮𝄪𝄫"
_WORD = re.compile(
    rf"[^\W_]+(?:['’.,/‑-][^\W_{_SIGN}]+|[{_SIGN}]+[^\W_{_SIGN}]+|##?[^\W_{_SIGN}]+)*[{_SIGN}]*(?:##?|[%°ø])?"
    rf"|[{_SIGN}]+|%"
)


@dataclass(frozen=True, slots=True, eq=False)
class SpokenLine:
    """A spoken line.

    Parameters
    ----------
    samples : ndarray of float32, shape (ticks,)
        Mono, 48,000 a second.
    words : tuple of SpokenWord
        Every word of the line in order; they do not overlap, and none is empty.
    """

    samples: Samples
    words: tuple[SpokenWord, ...]

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / TICKS_PER_SECOND

    @property
    def speech(self) -> Speech:
        """What a timeline needs of it: its length and its words.

        Examples
        --------
        >>> line = SpokenLine(np.zeros(900, np.float32), (SpokenWord(0, 3, 0, 400), SpokenWord(4, 8, 500, 800)))
        >>> line.speech.ticks, line.speech.tick_of(3, 8)
        (900, 500)
        """
        return Speech(len(self.samples), self.words)


class Voice(Protocol):
    """Anything that speaks a line."""

    @property
    def identity(self) -> str:
        """A digest of all that settles how this voice sounds: same identity and line, same samples."""

    @property
    def credit(self) -> str:
        """What it is called and under which licence it stands, for the end of a film."""

    def speak(self, line: str, notes: Collection[tuple[int, int]] = ()) -> SpokenLine:
        """Speak a line.

        Parameters
        ----------
        line : str
            What is spoken, without markup.
        notes : collection of (int, int)
            Places in the line known to name notes, for a language in which a note's letter is also a word.

        Returns
        -------
        SpokenLine
            Samples, and the times of all the line's words; no words and no samples for a line without words.
        """


def word_spans(text: str) -> tuple[tuple[int, int], ...]:
    """Find the words of a line.

    Parameters
    ----------
    text : str
        The line.

    Returns
    -------
    tuple of (int, int)
        Start and end of each.

    Examples
    --------
    >>> line = "Myhill's 0.81: E flat, B♭ to F## (half-diminished)."
    >>> [line[start:end] for start, end in word_spans(line)]
    ["Myhill's", '0.81', 'E', 'flat', 'B♭', 'to', 'F##', 'half-diminished']
    """
    return tuple(match.span() for match in _WORD.finditer(text))


def fill_times(
    spans: Sequence[tuple[int, int]], known: Sequence[tuple[int, int] | None], length: int
) -> tuple[SpokenWord, ...]:
    """Give every word a time, where a voice told only some.

    A voice may run words together ("of the"); those that were not told share the time of the one before, by their
    length in letters.

    Parameters
    ----------
    spans : sequence of (int, int)
        Places of the words in the text.
    known : sequence of ((int, int) or None)
        Start and end tick of each word, None where it was not told; starts do not go down.
    length : int
        Ticks of the whole line, at least as many as there are words.

    Returns
    -------
    tuple of SpokenWord
        All words, in order, each at least one tick long and none before the one before it has ended.

    Raises
    ------
    DomainError
        If there are fewer ticks than words.

    Examples
    --------
    >>> words = fill_times([(0, 2), (3, 6), (7, 12)], [(0, 500), None, (500, 900)], 1000)
    >>> [(word.start_tick, word.end_tick) for word in words]
    [(0, 200), (200, 500), (500, 900)]
    """
    if length < len(spans):
        raise DomainError(f"{length} ticks", f"the line has {len(spans)} words", "Speak the line in full.")
    starts: list[float] = [0.0] * len(spans)
    ends: list[float] = [0.0] * len(spans)
    place, told_end = 0, 0.0
    while place < len(spans):
        behind = place + 1
        while behind < len(spans) and known[behind] is None:
            behind += 1
        following = known[behind] if behind < len(spans) else None
        begin, end = known[place] or (told_end, following[0] if following else length)
        weights = np.cumsum([0] + [right - left for left, right in spans[place:behind]])
        edges = begin + (max(end, begin) - begin) * weights / weights[-1]
        starts[place:behind], ends[place:behind] = edges[:-1].tolist(), edges[1:].tolist()
        place, told_end = behind, end
    words, last = [], 0
    for index, (left, right) in enumerate(spans):
        still_to_come = len(spans) - index - 1
        start = min(max(round(starts[index]), last), length - still_to_come - 1)
        last = min(max(round(ends[index]), start + 1), length - still_to_come)
        words.append(SpokenWord(left, right, start, last))
    return tuple(words)


def resample(samples: NDArray[np.floating], from_hz: int, to_hz: int = TICKS_PER_SECOND) -> Samples:
    """Change the sample rate of a whole recording by its spectrum, which delays nothing.

    Parameters
    ----------
    samples : ndarray of float, shape (n,)
        Mono.
    from_hz, to_hz : int
        Rates; the same rate gives the samples back.

    Returns
    -------
    ndarray of float32, shape (round(n * to_hz / from_hz),)
        The recording at the other rate, without what lies above half the lower rate.

    Examples
    --------
    >>> len(resample(np.zeros(22_050, np.float32), 22_050))
    48000
    """
    if from_hz == to_hz or not len(samples):
        return samples.astype(np.float32)
    step = from_hz // np.gcd(from_hz, to_hz)
    # Padded to a whole number of steps, so that both lengths are exact, with silence between end and beginning.
    blocks = _smooth(-(-len(samples) // step) + 1)
    short, long = blocks * step, blocks * step * to_hz // from_hz
    spectrum = np.fft.rfft(samples, short)
    wanted = np.zeros(long // 2 + 1, complex)
    kept = min(len(spectrum), len(wanted)) - 1
    wanted[:kept] = spectrum[:kept]
    made = np.fft.irfft(wanted, long)[: round(len(samples) * to_hz / from_hz)] * (long / short)
    return np.asarray(made, np.float32)


def _smooth(least: int) -> int:
    """Give the next number without a prime factor above 5, for which Fourier transforms are quick."""
    number = least
    while True:
        rest = number
        for prime in (2, 3, 5):
            while rest % prime == 0:
                rest //= prime
        if rest == 1:
            return number
        number += 1
