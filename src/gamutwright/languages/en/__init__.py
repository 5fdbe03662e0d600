"""English: its record, beside the files of its words."""

from __future__ import annotations

from gamutwright.languages.en.grammar import AGREEMENT, CLAIMS, NAMES, NUMERALS, tidy
from gamutwright.languages.language import Language

__all__ = ["LANGUAGE"]

LANGUAGE = Language(
    tag="en",
    package=__name__,
    name="English",
    english_name="English",
    code="eng",
    notes="english",
    numerals=NUMERALS,
    names=NAMES,
    claims=CLAIMS,
    agreement=AGREEMENT,
    yes="yes",
    no="no",
    none="none",
    quotes=("“", "”"),
    tidy=tidy,
    is_source=True,
)
