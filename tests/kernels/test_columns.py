"""Kernels equal the definitions: on all sets of twelve notes, and on random samples of larger divisions."""

from __future__ import annotations

import random
from fractions import Fraction

import numpy as np
import pytest

from gamutwright.facts.model import Dtype, Fact, Value
from gamutwright.facts.registry import default_registry
from gamutwright.kernels import circle, spans
from gamutwright.kernels import interval_columns as intervals
from gamutwright.theory.scale import Scale

MODULES = {module.__name__: module for module in (intervals, spans, circle)}
FACTS = [fact for fact in default_registry().facts.values() if fact.kernel]


def cell(fact: Fact, found: dict[str, np.ndarray], index: int) -> Value:
    value = found[fact.id][index]
    if fact.dtype is Dtype.TEXT:
        return MODULES[fact.kernel].TEXTS[fact.id][value]
    return tuple(value.tolist()) if value.ndim else value.item()


def check(fact: Fact, scales: list[Scale]) -> None:
    masks = np.array([scale.mask for scale in scales], np.uint64)
    found = MODULES[fact.kernel].columns(masks, scales[0].divisions)
    for index, scale in enumerate(scales):
        expected = fact.evaluate(scale)
        if expected is None:
            continue
        value = cell(fact, found, index)
        if isinstance(expected, Fraction):
            assert value == float(expected), (fact.id, scale)
        elif isinstance(expected, float):
            assert value == pytest.approx(expected, rel=1e-12, abs=1e-12), (fact.id, scale)
        else:
            assert value == expected, (fact.id, scale)


def test_every_kernel_column_belongs_to_a_fact_and_back() -> None:
    offered = {(name, column) for name, module in MODULES.items() for column in module.COLUMNS}
    assert {(fact.kernel, fact.id) for fact in FACTS} == offered
    for module in MODULES.values():
        assert set(module.columns(np.array([1, 5], np.uint64), 5)) == set(module.COLUMNS)


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact.id)
@pytest.mark.exhaustive
def test_all_rooted_sets_of_twelve(fact: Fact) -> None:
    check(fact, [Scale(mask) for mask in range(1, 4096, 2)])


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact.id)
@pytest.mark.parametrize("divisions", [2, 3, 5, 13, 17, 19, 22, 24, 30, 31, 36])
def test_a_sample_of_other_divisions(fact: Fact, divisions: int) -> None:
    source = random.Random(divisions)  # noqa: S311 - a repeatable sample, no secret
    masks = {source.getrandbits(divisions) | 1 for _ in range(40)}
    even = {sum(1 << (k * divisions // d) for k in range(d)) for d in range(1, divisions + 1)}
    check(fact, [Scale(mask, divisions) for mask in sorted(masks | even)])
