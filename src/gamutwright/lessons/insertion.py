"""One fact as sentences that can stand in a script: its definition and its statement, every value bound.

A draft is made of such sentences, and a teacher adds one where the draft has none. They check clean, because the words
come from the value and the claim from the words.

Conventions: sentences are script markup in the language of a wording.
"""

from __future__ import annotations

from gamutwright.facts.model import Fact
from gamutwright.facts.profile import Finding
from gamutwright.lessons.format import escape_words
from gamutwright.lessons.prose import sentence_spans
from gamutwright.lessons.timing import MOST_PLACES_SOUNDED
from gamutwright.phrasing.engine import Wording
from gamutwright.theory.scale import Scale

__all__ = ["bound_definition", "bound_statement"]


def bound_definition(fact: Fact, wording: Wording, divisions: int) -> str:
    """Explain a fact, each sentence bound as its definition.

    Parameters
    ----------
    fact : Fact
        The fact.
    wording : Wording
        The wording of the script's language.
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    str
        Sentences in markup.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> bound_definition(default_registry().fact("tritones"), Wording("en"), 12)
    '[A tritone is the interval that cuts the octave into equal halves]{define=tritones}.'
    """
    text = wording.definition(fact, divisions)
    # A course's own definition is no held one.
    how = "explain" if wording.is_own(fact, "define") else "define"
    parts = []
    for start, end in sentence_spans(text, wording.language):
        sentence = text[start:end].strip()
        body = sentence.rstrip(".!?")
        parts.append(f"[{escape_words(body)}]{{{how}={fact.id}}}{sentence[len(body) :]}")
    return " ".join(parts)


def bound_statement(finding: Finding, scale: Scale, wording: Wording, variant: int = 0) -> str:
    """State a fact with its picture, and sound its places where they are few.

    Parameters
    ----------
    finding : Finding
        The fact, its value and its places.
    scale : Scale
        The scale.
    wording : Wording
        The wording of the script's language.
    variant : int
        Which shape of the sentence; taken modulo the number of shapes.

    Returns
    -------
    str
        Sentences in markup; "" where the fact has no value.

    Examples
    --------
    >>> from gamutwright.facts.profile import profile
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> (found,) = profile(dorian, ["semitone_steps"]).findings
    >>> bound_statement(found, dorian, Wording("en"))
    'It has [two]{fact=semitone_steps show=ladder} semitone steps: ...
    """
    fact = finding.fact
    text = wording.statement(fact, finding, scale, variant, show=fact.picture.diagram if fact.picture else None)
    few = 0 < len(finding.witnesses) <= MOST_PLACES_SOUNDED
    if text and fact.sound and fact.counts and few and "each=" in text:
        text += f" {{play={fact.sound.kind} mark={fact.id}}}"
    return text
