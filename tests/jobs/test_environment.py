"""Environments: every difference is found, and named."""

from __future__ import annotations

import platform
from importlib import metadata

from hypothesis import given
from hypothesis import strategies as st

from gamutwright.jobs.environment import LIBRARIES, differences, snapshot

VERSIONS = st.dictionaries(st.sampled_from(["Python", "av", "pack of facts builtin"]), st.sampled_from(["1", "2"]))


@given(VERSIONS, VERSIONS)
def test_every_difference_is_named_and_nothing_else(here: dict[str, str], there: dict[str, str]):
    told = differences(here, there)
    assert told == sorted(told)
    differing = {name for name, _ in set(here.items()) ^ set(there.items())}
    assert {text.split(" there, ")[0].rsplit(" ", 1)[0] for text in told} == differing
    assert (not told) == (here == there)


def test_what_is_installed_here_is_listed():
    listed = snapshot()
    assert platform.python_version().startswith(listed["Python"] + ".")
    assert {name: listed[name] for name in LIBRARIES} == {name: metadata.version(name) for name in LIBRARIES}
    assert listed["gamutwright"] == metadata.version("gamutwright")
    assert listed["pack of facts builtin"]
