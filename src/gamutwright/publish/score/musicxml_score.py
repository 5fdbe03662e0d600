"""A lesson as a score: MusicXML 4.0 with the scale as it is heard, its modes, its triads and its seventh chords.

Reference: W3C Music Notation Community Group, MusicXML 4.0 (2021), from memory.

**Conventions.** Notes are spelled as the lesson spells them and stand where its sounds are heard, C4 being middle C;
no key signature, so every sharp and flat is written, once in a measure. A scale or a mode is one measure of quarter
notes, a chord one of a whole note; there is no metre, and no time signature to print. In other divisions than twelve a
note takes the nearest letter, `alter` has the exact distance in semitones to four places, and the sign is that of the
nearest quarter tone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any
from xml.etree import ElementTree as ET

from gamutwright.languages import language_of
from gamutwright.music.performance import USUAL_TEMPO
from gamutwright.music.pitches import close_voicing
from gamutwright.music.written import Pitch, pitch_of
from gamutwright.phrasing.slots import filled
from gamutwright.publish.score.notation import decimal, write_accidental, write_chord_name, write_pitch
from gamutwright.publish.score.xml_parts import added, xml_bytes
from gamutwright.publish.told_lesson import Lesson
from gamutwright.theory.harmony import Chord, seventh_chords, triads
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["score"]


@dataclass(frozen=True, slots=True)
class _Event:
    """Notes that begin together, how many quarters they last, and what stands under or over them."""

    pitches: tuple[Pitch, ...]
    quarters: int = 1
    lyric: str = ""
    chord: Chord | None = None


@dataclass(frozen=True, slots=True)
class _Measure:
    events: tuple[_Event, ...]
    words: tuple[str, ...] = ()
    begins_section: bool = False
    ends_section: bool = False


def _run(scale: Scale, steps: tuple[int, ...]) -> tuple[_Event, ...]:
    n = scale.divisions
    return tuple(_Event((pitch_of(scale, step),), lyric="" if n == 12 else str(step % n)) for step in steps)


def _scale_measure(lesson: Lesson, words: Mapping[str, Any]) -> _Measure:
    scale = lesson.scale
    tones = scale.tones
    steps = (*tones, tones[0] + scale.divisions, *reversed(tones))
    notice = [filled(line, divisions=scale.divisions) for line in words["division"]] if scale.divisions != 12 else []
    return _Measure(_run(scale, steps), (words["scale"], *notice), begins_section=True, ends_section=True)


def _mode_measures(lesson: Lesson, words: Mapping[str, Any]) -> Iterator[_Measure]:
    scale, masks = lesson.scale, set[int]()
    for degree, tone in enumerate(scale.tones, 1):
        mask = scale.mode(degree).mask
        if mask in masks:
            continue
        masks.add(mask)
        above = tuple(step + (0 if step >= tone else scale.divisions) for step in scale.tones)
        if scale.divisions == 12:
            name = lesson.card_words.note(to_symbols(tone_name_map(scale)[tone]))
            # Fewer fonts have the double signs than the single ones.
            title = filled(words["mode"], tone=name.replace("𝄪", "♯♯").replace("𝄫", "♭♭"))
        else:
            title = filled(words["mode-step"], tone=tone)
        yield _Measure(_run(scale, (*sorted(above), tone + scale.divisions)), (title,), begins_section=degree == 1)


def _chord_measures(scale: Scale, chords: tuple[Chord, ...], title: str) -> Iterator[_Measure]:
    for number, chord in enumerate(chords):
        pitches = tuple(pitch_of(scale, step) for step in close_voicing(chord.tones, 12))
        first, last = number == 0, number == len(chords) - 1
        yield _Measure((_Event(pitches, 4, "", chord),), (title,) if first else (), first, last)


def _measures(lesson: Lesson) -> tuple[_Measure, ...]:
    words, scale = language_of(lesson.wording.language).table("score"), lesson.scale
    measures = [_scale_measure(lesson, words)]
    modes = list(_mode_measures(lesson, words))
    if len(modes) > 1:
        *others, last = modes
        measures += [*others, _Measure(last.events, last.words, ends_section=True)]
    if scale.divisions == 12:
        measures += _chord_measures(scale, triads(scale), words["triads"])
        measures += _chord_measures(scale, seventh_chords(scale), words["sevenths"])
    return tuple(measures)


def _write_note(parent: ET.Element, pitch: Pitch, event: _Event, held: dict[tuple[str, int], int], place: int) -> None:
    note = added(parent, "note")
    if place:
        added(note, "chord")
    write_pitch(note, pitch)
    added(note, "duration", event.quarters)
    added(note, "voice", 1)
    added(note, "type", "whole" if event.quarters == 4 else "quarter")
    write_accidental(note, pitch, held)
    if event.quarters == 1:
        added(note, "stem", "up" if pitch.semitones < 11 else "down")
    if event.lyric and not place:
        lyric = added(note, "lyric", number="1")
        added(lyric, "syllabic", "single")
        added(lyric, "text", event.lyric)


def _write_measure(part: ET.Element, number: int, measure: _Measure, lesson: Lesson) -> None:
    written = added(part, "measure", number=str(number))
    if measure.begins_section and number > 1:
        added(written, "print", new_system="yes")
    if number == 1:
        _write_attributes(written)
    for index, text in enumerate(measure.words):
        direction = added(written, "direction", placement="above" if index == 0 else "below")
        style = {"font_style": "normal", "font_weight": "bold"} if index == 0 else {"font_style": "italic"}
        added(added(direction, "direction-type"), "words", text, **style)
        if number == 1 and index == 0:
            added(direction, "sound", tempo=decimal(Fraction(USUAL_TEMPO)))
    held: dict[tuple[str, int], int] = {}
    for event in measure.events:
        if event.chord is not None:
            root = tone_name_map(lesson.scale)[event.chord.root]
            write_chord_name(written, root, event.chord.suffix, lesson.wording.language)
        for place, pitch in enumerate(event.pitches):
            _write_note(written, pitch, event, held, place)


def _write_attributes(written: ET.Element) -> None:
    attributes = added(written, "attributes")
    added(attributes, "divisions", 1)
    added(added(attributes, "key"), "fifths", 0)
    # Bars are as long as what stands in them. A hidden metre that changed would be announced at the end of a line.
    added(added(attributes, "time", print_object="no"), "senza-misura")
    clef = added(attributes, "clef")
    added(clef, "sign", "G")
    added(clef, "line", 2)


def score(lesson: Lesson) -> str:
    """Write the score of a lesson.

    Parameters
    ----------
    lesson : Lesson
        The lesson.

    Returns
    -------
    str
        A MusicXML 4.0 document of one part.
    """
    root = ET.Element("score-partwise", version="4.0")
    added(added(root, "work"), "work-title", lesson.title)
    added(added(added(root, "identification"), "encoding"), "software", "Gamutwright")
    listed = added(added(root, "part-list"), "score-part", id="P1")
    words = language_of(lesson.wording.language).table("score")
    added(listed, "part-name", words["part"], print_object="no")
    instrument = added(listed, "score-instrument", id="P1-I1")
    added(instrument, "instrument-name", words["instrument"])
    added(instrument, "instrument-sound", "keyboard.piano")
    part = added(root, "part", id="P1")
    measures = _measures(lesson)
    for number, measure in enumerate(measures, 1):
        _write_measure(part, number, measure, lesson)
        is_last = number == len(measures)
        if measure.ends_section or is_last:
            bar = added(part[-1], "barline", location="right")
            added(bar, "bar-style", "light-heavy" if is_last else "light-light")
    return xml_bytes(root).decode()
