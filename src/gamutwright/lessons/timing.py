"""About how long words and sounds take, before anything is spoken or rendered.

Conventions: seconds. Narration runs at the teaching rate (130 to 150 words a minute is common practice, no source);
what is recorded or rendered is measured instead.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from gamutwright.facts.profile import Finding
from gamutwright.facts.registry import Registry
from gamutwright.lessons.pace import TEACHING_RATE, Pace, Rhythm, measure_pace
from gamutwright.lessons.script import Script
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.theory.scale import Scale

__all__ = ["CUE_SECONDS", "MOST_PLACES_SOUNDED", "script_pace", "seconds_of", "telling_seconds"]

CUE_SECONDS = {
    "scale": 7.0,
    "witnesses": 4.0,
    "chords": 5.0,
    "modes": 20.0,
    "alternation": 14.0,
    "path": 8.0,
    "drone": 12.0,
    "tune": 11.0,
    "tune-changed": 25.0,
}
"""About how long a sounded example lasts; what is rendered is measured."""
PLACE_SECONDS = 1.5
MOST_PLACES_SOUNDED = 6


def _words(markup: str) -> int:
    """Count the words that are spoken."""
    return len(re.sub(r"\{[^}]*\}|[\[\]]", " ", markup).split())


def seconds_of(markup: str) -> float:
    """Estimate how long markup takes to say.

    Parameters
    ----------
    markup : str
        Sentences in script markup.

    Returns
    -------
    float
        Seconds at the teaching rate, pauses between sentences included.

    Examples
    --------
    >>> round(seconds_of("It has [two]{fact=semitone_steps} semitone steps."), 1)
    2.5
    """
    sentences = max(1, len(re.findall(r"[.!?](?:\s|$)", markup)))
    return _words(markup) * 60 / TEACHING_RATE + sentences * Rhythm().sentence_pause if markup else 0.0


def telling_seconds(wording: Wording, scale: Scale) -> Callable[[Finding, bool], float]:
    """Make the cost of telling a fact, for a plan.

    Parameters
    ----------
    wording : Wording
        The wording of the lesson's language.
    scale : Scale
        The scale.

    Returns
    -------
    callable
        Finding, and whether its definition is given, to seconds.
    """

    def cost(finding: Finding, is_defined: bool) -> float:  # noqa: FBT001 - the plan's own signature
        fact = finding.fact
        seconds = seconds_of(wording.statement(fact, finding, scale))
        if is_defined:
            seconds += seconds_of(wording.definition(fact, scale.divisions))
        if fact.sound and fact.counts:
            seconds += PLACE_SECONDS * min(MOST_PLACES_SOUNDED, len(finding.witnesses))
        return seconds

    return cost


def script_pace(script: Script, registry: Registry) -> Pace:
    """Measure the pace of a script by what its language calls things, and by what its examples are likely to last.

    Parameters
    ----------
    script : Script
        The script.
    registry : Registry
        The facts on offer, whose terms are counted.

    Returns
    -------
    Pace
        Measures for each chapter and the whole.
    """
    wording = wording_for(script.front.language)
    terms = {term: fact.id for fact in registry.facts.values() for term in wording.terms(fact)}
    return measure_pace(script, terms, cue_seconds=CUE_SECONDS)
