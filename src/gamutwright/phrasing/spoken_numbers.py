"""Numbers and lists as a narrator says them.

Conventions: whole numbers are words up to 99 and digits above; what is not exact in a few digits is rounded to the two
or three that matter and softened ("about 0.99"); decimals stand in digits with the language's own mark.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from gamutwright.errors import DomainError
from gamutwright.languages import language_of

__all__ = [
    "LARGEST_IN_WORDS",
    "count_to_words",
    "decimal_to_words",
    "fraction_to_words",
    "list_in_words",
    "number_in_speech",
    "ordinal_to_words",
]

LARGEST_IN_WORDS = 999_999
_WRITTEN_OUT = 99
"""Up to here a whole number is written in words when it is spoken; above it digits read better."""
_LARGEST_DENOMINATOR = 12


def _checked(number: int, least: int) -> int:
    if not least <= number <= LARGEST_IN_WORDS:
        raise DomainError(
            f"{number}", f"numbers are put in words from {least} to {LARGEST_IN_WORDS}", "Write it in digits."
        )
    return number


def count_to_words(number: int, language: str) -> str:
    """Write a whole number in words.

    Parameters
    ----------
    number : int in [0, 999999]
        The number.
    language : str
        Language tag.

    Returns
    -------
    str
        The words, as they count; German 1 is `eins`.

    Raises
    ------
    DomainError
        If the number or the language is not covered.

    Examples
    --------
    >>> count_to_words(21, "en"), count_to_words(21, "de"), count_to_words(346, "en")
    ('twenty-one', 'einundzwanzig', 'three hundred and forty-six')
    """
    return language_of(language).numerals.count_to_words(_checked(number, 0))


def ordinal_to_words(number: int, language: str) -> str:
    """Write an ordinal in words.

    Parameters
    ----------
    number : int in [1, 999999]
        The number.
    language : str
        Language tag.

    Returns
    -------
    str
        The words; German with the ending -e, as after *die*.

    Raises
    ------
    DomainError
        If the number or the language is not covered.

    Examples
    --------
    >>> ordinal_to_words(12, "en"), ordinal_to_words(31, "de")
    ('twelfth', 'einunddreißigste')
    """
    return language_of(language).numerals.ordinal_to_words(_checked(number, 1))


def _grouped(digits: str, mark: str) -> str:
    return digits if len(digits) < 5 else f"{int(digits):,}".replace(",", mark)


def decimal_to_words(number: float | Fraction, decimals: int, language: str) -> str:
    """Write a number in digits, rounded, with the language's decimal mark; trailing zeros are left out.

    Parameters
    ----------
    number : float or Fraction
        The number; halves round to the even digit.
    decimals : int
        Most digits after the mark.
    language : str
        Language tag.

    Returns
    -------
    str
        Such as `0.81` or `minus 2,5`.

    Examples
    --------
    >>> decimal_to_words(-2.5349, 2, "de"), decimal_to_words(12345.6, 0, "en"), decimal_to_words(-0.001, 2, "en")
    ('minus 2,53', '12,346', '0')
    """
    table = language_of(language).numerals
    rounded = round(Fraction(number), decimals)
    whole, _, part = f"{float(abs(rounded)):.{decimals}f}".partition(".")
    part = part.rstrip("0")
    text = _grouped(whole, table.group_mark) + (table.decimal_mark + part if part else "")
    return f"{table.minus_word} {text}" if rounded < 0 else text


def fraction_to_words(value: Fraction, language: str) -> str | None:
    """Say a fraction between 0 and 1 whose denominator is at most twelve.

    Parameters
    ----------
    value : Fraction
        The fraction.
    language : str
        Language tag.

    Returns
    -------
    str or None
        Such as `five ninths`; None where a decimal is easier to hear.

    Examples
    --------
    >>> fraction_to_words(Fraction(5, 9), "en"), fraction_to_words(Fraction(5, 9), "de")
    ('five ninths', 'fünf Neuntel')
    >>> fraction_to_words(Fraction(139, 140), "en")
    """
    if 0 < value < 1 and value.denominator <= _LARGEST_DENOMINATOR:
        return language_of(language).numerals.fraction_to_words(value.numerator, value.denominator)
    return None


def _spoken_decimals(value: Fraction) -> int:
    """Digits worth saying: two or three that matter, more only where rounding would reach a whole number."""
    size = abs(value)
    if size >= 10:
        return 0 if size >= 100 else 1
    wanted = 2
    if size < 1:
        while wanted < 5 and round(size, wanted) in {0, 1}:
            wanted += 1
    return wanted


def number_in_speech(value: float | Fraction, language: str, decimals: int | None = None) -> str:
    """Say a number as a narrator would: exact where it is short, else rounded and softened.

    Parameters
    ----------
    value : int, float or Fraction
        The number. Whole numbers up to 99 are words unless they come as float.
    language : str
        Language tag.
    decimals : int, optional
        Digits after the mark; without it, two or three that matter.

    Returns
    -------
    str
        Such as `twelve`, `5640`, `two thirds`, `about 0.99`, `4.755`.

    Examples
    --------
    >>> [number_in_speech(value, "en") for value in (12, 5640, Fraction(2, 3), Fraction(139, 140), 4.755, -0.09)]
    ['twelve', '5640', 'two thirds', 'about 0.99', '4.755', 'minus 0.09']
    """
    if isinstance(value, Fraction) and value.denominator == 1:
        value = int(value)
    if isinstance(value, int):
        if 0 <= value <= _WRITTEN_OUT:
            return count_to_words(value, language)
        return decimal_to_words(value, 0, language)
    if isinstance(value, Fraction) and (words := fraction_to_words(value, language)):
        return words
    exact = Fraction(value)
    for digits in range(4 if decimals is None else decimals + 1):
        if abs(exact - round(exact, digits)) < Fraction(1, 10**9):
            return decimal_to_words(exact, digits, language)
    rounded = decimal_to_words(exact, _spoken_decimals(exact) if decimals is None else decimals, language)
    return f"{language_of(language).numerals.hedge} {rounded}"


def list_in_words(items: Iterable[str], language: str, joiner: str = "") -> str:
    """Join items as speech does: commas, and a word before the last.

    Parameters
    ----------
    items : iterable of str
        The items.
    language : str
        Language tag.
    joiner : str
        The word before the last; "and" in the language without it.

    Returns
    -------
    str
        The list; "" for none. Where an item holds a comma or the joining word, semicolons part them.

    Examples
    --------
    >>> list_in_words(["C", "D", "E"], "en"), list_in_words(["C"], "en"), list_in_words(["C", "D"], "de")
    ('C, D and E', 'C', 'C und D')
    """
    parts = list(items)
    word = joiner or language_of(language).numerals.and_word
    if len(parts) < 2:
        return "".join(parts)
    if any("," in part or f" {word} " in part for part in parts):
        return "; ".join(parts)
    return f"{', '.join(parts[:-1])} {word} {parts[-1]}"
