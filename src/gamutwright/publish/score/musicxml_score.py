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
from gamutwright.music.pitches import Register, close_voicing
from gamutwright.phrasing.slots import filled
from gamutwright.publish.score.xml_parts import added, xml_bytes
from gamutwright.publish.told_lesson import Lesson
from gamutwright.theory.harmony import Chord, seventh_chords, triads
from gamutwright.theory.notenames import LETTERS, accidental, note_name_to_pitch_class, to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["Pitch", "pitch_of", "score"]

_MIDDLE_C = 60
_SIGNS = {
    -6: "triple-flat",
    -4: "flat-flat",
    -2: "flat",
    -1: "quarter-flat",
    0: "natural",
    1: "quarter-sharp",
    2: "sharp",
    4: "double-sharp",
    6: "triple-sharp",
}
"""Name of an accidental by quarter tones."""
_KINDS = {
    "": "major",
    "m": "minor",
    "dim": "diminished",
    "aug": "augmented",
    "maj7": "major-seventh",
    "7": "dominant",
    "m7": "minor-seventh",
    "m7b5": "half-diminished",
    "dim7": "diminished-seventh",
    "mM7": "major-minor",
    "+M7": "major-seventh",
}
"""Kind of chord by suffix."""
_RAISED_FIFTH = "+M7"
"""The augmented chord with a major seventh has no kind of its own: it is a major seventh chord with a raised fifth."""


@dataclass(frozen=True, slots=True)
class Pitch:
    """A written pitch.

    Parameters
    ----------
    step : str
        Letter.
    alter : Fraction
        Semitones above the natural.
    octave : int
        4 from middle C up to the B above.
    """

    step: str
    alter: Fraction
    octave: int

    @property
    def semitones(self) -> Fraction:
        """Semitones above middle C."""
        return note_name_to_pitch_class(self.step) + self.alter + 12 * (self.octave - 4)


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


def pitch_of(scale: Scale, step: int) -> Pitch:
    """Write a step of a scale where it is heard.

    Parameters
    ----------
    scale : Scale
        The scale.
    step : int
        Steps above the root where sounds begin; in twelve divisions one of its tones in any octave.

    Returns
    -------
    Pitch
        Its letter, alteration and octave.

    Examples
    --------
    >>> pitch_of(Scale.of(7, 9, 11, 1, 2, 4, 5), 6)
    Pitch(step='C', alter=Fraction(1, 1), octave=4)
    >>> pitch_of(Scale.of(0, 3, divisions=24), 3)
    Pitch(step='D', alter=Fraction(-1, 2), octave=4)
    """
    n = scale.divisions
    height = Fraction(12 * (scale.root + Register(scale).lowest + step), n)
    if n == 12:
        name = tone_name_map(scale)[step % 12]
        letter, alter = name[0], Fraction(accidental(name))
    else:
        letter, alter = min(
            ((letter, (height - note_name_to_pitch_class(letter) + 6) % 12 - 6) for letter in LETTERS),
            key=lambda found: (abs(found[1]), -found[1]),
        )
    octave = (height - alter - note_name_to_pitch_class(letter)) / 12 + 4
    return Pitch(letter, alter, int(octave))


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


def _decimal(number: Fraction) -> str:
    text = f"{float(number):.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _write_note(parent: ET.Element, pitch: Pitch, event: _Event, held: dict[tuple[str, int], int], place: int) -> None:
    note = added(parent, "note")
    if place:
        added(note, "chord")
    written = added(note, "pitch")
    added(written, "step", pitch.step)
    if pitch.alter:
        added(written, "alter", _decimal(pitch.alter))
    added(written, "octave", pitch.octave)
    added(note, "duration", event.quarters)
    added(note, "voice", 1)
    added(note, "type", "whole" if event.quarters == 4 else "quarter")
    quarters = round(2 * pitch.alter)
    if held.get((pitch.step, pitch.octave), 0) != quarters:
        added(note, "accidental", _SIGNS[quarters])
    held[pitch.step, pitch.octave] = quarters
    if event.quarters == 1:
        added(note, "stem", "up" if pitch.semitones < 11 else "down")
    if event.lyric and not place:
        lyric = added(note, "lyric", number="1")
        added(lyric, "syllabic", "single")
        added(lyric, "text", event.lyric)


def _write_chord_name(parent: ET.Element, chord: Chord, scale: Scale, language: str) -> None:
    name = tone_name_map(scale)[chord.root]
    harmony = added(parent, "harmony")
    root = added(harmony, "root")
    # The step B is read as H in German; chord symbols keep ♯ and ♭ there, so B♭ is unmistakable.
    printed = language_of(language).chord_roots.get(name, "")
    added(root, "root-step", name[0], **({"text": printed} if printed else {}))
    if accidental(name):
        added(root, "root-alter", accidental(name))
    kind, text = _KINDS[chord.suffix], "maj7" if chord.suffix == _RAISED_FIFTH else chord.suffix
    added(harmony, "kind", kind, text=text.replace("b5", "♭5"))
    if chord.suffix == _RAISED_FIFTH:
        degree = added(harmony, "degree")
        added(degree, "degree-value", 5)
        added(degree, "degree-alter", 1)
        added(degree, "degree-type", "alter")


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
            added(direction, "sound", tempo=_decimal(Fraction(USUAL_TEMPO)))
    held: dict[tuple[str, int], int] = {}
    for event in measure.events:
        if event.chord is not None:
            _write_chord_name(written, event.chord, lesson.scale, lesson.wording.language)
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
