"""Values in print, in the language of a lesson: figures and signs (2, ♯) where speech has words.

Conventions: a fraction stands behind its decimal; notes, names of scales and fixed words are those of the language.
"""

from __future__ import annotations

from functools import lru_cache

from gamutwright.facts.model import Dtype, Fact, Value
from gamutwright.languages import language_of
from gamutwright.phrasing.card_words import card_words
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.setting import Hand, set_out
from gamutwright.phrasing.values import written_text
from gamutwright.theory.notenames import to_symbols

__all__ = ["printed_value"]


@lru_cache(maxsize=16)
def _hand(language: str) -> Hand:
    words = language_of(language)
    return Hand(
        words.yes, words.no, words.none, lambda number: words.printed_number(number, 4),
        lambda exact, decimal: f"{decimal} ({exact})", ", ",
    )  # fmt: skip


def printed_value(fact: Fact, value: Value, language: str) -> str:
    """Print a value with figures and signs.

    Parameters
    ----------
    fact : Fact
        The fact.
    value : Value
        Its value.
    language : str
        Language tag.

    Returns
    -------
    str
        Such as "2", "yes", "0.9929 (139/140)", "2 2 1 2 2 2 1", "C, E♭, F"; with a decimal comma in German.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from gamutwright.facts.registry import default_registry
    >>> facts = default_registry().facts
    >>> printed_value(facts["semitone_steps"], 2, "en"), printed_value(facts["is_balanced"], False, "de")
    ('2', 'nein')
    >>> printed_value(facts["coherence_quotient"], Fraction(139, 140), "de")
    '0,9929 (139/140)'
    >>> printed_value(facts["spelling"], ("C", "Eb", "B"), "de")
    'C, Es, H'
    >>> printed_value(facts["hemitonic_word"], "anhemitonic", "de")
    'anhemitonisch'
    >>> printed_value(facts["systematic_name"], "lydian b7", "de")
    'lydisch ♭7'
    """
    if fact.dtype in {Dtype.TEXT, Dtype.TEXTS}:
        items = (value,) if isinstance(value, str) else value if isinstance(value, tuple) else ()
        value = tuple(_written(fact, item, language) for item in items if isinstance(item, str)) or value
    return set_out(value, _hand(language))


def _written(fact: Fact, text: str, language: str) -> str:
    """Print a text: notes, names of scales, and words out of a fixed few as the language has them."""
    fixed = wording_for(language).words_of(fact).get(text, "")
    return fixed or card_words(language).note(to_symbols(written_text(fact, text, language)))
