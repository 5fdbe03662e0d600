"""What can tell two scales apart, by trying it on modes and mirror images."""

from __future__ import annotations

import pytest

from gamutwright.facts.checks import is_close
from gamutwright.facts.model import Fact
from gamutwright.facts.registry import default_registry
from gamutwright.facts.scale_comparison import can_differ
from gamutwright.theory.scale import Scale

FACTS = tuple(default_registry().facts.values())
SCALES = tuple(Scale(mask) for mask in range(0b101, 4096, 190) if mask & 1)


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact.id)
def test_what_cannot_differ_does_not(fact: Fact) -> None:
    for scale in SCALES:
        for degree in range(2, scale.cardinality + 1):
            mode = Scale(scale.mode(degree).mask)
            for other in (mode, Scale(mode.inverted().mask)):
                if other.is_rooted and not can_differ(fact, scale, other):
                    assert is_close(fact.evaluate(scale), fact.evaluate(other), 1e-9)


def test_between_dorian_and_natural_minor_only_what_has_a_root_can_differ() -> None:
    dorian, minor = Scale.of(0, 2, 3, 5, 7, 9, 10), Scale.of(0, 2, 3, 5, 7, 8, 10)
    differing = {fact.id for fact in FACTS if fact.roles.comparing and can_differ(fact, dorian, minor)}
    assert differing == {"brightness"}
    assert all(can_differ(fact, dorian, Scale.of(0, 2, 4, 7, 9)) for fact in FACTS)
