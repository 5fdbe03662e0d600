"""The kit for the words of facts: the built-in library passes it in every language, and what is missing is named."""

from __future__ import annotations

from dataclasses import replace

import pytest

from gamutwright.facts.registry import default_registry
from gamutwright.languages import known_languages
from gamutwright.phrasing.word_checks import word_complaints


@pytest.mark.parametrize("language", known_languages())
def test_every_fact_of_the_library_has_every_word(language: str):
    assert [line for fact in default_registry().facts.values() for line in word_complaints(fact, language)] == []


def test_what_is_missing_is_named():
    stranger = replace(default_registry().fact("tritones"), id="no_such_fact")
    assert word_complaints(stranger, "de")[:2] == ("no_such_fact has no .a in de", "no_such_fact has no .b in de")
    assert "no_such_fact has no .title in de" in word_complaints(stranger, "de")
    assert not [line for line in word_complaints(stranger, "en") if ".title" in line]
