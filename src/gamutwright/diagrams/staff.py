"""The staff: the scale as notes, engraved with correct accidentals, names and degrees under them.

The diagram writes the notation in MEI; an engraver turns it into lines and glyphs and tells where each note went.

Conventions: treble clef, the root between A3 and G#4, one octave upwards with the root above; every accidental is
written, no key signature. There is one bar, in which an accidental holds for its line or space, so a natural cancels it
(Read, Music Notation, 1979, chapter 9, from memory). Spelling is that of the scale, so only twelve divisions can be
engraved.
"""

from __future__ import annotations

from dataclasses import replace
from xml.sax.saxutils import quoteattr

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import SMALLEST, Drawing
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Engraving, Face, Figure, Label, Role, Text, walk
from gamutwright.theory.notenames import accidental, note_name_to_pitch_class, to_symbols
from gamutwright.theory.spelling import degree_names, tone_names

__all__ = ["bare_staff", "staff"]

_SIGNS = {-2: "ff", -1: "f", 0: "", 1: "s", 2: "x"}


def staff(sketch: Sketch) -> Figure:
    """Draw the staff with a scale on it.

    Parameters
    ----------
    sketch : Sketch
        The scale, in twelve divisions, and what is marked; chords stand on the staff one after another.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions, or is empty.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> staff(Sketch(Scale.of(0, 4, 7))).alt
    'A staff in treble clef with the notes C E G C upwards.'
    """
    scale = sketch.scale
    if scale.divisions != 12 or not scale.mask:
        raise DomainError(
            f"{scale.divisions} divisions" if scale.mask else "the empty set",
            "a staff holds notes of twelve divisions",
            "Draw a clock face instead: --figure clock.",
        )
    chords = [place for place in sketch.places if place.kind is Kind.CHORD]
    drawing = Drawing()
    drawing.add(_chords(sketch, chords) if chords else _notes(sketch))
    if chords:
        words = f"A staff in treble clef with chords on {tones_in_words(sketch)}."
    else:
        above = f" {sketch.name(0)}" if scale.is_rooted else ""
        words = f"A staff in treble clef with the notes {tones_in_words(sketch)}{above} upwards."
    return drawing.figure(sketch, "Staff", words)


def bare_staff(sketch: Sketch, width: float, height: float) -> Figure:
    """Draw the staff alone, without names and degrees, for where there is little room.

    Parameters
    ----------
    sketch : Sketch
        The scale.
    width, height : float
        Size of the picture in units.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        As `staff`.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> bare_staff(Sketch(Scale.of(0, 4, 7)), 600, 300).width
    600
    """
    whole = staff(sketch)
    shapes = tuple(
        replace(shape, x=0.0, y=0.0, width=width, height=height, labels=(), roles=())
        for shape in walk(whole.shapes)
        if isinstance(shape, Engraving)
    )
    return replace(whole, shapes=shapes, parts=(), width=width, height=height)


def _height(name: str, above: float) -> int:
    """Choose the octave in which a note stands: the first at or above a height in semitones (C4 is 48)."""
    natural = note_name_to_pitch_class(name[0]) + accidental(name)
    octave = 0
    while natural + 12 * octave < above:
        octave += 1
    return octave


def _pitch(name: str, above: float, held: dict[str, int]) -> tuple[str, float]:
    """Write a note at or above a height, with a natural where an accidental still holds; say its own height too."""
    octave = _height(name, above)
    natural = note_name_to_pitch_class(name[0]) + accidental(name)
    place = f"{name[0]}{octave}"
    sign = _SIGNS[accidental(name)] or ("n" if held.get(place) else "")
    held[place] = accidental(name)
    written = f'pname="{name[0].lower()}" oct="{octave}"' + (f' accid="{sign}"' if sign else "")
    return written, natural + 12.0 * octave


def _notes(sketch: Sketch) -> Engraving:
    """Write the scale upwards, names and degrees under it, marked notes in the role of the moment."""
    scale = sketch.scale
    names, degrees = list(tone_names(scale)), list(degree_names(scale))
    tones = list(scale.tones)
    if scale.is_rooted:
        names, degrees, tones = [*names, names[0]], [*degrees, "8"], [*tones, 12]
    height, notes = 44.5, []
    held: dict[str, int] = {}
    for index, name in enumerate(names):
        written, height = _pitch(name, height + 0.5, held)
        notes.append(f'<note xml:id="n{index}" dur="1" {written}/>')
    marked = {
        place.parts[0][0] % 12: number
        for number, place in reversed(list(enumerate(sketch.shown, 1)))
        if place.kind in {Kind.TONE, Kind.MODE}
    }
    touched = {
        tone % 12 for place in sketch.shown for part in place.parts for tone in part if place.kind is not Kind.AXIS
    }
    roles = tuple((f"n{index}", Role.NOW) for index, tone in enumerate(tones) if tone in touched and tone < 12)
    labels: list[Label] = []
    for index, (name, degree, tone) in enumerate(zip(names, degrees, tones, strict=True)):
        shown = sketch.name(tone) if dict(sketch.names) else sketch.word(to_symbols(name))
        labels.append(Label(f"n{index}", Text(0, 500, shown, 36, name=f"name {tone}")))
        sign = degree.replace("##", "𝄪").replace("#", "♯").replace("bb", "𝄫").replace("b", "♭")
        labels.append(Label(f"n{index}", Text(0, 562, sign, 34, Role.QUIET, name=f"degree {tone}")))
        if tone in marked and sketch.is_numbered:
            number = Text(
                0, 130, str(marked[tone]), SMALLEST, Role.NOW, face=Face.STRONG, name=f"witness {marked[tone]}"
            )
            labels.append(Label(f"n{index}", number))
    parts = [(f"n{index}", f"tone {tone}") for index, tone in enumerate(tones) if tone < 12]
    witnesses = [(f"n{tones.index(tone)}", f"witness {number}") for tone, number in marked.items() if tone in tones]
    return Engraving(20, 40, 960, 700, _mei("".join(notes)), roles, tuple(labels), (*parts, *witnesses), "staff")


def _chords(sketch: Sketch, chords: list[Place]) -> Engraving:
    """Write chords one after another, each on its root, labels under them."""
    names = dict(zip(sketch.scale.tones, tone_names(sketch.scale), strict=True))
    written: list[str] = []
    labels: list[Label] = []
    chords = chords[:14]
    lanes = 2 if len(chords) <= 7 else 3
    lit = len(sketch.shown)
    held: dict[str, int] = {}
    for index, place in enumerate(chords):
        start = 45.0 + (place.parts[0][0] % 12 if sketch.scale.tones else 0)
        height, notes = start - 0.5, []
        for tone in place.parts[0]:
            pitch, height = _pitch(names[tone % 12], height + 0.5, held)
            notes.append(f"<note {pitch}/>")
        written.append(f'<chord xml:id="c{index}" dur="1">{"".join(notes)}</chord>')
        label = to_symbols(place.label)
        labels.append(Label(f"c{index}", Text(0, 510 + (index % lanes) * 54, label, 36, name=f"name {index + 1}")))
    roles = tuple((f"c{index}", Role.NOW) for index in range(min(lit, len(chords))) if lit < len(sketch.places))
    parts = tuple((f"c{index}", f"witness {index + 1}") for index in range(len(chords)))
    return Engraving(20, 40, 960, 700, _mei("".join(written)), roles, tuple(labels), parts, "staff")


def _mei(layer: str, title: str = "") -> str:
    """Wrap notes in the smallest document an engraver takes: one staff without bar lines or metre."""
    return (
        '<?xml version="1.0" encoding="UTF-8"?><mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0">'
        f"<meiHead><fileDesc><titleStmt><title>{title}</title></titleStmt><pubStmt/></fileDesc></meiHead>"
        '<music><body><mdiv><score><scoreDef><staffGrp><staffDef n="1" lines="5" '
        f"clef.shape={quoteattr('G')} clef.line={quoteattr('2')}/></staffGrp></scoreDef>"
        f'<section><measure right="invis"><staff n="1"><layer n="1">{layer}</layer></staff></measure></section>'
        "</score></mdiv></body></music></mei>"
    )
