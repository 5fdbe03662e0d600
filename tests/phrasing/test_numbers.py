"""Numerals against num2words, an independent library for numbers in words, and round trips of our own readers."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.phrasing.interval_words import find_intervals
from gamutwright.phrasing.numbers import (
    count_to_words,
    decimal_to_words,
    find_quantities,
    find_shares,
    fraction_to_words,
    list_in_words,
    number_in_speech,
    ordinal_to_words,
)

num2words = pytest.importorskip("num2words").num2words
LANGUAGES = ("en", "de")


@pytest.mark.parametrize("language", LANGUAGES)
def test_cardinals_agree_with_num2words_and_are_read_back(language: str):
    for number in range(10_000):
        words = count_to_words(number, language)
        assert words == num2words(number, lang=language).replace(",", ""), number
        found = find_quantities(words, language)
        assert [(int(q.value), q.kind) for q in found] == [(number, "count")], words
        assert (found[0].start, found[0].end) == (0, len(words))


@pytest.mark.parametrize("language", LANGUAGES)
def test_ordinals_agree_with_num2words_and_are_read_back(language: str):
    for number in range(1, 301):
        words = ordinal_to_words(number, language)
        assert words == num2words(number, lang=language, to="ordinal").replace(",", ""), number
        article = "the " if language == "en" else "die "
        noun = " mode" if language == "en" else " Stufe"
        found = find_quantities(article + words + noun, language)
        assert [(int(q.value), q.kind) for q in found] == [(number, "ordinal")], words


@pytest.mark.parametrize("language", LANGUAGES)
def test_fractions_are_read_back(language: str):
    for denominator in range(2, 13):
        for numerator in range(1, denominator):
            value = Fraction(numerator, denominator)
            words = fraction_to_words(value, language)
            assert words is not None
            assert [(q.value, q.kind) for q in find_quantities(words, language)] == [(value, "fraction")], words


@given(st.integers(-(10**7), 10**7), st.integers(0, 4), st.sampled_from(LANGUAGES))
def test_decimals_are_read_back(number: int, decimals: int, language: str):
    value = Fraction(number, 10**decimals)
    words = decimal_to_words(value, decimals, language)
    (found,) = find_quantities(words, language)
    assert found.value == value
    assert found.text == words


# Common practice of the two languages, no source.
@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("It has no thirds", "en", [("count", 0)]),
        ("none of them, neither end", "en", [("count", 0), ("count", 0)]),
        ("both ends, a single note, twice or thrice", "en", [("count", 2), ("count", 1), ("count", 2), ("count", 3)]),
        ("a dozen, half a dozen, half the tones", "en", [("count", 12), ("count", 6), ("fraction", Fraction(1, 2))]),
        ("This one is at once the other one, one by one", "en", []),
        ("at first, once more, no one hears a seventh chord", "en", []),
        ("the 4th mode and the 21st", "en", [("ordinal", 4), ("ordinal", 21)]),
        (
            "5/9 of them, five ninths, a third of it",
            "en",
            [("fraction", Fraction(5, 9))] * 2 + [("fraction", Fraction(1, 3))],
        ),
        (
            "81 percent, 12.5 % and ten per cent",
            "en",
            [("percent", Fraction(81, 100)), ("percent", Fraction(1, 8)), ("percent", Fraction(1, 10))],
        ),
        ("1,200 cents and 5640 paths", "en", [("count", 1200), ("count", 5640)]),
        ("minus 2.535, −3", "en", [("decimal", Fraction(-507, 200)), ("count", -3)]),
        ("two, two, one and two", "en", [("count", n) for n in (2, 2, 1, 2)]),
        ("twelve hundred cents", "en", [("count", 1200)]),
        ("fifty-third, one hundred and first", "en", [("ordinal", 53), ("ordinal", 101)]),
        ("The third mode", "en", [("ordinal", 3)]),
        ("A minor third up, in thirds, a fifth above", "en", []),
        ("keine Quinte, kein Tritonus, nicht einen einzigen", "de", [("count", 0)] * 3),
        ("beide Enden, ein einziger Ton, zweimal, dreimal", "de", [("count", n) for n in (2, 1, 2, 3)]),
        ("ein Dutzend, die Hälfte der Töne", "de", [("count", 12), ("fraction", Fraction(1, 2))]),
        ("Ein Ton und noch einmal eine Quinte", "de", []),
        ("der 4. Modus, die vierte Stufe, im dritten Takt", "de", [("ordinal", 4), ("ordinal", 4), ("ordinal", 3)]),
        (
            "fünf Neuntel, ein Drittel, 5/9",
            "de",
            [("fraction", Fraction(5, 9)), ("fraction", Fraction(1, 3)), ("fraction", Fraction(5, 9))],
        ),
        (
            "0,81 und 81 Prozent, 1.200 Cent",
            "de",
            [("decimal", Fraction(81, 100)), ("percent", Fraction(81, 100)), ("count", 1200)],
        ),
        ("tausendzweihundert, hundertundeins, zwo", "de", [("count", 1200), ("count", 101), ("count", 2)]),
        ("Es hat 7. Danach folgt der Ton", "de", [("count", 7)]),
        ("auf der siebenten Stufe", "de", [("ordinal", 7)]),
        ("Dreiklang, Vierklang, Halbton, Einklang", "de", []),
    ],
)
def test_quantities_in_running_text(text: str, language: str, expected: list):
    assert [(q.kind, q.value) for q in find_quantities(text, language)] == expected


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("about 0.81", "en"),
        ("roughly a dozen", "en"),
        ("nearly 3 percent", "en"),
        ("etwa 0,81", "de"),
        ("knapp zehn", "de"),
    ],
)
def test_softened_numbers_are_noted(text: str, language: str):
    (found,) = find_quantities(text, language)
    assert found.is_about
    assert not text[found.start :].startswith(("about", "etwa", "knapp"))


def test_decimals_are_counted():
    assert [q.decimals for q in find_quantities("0.810 and 81.5 percent", "en")] == [3, 1]


def test_a_german_article_counts_in_a_claim_only():
    assert find_quantities("einen Halbtonschritt", "de") == ()
    assert [int(q.value) for q in find_quantities("einen Halbtonschritt", "de", is_bound=True)] == [1]


def test_every_english_ordinal_is_a_number_or_an_interval():
    for number in range(1, 101):
        word = ordinal_to_words(number, "en")
        for text in (
            f"the {word} mode",
            f"a minor {word}",
            f"a {word}",
            f"the {word}",
            f"two {word}s",
            f"{word} above",
        ):
            assert find_quantities(text, "en") or find_intervals(text, "en"), text


@pytest.mark.parametrize(
    ("text", "language", "share"),
    [
        ("one in ten", "en", Fraction(1, 10)),
        ("66 of 462", "en", Fraction(1, 7)),
        ("about 3 percent", "en", Fraction(3, 100)),
        ("every tenth", "en", Fraction(1, 10)),
        ("two out of every three", "en", Fraction(2, 3)),
        ("no", "en", Fraction(0)),
        ("eine von zehn", "de", Fraction(1, 10)),
        ("66 von 462", "de", Fraction(1, 7)),
        ("jede zehnte", "de", Fraction(1, 10)),
        ("ein Drittel", "de", Fraction(1, 3)),
    ],
)
def test_shares(text: str, language: str, share: Fraction):
    assert [found.value for found in find_shares(text, language)] == [share]


def test_numbers_as_a_narrator_says_them():
    assert number_in_speech(Fraction(113, 147), "en") == "about 0.77"
    assert number_in_speech(0.9988, "en") == "about 0.999"
    assert number_in_speech(0.7320508, "de") == "etwa 0,73"
    assert number_in_speech(386.3137, "en") == "about 386"
    assert number_in_speech(200.0, "en") == "200"
    assert number_in_speech(7, "de") == "sieben"


def test_lists():
    assert list_in_words(["two", "two", "one"], "en") == "two, two and one"
    assert list_in_words(["C and D", "E"], "en") == "C and D; E"
    assert list_in_words([], "de") == ""


def test_what_cannot_be_said_is_refused():
    with pytest.raises(DomainError):
        count_to_words(-1, "en")
    with pytest.raises(DomainError):
        ordinal_to_words(0, "de")
    with pytest.raises(DomainError):
        count_to_words(1, "tlh")


@given(st.text(max_size=300), st.sampled_from(LANGUAGES), st.booleans())
def test_any_text_gives_ordered_spans(text: str, language: str, is_bound: bool):
    found = find_quantities(text, language, is_bound=is_bound)
    assert all(q.text == text[q.start : q.end] for q in found)
    assert all(a.end <= b.start for a, b in pairwise(found))
