"""A piece on a staff: bars, metre, chord symbols, and the note that sounds, with an arrow over it.

The leading part alone is written: the tune, else the chords, else the rhythm on one line. The bars stand in systems of
up to five under each other; of a longer piece the picture shows the page that is played.

Conventions: treble clef; every accidental is written, once in a bar, no key signature. Spelling is that of the scale of
each section, so only twelve divisions can be engraved. Notes are numbered from 1 in their order; their places are
called `note 1` and so on. A note that no single sign can write is tied. Eighths are beamed within a beat.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from xml.sax.saxutils import quoteattr

from gamutwright.diagrams.layout import Drawing
from gamutwright.diagrams.sketch import Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Engraving, Face, Figure, Label, Role, Text
from gamutwright.music.piece import QUARTER, Harmony, Piece, bar_length, step_of
from gamutwright.music.sounding import leading_part
from gamutwright.music.written import LENGTHS, Pitch, pitch_of, written_lengths
from gamutwright.theory.notenames import to_symbols

__all__ = ["piece_staff", "piece_strip"]

_SIGNS = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "x"}
_STRIP_WIDTH = 300.0
_STRIP_BAR = 520.0
_BUSIEST = 16
_BUSIEST_OF_TWO = 20
"""More notes than this do not stand in one system; where two tunes are compared each has its own."""
_SYSTEMS = 2
_MOST_BARS = 5
_HEIGHT, _WIDTH, _LEFT = 380.0, 960.0, 20.0
_CHORD_Y, _ARROW_Y = 28.0, 72.0
_ARROW_ALONE_Y = 48.0
"""Where no chord symbols stand over the staff, the arrow keeps clear of beams."""


@dataclass(frozen=True, slots=True)
class _Event:
    """What begins together: where on the staff, how long."""

    number: int
    start: int
    length: int
    pitches: tuple[Pitch, ...]


def piece_staff(sketch: Sketch, piece: Piece, lit: int = 0) -> Figure:
    """Draw a piece on a staff.

    Parameters
    ----------
    sketch : Sketch
        The scale, its title and the words of the picture.
    piece : Piece
        The piece, of a scale in twelve divisions.
    lit : int >= 0
        The note that sounds, numbered from 1; 0 for none.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions.

    Examples
    --------
    >>> from gamutwright.music.pieces import piece_of
    >>> from gamutwright.theory.scale import Scale
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> piece_staff(Sketch(dorian), piece_of("cadence", dorian)).alt
    'A staff with 3 bars of 4/4: A D F, B D G, A D F.'
    """
    if piece.sections[0].scale.divisions != 12:
        raise DomainError(
            f"{piece.sections[0].scale.divisions} divisions",
            "a staff holds notes of twelve divisions",
            "Show the ladder instead: show=ladder.",
        )
    events = _events(piece)
    length = bar_length(piece.metre)
    lit_bar = events[lit - 1].start // length if 0 < lit <= len(events) else 0
    drawing = Drawing()
    for place, bars in enumerate(_page(piece, events, lit_bar)):
        drawing.add(_system(sketch, piece, events, bars, place, lit))
    return drawing.figure(sketch, "Staff", _in_words(sketch, piece, events))


def piece_strip(sketch: Sketch, piece: Piece, bars: int | None = None, octaves: int = 0) -> Figure:
    """Draw the bars of a piece on one line, for a page that is read sideways or printed.

    Parameters
    ----------
    sketch : Sketch
        The scale, its title and the words of the picture.
    piece : Piece
        The piece, of a scale in twelve divisions.
    bars : int > 0, optional
        How many, from the first; all without it.
    octaves : int
        By how many octaves it is written above where it is heard.

    Returns
    -------
    Figure
        The line, with a part for each note and the chord symbols over it.

    Examples
    --------
    >>> from gamutwright.music.pieces import piece_of
    >>> from gamutwright.theory.scale import Scale
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> piece_strip(Sketch(dorian, title="two chords"), piece_of("vamp", dorian)).width
    2380.0
    """
    shown = min(bars or piece.bars, piece.bars)
    width = _STRIP_WIDTH + _STRIP_BAR * shown
    line = _system(sketch, piece, _events(piece, octaves), range(shown), 0, 0)
    return Figure(sketch.title, sketch.title, (replace(line, x=0.0, y=0.0, width=width),), width=width, height=_HEIGHT)


def _events(piece: Piece, octaves: int = 0) -> list[_Event]:
    part = leading_part(piece)
    rows: dict[int, tuple[int, list[Pitch]]] = {}
    if part is None:
        starts = sorted({tap.start for tap in piece.taps if tap.item})
        ends = [*starts[1:], piece.length]
        rows = {start: (end - start, []) for start, end in zip(starts, ends, strict=True)}
    else:
        for group in piece.together(part):
            start = group[0].start
            scale = piece.scale_at(start)
            rows[start] = (
                group[0].length,
                [pitch_of(scale, step_of(scale, tone.degree) + 12 * octaves) for tone in group],
            )
    return [
        _Event(number, start, length, tuple(pitches))
        for number, (start, (length, pitches)) in enumerate(sorted(rows.items()), 1)
    ]


def _page(piece: Piece, events: Sequence[_Event], lit_bar: int) -> list[range]:
    """Choose the bars that are shown, system by system: as many to a system as there is room for."""
    length = bar_length(piece.metre)
    counts = [sum(event.start // length == bar for event in events) for bar in range(piece.bars)]
    # What is in another scale begins a system of its own.
    most = _BUSIEST if len(piece.sections) == 1 else _BUSIEST_OF_TWO
    begins = [*(section.start // length for section in piece.sections), piece.bars]
    systems = [bars for first, last in pairwise(begins) for bars in _lines(range(first, last), counts, most)]
    at = next(number for number, bars in enumerate(systems) if lit_bar in bars)
    begin = at // _SYSTEMS * _SYSTEMS
    return systems[begin : begin + _SYSTEMS]


def _lines(bars: range, counts: Sequence[int], most: int) -> list[range]:
    """Break bars into as few lines of as many bars each as there is room for."""
    for count in range(1, len(bars) + 1):
        each = -(-len(bars) // count)
        lines = [bars[first : first + each] for first in range(0, len(bars), each)]
        if each <= _MOST_BARS and all(sum(counts[bar] for bar in line) <= most for line in lines):
            return lines
    return [range(bar, bar + 1) for bar in bars]


def _system(sketch: Sketch, piece: Piece, events: Sequence[_Event], bars: range, place: int, lit: int) -> Engraving:
    length = bar_length(piece.metre)
    own = [event for event in events if event.start // length in bars]
    measures = "".join(_measure(piece, bar, [e for e in own if e.start // length == bar]) for bar in bars)
    labels = [
        Label(_first_id(piece, own, one), Text(0, _CHORD_Y, sketch.word(to_symbols(one.symbol)), 36, face=Face.STRONG))
        for one in piece.harmonies
        if one.start // length in bars
    ]
    shown = [event for event in own if event.number == lit]
    labels += [
        Label(
            f"n{event.number}",
            Text(0, _ARROW_Y if piece.harmonies else _ARROW_ALONE_Y, "↓", 40, Role.NOW, face=Face.STRONG),
        )
        for event in shown
    ]
    return Engraving(
        _LEFT,
        20 + place * _HEIGHT,
        _WIDTH,
        _HEIGHT,
        _mei(piece, measures, is_first=bars.start == 0),
        tuple((f"n{event.number}", Role.NOW) for event in shown),
        tuple(labels),
        tuple((f"n{event.number}", f"note {event.number}") for event in own),
        f"staff {place + 1}",
    )


def _first_id(piece: Piece, own: Sequence[_Event], harmony: Harmony) -> str:
    """Hang a chord symbol on what begins with it or first after it, or on the bar's rest."""
    bar = harmony.start // bar_length(piece.metre)
    after = [event for event in own if event.start >= harmony.start and event.start // bar_length(piece.metre) == bar]
    return f"n{after[0].number}" if after else f"r{bar}"


def _measure(piece: Piece, bar: int, own: Sequence[_Event]) -> str:
    length = bar_length(piece.metre)
    begin, end, beat = bar * length, (bar + 1) * length, length // piece.metre.beats
    right = ' right="end"' if bar + 1 == piece.bars else ""
    held: dict[tuple[str, int], int] = {}
    written: list[tuple[int, int, str]] = []
    now = begin
    for event in own:
        written += _rests(now, event.start)
        stop = min(event.start + event.length, end)
        pieces = list(written_lengths(stop - event.start))
        now = event.start
        for number, one in enumerate(pieces):
            tie = "" if len(pieces) == 1 else "i" if number == 0 else "t" if number + 1 == len(pieces) else "m"
            written.append((now, one, _note(event, one, held, number, tie)))
            now += one
    written += _rests(now, end) if own else [(begin, length, f'<mRest xml:id="r{bar}"/>')]
    layer = _beamed(written, begin, beat)
    return f'<measure n="{bar + 1}"{right}><staff n="1"><layer n="1">{layer}</layer></staff></measure>'


def _rests(now: int, until: int) -> list[tuple[int, int, str]]:
    found = []
    for one in written_lengths(until - now):
        found.append((now, one, f"<rest {_dur(one)}/>"))
        now += one
    return found


def _dur(length: int) -> str:
    share, dots = LENGTHS[length]
    return f'dur="{share}"' + (f' dots="{dots}"' if dots else "")


def _note(event: _Event, length: int, held: dict[tuple[str, int], int], number: int, tie: str) -> str:
    own_id = f"n{event.number}" if number == 0 else f"n{event.number}t{number}"
    tied = f' tie="{tie}"' if tie else ""
    if not event.pitches:
        return f'<note xml:id="{own_id}" {_dur(length)} loc="0"{tied}/>'
    heads = []
    for pitch in event.pitches:
        sign, place, alter = "", (pitch.step, pitch.octave), int(pitch.alter)
        if number == 0 and held.get(place, 0) != alter:
            sign = f' accid="{_SIGNS[alter]}"'
        held[place] = alter
        heads.append(f'pname="{pitch.step.lower()}" oct="{pitch.octave}"{sign}{tied}')
    if len(heads) == 1:
        return f'<note xml:id="{own_id}" {_dur(length)} {heads[0]}/>'
    return f'<chord xml:id="{own_id}" {_dur(length)}>{"".join(f"<note {head}/>" for head in heads)}</chord>'


def _beamed(written: Sequence[tuple[int, int, str]], begin: int, beat: int) -> str:
    """Join notes shorter than a quarter that follow one another in one beat."""
    text, group = "", []
    for number, (start, length, note) in enumerate(written):
        is_short = length < QUARTER and not note.startswith("<rest")
        if is_short:
            group.append(note)
        after = written[number + 1] if number + 1 < len(written) else None
        ends = after is None or (after[0] - begin) // beat != (start - begin) // beat
        if group and (ends or not is_short or after is None or after[1] >= QUARTER or after[2].startswith("<rest")):
            text += f"<beam>{''.join(group)}</beam>" if len(group) > 1 else group[0]
            group = []
        if not is_short:
            text += note
    return text


def _mei(piece: Piece, measures: str, *, is_first: bool) -> str:
    """Wrap bars in the smallest document an engraver takes; the metre stands in the first system alone."""
    is_rhythm = leading_part(piece) is None
    lines, clef = ("1", "perc") if is_rhythm else ("5", "G")
    at = "1" if is_rhythm else "2"
    metre = f' meter.count="{piece.metre.count}" meter.unit="{piece.metre.unit}"' if is_first else ""
    return (
        '<?xml version="1.0" encoding="UTF-8"?><mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0">'
        "<meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead>"
        f'<music><body><mdiv><score><scoreDef{metre}><staffGrp><staffDef n="1" lines={quoteattr(lines)} '
        f"clef.shape={quoteattr(clef)} clef.line={quoteattr(at)}/></staffGrp></scoreDef>"
        f"<section>{measures}</section></score></mdiv></body></music></mei>"
    )


def _in_words(sketch: Sketch, piece: Piece, events: Sequence[_Event]) -> str:
    """Say what is written, for whoever cannot see it."""
    bars = f"{piece.bars} bar{'' if piece.bars == 1 else 's'} of {piece.metre}"
    if leading_part(piece) is None:
        return f"A staff of one line with {bars}: a rhythm of {len(events)} strokes."
    chords = [" ".join(sketch.word(to_symbols(pitch.name)) for pitch in event.pitches) for event in events]
    joined = ", ".join(chords) if any(" " in chord for chord in chords) else " ".join(chords)
    return f"A staff with {bars}: {joined}."
