"""Canonical JSON: RFC 8259 text that any reader takes back, one text for one value."""

from __future__ import annotations

import json
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.codec import canonical_json, digest, to_plain
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
