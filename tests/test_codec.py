"""Canonical JSON: RFC 8259 text that any reader takes back, one text for one value."""

from __future__ import annotations

import json
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.codec import DEEPEST, canonical_json, digest, plain_from_json, to_plain, unlike
from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale

PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
)


@given(PLAIN)
def test_any_reader_takes_it_back(value: object) -> None:
    assert json.loads(canonical_json(value)) == value


@given(st.dictionaries(st.text(), st.integers()))
def test_the_order_of_keys_does_not_matter(value: dict[str, int]) -> None:
    assert digest(value) == digest(dict(reversed(value.items())))


def test_records_and_fractions() -> None:
    assert to_plain(Scale(1, 12, 2)) == {"bits": "100000000000", "root": 2}
    assert to_plain((Fraction(1, 3),)) == [1 / 3]


@pytest.mark.parametrize("value", [math.nan, math.inf, {1, 2}, object(), b"x"])
def test_what_has_no_plain_form_is_refused(value: object) -> None:
    with pytest.raises(DomainError, match="no plain form"):
        canonical_json(value)


@given(st.recursive(st.none() | st.booleans() | st.integers() | st.text(), st.lists, max_leaves=20))
def test_json_of_others_is_read_as_any_reader_reads_it(value: object) -> None:
    assert plain_from_json(json.dumps(value)) == value


@pytest.mark.parametrize("number", ["1e999", "-1e999", "NaN", "Infinity", "-Infinity"])
def test_numbers_that_are_none_are_refused(number: str) -> None:
    with pytest.raises(ValueError, match="is no finite number"):
        plain_from_json(f'{{"times": [[0, 4, {number}]]}}')


@pytest.mark.parametrize("levels", [DEEPEST + 1, 900, 5_000, 200_000])
@pytest.mark.parametrize("kind", ["list", "dictionary"])
def test_deep_json_is_refused_in_words(kind: str, levels: int) -> None:
    opened, closed = ("[", "]") if kind == "list" else ('{"a":', "}")
    with pytest.raises(ValueError, match="nested more than"):
        plain_from_json(opened * levels + "1" + closed * levels)
    assert plain_from_json(opened * DEEPEST + "1" + closed * DEEPEST)


@pytest.mark.parametrize(
    ("plain", "shape", "where"),
    [
        ({"take": 1, "more": None}, {"take": int}, ""),
        ({"take": 1}, {"take": float}, ""),
        ({"take": 1.5}, {"take": int}, "take is no int"),
        ({"take": True}, {"take": float}, "take is no float"),
        ({}, {"take": int}, "take is missing"),
        ({"claims": [{}]}, {"claims": [{"fact": object}]}, "claims[0].fact is missing"),
        ([], {"take": int}, "it is no dictionary"),
        ({"lines": {}}, {"lines": [str]}, "lines is no list"),
        ({"lines": ["a", ["b"]]}, {"lines": [str]}, "lines[1] is no str"),
        ({"lines": [None, True]}, {"lines": [object]}, ""),
    ],
)
def test_what_does_not_fit_is_named_with_its_place(plain: object, shape: object, where: str) -> None:
    assert unlike(plain, shape) == where
