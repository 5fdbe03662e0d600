"""Names of intervals: said, and found again in a text.

Conventions: sizes are semitones; the generic size counts letters, the root included, so that a third is 3. A name that
leaves its size open ("thirds") has the generic size alone; fourths, fifths and octaves are the perfect ones.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.languages import language_of
from gamutwright.phrasing.stretches import within

__all__ = ["IntervalMention", "find_intervals", "spoken_interval"]


@dataclass(frozen=True, slots=True)
class IntervalMention:
    """An interval named in a text.

    Parameters
    ----------
    start, end : int
        Where it stands.
    text : str
        Its words.
    semitones : int or None
        Its size; None where the name leaves it open.
    number : int or None
        Its generic size, 3 for a third; None for names that have none, such as the semitone.
    """

    start: int
    end: int
    text: str
    semitones: int | None
    number: int | None


def spoken_interval(semitones: int, language: str) -> str:
    """Name an interval by its size.

    Parameters
    ----------
    semitones : int in [0, 12]
        The size.
    language : str
        Language tag.

    Returns
    -------
    str
        The name, without an article.

    Raises
    ------
    DomainError
        If it is larger than an octave.

    Examples
    --------
    >>> spoken_interval(7, "en"), spoken_interval(3, "de")
    ('perfect fifth', 'kleine Terz')
    """
    names = language_of(language).names.intervals
    if semitones not in names:
        raise DomainError(f"{semitones} semitones", "intervals are named from 0 to 12 semitones", "Say the number.")
    return names[semitones]


@lru_cache(maxsize=16)
def _pattern(language: str) -> re.Pattern[str]:
    patterns = language_of(language).names.interval_patterns
    listed = "|".join(f"(?P<i{index}>{pattern})" for index, (pattern, _, _) in enumerate(patterns))
    return re.compile(rf"\b(?:{listed})\b", re.IGNORECASE)


def find_intervals(text: str, language: str, *, is_bound: bool = False) -> tuple[IntervalMention, ...]:
    """Find every interval a text names, in order.

    Parameters
    ----------
    text : str
        Free text, or the words of a claim.
    language : str
        Language tag.
    is_bound : bool
        Whether these are a claim's own words, so that a capital A at their beginning is a note.

    Returns
    -------
    tuple of IntervalMention
        The intervals; the seventh that names a chord is none.

    Examples
    --------
    >>> [(found.text, found.semitones) for found in find_intervals("A minor third on the third degree, fifths", "en")]
    [('minor third', 3), ('fifths', 7)]
    >>> [found.semitones for found in find_intervals("Eine kleine Terz und zwei Halbtonschritte", "de")]
    [3, 1]
    """
    kinds = language_of(language).names.interval_patterns
    found = []
    for match in _pattern(language).finditer(text):
        _, semitones, number = kinds[int((match.lastgroup or "i0")[1:])]
        found.append(IntervalMention(match.start(), match.end(), match[0], semitones, number))
    if not any(mention.number == 7 for mention in found):
        return tuple(found)
    from gamutwright.phrasing.spoken_names import find_chords  # noqa: PLC0415 - the two readers look at each other

    is_chord = within((chord.start, chord.end) for chord in find_chords(text, language, is_bound=is_bound))
    return tuple(mention for mention in found if mention.number != 7 or not is_chord(mention.start, mention.start + 1))
