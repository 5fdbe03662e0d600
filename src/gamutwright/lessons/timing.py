"""About how long words and sounds take, before anything is spoken or rendered.

Conventions: seconds. Narration runs as the quick voice speaks; sounds last as long as they are written; between lines,
before the first and after the last stands what a film has there.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from gamutwright.errors import GamutwrightError
from gamutwright.facts.profile import Finding
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.ir.cards import reading_ticks
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.lessons.credits import CREDITS_TICKS, NEXT_TICKS
from gamutwright.lessons.example_sounds import sound_key, sound_of
from gamutwright.lessons.headings import SHOWING, TITLE_TICKS, heading_ticks
from gamutwright.lessons.pace import Pace, Rhythm, measure_pace, speech_seconds
from gamutwright.lessons.parse import parse
from gamutwright.lessons.prose import sentence_spans
from gamutwright.lessons.script import Mark, Script
from gamutwright.music.pieces import PIECES
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.theory.scale import Scale

__all__ = ["MOST_PLACES_SOUNDED", "lesson_seconds", "markup_seconds", "script_pace", "seconds_of", "telling_seconds"]

PLACE_SECONDS = 1.5
MOST_PLACES_SOUNDED = 6
_BARS: dict[tuple[str, str, int, int], float] = {}
"""Lengths of what has bars, in seconds: by what is asked for, and how many tones the scale has of how many."""


def seconds_of(markup: str, language: str) -> float:
    """Estimate how long markup takes to say.

    Parameters
    ----------
    markup : str
        Sentences in script markup.
    language : str
        Language tag.

    Returns
    -------
    float
        Seconds, pauses between sentences included.

    Examples
    --------
    >>> round(seconds_of("It has [two]{fact=semitone_steps} semitone steps.", "en"), 1)
    2.4
    """
    text = re.sub(r"\{[^}]*\}|[\[\]]", " ", markup)
    spoken = [text[start:end] for start, end in sentence_spans(text, language)]
    return sum(speech_seconds(" ".join(one.split()), language) + Rhythm().sentence_pause for one in spoken)


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
        seconds = seconds_of(wording.statement(fact, finding, scale), wording.language)
        if is_defined:
            seconds += seconds_of(wording.definition(fact, scale.divisions), wording.language)
        if fact.sound and fact.counts:
            seconds += PLACE_SECONDS * min(MOST_PLACES_SOUNDED, len(finding.witnesses))
        return seconds

    return cost


def _sounding(scale: Scale, registry: Registry) -> Callable[[Mark], float]:
    """Make the length of a mark's sound; 0 where there is none, which is for a check to say."""

    def seconds(mark: Mark) -> float:
        key = sound_key(mark)
        bars = (key.kind, key.options, scale.cardinality, scale.divisions)
        if bars not in _BARS:
            try:
                found = sound_of(key, scale, registry).ticks / TICKS_PER_SECOND
            except GamutwrightError:
                return 0.0
            if key.kind not in PIECES:
                return found
            _BARS[bars] = found
        return _BARS[bars]

    return seconds


def _around(script: Script) -> float:
    """Give the seconds of the title, of headings that stand before a picture comes, and of the cards at the end."""
    others = dict(script.front.others)
    title = reading_ticks(" ".join(others.get(key, "") for key in ("course", "lesson", "title")))
    ticks = max(TITLE_TICKS, title) + CREDITS_TICKS + (NEXT_TICKS if others.get("next") else 0)
    for chapter in script.chapters:
        marks = chapter.lines[0].marks if chapter.lines else ()
        first = next((mark.words[0] for mark in marks if any(mark.get(key) for key in SHOWING)), None)
        if chapter.title and first == 0:
            ticks += heading_ticks(chapter.title)
    return ticks / TICKS_PER_SECOND


def lesson_seconds(script: Script, scale: Scale, registry: Registry | None = None) -> float:
    r"""Estimate how long a lesson's film lasts, from its title to its last card.

    Parameters
    ----------
    script : Script
        The script.
    scale : Scale
        Its scale.
    registry : Registry, optional
        The facts whose places are sounded; those installed without it.

    Returns
    -------
    float
        Seconds.

    Examples
    --------
    >>> script = parse("---\nscale: C E G\n---\n# Hear it\nListen. {play=scale}\n")
    >>> round(lesson_seconds(script, Scale.of(0, 4, 7)), 1)
    17.9
    """
    sounds = _sounding(scale, registry or default_registry())
    return measure_pace(script, sound_seconds=sounds, around_seconds=_around(script)).whole.minutes * 60


def markup_seconds(markup: str, scale: Scale, language: str, registry: Registry | None = None) -> float:
    """Estimate how long a paragraph lasts, with its sounds and pauses.

    Parameters
    ----------
    markup : str
        A paragraph of script markup.
    scale : Scale
        The scale of the lesson.
    language : str
        Language tag.
    registry : Registry, optional
        As in `lesson_seconds`.

    Returns
    -------
    float
        Seconds.
    """
    script = parse(f"---\nscale: C\nlanguage: {language}\n---\n{markup}\n")
    return measure_pace(script, sound_seconds=_sounding(scale, registry or default_registry())).whole.minutes * 60


def script_pace(script: Script, scale: Scale, registry: Registry) -> Pace:
    """Measure the pace of a script by what its language calls things, and by what its examples last.

    Parameters
    ----------
    script : Script
        The script.
    scale : Scale
        Its scale.
    registry : Registry
        The facts on offer, whose terms are counted.

    Returns
    -------
    Pace
        Measures for each chapter and the whole.
    """
    wording = wording_for(script.front.language)
    terms = {term: fact.id for fact in registry.facts.values() for term in wording.terms(fact)}
    sounds = _sounding(scale, registry)
    return measure_pace(script, terms, sound_seconds=sounds, around_seconds=_around(script))
