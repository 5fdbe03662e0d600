"""The timeline: words, pictures and sounds in step, by measured durations that the test makes up."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Role
from gamutwright.ir.sound import Mark as SoundMark
from gamutwright.ir.sound import Note, Sound
from gamutwright.ir.timeline import (
    FRAME_TICKS,
    LINE_GRID_TICKS,
    TICKS_PER_SECOND,
    ClipKind,
    Speech,
    SpokenWord,
    Timeline,
)
from gamutwright.lesson.assemble import Rhythm, assemble, sound_cues
from gamutwright.lesson.captions import LONGEST_ROW, captions_of
from gamutwright.lesson.draft import draft
from gamutwright.lesson.parse import parse
from gamutwright.lesson.plan import Wish
from gamutwright.lesson.script import Script

REGISTRY = default_registry()
WORD = TICKS_PER_SECOND // 2


def speech_of(text: str) -> Speech:
    """Each word takes half a second."""
    words = [
        SpokenWord(match.start(), match.end(), WORD * index, WORD * (index + 1))
        for index, match in enumerate(re.finditer(r"\S+", text))
    ]
    return Speech(WORD * len(words), tuple(words))


def sound_of(items: int) -> Sound:
    """Each item sounds for a second."""
    notes = tuple(Note(TICKS_PER_SECOND * k, TICKS_PER_SECOND, 440.0, item=k + 1) for k in range(max(1, items)))
    marks = tuple(SoundMark(TICKS_PER_SECOND * k, k + 1) for k in range(items))
    return Sound(TICKS_PER_SECOND * max(1, items), notes, marks=marks)


def laid_out(script: Script) -> Timeline:
    scale = read_scale(script.front.scale, divisions=int(dict(script.front.others).get("divisions", 12))).scale
    speeches = {line.id: speech_of(line.text) for line in script.lines if line.text}
    sounds = {
        key: sound_of(len(REGISTRY.facts[key[1]].places(scale)) if key[1] in REGISTRY.facts else 0)
        for key in sound_cues(script)
    }
    return assemble(script, scale, REGISTRY, speeches, sounds, title="a scale")


def scripted(body: str, scale: str = "C major") -> Script:
    return parse(f"---\nscale: {scale}\n---\n# Steps\n{body}\n")


def drafted(name: str, language: str = "en", minutes: float = 6.0) -> Script:
    return parse(draft(read_scale(name).scale, Wish(minutes=minutes), language, shares=shares_of(12)).source)


NAMED = "It has [two]{fact=semitone_steps show=ladder} semitones: [E to F and B to C]{each=semitone_steps}."


def test_places_are_lit_one_by_one_at_the_words_that_name_them() -> None:
    timeline = laid_out(scripted(NAMED))
    (line,) = timeline.lines
    ladder = [shot for shot in timeline.shots if shot.drawing == "ladder"]
    figures = list(dict.fromkeys(shot.figure for shot in ladder))
    assert len(figures) == 3  # none lit, the first, both
    words = line.text.split()
    for figure, word in zip(figures[1:], ("E", "B"), strict=True):
        begins = next(shot.start_tick for shot in ladder if shot.figure == figure)
        spoken = line.start_tick + WORD * words.index(word)
        assert abs(begins - spoken) <= FRAME_TICKS // 2


def test_pointing_words_light_as_many_places() -> None:
    pointed = laid_out(scripted(NAMED.replace("E to F and B to C", "here and here")))
    figures = dict.fromkeys(shot.figure for shot in pointed.shots if shot.drawing == "ladder")
    assert len(figures) == 3


def test_a_sound_stands_between_pauses_and_only_its_places_change() -> None:
    timeline = laid_out(scripted(NAMED + " {play=witnesses mark=semitone_steps}\n\nNext."))
    sound = next(clip for clip in timeline.clips if clip.kind is ClipKind.SOUND)
    before, after = timeline.lines
    assert sound.start_tick - before.end_tick == Rhythm().before_sound
    assert after.start_tick - (sound.start_tick + sound.ticks) >= Rhythm().after_sound
    during = [s for s in timeline.shots if sound.start_tick < s.start_tick < sound.start_tick + sound.ticks]
    assert all(shot.is_still for shot in during)


def test_a_pause_is_kept() -> None:
    with_pause, without = (laid_out(scripted(f"How many? {cue}\n\nTwo what?")) for cue in ("{pause=3}", ""))
    gap = [t.lines[1].start_tick - t.lines[0].end_tick for t in (with_pause, without)]
    # Lines begin on a grid of their own, so a pause is exact but for the rest of a cell.
    assert abs(gap[0] - gap[1] - 3 * TICKS_PER_SECOND) < LINE_GRID_TICKS


@pytest.mark.parametrize("name", ["G acoustic", "C major pentatonic", "C octatonic, semitone first", "C chromatic"])
@pytest.mark.parametrize("language", ["en", "de"])
def test_a_whole_lesson_holds_together(name: str, language: str) -> None:
    script = drafted(name, language)
    timeline = laid_out(script)
    assert timeline == laid_out(script)
    spoken = [line for line in script.lines if line.text]
    assert [line.id for line in timeline.lines] == [line.id for line in spoken]
    clips = sorted(timeline.clips, key=lambda clip: clip.start_tick)
    assert all(a.start_tick + a.ticks <= b.start_tick for a, b in pairwise(clips))
    assert timeline.ticks >= clips[-1].start_tick + clips[-1].ticks
    starts = [chapter.start_tick for chapter in timeline.chapters]
    assert starts == sorted(starts)
    assert starts[0] == 0


@pytest.mark.parametrize("language", ["en", "de"])
def test_captions_say_every_word_within_the_figures(language: str) -> None:
    """Two rows of 42 characters, two frames apart (Netflix Timed Text, as the sheet of standards quotes it)."""
    timeline = laid_out(drafted("G acoustic", language))
    words = " ".join(caption.text for caption in timeline.captions).split()
    assert words == " ".join(line.text for line in timeline.lines).split()
    for caption in timeline.captions:
        rows = caption.text.split("\n")
        assert len(rows) <= 2
        assert all(len(row) <= LONGEST_ROW for row in rows), caption
    pairs = pairwise(timeline.captions)
    assert all(one.end_tick + 2 * FRAME_TICKS <= other.start_tick for one, other in pairs)


@given(st.lists(st.text("abcdefgh,;", min_size=1, max_size=14), min_size=1, max_size=60))
def test_captions_of_any_text_fit(words: list[str]) -> None:
    text = " ".join(words)
    speech = speech_of(text)
    captions = captions_of(text, speech, 0, speech.ticks + TICKS_PER_SECOND)
    assert " ".join(caption.text for caption in captions).split() == text.split()
    assert all(len(row) <= LONGEST_ROW for caption in captions for row in caption.text.split("\n"))
    assert all(caption.text.count("\n") <= 1 for caption in captions)
    assert all(one.end_tick <= other.start_tick for one, other in pairwise(captions))


def test_places_of_one_fact_do_not_stay_lit_beside_the_value_of_another():
    pointed = "There are [two]{fact=semitone_steps show=ladder}: [E to F and B to C]{each=semitone_steps}."
    timeline = laid_out(scripted(f"{pointed}\n\nIt has [seven]{{fact=cardinality}} tones.\n"))

    def lit(value: str) -> list[int]:
        shots = [shot for shot in timeline.shots if shot.panel.value == value and shot.figure is not None]
        return [
            sum(shape.fill.role is Role.NOW for shape in shot.figure.shapes if getattr(shape, "fill", None))
            for shot in shots
            if shot.figure is not None
        ]

    assert lit("two")[-1] > 0
    assert set(lit("seven")) == {0}
