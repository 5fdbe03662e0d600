"""A few odd inputs for every reader; `make fuzz` tries ten thousand of each."""

from __future__ import annotations

import pytest

from fuzz.readers import READERS, Reader
from fuzz.run import outcome

EACH = 20
"""Inputs of each reader in the usual run; fewer of those that take longest."""
SLOW = {"film-decoded": 3, "sound": 10, "audit-text": 6}


@pytest.mark.parametrize("name", [reader.name for reader in READERS])
def test_odd_inputs_are_read_or_refused_in_words(name: str):
    found = {number: outcome(name, number) for number in range(SLOW.get(name, EACH))}
    assert {number: what for number, what in found.items() if what not in {"read", "refused"}} == {}


@pytest.mark.parametrize("reader", READERS, ids=lambda reader: reader.name)
def test_every_seed_is_sound_and_the_same_number_gives_the_same_input(reader: Reader):
    assert [outcome(reader.name, number) for number in range(len(reader.seeds))] == ["read"] * len(reader.seeds)
    assert reader.input(77) == reader.input(77)
    assert len({reader.input(number) for number in range(20, 60)}) > 25
