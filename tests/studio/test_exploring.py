"""What a screen is told of a scale: known scales of the trade, and the ways in which an address can be wrong."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.codec import canonical_json
from gamutwright.errors import InputError
from gamutwright.facts.registry import default_registry
from gamutwright.publish.lesson import printed_value
from gamutwright.studio.exploring import MOST_DIVISIONS, read, scale_data
from gamutwright.theory.scale import Scale


def fact(data: dict, fact_id: str) -> dict:
    return next(one for one in data["facts"] if one["id"] == fact_id)


def test_a_scale_of_the_trade():
    found = read(text="G acoustic")
    # The fourth mode of melodic minor (Lendvai 1971, from memory): G A B C sharp D E F.
    assert found["text"] == "G A B C# D E F"
    assert [found["steps"][step]["name"] for step in found["tones"]] == ["G", "A", "B", "C♯", "D", "E", "F"]
    assert any("acoustic" in name for name in found["names"])
    semitones = fact(found, "semitone_steps")
    assert (semitones["value"], semitones["parts"]) == ("2", [[[6, 7]], [[9, 10]]])
    assert semitones["rare"].endswith("of 462")
    # A4 is 440 Hz (ISO 16), and the root the G above middle C.
    assert math.isclose(found["steps"][2]["hz"], 440.0)
    assert math.isclose(found["steps"][12]["hz"], 2 * found["steps"][0]["hz"], rel_tol=1e-5)


def test_bits_and_words_are_the_same_scale():
    assert read(bits="101101010110", root=2) == read(text="D dorian")


@settings(max_examples=30, deadline=None)  # the largest scales of sixteen divisions take a third of a second
@given(
    st.integers(2, 16).flatmap(lambda n: st.tuples(st.just(n), st.integers(0, 2 ** (n - 1) - 1), st.integers(0, n - 1)))
)
def test_every_scale_has_plain_data_and_the_values_of_its_facts(drawn: tuple[int, int, int]):
    n, upper, root = drawn
    scale = Scale(upper << 1 | 1, n, root)
    bits = "".join("1" if scale.mask >> step & 1 else "0" for step in range(n))
    found = read(bits=bits, root=root, divisions=12)
    assert json.loads(canonical_json(found)) == found
    assert found == scale_data(scale)
    registry = default_registry()
    for one in found["facts"]:
        assert one["value"] == printed_value(registry.fact(one["id"]), registry.fact(one["id"]).evaluate(scale), "en")
        tones = {tone % n for parts in one["parts"] for part in parts for tone in part}
        # The complement is made of the tones that the scale has not.
        outside = set(range(n)) - set(scale.tones)
        assert tones <= (outside if one["id"] == "complement" else set(scale.tones)), one["id"]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"text": "X"}, "X"),
        ({"text": ""}, "no scale"),
        ({"text": "pcs: 1 2 3 on C"}, "root"),
        ({"bits": "0110"}, "root"),
        ({"bits": "1"}, "root"),
        ({"bits": "101", "root": 3}, "root"),
        ({"bits": "1" * (MOST_DIVISIONS + 1)}, "root"),
    ],
)
def test_what_is_no_scale_is_told(asked: dict, said: str):
    with pytest.raises(InputError, match=said):
        read(**({"text": "", "bits": "", "root": 0, "divisions": 12} | asked))
