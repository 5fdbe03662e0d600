"""The fretboard: strings and frets of any tuning in any division, tones of the scale as pegs.

Frets stand where a string sounds the steps of the division, so they draw closer towards the body; a division of n has
n frets in an octave.

Conventions: the lowest string is the lowest line, as a player sees it looking down. Open strings are steps above the C
of the lowest octave; the usual guitar tuning E A D G B E (common practice, no source) is taken without a tuning, in
other divisions at the nearest steps.
"""

from __future__ import annotations

from collections.abc import Sequence

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import BADGE, SMALLEST, Drawing, badge, line, root_peg
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Dot, Face, Figure, Fill, Role, Stroke, Text
from gamutwright.ir.metrics import text_width
from gamutwright.music.pitches import Register
from gamutwright.theory.scale import Scale

__all__ = ["GUITAR", "fretboard", "fretted"]

GUITAR = (4, 9, 14, 19, 23, 28)
"""Open strings in semitones above the C of the lowest octave."""

MOST_STRINGS = 12
_NUT, _END, _TOP, _BOTTOM = 110.0, 985.0, 110.0, 660.0


def fretboard(sketch: Sketch) -> Figure:
    """Draw the fretboard with a scale on it.

    Parameters
    ----------
    sketch : Sketch
        The scale, the tuning and what is marked.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        If there are more than twelve strings.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> fretboard(Sketch(Scale.of(0, 4, 7), tuning=(7, 12, 16))).alt
    'A fretboard with open strings G C E from the lowest; the tones C E G are marked on every string, 12 frets.'
    """
    n = sketch.scale.divisions
    tuning = sketch.tuning or tuple(round(string * n / 12) for string in GUITAR)
    if len(tuning) > MOST_STRINGS:
        raise DomainError(
            f"{len(tuning)} strings", f"a fretboard is drawn with up to {MOST_STRINGS}", "Give fewer open strings."
        )
    drawing = Drawing()
    heights = _heights(len(tuning))
    top, bottom = heights[-1], heights[0]
    for fret in range(n + 1):
        width = 9.0 if fret == 0 else 2.5
        drawing.add(
            line(
                [(_fret_x(fret, n), top - 14), (_fret_x(fret, n), bottom + 14)],
                Stroke(Role.QUIET, width),
                f"fret {fret}",
            )
        )
    marked = {
        place.parts[0][0] % n: index
        for index, place in reversed(list(enumerate(sketch.shown)))
        if place.kind is Kind.TONE
    }
    chord = (
        {tone % n for place in sketch.shown if place.kind is not Kind.TONE for part in place.parts for tone in part}
        if len(sketch.shown)
        else set()
    )
    for string, (open_step, y) in enumerate(zip(tuning, heights, strict=True), 1):
        drawing.add(
            line(
                [(_NUT, y), (_END, y)],
                Stroke(Role.INK, 2 + 2 * (len(tuning) - string) / len(tuning)),
                f"string {string}",
            )
        )
        for fret in range(n + 1):
            tone = (open_step + fret - sketch.scale.root) % n
            if tone in sketch.scale.tones or tone in marked:
                _peg(drawing, sketch, (string, fret, y), tone, marked.get(tone), is_now=tone in chord)
    _numbers(drawing, n, bottom)
    for index, place in enumerate(sketch.shown):
        drawing.part(
            f"witness {index + 1}", (_NUT + _END) / 2, (top + bottom) / 2, BADGE
        ) if place.kind is not Kind.TONE else None
    opened = " ".join(sketch.name(step - sketch.scale.root) for step in tuning)
    words = f"A fretboard with open strings {opened} from the lowest; "
    return drawing.figure(
        sketch, "Fretboard", f"{words}the tones {tones_in_words(sketch)} are marked on every string, {n} frets."
    )


def fretted(scale: Scale, step: int, tuning: Sequence[int] = ()) -> tuple[str, ...]:
    """List the places of a fretboard where a step sounds as high as it is heard.

    Parameters
    ----------
    scale : Scale
        The scale.
    step : int
        Steps above its root where sounds begin.
    tuning : sequence of int
        Open strings; those of the guitar without it.

    Returns
    -------
    tuple of str
        Names of places, from the lowest string; what lies beyond the last fret an octave lower.

    Examples
    --------
    >>> fretted(Scale.of(2, 4, 5, 7, 9, 11, 0), 0)
    ('string 1 fret 10', 'string 2 fret 5', 'string 3 fret 0')
    """
    n = scale.divisions
    opened = tuple(tuning) or tuple(round(string * n / 12) for string in GUITAR)
    # A guitar sounds an octave lower than it is written.
    height = n + scale.root + Register(scale).lowest + step
    while height > opened[-1] + n:
        height -= n
    return tuple(
        f"string {number} fret {height - low}" for number, low in enumerate(opened, 1) if 0 <= height - low <= n
    )


def _heights(strings: int) -> list[float]:
    pitch = min(100.0, (_BOTTOM - _TOP) / max(1, strings - 1))
    middle = (_TOP + _BOTTOM) / 2
    return [middle + pitch * ((strings - 1) / 2 - index) for index in range(strings)]


def _fret_x(fret: float, divisions: int) -> float:
    """Find a fret; the octave, half the string, is at the right edge."""
    return _NUT + (_END - _NUT) * 2 * (1 - 2 ** (-fret / divisions))


def _peg(
    drawing: Drawing, sketch: Sketch, place: tuple[int, int, float], tone: int, index: int | None, *, is_now: bool
) -> None:
    string, fret, y = place
    n = sketch.scale.divisions
    room = _fret_x(1, n) - _NUT if fret == 0 else _fret_x(fret, n) - _fret_x(fret - 1, n)
    x = _NUT - 52 if fret == 0 else _fret_x(fret, n) - room / 2
    pitch = 550.0 / max(5, len(sketch.tuning) - 1)
    radius = min(BADGE + 1, max(5.0, room / 2 - 2), pitch / 2 - 3)
    name = f"string {string} fret {fret}"
    drawing.part(f"tone {tone}", x, y, radius)
    if index is not None:
        drawing.part(f"witness {index + 1}", x, y, radius)
    role = Role.NOW if is_now or index is not None else Role.INK
    if tone == 0:
        drawing.add(*root_peg(x, y, radius, role))
    if index is not None and sketch.is_numbered and radius >= BADGE - 1:
        drawing.add(*badge(index + 1, x, y, name=name))
        return
    label = sketch.name(tone)
    drawing.add(Dot(x, y, radius, Fill(role), None, name))
    if radius >= BADGE - 1 and text_width(label, SMALLEST, Face.STRONG) <= 2 * radius + 2:
        drawing.add(Text(x, y, label, SMALLEST, Role.GROUND, face=Face.STRONG, name=f"{name} name"))


def _numbers(drawing: Drawing, divisions: int, bottom: float) -> None:
    """Write fret numbers under the board, as many as have room."""
    for fret in range(1, divisions + 1):
        x = (_fret_x(fret, divisions) + _fret_x(fret - 1, divisions)) / 2
        text = Text(x, bottom + 64, str(fret), SMALLEST, Role.QUIET)
        if drawing.is_free(text, 5.0):
            drawing.add_text(text)
