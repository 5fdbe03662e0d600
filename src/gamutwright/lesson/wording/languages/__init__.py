"""What is particular to a language: how it counts, and what it calls notes, chords and intervals.

A language is one module here, offering `NUMERALS` and `NAMES`, and one file of wording beside this package. Readers
and writers know no language by themselves, so that another one is added by adding its two files.

Conventions: patterns are regular expressions without capturing groups, tried without regard to capitals unless a field
says otherwise; words are written as they stand inside a sentence.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import DomainError

__all__ = ["NameWords", "Numerals", "any_of", "known_languages", "names_of", "numerals_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Numerals:
    """How a language counts.

    Parameters
    ----------
    count_to_words, ordinal_to_words : callable
        Whole number to words; they cover 0 and 1 to 999,999.
    cardinal, ordinal : str
        Patterns of numbers and ordinals in words.
    cardinal_value, ordinal_value : callable
        What such words say.
    fraction : str
        Pattern of the part of a fraction after its numerator ("thirds").
    fraction_value : callable
        The denominator such a word says.
    ones : str
        Pattern of words that stand for 1 as a numerator ("a").
    phrases : mapping of str to (int, int)
        Fixed expressions to numerator and denominator ("both", "half a dozen", "the half").
    bound_phrases : mapping of str to (int, int)
        Words that state a number only where a claim is known to stand, such as an article.
    zeros : str
        Pattern of words that state none.
    ignored : str
        Pattern of expressions whose number words are no numbers ("at once").
    hedges : str
        Pattern of words that soften a number ("about").
    minus, percent, times : str
        Patterns of the words for a negative sign, for percent, and for counts of times after a number.
    decimal_mark, group_mark : str
        Marks inside written digits.
    ordinal_digits : str
        Pattern that follows digits to make them an ordinal.
    shares : str
        Pattern of the word between two numbers that state a share ("in", "out of").
    every : str
        Pattern of the word before an ordinal that states a share ("every tenth").
    and_word : str
        What joins the last two items of a list.
    or_word : str
        What joins the last two of several possible values.
    fraction_to_words : callable
        Numerator and denominator, between 0 and 1, to words.
    hedge, minus_word, percent_word, no_word : str
        What is said before a rounded number, before a negative one, after a percentage, and before a noun of which
        there are none.
    share_word : str
        What stands between the two numbers of a share ("6 *of* 462").
    """

    count_to_words: Callable[[int], str]
    ordinal_to_words: Callable[[int], str]
    cardinal: str
    cardinal_value: Callable[[str], int]
    ordinal: str
    ordinal_value: Callable[[str], int]
    fraction: str
    fraction_value: Callable[[str], int]
    ones: str
    phrases: Mapping[str, tuple[int, int]]
    bound_phrases: Mapping[str, tuple[int, int]]
    zeros: str
    ignored: str
    hedges: str
    minus: str
    percent: str
    times: str
    decimal_mark: str
    group_mark: str
    ordinal_digits: str
    shares: str
    every: str
    and_word: str
    or_word: str
    fraction_to_words: Callable[[int, int], str]
    hedge: str
    minus_word: str
    percent_word: str
    no_word: str
    share_word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NameWords:
    """What a language calls notes, chords, intervals and degrees.

    Parameters
    ----------
    speak_note, read_note : callable
        ASCII note name to the spoken one, and a note name met in a text to ASCII, or None.
    note_pattern : str
        Pattern of a note name in a text, where capitals matter.
    is_no_note : callable
        (text, start, end, is_bound): whether what looks like a note is another word there, such as an article.
    chord_words : mapping of str to (str, str)
        Suffix of a chord name to what is said after its root, and to a pattern of all that may be said; a pattern
        that begins like another stands before it.
    chord_root : str
        Pattern of a root before such words, where capitals matter, with the mark that joins the two.
    speak_chord : callable
        ASCII root and suffix to a spoken chord.
    chords_on : str
        Pattern between a kind and a root that follows it ("minor triad *on* E").
    not_chord_before : str
        Pattern that, following a chord, shows that it names a key or a scale.
    intervals : mapping of int to str
        Semitones from 0 to 12 to the spoken interval.
    interval_patterns : tuple of (str, int or None, int or None)
        Pattern, semitones and generic size of each way to name an interval.
    step : str
        What a tone of another division is called, before its number.
    step_pattern : str
        Pattern of all it may be called.
    between : str
        What stands between the two tones of an interval.
    after : str
        What stands between the two parts of a compared pair.
    signs : mapping of str to (str, str)
        Accidentals of a degree to the words before its number, and to a pattern of all that may be said.
    ratio : str
        What stands between the two numbers of a ratio.
    stacked, plus : str
        What is said before, and between, the sizes of a chord that has no name.
    here : tuple of str
        Pointing words; the first ones are used in turn.
    scale_names : mapping of str to str
        Traditional names and the words of systematic names, where they differ from the program's; longer ones first.
    """

    speak_note: Callable[[str], str]
    read_note: Callable[[str], str | None]
    note_pattern: str
    is_no_note: Callable[[str, int, int, bool], bool]
    chord_words: Mapping[str, tuple[str, str]]
    chord_root: str
    speak_chord: Callable[[str, str], str]
    chords_on: str
    not_chord_before: str
    intervals: Mapping[int, str]
    interval_patterns: tuple[tuple[str, int | None, int | None], ...]
    step: str
    step_pattern: str
    between: str
    after: str
    signs: Mapping[str, tuple[str, str]]
    ratio: str
    stacked: str
    plus: str
    here: tuple[str, ...]
    scale_names: Mapping[str, str]


def any_of(words: Iterable[str]) -> str:
    """Make a pattern of alternatives, longer ones first, so that none hides another that begins like it.

    Parameters
    ----------
    words : iterable of str
        The alternatives; each is a pattern itself.

    Returns
    -------
    str
        A group that does not capture.

    Examples
    --------
    >>> any_of(["six", "sixteen"])
    '(?:sixteen|six)'
    """
    return "(?:" + "|".join(sorted(words, key=len, reverse=True)) + ")"


def known_languages() -> tuple[str, ...]:
    """List the languages that can be read and spoken.

    Returns
    -------
    tuple of str
        Language tags, sorted.

    Examples
    --------
    >>> known_languages()
    ('de', 'en')
    """
    return tuple(sorted(info.name for info in pkgutil.iter_modules(__path__) if not info.name.startswith("_")))


@lru_cache(maxsize=16)
def _module(language: str) -> object:
    tag = language.replace("_", "-").split("-")[0].lower()
    if tag not in known_languages():
        raise DomainError(
            f"language '{language}'",
            f"lessons are worded in {', '.join(known_languages())}",
            "Choose one of these, or add a language.",
        )
    return importlib.import_module(f"{__name__}.{tag}")


def numerals_of(language: str) -> Numerals:
    """Give the numerals of a language.

    Parameters
    ----------
    language : str
        Language tag, such as `en` or `de-AT`; the part before the hyphen decides.

    Returns
    -------
    Numerals
        Its table.

    Raises
    ------
    DomainError
        If the language is not known.

    Examples
    --------
    >>> numerals_of("de").count_to_words(21)
    'einundzwanzig'
    """
    table = getattr(_module(language), "NUMERALS")  # noqa: B009 - the module is chosen at run time
    assert isinstance(table, Numerals)  # noqa: S101 - a language module keeps its promise or is broken
    return table


def names_of(language: str) -> NameWords:
    """Give the names of notes, chords and intervals in a language.

    Parameters
    ----------
    language : str
        Language tag, such as `en` or `de-AT`; the part before the hyphen decides.

    Returns
    -------
    NameWords
        Its table.

    Raises
    ------
    DomainError
        If the language is not known.

    Examples
    --------
    >>> names_of("de").intervals[7]
    'reine Quinte'
    """
    table = getattr(_module(language), "NAMES")  # noqa: B009 - the module is chosen at run time
    assert isinstance(table, NameWords)  # noqa: S101 - a language module keeps its promise or is broken
    return table
