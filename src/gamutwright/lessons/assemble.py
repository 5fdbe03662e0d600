"""From a checked script and measured durations to a timeline: what is seen, heard and read, and when.

A pure function. Words are spoken one line after another, between a title and cards that say what was told, by whom it
is published, and who made the film. What a line shows is in `pointing`; a sounded example stands between pauses.

Conventions: ticks as in `ir.timeline`; shots begin on frames, sounds on ticks. A chapter's heading is left alone for
1.2 seconds and 0.3 for each of its words (BBC Subtitle Guidelines 1.2.3, section 4.5) before anything replaces it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from gamutwright.errors import DomainError
from gamutwright.facts.registry import Registry
from gamutwright.ir.cards import legible, reading_ticks
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import (
    FRAME_TICKS,
    PROGRESS_STEPS,
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
    grid_at,
)
from gamutwright.lessons.caption_lines import captions_of
from gamutwright.lessons.credits import Credits, end_cards
from gamutwright.lessons.cue_places import is_question, speak
from gamutwright.lessons.example_sounds import SoundKey
from gamutwright.lessons.headings import SHOWING, TITLE_TICKS, heading_ticks
from gamutwright.lessons.script import Chapter, Front, Line, Passage, Script
from gamutwright.lessons.sound_places import play
from gamutwright.lessons.staging import Stage
from gamutwright.phrasing.card_words import CardWords, card_words
from gamutwright.theory.scale import Scale

__all__ = ["Rhythm", "assemble", "film_title"]


@dataclass(frozen=True, slots=True)
class Rhythm:
    """Silences, in ticks.

    Parameters
    ----------
    title, card : int
        Least length of the title and of a card of names; longer where there is more to read.
    line, passage, chapter : int
        After a line, a passage and a chapter.
    before_sound, after_sound : int
        Around a sounded example.
    """

    title: int = TITLE_TICKS
    card: int = 4 * TICKS_PER_SECOND
    line: int = 2 * TICKS_PER_SECOND // 5
    passage: int = 4 * TICKS_PER_SECOND // 5
    chapter: int = 3 * TICKS_PER_SECOND // 2
    before_sound: int = 2 * TICKS_PER_SECOND // 5
    after_sound: int = TICKS_PER_SECOND


def film_title(front: Front, scale: Scale, name: str, words: CardWords) -> str:
    """Say what a film is called.

    Parameters
    ----------
    front : Front
        The front matter; its `title` goes first.
    scale : Scale
        The scale.
    name : str
        What the scale is called in a sentence, which outside twelve divisions is nothing that stands alone.
    words : CardWords
        The words of the language.

    Returns
    -------
    str
        The title.

    Examples
    --------
    >>> film_title(Front(), Scale.of(0, 5, 10, divisions=31), "this scale", card_words("en"))
    '3 tones in 31 divisions'
    """
    own = legible(dict(front.others).get("title", ""))
    if own or scale.divisions == 12:
        return own or name
    return words.say("unnamed", size=scale.cardinality, divisions=scale.divisions)


def assemble(  # noqa: PLR0913 - each is the result of another stage
    script: Script,
    scale: Scale,
    registry: Registry,
    speeches: Mapping[str, Speech],
    sounds: Mapping[SoundKey, Sound],
    *,
    title: str,
    rhythm: Rhythm | None = None,
    credits: Credits | None = None,  # noqa: A002 - what a film's last cards are called
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
        What the scale is called; the front matter may call the film something else.
    rhythm : Rhythm, optional
        The silences.
    credits : Credits, optional
        The voice and the people to thank.

    Returns
    -------
    Timeline
        Shots, clips, captions, chapters and lines.
    """
    pace, words = rhythm or Rhythm(), card_words(script.front.language)
    name = film_title(script.front, scale, title, words)
    stage = Stage(scale, registry, script.front.language, speeches, sounds, words, name)
    made = _Laid(stage, pace)
    now = made.title_card(script.front)
    for index, chapter in enumerate(script.chapters):
        now = made.chapter(index, chapter, now)
    end = made.end_cards(script, frame_at(now), credits or Credits())
    chapters = made.chapters or [ChapterMark(0, name)]
    return Timeline(
        name,
        script.front.language,
        end,
        _with_progress(stage.shots),
        tuple(stage.clips),
        tuple(made.captions),
        tuple(chapters),
        tuple(made.lines),
    )


class _Laid:
    """What has been laid out so far."""

    def __init__(self, stage: Stage, pace: Rhythm) -> None:
        self.stage, self.pace = stage, pace
        self.captions: list[Caption] = []
        self.lines: list[TimedLine] = []
        self.chapters: list[ChapterMark] = []

    def title_card(self, front: Front) -> int:
        """Show the scale as ladder and staff, its name, course and lesson; give the tick at which the title ends."""
        stage, others = self.stage, dict(front.others)
        number = legible(others.get("lesson", ""))
        parts = (legible(others.get("course", "")), stage.words.say("lesson", number=number) if number else "")
        above = "\n".join(part for part in parts if part)
        stage.figure = stage.drawn(None)
        stage.panel = Panel(stage.title, above=above, inset=stage.title_staff())
        return max(self.pace.title, reading_ticks(f"{above} {stage.title}"))

    def chapter(self, index: int, chapter: Chapter, now: int) -> int:
        """Lay a chapter out; give the tick at which the next may begin."""
        stage, pace = self.stage, self.pace
        if chapter.title or not index:
            self.chapters.append(ChapterMark(frame_at(now) if index else 0, chapter.title or stage.title))
        stage.cut(now)
        stage.chapter, stage.chapter_title = index, chapter.title
        stage.go_home()
        # A cut: while a picture fades, the last claim's lights would stand beside the new heading.
        stage.change(now, figure=stage.drawn(0), panel=stage.opening(chapter.title), is_still=True)
        now += self._heading_hold(chapter)
        for passage in chapter.passages:
            now = self._passage(passage, now) + pace.passage - pace.line
        return now + pace.chapter - pace.passage

    def _heading_hold(self, chapter: Chapter) -> int:
        """Leave a heading alone long enough, where the first line would replace it at once."""
        if not chapter.title or not chapter.lines:
            return 0
        line = chapter.lines[0]
        shows = [mark for mark in line.marks if any(mark.get(key) for key in SHOWING)]
        wanted = heading_ticks(chapter.title)
        if is_question(line) or not shows:
            return wanted if is_question(line) else 0
        speech = self.stage.speeches.get(line.id, Speech(0))
        return max(0, wanted - speech.tick_of(shows[0].words[0], len(line.text)))

    def _passage(self, passage: Passage, now: int) -> int:
        stage = self.stage
        if not any(mark.get(key) for line in passage.lines for mark in line.marks for key in SHOWING) and not any(
            is_question(line) for line in passage.lines
        ):
            # Talk about no fact: the chapter's heading, and a picture in which nothing is lit.
            if stage.has_guest:
                stage.go_home()
            stage.change(now, figure=stage.drawn(0), panel=stage.opening(stage.chapter_title))
        is_answer = False
        for line in passage.lines:
            begin = now = grid_at(now)
            now = self._line(line, now, is_answer=is_answer)
            speech = stage.speeches.get(line.id)
            if line.text and speech:
                self.captions.extend(captions_of(line.text, speech, begin, now))
                self.lines.append(TimedLine(line.id, begin, begin + speech.ticks, line.text))
            is_answer = is_answer or is_question(line)
        return now

    def _line(self, line: Line, start: int, *, is_answer: bool) -> int:
        """Lay out one line: its voice, its pictures, its sounds; give the tick at which the next may begin."""
        stage, pace = self.stage, self.pace
        speech = stage.speeches.get(line.id, Speech(0))
        if speech.ticks:
            stage.clips.append(Clip(start, speech.ticks, ClipKind.VOICE, line.id))
        speak(stage, line, start, speech, is_answer=is_answer)
        now = start + speech.ticks + pace.line
        for mark in line.marks:
            if mark.get("play"):
                now = play(stage, mark, grid_at(now - pace.line + pace.before_sound)) + pace.after_sound
            if mark.get("pause"):
                now += round(float(mark.get("pause") or 0) * TICKS_PER_SECOND)
        return now

    def end_cards(self, script: Script, now: int, made: Credits) -> int:
        """Add the cards at the end; give the end of the film."""
        stage = self.stage
        stage.cut(now)
        cards = end_cards(script.front, made, stage.words)
        for card in cards:
            panel = Panel(card.heading, sentence=card.sentence, entries=card.entries, columns=card.columns)
            text = " ".join([card.heading, card.sentence, *(f"{entry.text} {entry.value}" for entry in card.entries)])
            stage.change(now, panel=panel, kind=ShotKind.END)
            now += frame_at((card.hold_ticks or max(self.pace.card, reading_ticks(text))) + FRAME_TICKS // 2)
            stage.cut(now)
        if not stage.shots:
            raise DomainError("an empty film", "a film shows something", "Write a line of the script.")
        return now


def _with_progress(shots: list[Shot]) -> tuple[Shot, ...]:
    """Say in each shot how far its chapter has come when it begins."""
    spans: dict[int, tuple[int, int]] = {}
    for shot in shots:
        if shot.kind is not ShotKind.END:
            spans[shot.chapter] = (spans.get(shot.chapter, (shot.start_tick, 0))[0], shot.end_tick)
    made = []
    for shot in shots:
        start, end = spans.get(shot.chapter, (0, 1))
        share = 0 if shot.chapter < 0 else (shot.start_tick - start) * PROGRESS_STEPS // (end - start)
        made.append(replace(shot, progress=PROGRESS_STEPS if shot.kind is ShotKind.END else share))
    return tuple(made)
