"""A piece as a score: MusicXML 4.0 with a part for each player, bars, metre, tempo and chord symbols.

Reference: W3C Music Notation Community Group, MusicXML 4.0 (2021), from memory.

**Conventions.** As `notation`; no key signature, so every sharp and flat is written, once in a bar. A note that no
single sign can write is tied from the longest that fits; rests are written in the same way. Eighths are beamed within a
beat. Drums stand on a staff of their own: the brush in its third space, the wood block in its fourth. Parts that lie
below middle C take the bass clef.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from xml.etree import ElementTree as ET

from gamutwright.ir.playing import Drum, Part
from gamutwright.languages import language_of
from gamutwright.music.performance import USUAL_TEMPO
from gamutwright.music.piece import QUARTER, Piece, bar_length, step_of
from gamutwright.music.written import LENGTHS, Pitch, pitch_of, written_lengths
from gamutwright.publish.score.notation import (
    KINDS,
    decimal,
    write_accidental,
    write_chord_name,
    write_pitch,
)
from gamutwright.publish.score.xml_parts import added, xml_bytes

__all__ = ["piece_score"]

_TYPES = {1: "whole", 2: "half", 4: "quarter", 8: "eighth", 16: "16th"}
"""Sign of a length by the part of a whole note that it is."""
_DRUMS = {Drum.BRUSH: ("C", 5, "x"), Drum.WOOD_BLOCK: ("E", 5, "normal")}
"""Where a drum is written, and its head."""
_SOUNDS = {
    Part.TUNE: ("pluck.guitar.nylon-string", 24),
    Part.CHORD: ("keyboard.piano.electric", 4),
    Part.DRONE: ("synth.pad.warm", 89),
    Part.BASS: ("pluck.bass.acoustic", 32),
    Part.DRUM: ("drum.group", 0),
}
_SYMBOL = re.compile(r"([A-G](?:##|#|bb|b)?)(.*)")


@dataclass(frozen=True, slots=True)
class _Event:
    """What begins together in a part: its pitches or drums, and how long it is written."""

    start: int
    length: int
    pitches: tuple[Pitch, ...] = ()
    drums: tuple[Drum, ...] = ()


def piece_score(piece: Piece, language: str = "en", tempo: float | None = None) -> str:
    """Write the score of a piece.

    Parameters
    ----------
    piece : Piece
        The piece.
    language : str
        The language of its words.
    tempo : float, optional
        Beats a minute; the piece's own without it.

    Returns
    -------
    str
        A MusicXML 4.0 document.

    Examples
    --------
    >>> from gamutwright.music.pieces import piece_of
    >>> from gamutwright.theory.scale import Scale
    >>> text = piece_score(piece_of("tune-over-vamp", Scale.of(2, 4, 5, 7, 9, 11, 0)))
    >>> text.count("<part id="), text.count("<measure"), "<root-step>G</root-step>" in text
    (4, 16, True)
    """
    words = language_of(language).table("score")
    root = ET.Element("score-partwise", version="4.0")
    added(added(root, "work"), "work-title", piece.title)
    added(added(added(root, "identification"), "encoding"), "software", "Gamutwright")
    listed = added(root, "part-list")
    for number, part in enumerate(piece.parts, 1):
        _list_part(listed, f"P{number}", part, words)
    for number, part in enumerate(piece.parts, 1):
        written = added(root, "part", id=f"P{number}")
        events = _drum_events(piece) if part is Part.DRUM else _events(piece, part)
        for bar in range(piece.bars):
            _write_bar(written, bar, piece, part, events)
            if number == 1:
                _write_words(written[-1], bar, piece, language, tempo)
        barline = added(written[-1], "barline", location="right")
        added(barline, "bar-style", "light-heavy")
    return xml_bytes(root).decode()


def _list_part(listed: ET.Element, number: str, part: Part, words: Mapping[str, str]) -> None:
    own = added(listed, "score-part", id=number)
    added(own, "part-name", words[f"part-{part.value}"])
    instruments = [(f"{number}-I1", _SOUNDS[part][0])]
    if part is Part.DRUM:
        instruments = [(f"{number}-I1", "drum.snare-drum.brush"), (f"{number}-I2", "wood.wood-block")]
    for place, sound in instruments:
        instrument = added(own, "score-instrument", id=place)
        added(instrument, "instrument-name", words[f"part-{part.value}"])
        added(instrument, "instrument-sound", sound)
    midi = added(own, "midi-instrument", id=f"{number}-I1")
    added(midi, "midi-channel", 10 if part is Part.DRUM else 1 + list(_SOUNDS).index(part))
    added(midi, "midi-program", 1 + _SOUNDS[part][1])


def _events(piece: Piece, part: Part) -> list[_Event]:
    """Gather the tones of a part that begin together, the lowest first."""
    found = []
    for group in piece.together(part):
        start = group[0].start
        scale = piece.scale_at(start)
        pitches = tuple(pitch_of(scale, step_of(scale, tone.degree)) for tone in group)
        found.append(_Event(start, min(tone.length for tone in group), pitches))
    return found


def _drum_events(piece: Piece) -> list[_Event]:
    """Gather strokes; each is written up to the next, a beat at the most."""
    rows: dict[int, list[Drum]] = {}
    for tap in piece.taps:
        rows.setdefault(tap.start, []).append(tap.drum)
    starts = sorted(rows)
    bar, beat = bar_length(piece.metre), bar_length(piece.metre) // piece.metre.beats
    found = []
    for start, after in zip(starts, [*starts[1:], piece.length], strict=True):
        end = min(after, start + beat, (start // bar + 1) * bar)
        found.append(_Event(start, end - start, (), tuple(sorted(set(rows[start])))))
    return found


def _write_bar(parent: ET.Element, bar: int, piece: Piece, part: Part, events: list[_Event]) -> None:
    length = bar_length(piece.metre)
    begin, end = bar * length, (bar + 1) * length
    measure = added(parent, "measure", number=str(bar + 1))
    if bar == 0:
        _write_attributes(measure, piece, part)
    own = [event for event in events if event.start < end and event.start + event.length > begin]
    if not own:
        rest = added(measure, "note")
        added(rest, "rest", measure="yes")
        added(rest, "duration", length)
        added(rest, "voice", 1)
        return
    held: dict[tuple[str, int], int] = {}
    beat = length // piece.metre.beats
    now, beamed = begin, []
    for event in own:
        now = _write_rests(measure, now, max(now, event.start))
        stop = min(event.start + event.length, end)
        parts = list(written_lengths(stop - now))
        for number, one in enumerate(parts):
            is_begun = now > event.start
            goes_on = number + 1 < len(parts) or event.start + event.length > end
            element = _write_event(measure, event, one, held, (is_begun, goes_on))
            if element is not None and one < QUARTER:
                beamed.append((now, element))
            now += one
    _write_rests(measure, now, end)
    _write_beams(beamed, begin, beat)


def _write_rests(measure: ET.Element, now: int, until: int) -> int:
    for one in written_lengths(until - now):
        rest = added(measure, "note")
        added(rest, "rest")
        _write_length(rest, one)
    return until


def _write_length(note: ET.Element, length: int, ties: Sequence[str] = ()) -> None:
    added(note, "duration", length)
    for name in ties:
        added(note, "tie", type=name)
    added(note, "voice", 1)
    share, dots = LENGTHS[length]
    added(note, "type", _TYPES[share])
    for _ in range(dots):
        added(note, "dot")


def _write_event(
    measure: ET.Element, event: _Event, length: int, held: dict[tuple[str, int], int], tied: tuple[bool, bool]
) -> ET.Element | None:
    """Write what begins together, for one sign; give the note that carries the beam."""
    first: ET.Element | None = None
    ties = [name for name, is_so in zip(("stop", "start"), tied, strict=True) if is_so]
    marks: tuple[Pitch | Drum, ...] = event.pitches or event.drums
    for number, one in enumerate(marks):
        note = added(measure, "note")
        first = note if first is None else first
        if number:
            added(note, "chord")
        if isinstance(one, Pitch):
            write_pitch(note, one)
        else:
            place = added(note, "unpitched")
            added(place, "display-step", _DRUMS[one][0])
            added(place, "display-octave", _DRUMS[one][1])
        _write_length(note, length, ties)
        if isinstance(one, Pitch):
            if not tied[0]:
                write_accidental(note, one, held)
        else:
            added(note, "stem", "up")
            added(note, "notehead", _DRUMS[one][2])
        if ties:
            notations = added(note, "notations")
            for name in ties:
                added(notations, "tied", type=name)
    return first


def _write_beams(beamed: list[tuple[int, ET.Element]], begin: int, beat: int) -> None:
    """Join eighths and shorter notes of one beat."""
    groups: dict[int, list[ET.Element]] = {}
    for start, note in beamed:
        groups.setdefault((start - begin) // beat, []).append(note)
    for group in groups.values():
        for number, note in enumerate(group):
            if len(group) > 1:
                name = "begin" if number == 0 else "end" if number + 1 == len(group) else "continue"
                place = next((k for k, child in enumerate(note) if child.tag == "notations"), len(note))
                beam = ET.Element("beam", number="1")
                beam.text = name
                note.insert(place, beam)


def _write_attributes(measure: ET.Element, piece: Piece, part: Part) -> None:
    attributes = added(measure, "attributes")
    added(attributes, "divisions", QUARTER)
    added(added(attributes, "key"), "fifths", 0)
    time = added(attributes, "time")
    added(time, "beats", piece.metre.count)
    added(time, "beat-type", piece.metre.unit)
    clef = added(attributes, "clef")
    if part is Part.DRUM:
        added(clef, "sign", "percussion")
        return
    pitches = [pitch.semitones for event in _events(piece, part) for pitch in event.pitches]
    is_low = sum(pitches) < 0
    added(clef, "sign", "F" if is_low else "G")
    added(clef, "line", 4 if is_low else 2)


def _write_words(measure: ET.Element, bar: int, piece: Piece, language: str, tempo: float | None) -> None:
    """Write tempo and chord symbols over the top part, in front of the note at which they stand."""
    length = bar_length(piece.metre)
    above: list[ET.Element] = []
    if bar == 0:
        holder = ET.Element("holder")
        direction = added(holder, "direction", placement="above")
        metronome = added(added(direction, "direction-type"), "metronome")
        added(metronome, "beat-unit", "quarter" if piece.metre.unit == 4 or piece.metre.is_compound else "eighth")
        if piece.metre.is_compound:
            added(metronome, "beat-unit-dot")
        beats = Fraction(tempo or piece.tempo or USUAL_TEMPO)
        added(metronome, "per-minute", decimal(beats))
        added(direction, "sound", tempo=decimal(beats * piece.metre.quarters_per_beat))
        above.append(direction)
    above += [_symbol(one.symbol, language) for one in piece.harmonies if one.start // length == bar]
    place = 1 if measure.find("attributes") is not None else 0
    for number, element in enumerate(above):
        measure.insert(place + number, element)


def _symbol(text: str, language: str) -> ET.Element:
    holder = ET.Element("holder")
    match = _SYMBOL.fullmatch(text)
    if match and match[2] in KINDS:
        write_chord_name(holder, match[1], match[2], language)
    else:
        direction = added(holder, "direction", placement="above")
        added(added(direction, "direction-type"), "words", text)
    return holder[0]
