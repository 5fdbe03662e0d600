"""From a checked script and measured durations to a timeline: what is seen, heard and read, and when.

A pure function. Words are spoken one line after another; a picture comes at the word that shows it; places are lit one
by one as the voice names them or the sound reaches them, exactly as often as there are places; a sounded example stands
between pauses, and nothing moves under it but the place that sounds.

Conventions: ticks as in `ir.timeline`; shots begin on frames, sounds on ticks. Lower bounds: a picture is held 1.2
seconds before the next one.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.model import Sketch
from gamutwright.errors import GamutwrightError
from gamutwright.facts.model import Fact
from gamutwright.facts.picturing import picture_of
from gamutwright.facts.registry import Registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Figure
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import (
    LINE_GRID_TICKS,
    TICKS_PER_SECOND,
    Caption,
    ChapterMark,
    Clip,
    ClipKind,
    Panel,
    Shot,
    ShotKind,
    Speech,
    TimedLine,
    Timeline,
    frame_at,
)
from gamutwright.lesson.captions import captions_of
from gamutwright.lesson.script import Line, Mark, Script
from gamutwright.lesson.wording.claimwords import claim_words
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols

__all__ = ["Rhythm", "SoundKey", "assemble", "sound_cues"]

SoundKey = tuple[str, str, str]
"""The kind of a phrase, the fact whose places it plays, and the other scale in it; "" for none."""


@dataclass(frozen=True, slots=True)
class Rhythm:
    """Silences, in ticks.

    Parameters
    ----------
    title, end : int
        Length of the title card and of the card with sources.
    line, passage, chapter : int
        After a line, a passage and a chapter.
    before_sound, after_sound : int
        Around a sounded example.
    """

    title: int = 3 * TICKS_PER_SECOND
    end: int = 8 * TICKS_PER_SECOND
    line: int = 2 * TICKS_PER_SECOND // 5
    passage: int = 4 * TICKS_PER_SECOND // 5
    chapter: int = 3 * TICKS_PER_SECOND // 2
    before_sound: int = 2 * TICKS_PER_SECOND // 5
    after_sound: int = TICKS_PER_SECOND


def sound_cues(script: Script) -> tuple[SoundKey, ...]:
    """List the sounds a script plays, each once.

    Parameters
    ----------
    script : Script
        The script.

    Returns
    -------
    tuple of SoundKey
        In order of their first appearance.
    """
    marks = (mark for line in script.lines for mark in line.marks)
    return tuple(dict.fromkeys(_sound_key(mark) for mark in marks if mark.get("play")))


def _sound_key(mark: Mark) -> SoundKey:
    return mark.get("play") or "", mark.get("mark") or mark.get("fact") or "", mark.get("with") or ""


@dataclass(slots=True)
class _Stage:
    """What is on the stage, and the shots so far."""

    scale: Scale
    registry: Registry
    language: str
    speeches: Mapping[str, Speech]
    sounds: Mapping[SoundKey, Sound]
    pace: Rhythm
    clips: list[Clip] = field(default_factory=list)
    shots: list[Shot] = field(default_factory=list)
    start: int = 0
    kind: ShotKind = ShotKind.TITLE
    figure: Figure | None = None
    drawing: str = "clock"
    panel: Panel = field(default_factory=Panel)
    chapter: int = -1
    is_still: bool = False
    fact: Fact | None = None
    diagram: str = "clock"

    def cut(self, tick: int) -> None:
        """End the current shot at a tick, if it has lasted a frame."""
        tick = frame_at(tick)
        if tick > self.start:
            self.shots.append(
                Shot(
                    self.start,
                    tick,
                    self.kind,
                    self.figure,
                    self.panel,
                    self.chapter,
                    self.drawing,
                    is_still=self.is_still,
                )
            )
            self.start = tick

    def change(
        self, tick: int, *, figure: Figure | None = None, panel: Panel | None = None, is_still: bool = False
    ) -> None:
        """Begin another shot at a tick; a figure is the one of `diagram`."""
        if (figure is None or figure == self.figure) and (panel is None or panel == self.panel):
            return
        self.cut(tick)
        self.kind = ShotKind.STAGE
        if figure is not None:
            self.figure, self.drawing = figure, self.diagram
        self.panel = panel if panel is not None else self.panel
        self.is_still = is_still

    def drawn(self, lit: int | None) -> Figure | None:
        """Draw the fact on the stage with so many places lit; None where it cannot be drawn."""
        if self.fact is None:
            return self.figure
        try:
            return picture_of(self.fact, self.scale, "", self.diagram, lit)
        except GamutwrightError:
            return self.figure


def _source_in_short(fact: Fact) -> str:
    citation = fact.sources[0]
    if not citation.source.author:
        return ""
    surnames = [name.split()[-1] for name in citation.source.author.split(",")]
    return f"{' & '.join(surnames[:2])} {citation.source.year}".strip()


def assemble(
    script: Script,
    scale: Scale,
    registry: Registry,
    speeches: Mapping[str, Speech],
    sounds: Mapping[SoundKey, Sound],
    *,
    title: str,
    rhythm: Rhythm | None = None,
) -> Timeline:
    """Lay a script out in time.

    Parameters
    ----------
    script : Script
        The checked script.
    scale : Scale
        Its scale.
    registry : Registry
        The facts on offer.
    speeches : mapping of str to Speech
        By line id: how long each line takes and when its words are heard.
    sounds : mapping of SoundKey to Sound
        The sounds of `sound_cues`.
    title : str
        What the film is called.
    rhythm : Rhythm, optional
        The silences.

    Returns
    -------
    Timeline
        Shots, clips, captions, chapters and lines.
    """
    pace = rhythm or Rhythm()
    stage = _Stage(scale, registry, script.front.language, speeches, sounds, pace)
    stage.figure, stage.panel = draw_diagram("clock", Sketch(scale, title=title)), Panel(heading=title)
    captions: list[Caption] = []
    lines: list[TimedLine] = []
    chapters = [ChapterMark(0, title)]
    now = pace.title
    sources: dict[str, None] = {}
    for index, chapter in enumerate(script.chapters):
        start = now if index else 0
        if chapter.title:
            if index:
                chapters.append(ChapterMark(frame_at(start), chapter.title))
            else:
                chapters[0] = ChapterMark(0, chapter.title)
        stage.cut(now)
        stage.chapter = index
        stage.change(now, panel=Panel(heading=chapter.title))
        for passage in chapter.passages:
            for line in passage.lines:
                begin = now = -(-now // LINE_GRID_TICKS) * LINE_GRID_TICKS
                now = _spoken(stage, line, now)
                speech = speeches.get(line.id)
                if line.text and speech:
                    captions.extend(captions_of(line.text, speech, begin, now))
                    lines.append(TimedLine(line.id, begin, begin + speech.ticks, line.text))
                sources.update(dict.fromkeys(_cited(line, registry)))
            now += pace.passage - pace.line
        now += pace.chapter - pace.passage
    now = frame_at(now)
    stage.cut(now)
    end = now + frame_at(pace.end)
    stage.shots.append(
        Shot(now, end, ShotKind.END, None, Panel(heading=title, sentence="\n".join(sources)), len(script.chapters) - 1)
    )
    return Timeline(
        title,
        script.front.language,
        end,
        tuple(stage.shots),
        tuple(stage.clips),
        tuple(captions),
        tuple(chapters),
        tuple(lines),
    )


def _cited(line: Line, registry: Registry) -> list[str]:
    facts = [registry.facts[key] for mark in line.marks if (key := mark.get("fact")) and key in registry.facts]
    cited = [citation for fact in facts for citation in fact.sources[:1] if citation.source.author]
    return [f"{c.source.author} ({c.source.year}), {c.source.title}" for c in cited]


def _spoken(stage: _Stage, line: Line, start: int) -> int:
    """Lay out one line: its voice, its pictures, its sounds; give the tick at which the next may begin."""
    speech, pace = stage.speeches.get(line.id, Speech(0)), stage.pace
    if speech.ticks:
        stage.clips.append(Clip(start, speech.ticks, ClipKind.VOICE, line.id))
    for mark in line.marks:
        at = start + speech.tick_of(mark.words[0], len(line.text))
        _shown(stage, line, mark, at)
        _pointed(stage, line, mark, start, speech)
    now = start + speech.ticks + pace.line
    for mark in line.marks:
        if mark.get("play"):
            now = _played(stage, mark, now - pace.line + pace.before_sound) + pace.after_sound
        if mark.get("pause"):
            now += round(float(mark.get("pause") or 0) * TICKS_PER_SECOND)
    return now


def _shown(stage: _Stage, line: Line, mark: Mark, tick: int) -> None:
    """Show a picture or a value at a word; an idea that is explained gets its picture, nothing in it lit."""
    fact_id = mark.get("fact") or mark.get("define") or ""
    fact = stage.registry.facts.get(fact_id)
    panel, figure = stage.panel, None
    if fact is not None:
        value = _value_shown(stage, fact, mark, line.text[slice(*mark.words)]) if mark.get("fact") else ""
        panel = Panel(fact.title, value, "", _source_in_short(fact))
    diagram = mark.get("show") or (fact.picture.diagram if fact and fact.picture and mark.get("define") else "")
    other = mark.get("than") or mark.get("with")
    if diagram == "comparison" and other:
        stage.fact, stage.diagram = None, diagram
        beside = read_scale(other, divisions=stage.scale.divisions).scale
        figure = draw_diagram(diagram, Sketch(stage.scale, other=beside))
    elif diagram and fact is not None:
        stage.fact, stage.diagram = fact, diagram
        is_stepped = mark.get("define") or any(other.get("each") for other in line.marks)
        figure = stage.drawn(0 if is_stepped else None)
    elif diagram:
        stage.fact, stage.diagram = None, diagram
        figure = draw_diagram(diagram, Sketch(stage.scale))
    elif fact is not None and stage.fact is not None and stage.fact is not fact:
        # Places of another fact must not stay lit beside this value.
        figure = stage.drawn(0)
    stage.change(tick, figure=figure, panel=panel)


def _value_shown(stage: _Stage, fact: Fact, mark: Mark, words: str) -> str:
    """Write a value for the eye: names and numbers in signs, what is short in the words that are spoken."""
    value = fact.evaluate(stage.scale)
    is_whole = not any(mark.get(key) for key in ("at", "of", "than"))
    if is_whole and isinstance(value, tuple) and value and not isinstance(value[0], tuple):
        text = to_symbols("  ".join(str(item) for item in value)) if not isinstance(value[0], float) else ""
        return text if len(text) <= 60 else ""
    return words if len(words) <= 40 else ""


def _pointed(stage: _Stage, line: Line, mark: Mark, start: int, speech: Speech) -> None:
    """Light the places one by one as they are named."""
    fact = stage.registry.facts.get(mark.get("each") or "")
    if fact is None or mark.get("at"):
        return
    if stage.fact is not fact:
        stage.fact, stage.diagram = fact, fact.picture.diagram if fact.picture else "clock"
    text = line.text[slice(*mark.words)]
    begins = [0, *(match.end() for match in re.finditer(claim_words(stage.language).joins, text))]
    for count, begin in enumerate(begins, 1):
        tick = start + speech.tick_of(mark.words[0] + begin, len(line.text))
        stage.change(tick, figure=stage.drawn(count))


def _played(stage: _Stage, mark: Mark, start: int) -> int:
    """Play a sound; its places are lit as they sound, and nothing else moves."""
    key = _sound_key(mark)
    sound = stage.sounds.get(key)
    if sound is None or not sound.ticks:
        return start
    stage.clips.append(Clip(start, sound.ticks, ClipKind.SOUND, ":".join(key)))
    if key[1] and stage.fact is not None and stage.fact.id == key[1]:
        for moment in sound.marks:
            stage.change(start + moment.tick, figure=stage.drawn(moment.item), is_still=True)
    return start + sound.ticks
