"""Each fact's scope is true: what it says stays unchanged does, on all 4,096 sets of twelve notes.

Rahn 1980: Tn- and TnI-invariance are properties of the definitions; here they are tested as theorems.
"""

from __future__ import annotations

import pytest

from gamutwright.facts.checks import is_close
from gamutwright.facts.model import Fact, Scope
from gamutwright.facts.registry import default_registry
from gamutwright.theory.scale import Scale, rotated_mask
from thinning import usually

FACTS = default_registry().facts.values()


def smallest(masks: list[int]) -> int:
    return min(rotated_mask(mask, k, 12) for mask in masks for k in range(12))


@pytest.mark.exhaustive
@pytest.mark.parametrize("fact", [f for f in FACTS if f.scope in {Scope.TN, Scope.TNI}], ids=lambda fact: fact.id)
@pytest.mark.parametrize("share", usually([1, 3], 3))
def test_modes_transpositions_and_inversions_agree(fact: Fact, share: int) -> None:
    of_class: dict[int, object] = {}
    for mask in range(1, 4096, 2 * share) if fact.domain.rooted else range(0, 4096, share):
        scale = Scale(mask)
        masks = [mask, scale.inverted().mask] if fact.scope is Scope.TNI else [mask]
        representative = smallest(masks)
        if representative not in of_class:
            of_class[representative] = fact.evaluate(Scale(representative))
        assert is_close(fact.evaluate(scale), of_class[representative], 1e-9), scale


@pytest.mark.parametrize("fact", [f for f in FACTS if f.scope is Scope.ROOTED], ids=lambda fact: fact.id)
def test_the_root_does_not_matter_to_a_rooted_fact(fact: Fact) -> None:
    for mask in range(1, 4096, 34):
        values = [fact.evaluate(Scale(mask, root=root)) for root in (0, 5, 10)]
        assert values[0] == values[1] == values[2], mask
