"""What is wrong with the cues of a mark: a picture, a sound or places that there are none of.

A cue states nothing, but a film cannot be made with one that nothing answers to. So a check finds it before a minute is
rendered, and says what there is instead.

Conventions: a sound is tried as far as the places it walks through; nothing is written or drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches

from gamutwright.diagrams.atlas import DIAGRAMS
from gamutwright.diagrams.phrases import phrase_places
from gamutwright.errors import GamutwrightError, told
from gamutwright.facts.picturing import place_of
from gamutwright.facts.registry import Registry
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.script import Mark
from gamutwright.music.asking import asked, options_in_words
from gamutwright.theory.scale import Scale

__all__ = ["CueFault", "cue_faults"]


@dataclass(frozen=True, slots=True)
class CueFault:
    """A cue that nothing answers to.

    Parameters
    ----------
    key, value : str
        The attribute.
    reason : str
        Why, as a clause.
    mend : str
        What to do, as a sentence.
    """

    key: str
    value: str
    reason: str
    mend: str


def cue_faults(mark: Mark, scale: Scale, registry: Registry) -> Iterator[CueFault]:
    """Find the cues of a mark that nothing answers to.

    Parameters
    ----------
    mark : Mark
        The mark.
    scale : Scale
        The scale of the lesson.
    registry : Registry
        The facts on offer.

    Yields
    ------
    CueFault
        One for each such attribute.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> mark = Mark((("show", "lader"),), (0, 0), (0, 0), (0, 12))
    >>> [(fault.reason, fault.mend[:21]) for fault in cue_faults(mark, Scale.of(0, 4, 7), default_registry())]
    [('there is no picture of this name', 'Did you mean ladder? ')]
    """
    shown, played = mark.get("show"), mark.get("play")
    if shown is not None and shown not in DIAGRAMS:
        near = get_close_matches(shown, DIAGRAMS, 1)
        hint = told("Did you mean {near}? ", near=near[0]) if near else ""
        mend = told("{hint}Choose one of: {list}.", hint=hint, list=", ".join(DIAGRAMS))
        yield CueFault("show", shown, told("there is no picture of this name"), mend)
    try:
        marked = registry.fact(mark.get("mark") or "") if mark.get("mark") else None
        places = tuple(place_of(witness) for witness in marked.places(scale)) if marked else ()
    except GamutwrightError as error:
        yield CueFault(
            "mark", mark.get("mark") or "", told("{value}: {rule}", value=error.value, rule=error.rule), error.next_step
        )
        return
    beside = mark.get("with")
    try:
        other = read_scale(beside, divisions=scale.divisions).scale if beside else None
    except GamutwrightError as error:
        yield CueFault(
            "with", beside or "", told("{value}: {rule}", value=error.value, rule=error.rule), error.next_step
        )
        return
    if played is not None:
        try:
            phrase_places(played, scale, places, other, asked(options_in_words(dict(mark.attributes)))[0])
        except GamutwrightError as error:
            yield CueFault("play", played, told("{value}: {rule}", value=error.value, rule=error.rule), error.next_step)
