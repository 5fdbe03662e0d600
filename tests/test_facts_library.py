"""Every installed fact passes the kit that pack authors run."""

import pytest

from gamutwright.facts.checks import complaints
from gamutwright.facts.model import Fact
from gamutwright.facts.registry import default_registry


@pytest.mark.parametrize("fact", default_registry().facts.values(), ids=lambda fact: fact.id)
def test_fact_passes_the_kit(fact: Fact) -> None:
    assert not complaints(fact)
