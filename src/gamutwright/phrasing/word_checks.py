"""The kit that examines the words of a fact: the authors of packs run the same checks that the built-in library passes.

Each check returns complaints in words, none where all is well::

    from gamutwright.phrasing.word_checks import word_complaints
    assert not word_complaints(FACT, "en")
"""

from __future__ import annotations

from collections.abc import Iterator

from gamutwright.facts.model import Dtype, Fact, Level
from gamutwright.languages import language_of
from gamutwright.phrasing.messages import load_messages

__all__ = ["word_complaints"]


def word_complaints(fact: Fact, language: str) -> tuple[str, ...]:
    """Say which words of a fact are missing in a language.

    Parameters
    ----------
    fact : Fact
        The fact, of an installed pack.
    language : str
        Language tag.

    Returns
    -------
    tuple of str
        A sentence for each; none where every sentence that lessons ask for is there.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> word_complaints(default_registry().fact("tritones"), "de")
    ()
    """
    there = load_messages(language).attributes(fact.message)
    return tuple(f"{fact.id} has no .{name} in {language}" for name in _wanted(fact, language) if name not in there)


def _wanted(fact: Fact, language: str) -> Iterator[str]:
    yield from ("a", "b", "define")
    if not language_of(language).is_source:
        yield "title"
    if fact.level is not Level.RESEARCH:
        yield from ("ask", "answer")
    if fact.dtype is Dtype.BOOL:
        yield from ("yes", "no")
    if fact.counts:
        yield "noun"
