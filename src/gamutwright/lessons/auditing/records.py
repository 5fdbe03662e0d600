"""What an audit says about a text: statements, sentences it did not understand, likely mishearings.

**Conventions.** Verdicts are those of claims: confirmed, contradicted or inapplicable. Places are lines, and times in
seconds where the text has them.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.facts.model import Citation, Value, Witness
from gamutwright.lessons.claims import Verdict

__all__ = ["Misheard", "Statement", "Unheard"]


@dataclass(frozen=True, slots=True)
class Statement:
    """Something a text states about a scale, and what became of it.

    Parameters
    ----------
    sentence : int
        Number of the sentence, from 0.
    start, end : int
        The words in the sentence.
    words : str
        The words.
    place : str
        Time code or line, to be read.
    line : int
        Line of the file.
    time_s : float or None
        Beginning of the cue in seconds.
    fact_id : str
        The fact; `mode` or `name` for what a mode or scale is called.
    title : str
        What the statement is about, in words.
    about : str
        The scale it was held against.
    verdict : Verdict
        confirmed, contradicted or inapplicable.
    said : str
        What was understood.
    computed : Value or None
        What is so.
    expected : str
        Words that would agree.
    reason : str
        Why the verdict is not `confirmed`.
    witnesses : tuple of Witness
        The places that make the value true.
    sources : tuple of Citation
        Where the notion is published.
    """

    sentence: int
    start: int
    end: int
    words: str
    place: str
    line: int
    time_s: float | None
    fact_id: str
    title: str
    about: str
    verdict: Verdict
    said: str
    computed: Value | None
    expected: str
    reason: str = ""
    witnesses: tuple[Witness, ...] = ()
    sources: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class Unheard:
    """A sentence, or words of it, that was not judged.

    Parameters
    ----------
    sentence : int
        Number of the sentence, from 0.
    words : str
        The sentence.
    place : str
        Time code or line.
    line : int
        Line of the file.
    time_s : float or None
        Beginning of the cue in seconds.
    reason : str
        question, general, supposed, nothing recognised, or partly.
    left : tuple of str
        Numbers, names and terms in it that no statement took up.
    """

    sentence: int
    words: str
    place: str
    line: int
    time_s: float | None
    reason: str
    left: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Misheard:
    """Words that sound like a technical term.

    Parameters
    ----------
    sentence : int
        Number of the sentence, from 0.
    words : str
        The words as written.
    term : str
        The term.
    distance : float
        From 0, the same sounds, upwards.
    place : str
        Time code or line.
    line : int
        Line of the file.
    time_s : float or None
        Beginning of the cue in seconds.
    """

    sentence: int
    words: str
    term: str
    distance: float
    place: str
    line: int
    time_s: float | None
