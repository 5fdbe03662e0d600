"""The timeline: words, pictures and sounds in step, by measured durations that the test makes up."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.catalogue.shares import shares_of
from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import ScriptError
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Dot, Engraving, Figure, Path, Role, Text, walk
from gamutwright.ir.sound import Mark as SoundMark
from gamutwright.ir.sound import Note, Sound
from gamutwright.ir.timeline import (
    FRAME_TICKS,
    LINE_GRID_TICKS,
    TICKS_PER_SECOND,
    ClipKind,
    Shot,
    ShotKind,
    Speech,
    SpokenWord,
    Timeline,
)
from gamutwright.lessons.assemble import Rhythm, assemble
from gamutwright.lessons.caption_lines import LONGEST_ROW, captions_of
from gamutwright.lessons.credits import Credits
from gamutwright.lessons.draft import draft
from gamutwright.lessons.example_sounds import SoundKey, sound_cues
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.script import Script
from gamutwright.render.frames import runs_of

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
    assert len(figures) == 4  # nothing to be lit; none lit, the first, both
    words = line.text.split()
    for figure, word in zip(figures[2:], ("E", "B"), strict=True):
        begins = next(shot.start_tick for shot in ladder if shot.figure == figure)
        spoken = line.start_tick + WORD * words.index(word)
        assert abs(begins - spoken) <= FRAME_TICKS // 2


def test_pointing_words_light_as_many_places() -> None:
    pointed = laid_out(scripted(NAMED.replace("E to F and B to C", "here and here")))
    figures = dict.fromkeys(shot.figure for shot in pointed.shots if shot.drawing == "ladder")
    assert len(figures) == 4


def test_a_sound_stands_between_pauses_and_only_its_places_change() -> None:
    timeline = laid_out(scripted(NAMED + " {play=witnesses mark=semitone_steps}\n\nNext."))
    sound = next(clip for clip in timeline.clips if clip.kind is ClipKind.SOUND)
    before, after = timeline.lines
    assert 0 <= sound.start_tick - before.end_tick - Rhythm().before_sound < LINE_GRID_TICKS
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


def test_places_of_one_fact_do_not_stay_lit_beside_the_value_of_another() -> None:
    pointed = "There are [two]{fact=semitone_steps show=ladder}: [E to F and B to C]{each=semitone_steps}."
    timeline = laid_out(scripted(f"{pointed}\n\nIt has [seven]{{fact=cardinality}} tones.\n"))

    def lit(value: str) -> list[int]:
        shots = [shot for shot in timeline.shots if shot.panel.value == value and shot.figure is not None]
        return [
            sum(
                shape.fill.role is Role.NOW
                for shape in shot.figure.shapes
                if isinstance(shape, Path | Dot) and shape.fill is not None
            )
            for shot in shots
            if shot.figure is not None
        ]

    assert lit("two")[-1] > 0
    assert set(lit("seven")) == {0}


def lit_names(figure: Figure | None) -> set[str]:
    """Names of the pegs, rungs and note names that have the role of the moment."""
    if figure is None:
        return set()
    found = set()
    for shape in walk(figure.shapes):
        match shape:
            case Dot(fill=fill) if fill is not None and fill.role is Role.NOW:
                found.add(shape.name)
            case Path(stroke=stroke) if stroke is not None and stroke.role is Role.NOW:
                found.add(shape.name)
            case Text(role=Role.NOW):
                found.add(shape.name)
            case Engraving():
                found |= {place for place, role in shape.roles if role is Role.NOW}
            case _:
                pass
    return found - {""}


def shot_at(timeline: Timeline, tick: int) -> Shot:
    return next(shot for shot in timeline.shots if shot.start_tick <= tick < shot.end_tick)


def played(scale_text: str, show: str, kind: str = "scale") -> tuple[Timeline, Sound, int]:
    """A line that plays a real phrase over a picture, its sound, and when it begins."""
    script = scripted(f"Listen. {{play={kind} show={show}}}\n\nThat was it.", scale_text)
    scale = read_scale(scale_text).scale
    sound = phrase(kind, scale)
    timeline = assemble(
        script,
        scale,
        REGISTRY,
        {line.id: speech_of(line.text) for line in script.lines if line.text},
        {SoundKey(kind): sound},
        title="a scale",
    )
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    return timeline, sound, clip.start_tick


@pytest.mark.parametrize("name", ["C major", "G acoustic", "A minor pentatonic", "C chromatic"])
@pytest.mark.parametrize("kind", ["scale", "up", "down", "drone"])
def test_on_the_ring_exactly_the_tone_that_sounds_is_lit(name: str, kind: str) -> None:
    """The tone is found from its frequency in the sound, not from the mark: equal temperament, A at 440 Hz."""
    timeline, sound, start = played(name, "clock", kind)
    lowest_drone = min(note.freq_hz for note in sound.notes) if kind == "drone" else 0.0
    for moment in sound.marks:
        begun = [n for n in sound.notes if n.start_tick == moment.tick and n.freq_hz > lowest_drone]
        (note,) = begun
        pitch_class = round(69 + 12 * math.log2(note.freq_hz / 440)) % 12
        shot = shot_at(timeline, start + moment.tick + FRAME_TICKS)
        assert lit_names(shot.figure) == {f"peg {pitch_class}", f"name {pitch_class}"}
        assert abs(shot.start_tick - (start + moment.tick)) <= FRAME_TICKS // 2
        assert shot.is_still
    assert lit_names(shot_at(timeline, start - FRAME_TICKS).figure) == set()
    assert lit_names(shot_at(timeline, start + sound.ticks + FRAME_TICKS).figure) == set()


@pytest.mark.parametrize("show", ["ladder", "keyboard", "staff"])
def test_where_the_octave_has_a_place_of_its_own_it_is_lit(show: str) -> None:
    timeline, sound, start = played("D dorian", show)
    lit = [lit_names(shot_at(timeline, start + moment.tick + FRAME_TICKS).figure) for moment in sound.marks]
    expected = {
        "ladder": ({"rung 0", "name 0"}, {"rung 12", "name 12"}),
        "keyboard": ({"peg 0"}, {"peg 12"}),
        "staff": ({"n0"}, {"n7"}),
    }[show]
    # Up from the root, the octave on top, and down again.
    assert lit[0] >= expected[0]
    assert lit[7] >= expected[1]
    assert lit[-1] >= expected[0]
    assert lit[7].isdisjoint(expected[0])
    assert all(one != other for one, other in pairwise(lit))


def test_intervals_and_chords_light_all_their_tones() -> None:
    timeline, sound, start = played("C major", "clock", "intervals")
    lit = [lit_names(shot_at(timeline, start + moment.tick + FRAME_TICKS).figure) for moment in sound.marks]
    assert lit[0] == {"peg 0", "name 0", "peg 2", "name 2"}
    assert lit[2] == {"peg 0", "name 0", "peg 5", "name 5"}


def test_numbers_and_names_of_a_list_are_pointed_at_as_they_are_said() -> None:
    line = "Its steps are [two, one, two, two, two, one and two]{fact=step_pattern show=ladder}."
    timeline = laid_out(scripted(line, "D dorian"))
    (spoken,) = timeline.lines
    words = spoken.text.split()
    said = [index for index, word in enumerate(words) if word.strip(".,") in {"one", "two"}]
    seen = [
        sum(
            name.startswith("mark ")
            for name in lit_names(shot_at(timeline, spoken.start_tick + WORD * index + WORD // 2).figure)
        )
        for index in said
    ]
    assert seen == [1, 2, 3, 4, 5, 6, 7]


def test_a_definition_is_read_along_and_gone_when_the_value_comes() -> None:
    source = (
        "[A semitone step is the smallest step on the keyboard, from a key to the very next]{define=semitone_steps}."
    )
    value = "When you count them all together you find [two]{fact=semitone_steps show=ladder} of them."
    timeline = laid_out(scripted(f"{source}\n{value}"))
    first, second = timeline.lines
    during = shot_at(timeline, first.start_tick + WORD * 3).panel
    assert during.sentence == first.text
    assert shot_at(timeline, second.start_tick + WORD * 3).panel.sentence == ""
    assert shot_at(timeline, second.end_tick - WORD).panel.value == "two"


def test_a_question_stands_alone_until_its_answer_brings_the_picture() -> None:
    body = "How many semitones does it have? {pause=3}\nIt has [two]{fact=semitone_steps}."
    timeline = laid_out(scripted(f"Now some questions.\n\n{body}"))
    asked = next(line for line in timeline.lines if line.text.endswith("?"))
    shot = shot_at(timeline, asked.end_tick + TICKS_PER_SECOND)
    assert (shot.kind, shot.figure, shot.panel.heading) == (ShotKind.QUESTION, None, asked.text)
    answered = shot_at(timeline, timeline.lines[-1].end_tick)
    assert answered.drawing == "ladder"
    assert {f"mark {k}" for k in (1, 2)} <= lit_names(answered.figure)


def test_notes_named_outside_of_claims_are_lit_while_they_are_said() -> None:
    timeline = laid_out(
        scripted("So it goes on. {show=clock}\n\n[Play F sharp and then A at home]{opinion}.", "D major")
    )
    line = timeline.lines[-1]
    words = line.text.split()
    lit = [
        lit_names(shot_at(timeline, line.start_tick + WORD * index + WORD // 2).figure) for index in range(len(words))
    ]
    assert lit[words.index("F")] == lit[words.index("sharp")] == {"peg 6", "name 6"}
    assert lit[words.index("A")] == {"peg 9", "name 9"}
    assert lit[0] == lit[-1] == set()


def test_a_mode_is_the_ring_of_its_parent_turned() -> None:
    timeline = laid_out(scripted('It is the [second]{mode-of="C major"} mode of the major scale.', "D dorian"))
    line = timeline.lines[-1]
    before = shot_at(timeline, line.start_tick + FRAME_TICKS)
    after = shot_at(timeline, line.end_tick - FRAME_TICKS)
    assert before.drawing == after.drawing == "clock"
    angles = []
    for shot in (before, after):
        assert shot.figure is not None
        pegs = {
            s.name: (s.x - 500, 400 - s.y)
            for s in walk(shot.figure.shapes)
            if isinstance(s, Dot) and s.name[:4] == "peg "
        }
        angles.append({name: math.degrees(math.atan2(x, y)) % 360 for name, (x, y) in pegs.items()})
    assert angles[0].keys() == angles[1].keys()
    turns = {round((angles[1][name] - angles[0][name]) % 360) % 360 for name in angles[0]}
    assert turns == {300}  # two semitones of thirty degrees, anticlockwise: D comes to the top


def test_pictures_of_a_german_lesson_have_german_names() -> None:
    timeline = laid_out(drafted("Eb harmonic minor", "de"))
    words = {
        shape.text
        for shot in timeline.shots
        if shot.figure is not None
        for shape in walk(shot.figure.shapes)
        if isinstance(shape, Text)
    }
    assert words >= {"Es", "Ges", "As", "B", "Ces", "D"}
    assert not any("♭" in word and word[0] in "ABCDEFG" for word in words if len(word) < 4)
    assert not words & {"size in steps of the division", "steps of the scale", "7 tones"}
    titles = {shot.panel.heading for shot in timeline.shots}
    assert "Farbakkorde" in titles
    assert "Colour chords" not in titles


def test_a_heading_is_left_alone_long_enough() -> None:
    """1.2 seconds and 0.3 a word (BBC Subtitle Guidelines 1.2.3, section 4.5)."""
    timeline = laid_out(scripted("It begins.\n\n# A second chapter\n[Two]{fact=semitone_steps show=ladder} of them."))
    heading = next(shot for shot in timeline.shots if shot.panel.heading == "A second chapter")
    assert heading.end_tick - heading.start_tick >= (1.2 + 0.3 * 3) * TICKS_PER_SECOND - FRAME_TICKS


@pytest.mark.parametrize("name", ["G acoustic", "C chromatic"])
def test_titles_stay_as_long_as_they_take_to_read(name: str) -> None:
    """160 words a minute (BBC 1.2.3, section 4.1) and 17 characters a second (Netflix), and never under 1.2 seconds."""
    timeline = laid_out(drafted(name))
    ends = [shot for shot in timeline.shots if shot.kind is ShotKind.END]
    assert 0 < sum(shot.end_tick - shot.start_tick for shot in ends) <= 10 * TICKS_PER_SECOND
    for shot in (shot for shot in timeline.shots if shot.kind is ShotKind.TITLE):
        panel = shot.panel
        text = " ".join(
            [panel.above, panel.heading, panel.sentence, *(f"{entry.text} {entry.value}" for entry in panel.entries)]
        )
        seconds = (shot.end_tick - shot.start_tick) / TICKS_PER_SECOND
        assert seconds >= max(1.2, len(text.split()) * 60 / 160, len(text.strip()) / 17)


def test_supporters_and_front_matter_stand_on_the_cards() -> None:
    source = (
        "---\nscale: C major\ncourse: Evening course\nlesson: 7\nnext: Blues\ntitle: The white keys\n---\n# A\nSo.\n"
    )
    scale = read_scale("C major").scale
    thanked = tuple(f"Supporter {k}" for k in range(90))
    timeline = assemble(
        parse(source), scale, REGISTRY, {}, {}, title="C major", credits=Credits("a voice", supporters=thanked)
    )
    assert timeline.title == timeline.shots[0].panel.heading == "The white keys"
    assert timeline.shots[0].panel.above == "Evening course\nLesson 7"
    named = [
        entry.text for shot in timeline.shots for entry in shot.panel.entries if entry.text.startswith("Supporter")
    ]
    assert named == list(thanked)
    assert timeline.shots[-1].panel.sentence == "Blues"


def test_of_two_scales_in_turn_the_one_that_sounds_is_lit_and_underlined() -> None:
    script = scripted('Hear both. {play=alternation show=comparison with="C lydian"}')
    scale, other = read_scale("C major").scale, read_scale("C lydian").scale
    sound = phrase("alternation", scale, (), other)
    speeches = {line.id: speech_of(line.text) for line in script.lines}
    timeline = assemble(
        script, scale, REGISTRY, speeches, {SoundKey("alternation", other="C lydian"): sound}, title="C major"
    )  # fmt: skip
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    assert [moment.item for moment in sound.marks] == [1, 2, 1, 2]
    for moment in sound.marks:
        lit = lit_names(shot_at(timeline, clip.start_tick + moment.tick + FRAME_TICKS).figure)
        assert {name for name in lit if name.startswith(("scale", "under"))} == {
            f"scale name {moment.item}",
            f"under {moment.item}",
        }


@pytest.mark.parametrize(("beside", "name"), [("C lydian", "C lydian"), ("C aeolian", "C natural minor")])
def test_beside_another_scale_the_lessons_own_goes_by_its_name(beside: str, name: str) -> None:
    """A lesson's title may be about anything; a familiar scale has the name that sentences give it."""
    source = scripted(f'Hear both. {{play=alternation show=comparison with="{beside}"}}').source
    script = parse(source.replace("---\n", "---\ntitle: The white keys\n", 1))
    scale, other = read_scale("C major").scale, read_scale(beside).scale
    sounds = {SoundKey("alternation", other=beside): phrase("alternation", scale, (), other)}
    speeches = {line.id: speech_of(line.text) for line in script.lines}
    timeline = assemble(script, scale, REGISTRY, speeches, sounds, title="C major")
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    figure = shot_at(timeline, clip.start_tick + FRAME_TICKS).figure
    assert figure is not None
    names = [shape.text for shape in walk(figure.shapes) if isinstance(shape, Text)]
    assert {"C major", name} <= set(names)
    assert "The white keys" not in names


@pytest.mark.parametrize("claim", ["[C, F and G]{each=major_triads}", "[five and seven]{fact=generators show=clock}"])
def test_a_new_chapter_begins_unlit_from_its_first_frame(claim: str) -> None:
    """Frames are drawn as a film draws them: no frame under the new heading mixes in the lights of the claim before."""
    timeline = laid_out(scripted(f"So there are {claim}.\n\n# What comes next\nAnd now for something else."))
    opening = next(shot for shot in timeline.shots if shot.panel.heading == "What comes next")
    before = timeline.shots[timeline.shots.index(opening) - 1]
    assert lit_names(before.figure) >= {"mark 1", "mark 2"}
    assert lit_names(opening.figure) == set()
    frames = [run for run in runs_of(timeline) if run.shot is opening]
    assert [run.before for run in frames] == [None]


def during(timeline: Timeline, words: str) -> Shot:
    """What is seen when the last of these words has just been said."""
    line = next(line for line in timeline.lines if words in line.text)
    said = len(line.text[: line.text.index(words) + len(words)].split())
    return shot_at(timeline, line.start_tick + WORD * said - FRAME_TICKS)


def tones_of(shot: Shot) -> set[int]:
    """The tones of a ring as pegs, or of a ladder as rungs; the octave is none."""
    assert shot.figure is not None
    names = {s.name for s in walk(shot.figure.shapes) if s.name.startswith(("peg ", "rung "))}
    return {int(name.split()[1]) for name in names} - {12}


OTHERS = "C major pentatonic"
"""C D E G A: pitch classes 0 2 4 7 9; common practice, no source."""


@pytest.mark.parametrize("cues", ["", " show=clock"])
def test_a_claim_about_another_scale_shows_that_scale_and_its_name(cues: str) -> None:
    body = (
        "Ours has [seven]{fact=cardinality show=clock} tones.\n"
        f'The black keys have [five]{{fact=cardinality of="{OTHERS}"{cues}}} of them.\n'
        "Ours has [seven]{fact=cardinality} as before."
    )
    timeline = laid_out(scripted(body, "C lydian"))
    ours, theirs, again = (during(timeline, words) for words in ("has seven tones", "have five", "seven as before"))
    assert theirs.panel.sentence == "C major pentatonic"
    assert theirs.panel.value == "five"
    assert tones_of(theirs) == {0, 2, 4, 7, 9}
    assert len(lit_tones(theirs)) == (5 if cues else 0)
    assert len(lit_tones(ours)) == 7
    assert tones_of(again) >= {6, 11}
    assert again.panel.sentence == ""


def lit_tones(shot: Shot) -> set[int]:
    """The numbered tones of a ring: badges are looked up by where they lie."""
    assert shot.figure is not None
    angle = {
        s.name: round(math.degrees(math.atan2(s.x - 500, 400 - s.y)) / 30) % 12
        for s in walk(shot.figure.shapes)
        if isinstance(s, Dot) and s.name.startswith("witness ")
    }
    return set(angle.values())


def test_in_nineteen_divisions_another_scale_goes_by_its_size_and_keeps_its_divisions() -> None:
    source = scripted('All of them are [nineteen]{fact=cardinality of="0 1 2 3 4 5 6 7 8" show=clock}.').source
    source = source.replace("scale: C major", "scale: 0 3 6 8 11 14 17\ndivisions: 19").replace("nineteen", "nine")
    shot = during(laid_out(parse(source)), "are nine")
    assert shot.panel.sentence == "9 tones in 19 divisions"
    assert shot.figure is not None
    assert "A ring of 19 steps with 9 tones" in shot.figure.alt


def test_places_of_another_scale_are_pointed_at_in_its_own_picture() -> None:
    """E F and B C are the semitones of C major; common practice, no source."""
    body = 'In C major there are [two]{fact=semitone_steps of="C major" show=ladder}: '
    body += '[here and here]{each=semitone_steps of="C major"}.\n\nOurs rises so. {play=scale}'
    script = scripted(body, "C octatonic, semitone first")
    scale = read_scale(script.front.scale).scale
    speeches = {line.id: speech_of(line.text) for line in script.lines if line.text}
    sounds = {SoundKey("scale"): phrase("scale", scale)}
    timeline = assemble(script, scale, REGISTRY, speeches, sounds, title="a scale")
    ladders = [shot for shot in timeline.shots if shot.figure and "for C D E F G A B," in shot.figure.alt]
    assert [sum(name.startswith("mark ") for name in lit_names(shot.figure)) for shot in ladders] == [0, 1, 2]
    last = ladders[-1]
    assert last.figure is not None
    assert "C D E F G A B" in last.figure.alt
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    heard = shot_at(timeline, clip.start_tick + sounds[SoundKey("scale")].marks[1].tick + FRAME_TICKS)
    assert lit_names(heard.figure) == {"rung 1", "name 1"}
    assert heard.panel.heading == "Steps"


def test_a_sound_after_a_claim_about_another_scale_is_seen_in_the_lessons_own() -> None:
    body = f'The black keys have [five]{{fact=cardinality of="{OTHERS}" show=clock}} tones. {{play=scale}}'
    script = scripted(body, "C lydian")
    sound = phrase("scale", read_scale("C lydian").scale)
    speeches = {line.id: speech_of(line.text) for line in script.lines if line.text}
    timeline = assemble(
        script, read_scale("C lydian").scale, REGISTRY, speeches, {SoundKey("scale"): sound}, title="C lydian"
    )  # fmt: skip
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    heard = [shot_at(timeline, clip.start_tick + moment.tick + FRAME_TICKS) for moment in sound.marks]
    assert {shot.panel.sentence for shot in heard} == {""}
    assert lit_names(heard[3].figure) == {"rung 6", "name 6"}  # F sharp, the raised fourth


def test_a_ring_shows_the_scale_it_is_compared_with_as_empty_dots_and_names_it() -> None:
    """C dorian is C D E flat F G A B flat; common practice, no source."""
    timeline = laid_out(scripted('Look at both. {show=clock with="C dorian"}\n\nThat was that.', "C lydian"))
    shots = [shot for shot in timeline.shots if shot.panel.sentence == "C dorian"]
    assert shots
    for shot in shots:
        assert shot.figure is not None
        tones = {s.name for s in walk(shot.figure.shapes) if isinstance(s, Dot) and s.name.startswith("other ")}
        assert tones == {f"other {tone}" for tone in (0, 2, 3, 5, 7, 9, 10)}
    after = during(timeline, "That was that.")
    assert after.figure is not None
    assert not any(getattr(s, "name", "").startswith("other") for s in walk(after.figure.shapes))
    assert after.panel.sentence == ""


@pytest.mark.parametrize("show", ["ladder", "keyboard", "spectra"])
def test_a_second_scale_is_refused_where_the_picture_has_no_room_for_it(show: str) -> None:
    with pytest.raises(ScriptError, match=f"{show} shows one scale"):
        scripted(f'Look at both. {{show={show} with="C major"}}', "C lydian")
    assert scripted(f'Hear both. {{play=alternation show={show} with="C major"}}', "C lydian")


def test_of_a_list_only_the_entry_that_is_stated_is_lit() -> None:
    """The fourth tone of C lydian is F sharp, six semitones up; its seconds measure one or two (common practice)."""
    body = (
        "They are [one, two, three, sharp four, five, six and seven]{fact=degrees show=ladder}.\n"
        "And mind [sharp four]{fact=degrees at=4}.\n"
        "Seconds measure [one or two]{fact=spectra at=1 show=spectra}.\n"
        "Once more [one, two, three, sharp four, five, six and seven]{fact=degrees show=ladder}."
    )
    timeline = laid_out(scripted(body, "C lydian"))
    every, fourth, seconds, again = (
        during(timeline, words)
        for words in ("five, six and seven.", "mind sharp four", "measure one or two", "more one")
    )
    assert {n for n in lit_names(every.figure) if n[:5] == "mark "} == {f"mark {k}" for k in range(1, 8)}
    assert fourth.figure is not None
    rungs = {s.name: s for s in walk(fourth.figure.shapes) if isinstance(s, Path)}
    assert rungs["mark 1"].numbers[1] == rungs["rung 6"].numbers[1]
    assert {n for n in lit_names(fourth.figure) if n[:4] in {"mark", "witn"}} == {"mark 1"}
    assert seconds.figure is not None
    rows = {s.name: s.y for s in walk(seconds.figure.shapes) if isinstance(s, Text) and s.name.startswith("row ")}
    lit = {s.y for s in walk(seconds.figure.shapes) if isinstance(s, Dot) and s.fill and s.fill.role is Role.NOW}
    assert lit
    assert all(abs(y - rows["row 1"]) < abs(y - rows["row 2"]) for y in lit)
    assert {n for n in lit_names(again.figure) if n[:5] == "mark "} == {"mark 1"}


def test_an_entry_that_is_pointed_at_lights_its_place() -> None:
    timeline = laid_out(scripted("It is [this one]{each=degrees at=4}.", "C lydian"))
    shot = during(timeline, "this one")
    assert shot.drawing == "ladder"
    assert shot.figure is not None
    rungs = {s.name: s for s in walk(shot.figure.shapes) if isinstance(s, Path)}
    assert rungs["mark 1"].numbers[1] == rungs["rung 6"].numbers[1]
    assert "mark 2" not in lit_names(shot.figure)


@pytest.mark.parametrize(("diagram", "prefix"), [("ladder", "rung"), ("keyboard", "peg"), ("fretboard", "string")])
@pytest.mark.parametrize("kind", ["tune", "tune-over-vamp", "thirds", "call-and-answer"])
def test_pictures_follow_music_note_by_note(diagram: str, prefix: str, kind: str):
    """At every note of the leading part its tone is lit, and no other; open strings are E A D G B E."""
    script = scripted(f"Hear it. {{play={kind} show={diagram}}}", "D dorian")
    scale, sound = read_scale("D dorian").scale, phrase(kind, read_scale("D dorian").scale)
    speeches = {line.id: speech_of(line.text) for line in script.lines}
    timeline = assemble(script, scale, REGISTRY, speeches, {SoundKey(kind): sound}, title="D dorian")
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    root_hz = 440 * 2 ** (-7 / 12)
    opened = (40, 45, 50, 55, 59, 64)
    for mark in sound.marks:
        figure = shot_at(timeline, clip.start_tick + mark.tick + FRAME_TICKS).figure
        assert figure is not None
        found = {name for name in lit_names(figure) if name.startswith(prefix)}
        notes = [note for note in sound.notes if note.start_tick == mark.tick and note.item]
        if not mark.item:
            assert not found
            continue
        steps = [round(12 * math.log2(note.freq_hz / root_hz)) for note in notes]
        if diagram == "fretboard":
            heights = {opened[int(name.split()[1]) - 1] + int(name.split()[3]) for name in found}
            assert {height % 12 for height in heights} == {(step + 2) % 12 for step in steps}
        else:
            assert {int(name.split()[1]) % 12 for name in found} == {step % 12 for step in steps}


def test_of_one_tune_in_two_scales_the_one_that_sounds_is_lit():
    script = scripted('Hear both. {play=tune-changed show=comparison with="D aeolian"}', "D dorian")
    scale, sound = read_scale("D dorian").scale, phrase("tune-changed", read_scale("D dorian").scale)
    speeches = {line.id: speech_of(line.text) for line in script.lines}
    key = SoundKey("tune-changed", other="D aeolian")
    timeline = assemble(script, scale, REGISTRY, speeches, {key: sound}, title="D dorian")
    (clip,) = [clip for clip in timeline.clips if clip.kind is ClipKind.SOUND]
    found = []
    for mark in sound.marks:
        lit = lit_names(shot_at(timeline, clip.start_tick + mark.tick + FRAME_TICKS).figure)
        names = {name for name in lit if name.startswith("scale name")}
        assert names == ({f"scale name {2 if mark.tick >= sound.gamuts[1].tick else 1}"} if mark.item else set())
        found.append(mark.item)
    assert 0 in found
