"""Numbers in words: said, and found again in a text.

A reader of scripts must know every way a teacher states a number: digits or words, ordinals, decimals, fractions,
percentages, "no", "both", "twice", "about 0.81". Words that look like numbers but are none ("at once", "this one") are
passed over; an English ordinal that names an interval ("a minor third") is left to `intervals.find_intervals`, which
finds exactly those, so that none is lost between the two.

Conventions: offsets are half-open and count code points; `find_quantities` reads free text, and with `is_bound` the
words of a claim, where a German article counts too (*einen Halbton*). A softening word ("about") is noted, not spanned.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from gamutwright.languages import language_of
from gamutwright.languages.language import Numerals
from gamutwright.phrasing.interval_words import find_intervals
from gamutwright.phrasing.spoken_numbers import (
    LARGEST_IN_WORDS,
    count_to_words,
    decimal_to_words,
    fraction_to_words,
    list_in_words,
    number_in_speech,
    ordinal_to_words,
)
from gamutwright.phrasing.stretches import within

__all__ = [
    "LARGEST_IN_WORDS",
    "Quantity",
    "count_to_words",
    "decimal_to_words",
    "find_quantities",
    "find_shares",
    "fraction_to_words",
    "list_in_words",
    "number_in_speech",
    "ordinal_to_words",
]


_NEAR = 40
"""So far back a softening word may begin."""

Kind = Literal["count", "ordinal", "decimal", "percent", "fraction"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number stated in a text.

    Parameters
    ----------
    start, end : int
        Where it stands; softening words left out, sign and percent included.
    text : str
        Its words.
    value : Fraction
        What it says, exactly as written; 81 percent is 81/100.
    kind : str
        `count`, `ordinal`, `decimal`, `percent` or `fraction`.
    decimals : int or None
        Digits after the decimal mark of a decimal, or of the number before percent.
    is_about : bool
        Whether it is softened ("about", "nearly").
    """

    start: int
    end: int
    text: str
    value: Fraction
    kind: Kind
    decimals: int | None = None
    is_about: bool = False


@lru_cache(maxsize=16)
def _pattern(language: str, is_bound: bool) -> re.Pattern[str]:  # noqa: FBT001 - private, cached by position
    table = language_of(language).numerals
    mark, group = re.escape(table.decimal_mark), re.escape(table.group_mark)
    whole = rf"\d{{1,3}}(?:{group}\d{{3}})+(?!\d)|\d+"
    number = rf"(?:{whole})(?:{mark}\d+)?"
    phrases = dict(table.phrases) | (dict(table.bound_phrases) if is_bound else {})
    listed = "|".join(re.escape(phrase) for phrase in sorted(phrases, key=len, reverse=True))
    sign = rf"(?P<sign>\b{table.minus} |(?<![\w)–-])[-−])?"
    one = table.ones
    return re.compile(
        rf"(?P<ignored>\b{table.ignored}\b)"
        rf"|{sign}(?:"
        rf"(?P<percent>{number}|\b{table.cardinal}) ?(?:%|{table.percent}\b)"
        rf"|(?<![\w/])(?P<over>\d+ ?[/⁄] ?\d+)(?![\w/])"
        rf"|(?<![\w{mark}{group}])(?P<decimal>(?:{whole}){mark}\d+)(?![\w])"
        rf"|(?<![\w{mark}])(?P<nth>\d+)(?:{table.ordinal_digits})(?!\w)"
        rf"|\b(?P<ordinal>{table.ordinal})\b"
        rf"|\b(?P<top>{table.cardinal}|{one}|\d+) (?P<bottom>{table.fraction})\b"
        rf"|(?<![^\W\d_])(?<!\d{mark})(?<![\d])(?P<digits>{whole})(?!\w)"
        rf"|\b(?P<phrase>{listed})\b"
        rf"|\b(?P<cardinal>{table.cardinal})(?: {table.times})?\b"
        rf"|\b(?P<zero>{table.zeros})\b"
        rf")",
        re.IGNORECASE,
    )


@lru_cache(maxsize=16)
def _hedge_before(language: str) -> re.Pattern[str]:
    numerals = language_of(language).numerals
    return re.compile(rf"\b{numerals.hedges} (?:{numerals.after_hedge} )?$", re.IGNORECASE)


def _number(text: str, table: Numerals) -> Fraction:
    """Read digits, or a number in words."""
    if not text[0].isdigit():
        return Fraction(table.cardinal_value(text))
    return Fraction(text.replace(table.group_mark, "").replace(table.decimal_mark, "."))


def _decimals(text: str, table: Numerals) -> int:
    return len(text.partition(table.decimal_mark)[2])


def _read(
    found: re.Match[str],
    table: Numerals,
    is_bound: bool,  # noqa: FBT001
) -> tuple[Fraction, Kind, int | None] | None:
    group = found.lastgroup
    said = found[group] if group else ""
    match group:
        case "percent":
            return _number(said, table) / 100, "percent", _decimals(said, table)
        case "over":
            top, bottom = re.split(r" ?[/⁄] ?", said)
            return (Fraction(int(top), int(bottom)), "fraction", None) if int(bottom) else None
        case "bottom":
            top = found["top"]
            numerator = (
                _number(top, table) if re.fullmatch(rf"{table.cardinal}|\d+", top, re.IGNORECASE) else Fraction(1)
            )
            return numerator / table.fraction_value(said), "fraction", None
        case "decimal":
            return _number(said, table), "decimal", _decimals(said, table)
        case "nth":
            return Fraction(int(said)), "ordinal", None
        case "ordinal":
            return Fraction(table.ordinal_value(said)), "ordinal", None
        case "phrase":
            known = dict(table.phrases) | (dict(table.bound_phrases) if is_bound else {})
            top_, bottom_ = known[said.lower()]
            return Fraction(top_, bottom_), "count" if bottom_ == 1 else "fraction", None
        case "zero":
            return Fraction(0), "count", None
        case _:
            return _number(said, table), "count", None


def _quantities(text: str, language: str, is_bound: bool) -> Iterator[Quantity]:  # noqa: FBT001
    table = language_of(language).numerals
    for found in _pattern(language, is_bound).finditer(text):
        if found.lastgroup == "ignored":
            continue
        reading = _read(found, table, is_bound)
        if reading is None:
            continue
        value, kind, decimals = reading
        is_about = bool(_hedge_before(language).search(text, max(0, found.start() - _NEAR), found.start()))
        start, end = found.span()
        sign = -1 if found["sign"] else 1
        if kind == "fraction" and found["bottom"] and value >= 1 and find_intervals(found["bottom"], language):
            # "five fifths" are intervals: the number is the numerator alone.
            end, value, kind = found.end("top"), _number(found["top"], table), "count"
        yield Quantity(start, end, text[start:end], sign * value, kind, decimals, is_about)


@lru_cache(maxsize=256)
def find_quantities(text: str, language: str, *, is_bound: bool = False) -> tuple[Quantity, ...]:
    """Find every number a text states, in order.

    Parameters
    ----------
    text : str
        Free text, or the words of a claim.
    language : str
        Language tag.
    is_bound : bool
        Whether these are a claim's own words, where articles state 1 if no other number does.

    Returns
    -------
    tuple of Quantity
        The numbers; ordinals that name an interval are left out.

    Examples
    --------
    >>> [(found.text, str(found.value)) for found in find_quantities("About 0.81 of it, no thirds, both ends", "en")]
    [('0.81', '81/100'), ('no', '0'), ('both', '2')]
    >>> [int(found.value) for found in find_quantities("einundzwanzig Töne, keine Quinte, 4. Stufe", "de")]
    [21, 0, 4]
    """
    found = tuple(_quantities(text, language, is_bound=False))
    if is_bound and not found:
        found = tuple(_quantities(text, language, is_bound=True))
    if not any(quantity.kind in {"ordinal", "fraction"} for quantity in found):
        return found
    is_interval = within((mention.start, mention.end) for mention in find_intervals(text, language))
    return tuple(
        quantity for quantity in found if quantity.kind != "ordinal" or not is_interval(quantity.start, quantity.end)
    )


def find_shares(text: str, language: str) -> tuple[Quantity, ...]:
    """Find shares: percentages, fractions, decimals below one, "one in ten", "66 of 462", "every tenth".

    Parameters
    ----------
    text : str
        The words of a claim about rarity.
    language : str
        Language tag.

    Returns
    -------
    tuple of Quantity
        The shares as fractions of one.

    Examples
    --------
    >>> [str(share.value) for share in find_shares("one in ten", "en") + find_shares("66 von 462", "de")]
    ['1/10', '1/7']
    """
    table = language_of(language).numerals
    found = find_quantities(text, language) or find_quantities(text, language, is_bound=True)
    with_article = tuple(_quantities(text, language, is_bound=True))
    for first, second in pairwise(with_article):
        between = text[first.end : second.start]
        if second.value >= first.value > 0 and re.fullmatch(
            rf"\s+(?:\w+ )?{table.shares}\s+(?:\w+ )?", between, re.IGNORECASE
        ):
            value = first.value / second.value
            span = text[first.start : second.end]
            is_about = first.is_about or second.is_about
            return (Quantity(first.start, second.end, span, value, "fraction", None, is_about),)
    shares = []
    for quantity in found:
        if quantity.kind == "ordinal" and re.search(rf"\b{table.every} $", text[: quantity.start], re.IGNORECASE):
            value = 1 / quantity.value
        elif quantity.kind in {"percent", "fraction", "decimal"} or quantity.value == 0:
            value = quantity.value
        else:
            continue
        shares.append(
            Quantity(
                quantity.start, quantity.end, quantity.text, value, quantity.kind, quantity.decimals, quantity.is_about
            )
        )
    return tuple(shares)
