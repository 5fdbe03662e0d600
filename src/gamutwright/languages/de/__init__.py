"""German: its record, beside the files of its words."""

from __future__ import annotations

from gamutwright.languages.de.grammar import AGREEMENT, CLAIMS, NAMES, NUMERALS, tidy
from gamutwright.languages.language import Language

__all__ = ["LANGUAGE"]

LANGUAGE = Language(
    tag="de",
    package=__name__,
    name="Deutsch",
    english_name="German",
    code="deu",
    notes="german",
    numerals=NUMERALS,
    names=NAMES,
    claims=CLAIMS,
    agreement=AGREEMENT,
    yes="ja",
    no="nein",
    none="keine",
    quotes=("„", "“"),
    tidy=tidy,
    chord_roots={"B": "H"},
)
