"""What happens on the stage while a line is spoken, word by word.

A picture comes at the word that shows it. Places are lit one by one as the voice names them, exactly as often as there
are places. A definition is read along sentence by sentence, a question stands alone until it is answered.

Conventions: as `staging`; events of a line happen in the order of their ticks.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final

from gamutwright.diagrams.sketch import USUAL, Place
from gamutwright.errors import GamutwrightError
from gamutwright.facts.model import Fact
from gamutwright.facts.picturing import entry_places, place_of
from gamutwright.inputs.text import read_scale
from gamutwright.ir.cards import LEAST_READING_TICKS
from gamutwright.ir.figure import Figure
from gamutwright.ir.timeline import TICKS_PER_SECOND, Panel, ShotKind, Speech
from gamutwright.languages import language_of
from gamutwright.lessons.script import Line, Mark
from gamutwright.lessons.staging import Stage, source_in_short
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.spoken_names import find_notes
from gamutwright.theory.notenames import note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols

__all__ = ["is_question", "speak"]

TURNING: Final = "clock"
"""The diagram that turns from a scale into one of its modes."""

LONGEST_VALUE = 60
LONGEST_WORDS = 40
LONGEST_SENTENCE = 170
"""What is longer is heard but not written: nobody reads that much beside a picture."""
NAMED_APART = 2 * TICKS_PER_SECOND // 5
"""Notes named closer together than this go from one to the next without darkness between."""
_Event = tuple[int, Callable[[int], None]]


def is_question(line: Line) -> bool:
    """Say whether a line asks something and leaves time for an answer.

    Parameters
    ----------
    line : Line
        The line.

    Returns
    -------
    bool
        Whether it does.
    """
    return line.text.rstrip().endswith("?") and any(mark.get("pause") for mark in line.marks)


def speak(stage: Stage, line: Line, start: int, speech: Speech, *, is_answer: bool = False) -> None:
    """Let happen what a line shows while it is spoken.

    Parameters
    ----------
    stage : Stage
        The stage.
    line : Line
        The line.
    start : int
        When it begins.
    speech : Speech
        When its words are heard.
    is_answer : bool
        Whether it answers a question, so that its facts bring their pictures along.
    """
    if is_question(line):
        panel = Panel(line.text, above=stage.chapter_title)
        stage.change(start, panel=panel, kind=ShotKind.QUESTION)
        return

    def at(char: int) -> int:
        return start + speech.tick_of(char, len(line.text))

    events: list[_Event] = [(start, partial(_put_away, stage, line, at))]
    for mark in line.marks:
        if mark.get("mode-of"):
            events.append((start, partial(_show_parent, stage, mark)))
        events.append((at(mark.words[0]), partial(_show, stage, line, mark, is_answer=is_answer)))
        begins = _pointing_words(stage, line, mark, is_answer=is_answer)
        events += [(at(char), partial(_point, stage, mark, count)) for count, char in enumerate(begins, 1)]
    events += _named(stage, line, at)
    for tick, happen in sorted(events, key=lambda event: event[0]):
        happen(tick)


def _put_away(stage: Stage, line: Line, at: Callable[[int], int], tick: int) -> None:
    """Take a definition away when the line that states the value begins, unless the value comes at once."""
    told = [mark for mark in line.marks if mark.get("fact") or mark.get("each")]
    is_name = stage.has_guest
    if (
        stage.panel.sentence
        and not is_name
        and not stage.panel.value
        and told
        and at(told[0].words[0]) - tick >= LEAST_READING_TICKS
    ):
        stage.change(tick, panel=replace(stage.panel, sentence=""))


def _fact_of(stage: Stage, mark: Mark) -> Fact | None:
    for key in ("fact", "define", "rare", "each"):
        if mark.get(key):
            return stage.registry.facts.get(mark.get(key) or "")
    return None


def _diagram(fact: Fact | None, mark: Mark, *, is_answer: bool) -> str:
    """Say which diagram a mark shows; what is explained or answered brings its own."""
    shown = mark.get("show")
    brings = mark.get("define") or (is_answer and mark.get("fact") and not mark.get("than"))
    return shown or (fact.picture.diagram if fact and fact.picture and brings else "")


def _show(stage: Stage, line: Line, mark: Mark, tick: int, *, is_answer: bool) -> None:
    """Show a picture, a value or a sentence at a word."""
    fact = _fact_of(stage, mark)
    about = _about(stage, mark)
    panel = _panel(stage, fact, line, mark)
    other = mark.get("than") or mark.get("with") or mark.get("of")
    diagram, figure = _diagram(fact, mark, is_answer=is_answer), None
    if mark.get("mode-of"):
        stage.choose(None, TURNING)
        figure = stage.drawn(None)
    elif diagram == "comparison" and other:
        stage.choose(None, diagram, other=_read(stage, other))
        figure = stage.drawn(None)
    elif diagram:
        beside = mark.get("with")
        only = _only(stage, fact, mark, diagram)
        stage.choose(fact, diagram, other=_read(stage, beside) if beside else None, about=about, only=only)
        is_stepped = mark.get("define") or any(
            _pointing_words(stage, line, one, is_answer=is_answer) for one in line.marks
        )
        figure = stage.drawn(0 if is_stepped else None)
        if stage.other is not None and panel is not None and not panel.sentence:
            panel = replace(panel, sentence=stage.name_of(stage.other))
    elif fact is not None:
        figure = _turned(stage, fact, mark, about)
    stage.change(tick, figure=figure, panel=panel)


def _about(stage: Stage, mark: Mark) -> Scale | None:
    """Give the other scale that a claim is about; None where it is about the lesson's."""
    text = mark.get("of")
    return _read(stage, text) if text else None


def _only(stage: Stage, fact: Fact | None, mark: Mark, diagram: str) -> tuple[Place, ...] | None:
    """Give the places of the one entry that a claim is about; None where it is about all."""
    number = int(mark.get("at") or 0)
    if fact is None or not number:
        return None
    scale = _about(stage, mark) or stage.scale
    if mark.get("each"):
        return tuple(place_of(witness) for witness in fact.places(scale)[number - 1 : number])
    try:
        return entry_places(fact, scale, number, diagram)
    except GamutwrightError:
        return ()


def _turned(stage: Stage, fact: Fact, mark: Mark, about: Scale | None) -> Figure | None:
    """Redraw the picture that stays for a claim which shows none: nothing is lit in it that the claim is not about."""
    if about != stage.about or (stage.has_guest and stage.fact is not fact):
        # The picture is of another scale than the words, or no longer explained by them: the right scale, unlit.
        stage.choose(None, USUAL, about=about)
        return stage.drawn(0)
    if stage.fact is None:
        return None
    if stage.fact is not fact:
        # Places of another fact must not stay lit beside this value; its own are lit by the words that point at them.
        return None if mark.get("each") else stage.drawn(0)
    only = _only(stage, fact, mark, stage.diagram)
    if only == stage.only:
        return None
    stage.only = only
    return stage.drawn(0 if only is None or mark.get("each") else None)


def _show_parent(stage: Stage, mark: Mark, tick: int) -> None:
    """Show the ring of the scale that this one is a mode of; it turns into this one's at the word that says which."""
    stage.choose(None, TURNING)
    parent = _read(stage, mark.get("mode-of") or "")
    name = spoken_name(parent, wording_for(stage.language))
    stage.change(tick, figure=stage.plain(TURNING, parent), panel=stage.telling(stage.words.say("mode-of", name=name)))


def _read(stage: Stage, text: str) -> Scale:
    return read_scale(text, divisions=stage.scale.divisions).scale


def _panel(stage: Stage, fact: Fact | None, line: Line, mark: Mark) -> Panel | None:
    """Write the words beside the picture; None where they stay."""
    said = line.text[slice(*mark.words)]
    if mark.get("mode-of"):
        return stage.telling(stage.panel.heading, said)
    if fact is None:
        return stage.opening(stage.chapter_title) if mark.get("show") else None
    title, source = stage.words.title(fact), source_in_short(fact)
    if mark.get("define"):
        end = line.text[mark.words[1] : mark.words[1] + 1]
        sentence = said + (end if end in ".!?" else ".")
        return stage.telling(title, "", sentence if len(sentence) <= LONGEST_SENTENCE else "", source)
    if mark.get("at") and not mark.get("of") and not stage.panel.value:
        # One place of many is lit and named; a heading over it would make a fact of every word.
        return None
    about = _about(stage, mark)
    whose = stage.name_of(about) if about is not None else ""
    if mark.get("each"):
        is_there = stage.panel.heading == title and stage.about == about
        return None if is_there else stage.telling(title, "", whose, source)
    if mark.get("than"):
        return stage.telling(title, said, _compared(stage, fact, mark), source)
    if mark.get("rare"):
        return stage.telling(title, said, whose, source)
    value = _value_shown(stage, fact, mark, said)
    long = said if not value and len(said) <= LONGEST_SENTENCE else ""
    return stage.telling(title, value, ": ".join(part for part in (whose, long) if part), source)


def _compared(stage: Stage, fact: Fact, mark: Mark) -> str:
    """Set the two numbers that are compared under each other."""
    other = _read(stage, mark.get("than") or "")
    mine, theirs = fact.evaluate(stage.scale), fact.evaluate(other)
    if not isinstance(mine, int | Fraction) or not isinstance(theirs, int | Fraction):
        return ""
    return f"{stage.title}: {mine}\n{stage.name_of(other)}: {theirs}"


def _value_shown(stage: Stage, fact: Fact, mark: Mark, said: str) -> str:
    """Write a value for the eye: names and numbers in signs, what is short in the words that are spoken."""
    value = fact.evaluate(_about(stage, mark) or stage.scale)
    is_whole = not any(mark.get(key) for key in ("at", "of", "than"))
    if is_whole and fact.counts and value == 0:
        return "0"
    if is_whole and isinstance(value, tuple) and value and not isinstance(value[0], tuple | float):
        text = "  ".join(stage.words.note(to_symbols(str(item))) for item in value)
        return text if len(text) <= LONGEST_VALUE else ""
    if isinstance(value, int) and mark.words[0] == 0:
        # A number that opens its sentence has a capital letter only for that.
        said = said[:1].lower() + said[1:]
    return said if len(said) <= LONGEST_WORDS else ""


def _pointing_words(stage: Stage, line: Line, mark: Mark, *, is_answer: bool) -> list[int]:
    """Say at which characters of a line places are named one after another: as many as there are places, or none."""
    fact = stage.registry.facts.get(mark.get("each") or mark.get("fact") or "")
    if fact is None or mark.get("than") or (mark.get("at") and not mark.get("each")):
        return []
    text = line.text[slice(*mark.words)]
    begins = [0, *(match.end() for match in re.finditer(language_of(stage.language).claims.joins, text))]
    begins = [mark.words[0] + begin for begin in begins]
    if mark.get("each"):
        return begins
    is_there = stage.fact is fact and not mark.get("of") and stage.about is None
    is_pictured = _diagram(fact, mark, is_answer=is_answer) or is_there
    has_places = fact.picture is not None and fact.picture.marks == "witnesses"
    if not is_pictured or not has_places or any(other.get("each") == fact.id for other in line.marks):
        return []
    return begins if len(begins) > 1 and len(begins) == len(fact.places(_about(stage, mark) or stage.scale)) else []


def _point(stage: Stage, mark: Mark, count: int, tick: int) -> None:
    """Light one place more."""
    fact = stage.registry.facts.get(mark.get("each") or mark.get("fact") or "")
    if fact is None:
        return
    about = _about(stage, mark)
    if stage.fact is not fact or stage.about != about:
        diagram = fact.picture.diagram if fact.picture else USUAL
        stage.choose(fact, diagram, about=about, only=_only(stage, fact, mark, diagram))
    stage.change(tick, figure=stage.drawn(count))


def _named(stage: Stage, line: Line, at: Callable[[int], int]) -> list[_Event]:
    """Light notes while they are named outside of claims, where the picture has them."""
    if stage.about is not None or any(mark.get("of") for mark in line.marks):
        # The picture may be of another scale, and a note named beside it of either.
        return []
    released = ("opinion", "quote")
    claimed = [
        mark.words for mark in line.marks if not mark.is_point and all(mark.get(key) is None for key in released)
    ]
    notes = [
        note
        for note in find_notes(line.text, stage.language)
        if stage.scale.divisions == 12 and not any(start <= note.start < end for start, end in claimed)
    ]
    events: list[_Event] = []
    for index, note in enumerate(notes):
        tone = (note_name_to_pitch_class(note.name) - stage.scale.root) % 12
        if tone not in stage.scale.tones:
            continue
        events.append((at(note.start), partial(_light, stage, (tone,))))
        end = at(note.end)
        follows = index + 1 < len(notes) and at(notes[index + 1].start) - end < NAMED_APART
        if not follows:
            events.append((end, partial(_light, stage, ())))
    return events


def _light(stage: Stage, tones: tuple[int, ...], tick: int) -> None:
    plain = stage.drawn(0)
    if plain is not None and stage.kind is ShotKind.STAGE:
        stage.change(tick, figure=stage.with_tones(plain, tones))
