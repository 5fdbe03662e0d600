"""What is particular to a language, as one record: how it counts, what it calls things, and its files of words.

Conventions: patterns are regular expressions without capturing groups, tried without regard to capitals unless a field
says otherwise; words are written as they stand inside a sentence.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import resources
from typing import Any

from gamutwright.errors import DomainError, Tellable, slots_filled

__all__ = ["NEVER", "Agreement", "ClaimWords", "Language", "NameWords", "Numerals", "any_of"]

NEVER = "(?!)"
"""The pattern that nothing matches, for what a language does not have."""


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
    after_hedge : str
        Pattern of what may stand between such a word and its number.
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
    plural : callable
        Whole number to its plural category ("one", "few", "other"), which chooses words in Fluent files (Unicode
        Technical Standard 35, part 3, and the rules of its data, from memory).
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
    after_hedge: str = NEVER
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
    plural: Callable[[int], str]


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
    altered : mapping of str to str
        The same accidentals to the words before its place, as in "the lowered second".
    ratio : str
        What stands between the two numbers of a ratio.
    stacked, plus : str
        What is said before, and between, the sizes of a chord that has no name.
    here : tuple of str
        Pointing words; the first ones are used in turn.
    scale_names : mapping of str to str
        Traditional names and the words of systematic names, where they differ from the program's; longer ones first.
    rooted_names : mapping of str to str
        Names of scales to how they are said on a root, with `{Root}` or, small, `{root}`; others follow their root.
    mode_of : str
        How a mode is told, with `{ordinal}` and the `{scale}` whose mode it is.
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
    altered: Mapping[str, str]
    ratio: str
    stacked: str
    plus: str
    here: tuple[str, ...]
    scale_names: Mapping[str, str]
    rooted_names: Mapping[str, str]
    mode_of: str


@dataclass(frozen=True, slots=True)
class ClaimWords:
    """The small words of a language.

    Parameters
    ----------
    negation : str
        Pattern of words that turn a statement round.
    more, fewer, same : str
        Patterns of comparisons: larger, smaller, equal.
    times : tuple of (str, int, int)
        Patterns of "twice as many" and their numerator and denominator.
    joins : str
        Pattern of what joins the items of a list.
    endings : str
        Pattern of the endings that a term takes in a sentence.
    """

    negation: str
    more: str
    fewer: str
    same: str
    times: tuple[tuple[str, int, int], ...]
    joins: str
    endings: str


def _as_it_is(article: str, words: str) -> str:
    del words
    return article


def _any(words: Sequence[str]) -> bool:
    del words
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """How words that are put into a sentence go with those that stand there.

    Parameters
    ----------
    nought : callable
        (before, following): how nought is said after this text and before this word, which is empty at the end.
    plural_before, singular_before : str
        Patterns of what stands before several and before one, up to the end of the text.
    inflected : str
        Pattern of an adjective with its ending, which is the one group.
    articles : str
        Pattern of the articles that depend on what follows.
    article : callable
        (article, words): the article as it stands before these words.
    is_plural : callable
        (words): whether the words that follow may stand after several where nought was said.
    """

    nought: Callable[[str, str], str]
    plural_before: str = NEVER
    singular_before: str = NEVER
    inflected: str = NEVER
    articles: str = NEVER
    article: Callable[[str, str], str] = _as_it_is
    is_plural: Callable[[Sequence[str]], bool] = _any


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Language:
    """A language in which lessons are written and spoken; two are the same only if they are one object.

    Parameters
    ----------
    tag : str
        Its tag of two or three letters.
    package : str
        Dotted name of the package with its files.
    name, english_name : str
        What it calls itself, and what English calls it.
    code : str
        Its code of three letters (ISO 639-2/T), which films carry.
    notes : str
        How its notes are named: a key of `theory.notenames`.
    numerals, names, claims, agreement : Numerals, NameWords, ClaimWords, Agreement
        How it counts; what it calls notes, chords and intervals; the small words of a claim; how words agree.
    yes, no, none : str
        Printed answers, and what is printed for an empty list.
    quotes : (str, str)
        The marks around a quotation.
    chord_roots : mapping of str to str
        Roots of chord symbols that it prints otherwise.
    tidy : callable
        Puts typed or transcribed text into the form that patterns expect: capitals of note names.
    is_source : bool
        Whether titles and terms of facts and names of scales are written in it already.

    Examples
    --------
    >>> from gamutwright.languages import language_of
    >>> language_of("de-AT").printed_number(2.5), language_of("de").table("cards")["cards"]["next"]
    ('2,5', 'Nächste Lektion')
    """

    tag: str
    package: str
    name: str
    english_name: str
    code: str
    notes: str
    numerals: Numerals
    names: NameWords
    claims: ClaimWords
    agreement: Agreement
    yes: str
    no: str
    none: str
    quotes: tuple[str, str]
    tidy: Callable[[str], str]
    chord_roots: Mapping[str, str] = field(default_factory=dict)
    is_source: bool = False

    def text(self, file: str) -> str:
        """Read one of its files.

        Parameters
        ----------
        file : str
            Name of the file in its folder.

        Returns
        -------
        str
            The content.

        Raises
        ------
        DomainError
            If the language has no such file.
        """
        place = resources.files(self.package).joinpath(file)
        if not place.is_file():
            raise DomainError(
                f"language '{self.tag}'", f"it has no file {file}", "Write it after the pattern of the English one."
            )
        return place.read_text(encoding="utf-8")

    def table(self, purpose: str) -> dict[str, Any]:
        """Give its words for a purpose.

        Parameters
        ----------
        purpose : str
            Name of the TOML file without its ending, such as `cards`, `page` or `print`.

        Returns
        -------
        dict
            The table.

        Raises
        ------
        DomainError
            If the language has no such file.
        """
        return _table(self, purpose)

    def retold(self, text: str) -> str:
        """Tell a text of an error in this language.

        Parameters
        ----------
        text : str
            Made by `told`; anything else is given back as it is.

        Returns
        -------
        str
            The text; in English where this language has no words for it.

        Examples
        --------
        >>> from gamutwright.errors import told
        >>> from gamutwright.languages import language_of
        >>> language_of("de").retold(told("the note '{text}'", text="C"))
        "der Ton 'C'"
        """
        if not isinstance(text, Tellable):
            return text
        template = self.table("errors").get(text.template, text.template)
        slots = {name: self.retold(slot) if isinstance(slot, str) else slot for name, slot in text.slots.items()}
        return slots_filled(template, slots, self.numerals.group_mark)

    def printed_number(self, number: float, decimals: int = 1) -> str:
        """Print a number with its mark for decimals.

        Parameters
        ----------
        number : float
            The number.
        decimals : int >= 0
            How many are printed at the most; noughts at the end are not.

        Returns
        -------
        str
            The number.
        """
        text = f"{number:.{decimals}f}"
        return (text.rstrip("0").rstrip(".") if "." in text else text).replace(".", self.numerals.decimal_mark)


@lru_cache(maxsize=256)
def _table(language: Language, purpose: str) -> dict[str, Any]:
    return tomllib.loads(language.text(f"{purpose}.toml"))


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
