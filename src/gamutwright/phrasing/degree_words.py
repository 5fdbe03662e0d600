"""Degrees, chords on degrees, ratios, and tones called by number: said, and found again in a text.

Conventions: degrees are `#4`, chords on them Roman numerals (`vii°`, `II[5 6]`); a chord on a degree is said by number
and kind ("two minor"), one without a usual kind by its stacked sizes ("two stacked five plus six"). Tones of divisions
that have no letters are called by their steps above the root ("step 3").
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.languages import language_of
from gamutwright.theory.harmony import ROMAN

__all__ = [
    "Mention",
    "find_degrees",
    "find_numerals",
    "find_ratios",
    "find_steps",
    "spoken_degree",
    "spoken_numeral",
    "spoken_ordinal_degree",
    "spoken_ratio",
]

_NUMERAL = re.compile(r"([IVXivx]+)(.*)")
_SMALL = {"m": "", "dim": "°", "m7": "7", "m7b5": "ø7", "dim7": "°7", "mM7": "M7"}
_LARGE = {"": "", "aug": "+", "maj7": "M7", "7": "7", "+M7": "+M7"}


@dataclass(frozen=True, slots=True)
class Mention:
    """A name in a text.

    Parameters
    ----------
    start, end : int
        Where it stands.
    text : str
        Its words.
    name : str
        What it names, as the program writes it.
    """

    start: int
    end: int
    text: str
    name: str


def spoken_degree(name: str, language: str) -> str:
    """Say a degree of the scale.

    Parameters
    ----------
    name : str
        Degree with its accidentals, such as `b3`.
    language : str
        Language tag.

    Returns
    -------
    str
        Such as `flat three`.

    Examples
    --------
    >>> spoken_degree("b3", "en"), spoken_degree("#4", "de"), spoken_degree("5", "en")
    ('flat three', 'erhöhte vier', 'five')
    """
    signs = re.match(r"[b#]*", name)[0]  # type: ignore[index]
    number = language_of(language).numerals.count_to_words(int(name[len(signs) :]))
    return f"{language_of(language).names.signs[signs][0]} {number}".strip()


def spoken_ordinal_degree(name: str, language: str) -> str:
    """Say a degree by its place, as in "the lowered second".

    Parameters
    ----------
    name : str
        Degree with its accidentals, such as `b3`.
    language : str
        Language tag.

    Returns
    -------
    str
        Such as `lowered third`.

    Examples
    --------
    >>> spoken_ordinal_degree("b2", "en"), spoken_ordinal_degree("#4", "de"), spoken_ordinal_degree("6", "en")
    ('lowered second', 'erhöhte vierte', 'sixth')
    """
    signs = re.match(r"[b#]*", name)[0]  # type: ignore[index]
    words = language_of(language)
    return f"{words.names.altered[signs]} {words.numerals.ordinal_to_words(int(name[len(signs) :]))}".strip()


def _kind_of_numeral(numeral: str) -> tuple[int, str | None, str]:
    """Split a numeral into its degree, the kind of its chord (None for a stack), and its mark."""
    found = _NUMERAL.fullmatch(numeral)
    if not found or found[1].upper() not in ROMAN:
        raise DomainError(f"numeral '{numeral}'", "it is no Roman numeral of a chord", "Say the chord by its root.")
    kinds = _SMALL if found[1].islower() else _LARGE
    kind = next((suffix for suffix, mark in kinds.items() if mark == found[2]), None)
    return ROMAN.index(found[1].upper()) + 1, kind, found[2]


def spoken_numeral(numeral: str, language: str) -> str:
    """Say a chord that stands on a degree.

    Parameters
    ----------
    numeral : str
        Roman numeral with its mark, such as `vii°`, `V7` or `II[5 6]`.
    language : str
        Language tag.

    Returns
    -------
    str
        Number and kind.

    Examples
    --------
    >>> spoken_numeral("vii°", "en"), spoken_numeral("ii", "de"), spoken_numeral("II[5 6]", "en")
    ('seven diminished', 'zwei Moll', 'two stacked five plus six')
    """
    degree, kind, mark = _kind_of_numeral(numeral)
    words, names = language_of(language).numerals.count_to_words, language_of(language).names
    if kind is not None:
        return f"{words(degree)} {names.chord_words[kind][0]}"
    sizes = f" {names.plus} ".join(words(int(size)) for size in mark.strip("[]").split())
    return f"{words(degree)} {names.stacked} {sizes}"


def spoken_ratio(ratio: str, language: str) -> str:
    """Say a frequency ratio.

    Parameters
    ----------
    ratio : str
        Such as `3/2`.
    language : str
        Language tag.

    Returns
    -------
    str
        Such as `3 to 2`.

    Examples
    --------
    >>> spoken_ratio("3/2", "en"), spoken_ratio("45/32", "de")
    ('3 to 2', '45 zu 32')
    """
    return ratio.replace("/", f" {language_of(language).names.ratio} ")


@lru_cache(maxsize=16)
def _degrees(language: str) -> re.Pattern[str]:
    signs = "|".join(
        f"(?P<d{index}>{pattern})" for index, (_, pattern) in enumerate(language_of(language).names.signs.values())
    )
    return re.compile(
        rf"(?<!\w)(?:{signs})[ -]?(?:(?P<number>\d+|{language_of(language).numerals.cardinal})"
        rf"|(?P<place>{language_of(language).numerals.ordinal}))(?!\w)",
        re.IGNORECASE,
    )


def _number(text: str, language: str) -> int:
    return int(text) if text.isdigit() else language_of(language).numerals.cardinal_value(text)


def find_degrees(text: str, language: str) -> tuple[Mention, ...]:
    """Find the degrees of a scale in the words of a claim.

    Parameters
    ----------
    text : str
        The words of a claim.
    language : str
        Language tag.

    Returns
    -------
    tuple of Mention
        Degrees by name, such as `b3`.

    Examples
    --------
    >>> [found.name for found in find_degrees("one, flat three, ♯4 and double flat seven", "en")]
    ['1', 'b3', '#4', 'bb7']
    >>> [found.name for found in find_degrees("eins, erniedrigte drei und erhöhte vierte", "de")]
    ['1', 'b3', '#4']
    """
    signs = list(language_of(language).names.signs)
    found = []
    for match in _degrees(language).finditer(text):
        group = next(key for key, words in match.groupdict().items() if words is not None and key[0] == "d")
        place = match["place"]
        if place and group == f"d{signs.index('')}":
            continue  # a bare place says nothing of the degree's size
        number = language_of(language).numerals.ordinal_value(place) if place else _number(match["number"], language)
        name = signs[int(group[1:])] + str(number)
        found.append(Mention(match.start(), match.end(), match[0], name))
    return tuple(found)


@lru_cache(maxsize=16)
def _numerals(language: str) -> re.Pattern[str]:
    names, cardinal = language_of(language).names, language_of(language).numerals.cardinal
    kinds = "|".join(f"(?P<k{index}>{words})" for index, (_, words) in enumerate(names.chord_words.values()))
    stack = rf"{names.stacked} (?P<stack>(?:{cardinal}|\d+)(?: {names.plus} (?:{cardinal}|\d+))*)"
    return re.compile(rf"(?<!\w)(?P<degree>\d+|{cardinal})[ -](?:{kinds}|{stack})(?!\w)", re.IGNORECASE)


def find_numerals(text: str, language: str) -> tuple[Mention, ...]:
    """Find chords on degrees in the words of a claim.

    Parameters
    ----------
    text : str
        The words of a claim.
    language : str
        Language tag.

    Returns
    -------
    tuple of Mention
        Chords as Roman numerals.

    Examples
    --------
    >>> [found.name for found in find_numerals("one major, two minor, seven diminished", "en")]
    ['I', 'ii', 'vii°']
    >>> [found.name for found in find_numerals("fünf Dur mit kleiner Septime und 7 halbvermindert", "de")]
    ['V7', 'viiø7']
    """
    names = language_of(language).names
    found = []
    for match in _numerals(language).finditer(text):
        degree = _number(match["degree"], language)
        if not 1 <= degree <= len(ROMAN):
            continue
        roman = ROMAN[degree - 1]
        if match["stack"]:
            sizes = re.split(rf" {names.plus} ", match["stack"], flags=re.IGNORECASE)
            name = f"{roman}[{' '.join(str(_number(size, language)) for size in sizes)}]"
        else:
            group = next(key for key, words in match.groupdict().items() if words and re.fullmatch(r"k\d+", key))
            suffix = list(names.chord_words)[int(group[1:])]
            name = roman.lower() + _SMALL[suffix] if suffix in _SMALL else roman + _LARGE[suffix]
        found.append(Mention(match.start(), match.end(), match[0], name))
    return tuple(found)


def find_ratios(text: str, language: str) -> tuple[Mention, ...]:
    """Find frequency ratios.

    Parameters
    ----------
    text : str
        Free text, or the words of a claim.
    language : str
        Language tag.

    Returns
    -------
    tuple of Mention
        Ratios such as `3/2`.

    Examples
    --------
    >>> [found.name for found in find_ratios("3 to 2, 9:8 and 45/32", "en")]
    ['3/2', '9/8', '45/32']
    """
    between = rf"(?: {language_of(language).names.ratio} | ?[:/] ?)"
    return tuple(
        Mention(match.start(), match.end(), match[0], f"{match[1]}/{match[2]}")
        for match in re.finditer(rf"(?<![\w.,])(\d+){between}(\d+)(?!\w)", text)
    )


def find_steps(text: str, language: str) -> tuple[Mention, ...]:
    """Find tones called by number, as in divisions without letters: "step 3", "steps 3, 6 and 8 of 19".

    Parameters
    ----------
    text : str
        The words of a claim.
    language : str
        Language tag.

    Returns
    -------
    tuple of Mention
        Tones by their number of steps above the root.

    Examples
    --------
    >>> [found.name for found in find_steps("step 3 to step 6 of 19", "en")]
    ['3', '6']
    >>> [found.name for found in find_steps("Schritt 0 und Schritt 11", "de")]
    ['0', '11']
    """
    names, numerals = language_of(language).names, language_of(language).numerals
    number = rf"(?:\d+|{numerals.cardinal})"
    more = rf"(?:(?:,| {numerals.and_word}| {names.between}) {number}(?!\w))*"
    found = []
    for run in re.finditer(rf"\b(?:{names.step_pattern}) {number}(?!\w){more}", text, re.IGNORECASE):
        for match in re.finditer(rf"(?<!\w){number}(?!\w)", run[0], re.IGNORECASE):
            start, end = run.start() + match.start(), run.start() + match.end()
            found.append(Mention(start, end, match[0], str(_number(match[0], language))))
    return tuple(found)
